"""Digests: what several ledgers say together. Each takes their results as named parameters."""

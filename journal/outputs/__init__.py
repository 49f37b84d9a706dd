"""Outputs: archive and tables. Bytes are computed first, then one writer puts them down."""

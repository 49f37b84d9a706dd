"""Frozen records of everything that is written, each with the place it was written at."""

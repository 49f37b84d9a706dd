"""A restoration build journal: dated day sheets in, a browsable archive and its ledgers out."""

__version__ = "0.1.0"

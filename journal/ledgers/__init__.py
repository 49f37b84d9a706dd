"""Ledgers: pure folds over a car file, one a file. Each answers one question of the workshop."""

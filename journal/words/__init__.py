"""Closed vocabularies, dates, amounts, names and text: what every other layer speaks in."""

"""Readers: the one place that decides who sees what.

A car file goes in and comes out holding only what the reader may see; ledgers, pages and pictures
are made from that and know no rules of their own. What is not listed here is seen by the workshop
alone.
"""

from journal.readers.apply import car_for
from journal.readers.facts import facts_for
from journal.readers.files import files_told

__all__ = ["car_for", "facts_for", "files_told"]

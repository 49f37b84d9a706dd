"""A text that a reader may not see, and how it may stand in an archive."""

import re
from enum import StrEnum
from functools import cached_property

from msgspec import Struct

from journal.readers.numbers import number_pattern
from journal.readers.people import BETWEEN
from journal.records.place import Place

_BEFORE, _AFTER = r"(?<![^\W_])", r"(?![^\W_])"


class Kind(StrEnum):
    """What sort of thing is private, as a message says it."""

    WORDS = "a text"
    NAME = "a name"
    NUMBER = "a number"
    PERSON = "a person’s name"
    ADDRESS = "an address"
    SUPPLIER = "a supplier’s name"
    MONEY = "a sum of money"


class Private(Struct, frozen=True, dict=True):
    """A text that a reader may not see, and where it was written."""

    kind: Kind
    text: str
    place: Place

    @cached_property
    def pattern(self) -> re.Pattern[str]:
        """The text as it may stand in an archive."""
        if self.kind is Kind.NUMBER:
            return number_pattern(self.text)
        if self.kind is Kind.MONEY:
            return _sums_behind(self.text)
        words = self.text.split()
        if self.kind in (Kind.WORDS, Kind.NAME):
            ends = (
                _BEFORE if words[0][0].isalnum() else "",
                _AFTER if words[-1][-1].isalnum() else "",
            )
            return re.compile(r"\s+".join(map(re.escape, words)).join(ends))
        if self.kind is Kind.PERSON and len(words) == 1:
            return _family(words[0])
        # One word of an address is a name with its capital, as in texts that are masked.
        case = 0 if self.kind is Kind.ADDRESS and len(words) == 1 else re.I
        return re.compile(_BEFORE + BETWEEN.join(map(re.escape, words)) + _AFTER, case)


def _family(name: str) -> re.Pattern[str]:
    """A family's name with its capital, or in the name of a file, where all letters are small."""
    name = re.escape(name)
    file = rf"[\w./%-]*(?<![a-z])(?i:{name})s?(?![a-z])[\w./%-]*\.(?:html|md|jpe?g|webp|csv|js|xml)"
    return re.compile(rf"{_BEFORE}(?:{name}|{name.upper()})s?{_AFTER}|{file}")


def _sums_behind(sign: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){re.escape(sign)}[ \u00a0]?\d[\d,]*(?:\.\d+)?")

"""Where hours are reckoned up in a talk: after `hours`, `time`, `how long`, `put down`; and what may be hours
there though nobody says so.

Common practice of speech, no source.
"""

from collections.abc import Container
from fractions import Fraction

from journal.hearing.common import COMMON
from journal.hearing.phrases import phrases
from journal.hearing.strand import Strand
from journal.hearing.unitwords import unit_at

# Before `hours` where it heads nothing.
_NO_HEADING = frozenset({
    "of", "few", "several", "many", "after", "out", "long", "those", "these", "couple", "all", "at", "odd",
    "more", "working", "man", "opening", "office", "an", "and", "happy", "early", "small", "took", "for",
    "extra", "spent", "worked", "a", "half",
})  # fmt: skip
_TIME_BEFORE = frozenset({
    "so", "right", "okay", "ok", "and", "now", "then", "anyway", "well", "one", "my", "today's",
})  # fmt: skip
_TIME_AFTER = frozenset({
    "i'd", "i", "we", "is", "was", "today", "spent", "taken", "wise", "for", "say", "i've", "well",
})  # fmt: skip
_ASKED = frozenset(
    {"it", "the", "is", "that", "this", "they", "it's", "to", "before", "till", "until", "ago"}
)
_PUT_DOWN = phrases(
    "put down", "put me down for", "put us down for", "book me", "book me for", "book in", "charge for",
    "put it down as", "put that down as", "on the clock",
)  # fmt: skip
# What may follow a bare number that is hours.
_AFTER = frozenset({
    "", "for", "and", "on", "with", "so", "but", "less", "minus", "i", "we", "he", "she", "me", "if",
    "because", "today", "then", "all", "in", "altogether", "plus", "no", "sorry", "call", "make", "put",
    "that's", "is", "doing", "which", "maybe", "or", "don't", "total", "it's", "i'd", "i've", "counting",
    "including", "just", "not", "they", "you", "i'm", "when", "as", "really", "honestly", "mine", "tops",
    "there", "this", "actually", "say", "what", "let's", "the", "my", "right", "okay", "each", "anyway",
    "after", "by", "oh",
})  # fmt: skip
# Before a number that is a time of the day, or names one of several.
_NOT_LONG = frozenset({
    "at", "from", "till", "until", "til", "since", "by", "past", "before", "number", "half", "quarter",
    "between", "page", "around", "to", "gone",
})  # fmt: skip
_MOST = 16


def headings_of(strand: Strand, taken: Container[int]) -> list[int]:
    """The words that head a reckoning, in order; those `taken` are part of hours that were told."""
    return [n for n in range(len(strand.words)) if n not in taken and is_heading(strand, n)]


def is_heading(strand: Strand, n: int) -> bool:
    """Whether word n heads a reckoning of hours."""
    word, last = strand.at(n), strand.at(n - 1)
    if word == "hours":
        return last not in _NO_HEADING and not last[-1:].isdigit()
    if word == "time":
        named = strand.is_parted(n) or last in _TIME_BEFORE
        named = named or strand.words[n - 2 : n] == ("for", "the")
        return named and (strand.is_parted(n + 1) or strand.at(n + 1) in _TIME_AFTER)
    if word == "long":
        return last == "how" and strand.at(n + 1) not in _ASKED
    return _PUT_DOWN.at(strand.words, n) > 0


def is_bare_hours(strand: Strand, start: int, end: int, value: Fraction) -> bool:
    """Whether a number without a unit may be hours: not a time of the day, and no count of anything."""
    if not 0 < value <= _MOST or (value * 100).denominator != 1:
        return False
    if _is_other(strand, start) or unit_at(strand, end) is not None:
        return False
    after = strand.on(end)
    if after in _AFTER or after.isdigit():
        return True
    noun = after.isalpha() and after not in COMMON
    return noun and (value.denominator > 1 or not after.endswith("s"))


def _is_other(strand: Strand, start: int) -> bool:
    """Whether a number is a time of the day or a name: at four, half seven, but not less a half, seven."""
    last = strand.at(start - 1)
    return last in _NOT_LONG and not (last == "half" and strand.at(start - 2) == "a")

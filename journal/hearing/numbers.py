"""The numbers of a talk, exact and as a sheet writes them."""

import re
from fractions import Fraction

from msgspec import Struct

from journal.hearing.cardinals import LABELS
from journal.hearing.numberwords import Read, number_at
from journal.hearing.strand import Strand, strand_of
from journal.hearing.tokens import Token
from journal.hearing.unitwords import measures_at

# Several figures run into one by commas without blanks: 12,14,11.
_LIST = re.compile(r"[0-9]{1,3}(?:\.[0-9]+)?(?:,[0-9]{1,3}(?:\.[0-9]+)?)+")

_ONE_BEFORE = frozenset({
    "the", "this", "that", "which", "other", "another", "each", "every", "any", "no", "not", "old", "new",
    "good", "bad", "next", "last", "first", "second", "my", "his", "her", "your", "our", "their", "its",
    "left", "right", "hand", "front", "rear", "back", "top", "bottom", "near", "off", "nearside", "offside",
    "side", "inner", "outer", "big", "little", "small", "large", "only", "same", "wrong", "original",
    "worn", "spare", "third", "fourth", "inlet", "exhaust", "day",
})  # fmt: skip
_ONE_AFTER = frozenset({
    "", "of", "that", "was", "is", "has", "had", "on", "in", "at", "to", "from", "for", "with", "which",
    "who", "by", "and", "but", "so", "as", "i", "we", "he", "she", "it", "they", "you", "then", "would",
    "will", "could", "can", "should", "did", "does", "because", "if", "when", "where", "there", "here",
    "off", "out", "up", "down", "back", "isn't", "wasn't", "hasn't", "won't", "wouldn't", "doesn't",
    "didn't", "i've", "i'd", "it's", "that's", "we've", "looks", "looked", "came", "went", "goes", "needs",
    "though", "too", "again", "yet", "now", "anyway", "really", "side", "end", "more", "or", "day", "thing",
    "after", "before", "until", "till", "today", "yesterday", "tomorrow", "please", "just", "were", "are",
    "might", "may", "must", "like", "not", "no", "yes", "about", "over", "under", "into", "fitted",
    "spot", "place", "corner", "edge", "point",
})  # fmt: skip
_LIMITS = frozenset({"limit", "maximum", "minimum", "max", "min"})
_DETERMINERS = frozenset({"the", "this", "that", "a", "an", "my", "his", "your", "our", "their"})
_BETWEEN = frozenset({"and", "or", "to", "but", "then"})


class Spoken(Struct, frozen=True):
    """A number over the tokens [first, last).

    `text` is the number as one writes it in a sheet: digits as they were said, a fraction below one as
    a fraction, a mixed one as a decimal. `whole` tells that it is an integer.
    """

    first: int
    last: int
    value: Fraction
    text: str
    whole: bool


def numbers_in(tokens: tuple[Token, ...]) -> tuple[Spoken, ...]:
    """All numbers in order. What says *one* of something or somebody, and ordinals, are none."""
    return numbers_of(strand_of(tokens))


def numbers_of(strand: Strand) -> tuple[Spoken, ...]:
    """The numbers of a strand, in order."""
    found: list[Spoken] = []
    n = 0
    while n < len(strand.words):
        read = number_at(strand, n)
        if read is None:
            found += _run_in(strand, n)
            n += 1
        elif _is_pronoun(strand, n, read):
            n += 1
        else:
            found.append(_spoken(strand, n, read))
            n = read.end
    return tuple(found)


def _spoken(strand: Strand, n: int, read: Read) -> Spoken:
    first, last = strand.span(n, read.end)
    return Spoken(first, last, read.value, read.text, read.value.denominator == 1)


def _run_in(strand: Strand, n: int) -> list[Spoken]:
    """Figures with commas that are no thousands: each is a number, all at one place."""
    if not _LIST.fullmatch(strand.at(n)):
        return []
    cells = [Read(n + 1, Fraction(cell), cell) for cell in strand.at(n).split(",")]
    return [_spoken(strand, n, cell) for cell in cells]


def _is_pronoun(strand: Strand, n: int, read: Read) -> bool:
    """Whether a bare `one` stands for a thing or a person: the other one, one of them."""
    if strand.at(n) != "one" or read.end > n + 1 or measures_at(strand, n + 1):
        return False
    if strand.at(n - 1) in LABELS | _LIMITS or _beside_number(strand, n):
        return False
    return (
        strand.at(n - 1) in _ONE_BEFORE
        or strand.on(n + 1) in _ONE_AFTER
        or not _DETERMINERS.isdisjoint(strand.words_before(n, 3))
    )


def _beside_number(strand: Strand, n: int) -> bool:
    """One and two, one or two, three to one: a number by its neighbour."""
    after = n + 2 if strand.on(n + 1) in _BETWEEN else n + 1
    read = number_at(strand, after) if strand.on(after) else None
    return read is not None and strand.at(after) != "one"

"""Spells of time: an hour and a half, two or three hours, half a day, twenty minutes."""

from bisect import bisect_right, insort
from fractions import Fraction

from msgspec import Struct

from journal.hearing.cardinals import small_or_written
from journal.hearing.headings import is_heading
from journal.hearing.numbers import Spoken
from journal.hearing.numberwords import part_after_and
from journal.hearing.phrases import phrases_of
from journal.hearing.strand import Strand
from journal.hearing.unitwords import unit_at
from journal.words.amounts import plain_number


class Spell(Struct, frozen=True):
    """A length of time over the words [start, end), in hours.

    `ask` is what is unsure about it, in a question; empty where nothing is. `day` tells that it was
    said as a day or a part of one, which has no length of its own; `small` that it was said in minutes.
    """

    start: int
    end: int
    hours: Fraction
    ask: str = ""
    day: bool = False
    small: bool = False


HOURS = frozenset({"hour", "hours", "hr", "hrs", "hour's", "hours'", "h"})
MINUTES = frozenset({"minute", "minutes", "min", "mins", "minute's"})
# Common practice, no source: a day of work is eight hours, a morning four.
_DAY = {
    "half a day": "4", "half day": "4", "half the day": "4", "a half day": "4", "a half a day": "4",
    "all day": "8", "the whole day": "8", "a whole day": "8", "whole day": "8", "a full day": "8",
    "the full day": "8", "all day long": "8", "the entire day": "8", "a day and a half": "12",
    "most of the day": "6", "best part of a day": "6", "best part of the day": "6",
    "the rest of the day": "4",
    "the whole morning": "4", "the whole afternoon": "4", "all morning": "4", "all afternoon": "4",
    "all evening": "3", "the whole evening": "3", "a whole morning": "4", "a whole afternoon": "4",
    "most of the morning": "3", "most of the afternoon": "3", "half the morning": "2",
    "half the afternoon": "2", "the rest of the morning": "2", "the rest of the afternoon": "2",
    "best part of the morning": "3", "best part of the afternoon": "3", "a full morning": "4",
    "a few hours": "3", "several hours": "4", "a good few hours": "4", "a day": "8", "the day": "8",
    "the morning": "4", "the afternoon": "4", "the evening": "3", "a morning": "4", "an afternoon": "4",
    "an evening": "3", "half an afternoon": "2", "half a morning": "2", "a good half day": "4",
}  # fmt: skip
# What is a spell of work only where somebody spends it.
ONLY_SPENT = frozenset({
    "a day", "the day", "the morning", "the afternoon", "the evening", "a morning", "an afternoon",
    "an evening", "half day",
})  # fmt: skip
_DAYS = {tuple(said.split()): Fraction(hours) for said, hours in _DAY.items()}
_DAY_PHRASES = phrases_of(_DAYS)

# Between the word `hours` and how many they were.
_BETWEEN = frozenset({
    "today", "were", "was", "is", "are", "about", "came", "to", "total", "of", "work", "worked", "for",
    "the", "day", "today's", "say", "then",
})  # fmt: skip
# After minutes that are told as a bare number: an hour and ten to get it out.
_AFTER_MINUTES = frozenset({"", "to", "on", "for", "so", "doing", "getting", "but", "i", "with"})
# So many words may stand between hours and a number that goes on in them.
_FAR = 10

_SKIPPED = frozenset({"odd", "ish", "solid", "full", "good", "whole", "straight", "long", "more", "extra",
                      "further", "or", "so"})  # fmt: skip


def spells_in(strand: Strand, numbers: tuple[Spoken, ...]) -> tuple[Spell, ...]:
    """All spells of time in order, whoever spent them on what."""
    place = {token: n for n, token in enumerate(strand.places)}
    figures = {
        place[number.first]: (place[number.last - 1] + 1, number.value) for number in numbers
    }
    found: list[Spell] = []
    n = 0
    while n < len(strand.words):
        spell = _spell_at(strand, n, figures)
        if spell is None:
            n += 1
            continue
        found.append(spell)
        n = spell.end
    return tuple(sorted([*found, *_carried(strand, found, figures)], key=lambda spell: spell.start))


_Figures = dict[int, tuple[int, Fraction]]


def _spell_at(strand: Strand, n: int, figures: _Figures) -> Spell | None:
    length = _DAY_PHRASES.at(strand.words, n)
    if length and not any(strand.parted[n + 1 : n + length]):
        said = strand.words[n : n + length]
        return Spell(n, n + length, _DAYS[said], how_many(" ".join(said)), day=True)
    if strand.at(n) == "hours" and is_heading(strand, n):
        return _headed(strand, n, figures)
    if n in figures:
        return _numbered(strand, n, figures)
    if strand.at(n) in ("a", "an", "another") and strand.on(n + 1) in HOURS:
        return _one_hour(strand, n, n + 2)
    if strand.at(n) == "hour" and strand.on(n + 1) == "and" and part_after_and(strand, n + 1):
        return _one_hour(strand, n, n + 1)
    return None


def _carried(strand: Strand, found: list[Spell], figures: _Figures) -> list[Spell]:
    """Numbers that go on in hours: three hours on the brakes and two on the steering."""
    ends = [spell.end for spell in found if not spell.small and not spell.day]
    taken = {n for spell in found for n in range(spell.start, spell.end)}
    carried: list[Spell] = []
    for n, (end, value) in figures.items():
        last = bisect_right(ends, n)
        near = last > 0 and n - ends[last - 1] <= _FAR
        did = strand.at(n - 1) == "did" and strand.on(end) in ("", "and", "today", "so")
        if near and n not in taken and (did or strand.on(end) in ("on", "for", "doing")):
            carried.append(Spell(n, end, value))
            insort(ends, end)
    return carried


def _headed(strand: Strand, n: int, figures: _Figures) -> Spell | None:
    """Hours today were three and a half; total hours six."""
    k = n + 1
    while k - n < 5 and strand.at(k) in _BETWEEN:
        k += 1
    if k not in figures or strand.ended[k]:
        return None
    end, value = figures[k]
    after = strand.on(end)
    if after in HOURS | MINUTES or unit_at(strand, end) or (k == n + 1 and after.isalpha()):
        return None
    return Spell(k, end, value)


def _one_hour(strand: Strand, start: int, end: int) -> Spell:
    """An hour, an hour and a half, an hour or two."""
    hours, end = _more(strand, Fraction(1), end)
    if strand.phrase(end, "or", "two") and strand.on(end + 2) not in HOURS:
        return Spell(start, end + 2, hours, "Was it 1 or 2 hours?")
    return _unsure(strand, start, end, hours)


def _numbered(strand: Strand, n: int, figures: _Figures) -> Spell | None:
    """So many hours or minutes, also in two ends: two or three hours."""
    end, value = figures[n]
    if strand.on(end) in ("or", "to", "-", "maybe") and end + 1 in figures and strand.on(end + 1):
        last, other = figures[end + 1]
        whole = _of_time(strand, n, last, other)
        if whole is None:
            return None
        low = whole.hours * value / other if other else value
        ask = f"Was it {plain_number(low)} or {plain_number(whole.hours)} hours?"
        return Spell(n, whole.end, low, ask, small=whole.small)
    return _of_time(strand, n, end, value)


def _of_time(strand: Strand, start: int, end: int, value: Fraction) -> Spell | None:
    bit = strand.phrase(end, "and", "a", "bit")
    at = end + 3 if bit else end
    while strand.on(at) in _SKIPPED:
        at += 1
    if value < 1 and strand.on(at) == "of" and strand.on(at + 1) in ("a", "an"):
        at += 2
    elif value == Fraction(1, 2) and strand.on(at) in ("a", "an"):
        at += 1
    if strand.on(at) in HOURS and (strand.on(at) != "h" or strand.touches(at)):
        hours, stop = _more(strand, value, at + 1)
        return _unsure(strand, start, stop, hours, bit=bit)
    if strand.on(at) in MINUTES and strand.on(at + 1) != "of":
        return Spell(start, at + 1, value / 60, small=True)
    return None


def _more(strand: Strand, hours: Fraction, end: int) -> tuple[Fraction, int]:
    """What is said on top: an hour and a half, two hours twenty, two hours and ten minutes."""
    if strand.on(end) == "and" and (part := part_after_and(strand, end)):
        return hours + part.value, part.end
    begin = end + 1 if strand.on(end) == "and" else end
    read = small_or_written(strand, begin)
    if read is None or read.value >= 60:
        return hours, end
    told = strand.on(read.end) in MINUTES
    after = begin == end or strand.on(read.end) in _AFTER_MINUTES
    if told or (read.value >= 10 and after):
        return hours + Fraction(read.value, 60), read.end + told
    return hours, end


def _unsure(strand: Strand, start: int, end: int, hours: Fraction, *, bit: bool = False) -> Spell:
    if strand.phrase(end, "and", "a", "bit"):
        bit, end = True, end + 3
    words = " ".join(strand.words[start:end])
    return Spell(start, end, hours, how_many(words) if bit else "")


def how_many(words: str) -> str:
    """The question after hours that were told loosely."""
    return f"How many hours was {words}?"

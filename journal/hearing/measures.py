"""Numbers with what they are numbers of: twelve thou, three tenths, an inch and a half, £40."""

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from journal.hearing.cardinals import LABELS, small_or_written
from journal.hearing.measure import Measure, amount_text
from journal.hearing.numbers import Spoken
from journal.hearing.numberwords import Read, number_follows, part_after_and
from journal.hearing.phrases import phrases
from journal.hearing.standing import standing_of
from journal.hearing.strand import Strand
from journal.hearing.unitsapart import with_units_apart
from journal.hearing.unitwords import DEGREES, POUNDS, Said, UnitAt, unit_at

# What may be said of one: a thou, an inch and a half. A bar, a foot or a turn is something else.
_OF_ONE = frozenset(
    {"thou", "mm", "in", "deg", DEGREES, "psi", "V", "A", "ohm", "l", "pint", "gallon"}
)
_SIGNS = {"£": "GBP", "$": "USD", "€": "EUR"}
_AFTER_NUMBER = frozenset({"odd", "ish", "bare", "full", "whole"})

_ABOUT_BEFORE = phrases(
    "about", "around", "roughly", "nearly", "almost", "approximately", "approx", "maybe", "probably",
    "perhaps", "circa", "something like", "close to", "getting on for", "pushing", "best part of",
    "near enough", "call it", "say", "somewhere near", "just under", "just over", "just below",
    "just above", "just short of", "just shy of", "a bit under", "a bit over", "a bit more than",
    "a bit less than", "a shade under", "a shade over", "a touch under", "a touch over",
    "a hair under", "a hair over", "a whisker under", "a whisker over", "a fraction under",
    "a fraction over", "slightly under", "slightly over", "slightly more than", "slightly less than",
    "well over", "well under", "a little over", "a little under", "a good", "a bare", "a full", "what",
    "must be", "looks like", "looks about",
)  # fmt: skip
_ABOUT_AFTER = phrases(
    "or so", "or thereabouts", "give or take", "near enough", "roughly", "ish", "or two", "or something",
)  # fmt: skip


def is_about(strand: Strand, start: int, end: int) -> bool:
    """Whether what stands at [start, end) was said as near enough: just under, or so."""
    begin = start - 1 if strand.at(start - 1) in ("a", "an") else start
    said = any(_ABOUT_BEFORE.before(strand.words, at) for at in {start, begin})
    return said or bool(_ABOUT_AFTER.at(strand.words, end))


class Measures(NamedTuple):
    """Numbers with their units, in order; and the words that only name one of several: number two."""

    found: tuple[Measure, ...]
    labels: frozenset[int]


def measures_of(strand: Strand, numbers: tuple[Spoken, ...]) -> Measures:
    """All numbers with the units they were said with; what was taken back is left out."""
    place = {token: n for n, token in enumerate(strand.places)}
    found = [
        _measure(strand, place[number.first], place[number.last - 1] + 1, number)
        for number in numbers
    ]
    found += _ones(strand, found)
    found = sorted(found, key=lambda measure: measure.start)
    named = labels_of(strand, found)
    unnamed = [measure for measure in found if measure.start not in named]
    told = with_units_apart(strand, _summed(strand, _apart(unnamed)))
    return Measures(standing_of(strand, told), named)


def _measure(strand: Strand, start: int, end: int, number: Spoken) -> Measure:
    sign = strand.at(start - 1)
    if sign in _SIGNS:
        return Measure(start - 1, end, number.value, number.text, _SIGNS[sign])
    said = _unit_after(strand, end, number)
    if said is None and _in_inches(strand, start, end):
        said = UnitAt(end, Said("in"))
    if said is None:
        about = is_about(strand, start, end)
        return Measure(start, end, number.value, number.text, "", about)
    return _with_unit(strand, start, said, number.value, number.text)


_INCHES = frozenset({"eighth", "eighths", "sixteenth", "sixteenths", "sixteens", "ths"})


def _in_inches(strand: Strand, start: int, end: int) -> bool:
    """Whether a fraction is one of an inch, as eighths and smaller ones are; but an eighth of the way."""
    last = strand.at(end - 1)
    small = last in _INCHES or last.endswith(("/8", "/16", "/32", "/64"))
    small = small or strand.words[max(start, end - 2) : end] in (
        ("thirty", "seconds"),
        ("thirty", "second"),
    )
    return small and strand.on(end) != "of" and strand.at(start - 1) != "on"


def _unit_after(strand: Strand, end: int, number: Spoken) -> UnitAt | None:
    n = end + 1 if strand.on(end) in _AFTER_NUMBER else end
    if number.value < 1 and strand.on(n) == "of" and strand.on(n + 1) in ("a", "an"):
        n += 2
    elif number.text == "1/2" and strand.on(n) in ("a", "an"):
        n += 1
    if strand.on(n) == "in" and "." in number.text and _ends_figure(strand, n):
        return UnitAt(n + 1, Said("in"))
    return unit_at(strand, n)


def _ends_figure(strand: Strand, n: int) -> bool:
    """Whether `in` after a decimal is the inch and not the word."""
    return strand.at(n + 1) not in (
        "the", "a", "an", "there", "it", "all", "my", "this", "that", "one",
    )  # fmt: skip


def _with_unit(strand: Strand, start: int, found: UnitAt, value: Fraction, text: str) -> Measure:
    end, said = found.end, found.said
    more = part_after_and(strand, end) if strand.on(end) == "and" else None
    if value == 1 and strand.phrase(end, "and", "half"):
        more = Read(end + 2, Fraction(1, 2), "1/2")
    if more is not None and value.denominator == 1 and unit_at(strand, more.end) is None:
        value, text, end = value + more.value, "", more.end
    elif said.unit == DEGREES and (minutes := _minutes(strand, end)):
        value, text, end = value + minutes[0], "", minutes[1]
    elif said.unit == POUNDS and (pence := _pence(strand, end)):
        value, text, end, said = value + pence[0], "", pence[1], Said("GBP")
    value *= said.factor
    if not text or said.factor != 1:
        text = amount_text(value)
    about = is_about(strand, start, end)
    return Measure(start, end, value, text, said.unit, about, said.factor)


def _minutes(strand: Strand, n: int) -> tuple[Fraction, int] | None:
    """Two degrees thirty minutes: the part of a degree, and where it ends."""
    from_ = n + 1 if strand.on(n) == "and" else n
    read = small_or_written(strand, from_)
    if read is None or strand.on(read.end) not in ("minutes", "minute", "mins"):
        return None
    return Fraction(read.value, 60), read.end + 1


def _pence(strand: Strand, n: int) -> tuple[Fraction, int] | None:
    """Twelve pounds fifty: the part of a pound, and where it ends."""
    read = small_or_written(strand, n)
    if read is None or read.value < 10 or unit_at(strand, read.end) is not None:
        return None
    return Fraction(read.value, 100), read.end


def _ones(strand: Strand, found: list[Measure]) -> list[Measure]:
    """A thou, an inch and a half, an inch or two: one of a unit, said without a number."""
    taken = {n for measure in found for n in range(measure.start, measure.end)}
    ones = []
    for n in range(len(strand.words)):
        said = unit_at(strand, n) if n not in taken else None
        if said is None or said.said.unit not in _OF_ONE or _is_no_one(strand, n, said):
            continue
        if n > 0 and strand.at(n - 1) in ("a", "an", "per") and n - 1 not in taken:
            if strand.at(n - 1) != "per":
                ones.append(_with_unit(strand, n - 1, said, Fraction(1), "1"))
        elif strand.on(said.end) == "and" and said.said.unit == "in":
            ones += _inch_and_part(strand, n, said)
    return ones


_PARTS_OF = frozenset({
    "tenth", "tenths", "hundredth", "hundredths", "thousandth", "thousandths", "half", "quarter", "quarters",
    "third", "fraction", "couple",
})  # fmt: skip
_METERS = frozenset({"meter", "meters", "gauge", "gauges", "tester", "scale", "drive"})


def _is_no_one(strand: Strand, n: int, said: UnitAt) -> bool:
    """Whether `a` before a unit is no number: hundredths of a mil, an ohm meter."""
    part = strand.at(n - 2) == "of" and strand.at(n - 3) in _PARTS_OF
    return part or strand.on(said.end) in _METERS


def _inch_and_part(strand: Strand, n: int, said: UnitAt) -> list[Measure]:
    """Inch and a half, said without any article."""
    one = _with_unit(strand, n, said, Fraction(1), "1")
    return [one] if one.value > 1 else []


def labels_of(strand: Strand, found: Sequence[Measure]) -> frozenset[int]:
    """Words that only name what follows: number two, all four, and those that count on from it."""
    named: set[int] = set()
    label: Fraction | None = None
    for measure in found:
        before = strand.at(measure.start - 1)
        counts_on = (
            label is not None and measure.value == label + 1 and number_follows(strand, measure.end)
        )
        if measure.unit or not (
            before in LABELS or counts_on or before in ("all", "both", "other")
        ):
            continue
        named.add(measure.start)
        label = measure.value if before in LABELS or counts_on else label
    return frozenset(named)


def _apart(found: list[Measure]) -> list[Measure]:
    """Pence that were counted with their pounds are not counted again."""
    kept: list[Measure] = []
    for measure in found:
        if not kept or measure.start >= kept[-1].end or measure.start == kept[-1].start:
            kept.append(measure)
    return kept


def _summed(strand: Strand, found: list[Measure]) -> list[Measure]:
    """Seven eighths and half a thou, an inch and a half less two thou: one amount, in inches."""
    made: list[Measure] = []
    for measure in found:
        last = made[-1] if made else None
        sign = _sign(strand, last, measure) if last else 0
        if last is None or not sign:
            made.append(measure)
            continue
        value = last.value + sign * measure.value / 1000
        text, about = amount_text(value), last.about or measure.about
        made[-1] = Measure(last.start, measure.end, value, text, "in", about)
    return made


def _sign(strand: Strand, one: Measure, other: Measure) -> int:
    """Whether thousandths are added to inches or taken from them; 0 where they are a thing of their own."""
    inches = one.unit == "in" or (not one.unit and "/" in one.text)
    if not inches or other.unit != "thou" or other.start != one.end + 1:
        return 0
    return {"and": 1, "plus": 1, "less": -1, "minus": -1}.get(strand.on(one.end), 0)

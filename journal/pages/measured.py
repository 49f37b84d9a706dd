"""Measurements: side against side, what was read again, and every reading against its limits."""

from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from journal.ledgers.measured import Course, Part, SidePair
from journal.pages.common import frame
from journal.pages.curves import Curve, Step, curve_of
from journal.pages.links import Links, Ref, subsystem_names
from journal.pages.page import Page
from journal.pages.readingwords import VERDICTS, ReadingWords, other_words, reading_words
from journal.pages.view import CarView
from journal.pages.words import (
    day_words,
    in_words,
    readings_words,
    sentence,
    some,
    unit_words,
    with_unit,
)
from journal.words.amounts import percent, plain_number
from journal.words.sides import NAMINGS, Side, side_in
from journal.words.units import convert

PATH = "measured.html"


class Bench(NamedTuple):
    """The readings of one subsystem."""

    ref: Ref
    readings: tuple[ReadingWords, ...]


class SideWords(NamedTuple):
    """What was read on one side."""

    values: str
    other: str
    outside: bool


class PairWords(NamedTuple):
    """One dimension on both sides; `days` are the sheets that read it."""

    name: str
    on: Ref | None
    sides: tuple[SideWords, SideWords]
    apart: str
    share: str
    days: tuple[Ref, ...]


class PairTable(NamedTuple):
    """The pairs that name their sides in one way, under those names."""

    heads: tuple[str, str]
    pairs: tuple[PairWords, ...]


class PointWords(NamedTuple):
    """One reading of a course, or one of the moments that a reading holds."""

    when: Ref
    values: str
    other: str
    verdict: str
    outside: bool


class CourseWords(NamedTuple):
    """One dimension read again: its drawing, every reading, and the change from first to last."""

    name: str
    on: Ref | None
    curve: Curve
    words: str
    points: tuple[PointWords, ...]
    change: str


def page_measured(view: CarView) -> tuple[Page, ...]:
    """All readings."""
    links = Links(view, PATH)
    measured = view.measured
    out = len(measured.outside)
    values = {
        **frame(links, "Measured"),
        "how_many": some(len(measured.readings), "reading"),
        "outside": in_words(out) if out else "none",
        "sides": tuple(
            t for naming in NAMINGS if (t := _table(links, measured.pairs, naming)).pairs
        ),
        "courses": tuple(_course(links, course) for course in measured.courses),
        "benches": tuple(_bench(view, links, n) for n in subsystem_names(view) if _has(view, n)),
    }
    return (Page(view.base + PATH, "measured.html", values),)


def _has(view: CarView, name: str) -> bool:
    return any(r.subsystem == name for r in view.measured.readings)


def _bench(view: CarView, links: Links, name: str) -> Bench:
    mine = (r for r in view.measured.readings if r.subsystem == name)
    return Bench(links.subsystem(name), tuple(reading_words(links, r) for r in mine))


def _table(links: Links, pairs: tuple[SidePair, ...], naming: tuple[Side, Side]) -> PairTable:
    one, other = (sentence(side.value) for side in naming)
    return PairTable((one, other), tuple(_pair(links, p) for p in pairs if p.sides == naming))


def _pair(links: Links, pair: SidePair) -> PairWords:
    sheets = dict.fromkeys(p.reading.sheet for p in (pair.one, pair.other))
    days = {p.reading.sheet: day_words(p.reading.day) for p in (pair.one, pair.other)}
    where = pair.one.reading.on or ""
    on = where if where == pair.other.reading.on and side_in(where) is None else None
    places = _places(pair.one) + (len(pair.one.values) > 1)
    return PairWords(
        sentence(pair.name),
        links.component(on) if on else links.subsystem(pair.subsystem),
        (_side(pair.one), _side(pair.other)),
        f"{plain_number(pair.apart, places)}{with_unit(pair.unit)}" if pair.apart else "the same",
        f"{percent(pair.share)}\N{NO-BREAK SPACE}% of the greater" if pair.share else "",
        tuple(links.sheet(sheet, days[sheet]) for sheet in sheets),
    )


def _side(part: Part) -> SideWords:
    return SideWords(
        readings_words(part.values, part.reading.unit),
        other_words(part.reading, part.values),
        part.inside is False,
    )


def _places(part: Part) -> int:
    """The decimals to which a part was read."""
    exponents = [value.as_tuple().exponent for value in part.values]
    return max((-e for e in exponents if isinstance(e, int) and e < 0), default=0)


def _course(links: Links, course: Course) -> CourseWords:
    last = course.points[-1].reading
    steps = tuple(_step(point, last.unit) for point in course.points)
    ends = [end for end in (last.least, last.most) if end is not None]
    levels = [(Fraction(end), f"{end:f}") for end in ends]
    if not levels:
        values = [value for point in course.points for value in point.values]
        unit = course.points[0].reading.unit
        levels = [(convert(v, unit, last.unit), f"{v:f}") for v in (min(values), max(values))]
    points = tuple(_point(links, point) for point in course.points)
    return CourseWords(
        sentence(course.name),
        links.component(course.on, full=True) if course.on else links.subsystem(course.subsystem),
        curve_of(steps, levels),
        "; then ".join(f"{p.values} {p.verdict}".strip() for p in points),
        points,
        _change(course),
    )


def _step(point: Part, unit: str) -> Step:
    reading = point.reading

    def told(value: Decimal | None) -> Fraction | None:
        return None if value is None else convert(value, reading.unit, unit)

    words = tuple(
        f"{value:f} {unit_words(reading.unit)}, {day_words(reading.day)}" for value in point.values
    )
    return Step(
        reading.day, tuple(convert(v, reading.unit, unit) for v in point.values), words,
        tuple(map(reading.keeps, point.values)), told(reading.least), told(reading.most),
    )  # fmt: skip


def _point(links: Links, point: Part) -> PointWords:
    reading = point.reading
    return PointWords(
        links.sheet(reading.sheet, day_words(reading.day)),
        readings_words(point.values, reading.unit),
        other_words(reading, point.values),
        VERDICTS[point.inside],
        point.inside is False,
    )


def _change(course: Course) -> str:
    """From first to last in words, on the mean where there are several values."""
    change, last = course.change, course.points[-1]
    if not change:
        return "No change"
    several = any(len(point.values) > 1 for point in course.points)
    amount = plain_number(abs(change), _places(last) + several)
    words = f"{amount}{with_unit(last.reading.unit)} {'less' if change < 0 else 'more'}"
    return sentence(f"{words}, on the mean" if several else words)

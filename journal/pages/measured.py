"""Measurements: side against side, what was read again, and every reading against its limits."""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from functools import partial
from typing import Any

from journal.ledgers.measured import Course, Part, SidePair
from journal.pages.common import frame
from journal.pages.curves import Curve, Step, curve_of
from journal.pages.leafwords import AS_TOLD, contents, sections_told, titled, turn_words
from journal.pages.links import Links, Ref, subsystem_names
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf, Section, parted
from journal.pages.readingwords import VERDICTS, ReadingWords, other_words, reading_words
from journal.pages.value import Value
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
from journal.words.groups import grouped
from journal.words.sides import NAMINGS, Side, side_in
from journal.words.units import convert

PATH = "measured.html"


# As many readings as one page holds.
ROOM = 220
# As many readings as one course tells of: the first, and the latest ones.
POINTS = 24
HEADINGS = {"sides": "Side against side", "again": "Before against after"}


class ReadingBench(Value, frozen=True):
    """The readings of one subsystem, or those of them that one page has."""

    anchor: str
    ref: Ref
    readings: tuple[ReadingWords, ...]


class SideWords(Value, frozen=True):
    """What was read on one side."""

    values: str
    other: str
    outside: bool


class PairWords(Value, frozen=True):
    """One dimension on both sides; `days` are the sheets that read it."""

    name: str
    on: Ref | None
    sides: tuple[SideWords, SideWords]
    apart: str
    share: str
    days: tuple[Ref, ...]


class PairTable(Value, frozen=True):
    """The pairs that name their sides in one way, under those names."""

    heads: tuple[str, str]
    pairs: tuple[PairWords, ...]


class PointWords(Value, frozen=True):
    """One reading of a course, or one of the moments that a reading holds."""

    when: Ref
    values: str
    other: str
    verdict: str
    outside: bool


class CourseWords(Value, frozen=True):
    """One dimension read again: its drawing, its readings, and the change from first to last.

    `between` tells of readings after the first that are left out here; it is empty when none is.
    """

    name: str
    on: Ref | None
    curve: Curve
    words: str
    points: tuple[PointWords, ...]
    between: str
    change: str


def page_measured(view: CarView) -> tuple[Page, ...]:
    """All readings."""
    start, benches = Links(view, ""), _benches(view)
    leaves = parted(PATH, _sections(view, benches), ROOM)
    names = {bench.key: name for name, bench in benches.items()}
    return tuple(
        Page(
            view.base + leaf.path, "measured.html",
            Later(partial(_values, start, leaves, leaf, names)),
        )
        for leaf in leaves
    )  # fmt: skip


def _benches(view: CarView) -> dict[str, Section]:
    """The readings of each subsystem, in the order of the car."""
    taken = grouped(view.measured.readings, lambda reading: reading.subsystem)
    names = [name for name in subsystem_names(view) if name in taken]
    return {name: Section(f"bench-{n}", taken[name]) for n, name in enumerate(names, 1)}


def _sections(view: CarView, benches: Mapping[str, Section]) -> tuple[Section, ...]:
    pairs = [p for naming in NAMINGS for p in view.measured.pairs if p.sides == naming]
    courses = Section("again", view.measured.courses, weigh=_weight)
    return (Section("sides", tuple(pairs)), courses, *benches.values())


def _weight(course: Course) -> int:
    """How many readings take as much room as a course, its points drawn and told."""
    return 1 + min(len(course.points), POINTS)


def _values(
    start: Links, leaves: tuple[Leaf, ...], leaf: Leaf, names: Mapping[str, str]
) -> dict[str, Any]:
    """What a page shows; `names` are the subsystems of the readings by the keys of their sections."""
    links, measured = start.at(leaf.path), start.view.measured
    out = len(measured.outside)
    headings = HEADINGS | {key: links.subsystem(name).text for key, name in names.items()}
    pairs = leaf.entries("sides")
    return {
        **frame(links, titled("Measured", leaf)),
        "any": bool(measured.readings),
        "how_many": some(len(measured.readings), "reading"),
        "outside": in_words(out) if out else "none",
        "sides": tuple(t for naming in NAMINGS if (t := _table(links, pairs, naming)).pairs),
        "courses": tuple(_course(links, course) for course in leaf.entries("again")),
        "benches": tuple(
            ReadingBench(
                stretch.key, links.subsystem(names[stretch.key]),
                tuple(reading_words(links, reading) for reading in stretch.entries),
            )
            for stretch in leaf.stretches
            if stretch.key in names
        ),
        "headings": HEADINGS,
        "continued": leaf.continued,
        "contents": contents(links, leaves, headings),
        "turn": turn_words(links, leaves, sections_told(headings), AS_TOLD),
    }  # fmt: skip


def _table(links: Links, pairs: tuple[SidePair, ...], naming: tuple[Side, Side]) -> PairTable:
    one, other = (sentence(side.value) for side in naming)
    return PairTable((one, other), tuple(_pair(links, p) for p in pairs if p.sides == naming))


def _pair(links: Links, pair: SidePair) -> PairWords:
    sheets = dict.fromkeys(p.reading.sheet for p in (pair.one, pair.other))
    days = {p.reading.sheet: day_words(p.reading.day) for p in (pair.one, pair.other)}
    where = pair.one.reading.on or ""
    on = where if where == pair.other.reading.on and side_in(where) is None else None
    places = max(_places(part) + (len(part.values) > 1) for part in (pair.one, pair.other))
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
    last, left_out = course.points[-1].reading, len(course.points) - POINTS
    shown = course.points if left_out <= 0 else (course.points[0], *course.points[1 - POINTS :])
    steps = tuple(_step(point, last.unit) for point in shown)
    ends = [end for end in (last.least, last.most) if end is not None]
    levels = [(Fraction(end), f"{end:f}") for end in ends]
    if not levels:
        values = [value for point in shown for value in point.values]
        unit = course.points[0].reading.unit
        levels = [(convert(v, unit, last.unit), f"{v:f}") for v in (min(values), max(values))]
    points = tuple(_point(links, point) for point in shown)
    return CourseWords(
        sentence(course.name),
        links.component(course.on, full=True) if course.on else links.subsystem(course.subsystem),
        curve_of(steps, levels),
        "; then ".join(f"{p.values} {p.verdict}".strip() for p in points),
        points,
        f"{sentence(some(left_out, 'reading'))} between" if left_out > 0 else "",
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

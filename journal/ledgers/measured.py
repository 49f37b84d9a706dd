"""Measured: readings against their limits, side against side, and before against after.

Hears `measured` in sheets and ignores all else. A reading is inside when every value of it keeps
both limits; it is judged in the unit in which it was written. The same dimension on components that
differ in their side alone is set side against side; the same dimension on the same component, read
on several days, is a course. A note may name the values of a reading in their order ("near side,
off side", "before, after") and then they are told apart by it.
"""

import itertools
from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import cached_property

from msgspec import Struct

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.words.groups import grouped
from journal.words.sides import NAMINGS, Side, side_in, value_names, without_side
from journal.words.units import convert, kind_of, same_kind

_COMPARED = frozenset({"force", "pressure", "torque"})


class Reading(Struct, frozen=True):
    """Readings of one dimension on one day. `inside` is absent when no limit was given; `names`
    are those that its note gives to the values."""

    day: date
    sheet: str
    subsystem: str
    name: str
    on: str | None
    values: tuple[Decimal, ...]
    unit: str
    least: Decimal | None = None
    most: Decimal | None = None
    tool: str | None = None
    note: str | None = None

    def keeps(self, value: Decimal) -> bool:
        """Whether a value keeps the limits that there are."""
        least, most = self.least, self.most
        return (least is None or value >= least) and (most is None or value <= most)

    @property
    def inside(self) -> bool | None:
        """Whether every value keeps its limits."""
        if self.least is None and self.most is None:
            return None
        return all(map(self.keeps, self.values))

    @property
    def names(self) -> tuple[str, ...]:
        """What the note calls the values, one name a value, or nothing."""
        return value_names(self.note, len(self.values))


class Part(Struct, frozen=True):
    """Values of a reading that belong together: those of one side, or those of one moment."""

    reading: Reading
    values: tuple[Decimal, ...]

    @property
    def inside(self) -> bool | None:
        """Whether these values keep the limits; absent when there are none."""
        if self.reading.inside is None:
            return None
        return all(map(self.reading.keeps, self.values))

    def mean(self, unit: str) -> Fraction:
        """The arithmetic mean of the values, exactly, in a unit of the same kind."""
        total = sum((convert(v, self.reading.unit, unit) for v in self.values), Fraction(0))
        return total / len(self.values)


class SidePair(Struct, frozen=True):
    """One dimension on both sides: `sides` in the order of their naming, `one` and `other` on them."""

    name: str
    subsystem: str
    sides: tuple[Side, Side]
    one: Part
    other: Part

    @property
    def unit(self) -> str:
        """The unit in which the sides are compared: that of the first."""
        return self.one.reading.unit

    @property
    def apart(self) -> Fraction:
        """How far the means of the two sides lie apart, in `unit`."""
        return abs(self.one.mean(self.unit) - self.other.mean(self.unit))

    @property
    def share(self) -> Fraction | None:
        """The same as a share of the greater side, (greater - smaller) / greater, as brakes are
        judged (common practice); absent where a share says nothing."""
        greater = max(self.one.mean(self.unit), self.other.mean(self.unit))
        return self.apart / greater if kind_of(self.unit) in _COMPARED and greater > 0 else None


class Course(Struct, frozen=True):
    """One dimension on one component, read more than once, in order of days."""

    name: str
    on: str | None
    subsystem: str
    points: tuple[Part, ...]

    @property
    def change(self) -> Fraction:
        """From the mean of the first to the mean of the last, in the unit of the last."""
        unit = self.points[-1].reading.unit
        return self.points[-1].mean(unit) - self.points[0].mean(unit)


class Measurements(Struct, frozen=True, dict=True):
    """All readings in order of sheets; what is read on both sides; what is read again."""

    readings: tuple[Reading, ...] = ()
    pairs: tuple[SidePair, ...] = ()
    courses: tuple[Course, ...] = ()
    problems: tuple[Problem, ...] = ()

    def on(self, key: str) -> tuple[Reading, ...]:
        """Readings taken on one component."""
        return self._by_component.get(key, ())

    def of_sheet(self, name: str) -> tuple[Reading, ...]:
        """Readings that one sheet tells of."""
        return self._by_sheet.get(name, ())

    @cached_property
    def _by_component(self) -> dict[str | None, tuple[Reading, ...]]:
        return grouped(self.readings, lambda r: r.on)

    @cached_property
    def _by_sheet(self) -> dict[str, tuple[Reading, ...]]:
        return grouped(self.readings, lambda r: r.sheet)

    @property
    def outside(self) -> tuple[Reading, ...]:
        """Readings that do not keep their limits."""
        return tuple(r for r in self.readings if r.inside is False)


def fold_measured(car: CarFile) -> Measurements:
    """Collect every reading, and set beside each other those that are of the same thing."""
    readings = tuple(_readings(car))
    sheets = {sheet.name: sheet for sheet in car.sheets}
    again = tuple(_again(readings))
    problems = tuple(
        problem_at(
            sheets[now.sheet].source, ("measured", now.name, "unit"), "unit-differs",
            f"{now.name} is given in {now.unit}", severity=Severity.WARNING,
            note=f"it was given in {before.unit} before, which measures something else",
            note_place=sheets[before.sheet].source.place("measured", before.name, "unit"),
        )
        for before, now in _at_odds(again)
    )  # fmt: skip
    return Measurements(
        readings, tuple(_pairs(readings)), tuple(_courses(readings, again)), problems
    )


def _readings(car: CarFile) -> Iterator[Reading]:
    for sheet in car.sheets:
        for name, m in sheet.front.measured:
            subsystem = m.on.split("/")[0] if m.on else sheet.front.subsystem[0]
            least, most = (m.limit.least, m.limit.most) if m.limit else (None, None)
            yield Reading(
                sheet.date, sheet.name, subsystem, name, m.on, m.read, m.unit,
                least, most, m.with_, m.note,
            )  # fmt: skip


def _again(readings: Iterable[Reading]) -> Iterator[tuple[Reading, ...]]:
    """Readings of one dimension on one component, where there are several."""
    same: dict[tuple[str, str], list[Reading]] = {}
    for reading in readings:
        key = (reading.name.casefold(), reading.on or reading.subsystem)
        same.setdefault(key, []).append(reading)
    yield from (tuple(group) for group in same.values() if len(group) > 1)


def _at_odds(again: Iterable[tuple[Reading, ...]]) -> Iterator[tuple[Reading, Reading]]:
    """Each reading in a unit of another kind than the one before it."""
    for group in again:
        for before, now in itertools.pairwise(group):
            if not same_kind(before.unit, now.unit):
                yield before, now


def _courses(readings: Iterable[Reading], again: Iterable[tuple[Reading, ...]]) -> Iterator[Course]:
    """Courses over several sheets, and those that one reading holds, in order of their last day."""
    courses = [
        Course(g[-1].name, g[0].on, g[0].subsystem, tuple(Part(r, r.values) for r in g))
        for g in again
        if all(same_kind(g[0].unit, r.unit) for r in g)
    ]
    courses += [
        Course(r.name, r.on, r.subsystem, (Part(r, r.values[:1]), Part(r, r.values[1:])))
        for r in readings
        if tuple(name.casefold() for name in r.names) == ("before", "after")
    ]
    yield from sorted(courses, key=lambda c: (c.points[-1].reading.day, c.points[0].reading.day))


class _Sided(Struct, frozen=True):
    side: Side
    part: Part


def _sided(reading: Reading) -> Iterator[_Sided]:
    """The sides that a reading tells of: both, when its note names its values by them, or one."""
    named = [side_in(name) for name in reading.names]
    if tuple(named) in {*NAMINGS, *(naming[::-1] for naming in NAMINGS)}:
        for side, value in zip(named, reading.values, strict=True):
            if side is not None:
                yield _Sided(side, Part(reading, (value,)))
        return
    told = {side_in(text) for text in (reading.on or "", reading.name)} - {None}
    if len(told) == 1 and (side := told.pop()) is not None:
        yield _Sided(side, Part(reading, reading.values))


def _pairs(readings: Iterable[Reading]) -> Iterator[SidePair]:
    """The latest reading of each dimension that was taken on both sides, and what was before it."""
    groups: dict[tuple[str, str, tuple[Side, Side]], list[_Sided]] = {}
    for reading in readings:
        for sided in _sided(reading):
            naming = next(n for n in NAMINGS if sided.side in n)
            where = without_side(reading.on) if reading.on else reading.subsystem
            key = (without_side(reading.name).casefold(), where, naming)
            groups.setdefault(key, []).append(sided)
    for (_, _, naming), group in groups.items():
        yield from _together(naming, group)


def _together(naming: tuple[Side, Side], group: list[_Sided]) -> Iterator[SidePair]:
    """Both sides as one sheet read them; and as they stand last, when no one sheet read both."""
    latest: dict[Side, Part] = {}
    shown: tuple[Part, Part] | None = None
    for sheet in dict.fromkeys(s.part.reading.sheet for s in group):
        here = {s.side: s.part for s in group if s.part.reading.sheet == sheet}
        latest |= here
        if len(here) == 2:
            shown = (here[naming[0]], here[naming[1]])
            yield from _pair(naming, *shown)
    if len(latest) == 2 and (latest[naming[0]], latest[naming[1]]) != shown:
        yield from _pair(naming, latest[naming[0]], latest[naming[1]])


def _pair(naming: tuple[Side, Side], one: Part, other: Part) -> Iterator[SidePair]:
    if same_kind(one.reading.unit, other.reading.unit):
        name = without_side(one.reading.name)
        yield SidePair(name, one.reading.subsystem, naming, one, other)

"""Readings of the odometer: by papers, at booking in and in sheets, and those that run backwards."""

import re
from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal

from msgspec import Struct

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at

_COUNT = re.compile(r"[0-9]{1,3}(?:[ ,.'’\u00a0\u202f][0-9]{3})+(?![0-9])|[0-9]{1,9}")
_CLOCKS = ("odometer", "speedometer")
Exchanges = tuple[tuple[date, str], ...]


class Count(Struct, frozen=True):
    """One reading of the odometer: by a paper, at booking in, or in a sheet. `day` is absent when
    the paper tells none."""

    value: Decimal
    day: date | None
    paper: str | None = None
    sheet: str | None = None


def count_in(text: str) -> Decimal | None:
    """The first whole number in a text, its thousands set apart or not; None without one."""
    found = _COUNT.search(text)
    return Decimal("".join(c for c in found.group() if c.isdigit())) if found else None


def counts_of(car: CarFile) -> tuple[Count, ...]:
    """All readings in order of days, those without a day last."""
    return tuple(sorted(_counts(car), key=lambda c: (c.day is None, c.day or date.max, c.value)))


def _counts(car: CarFile) -> Iterator[Count]:
    for name, paper in car.papers:
        if paper.odometer is not None:
            yield Count(paper.odometer, paper.date, paper=name)
    booked = count_in(car.car.mileage or "")
    if booked is not None:
        yield Count(booked, car.car.booked_in)
    for sheet in car.sheets:
        if sheet.front.odometer is not None:
            yield Count(sheet.front.odometer, sheet.date, sheet=sheet.name)


def exchanges_of(car: CarFile) -> Iterator[tuple[date, str]]:
    """Days on which another instrument that counts went in."""
    for sheet in car.sheets:
        if any(w.now and key.split("/")[-1] in _CLOCKS for key, w in sheet.front.work):
            yield sheet.date, sheet.name


def backwards_in(counts: Iterable[Count], exchanged: Exchanges) -> Iterator[tuple[Count, Count]]:
    """Each reading that is lower than one of an earlier day, with the highest of those."""
    dated = [(c.day, c) for c in counts if c.day]
    for day, count in dated:
        before = [
            c for then, c in dated if then < day and not any(then < d <= day for d, _ in exchanged)
        ]
        highest = max(before, key=lambda c: c.value, default=count)
        if highest.value > count.value:
            yield highest, count


def problems_of_counts(
    car: CarFile, counts: Iterable[Count], exchanged: Exchanges
) -> Iterator[Problem]:
    """Readings in sheets below an earlier one of our own; old papers may be wrong, and stay."""
    sheets = {sheet.name: sheet for sheet in car.sheets}
    own = [count for count in counts if count.paper is None]
    for before, now in backwards_in(own, exchanged):
        if now.sheet is None:
            continue
        earlier = sheets[before.sheet].source if before.sheet else car.source
        where = ("odometer",) if before.sheet else ("mileage",)
        yield problem_at(
            sheets[now.sheet].source, ("odometer",), "odometer-backwards",
            f"the odometer reads {now.value}, less than {before.value} before it",
            severity=Severity.WARNING, note=f"it read {before.value} on {before.day}",
            note_place=earlier.place(*where),
            help="correct the reading, or book the other instrument on its component with now:",
        )  # fmt: skip

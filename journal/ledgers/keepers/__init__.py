"""Keepers: who kept the car and when, under which registration, and what its odometer read.

Hears `keepers`, `registration` and `odometer` in the papers; owner, registration and mileage at
booking in; `odometer` in sheets, and work that put another odometer or speedometer in the place.
Gaps, overlaps, dates that contradict and readings that run backwards are told with all the papers
that speak; nothing is smoothed and nobody is preferred. Readings are in the odometer's own unit.
"""

from collections.abc import Iterator
from datetime import date

from msgspec import Struct

from journal.ledgers.keepers.chain import (
    Finding,
    Stint,
    findings_of,
    problems_of_keepers,
    stints_of,
)
from journal.ledgers.keepers.counts import (
    Count,
    Exchanges,
    backwards_in,
    counts_of,
    exchanges_of,
    problems_of_counts,
)
from journal.records.carfile import CarFile
from journal.records.problem import Problem
from journal.words.text import comparable
from journal.words.vocabulary import OdometerUnit


class Plate(Struct, frozen=True):
    """One registration, and all that give it, in order of their days: a paper or the car file."""

    value: str
    given: tuple[tuple[str | None, date | None], ...]


class Keepers(Struct, frozen=True):
    """The chain of keepers, registrations, odometer readings and what is wrong with each.

    `counts` are in order of days, readings without a day last. `backwards` pairs a reading with a
    higher one before it; `exchanged` are the days and sheets on which another odometer went in.
    """

    unit: OdometerUnit
    stints: tuple[Stint, ...] = ()
    findings: tuple[Finding, ...] = ()
    plates: tuple[Plate, ...] = ()
    counts: tuple[Count, ...] = ()
    exchanged: Exchanges = ()
    backwards: tuple[tuple[Count, Count], ...] = ()
    problems: tuple[Problem, ...] = ()


def fold_keepers(car: CarFile) -> Keepers:
    """Everything that is told of keepers, registrations and readings."""
    stints, counts = tuple(stints_of(car)), counts_of(car)
    exchanged = tuple(exchanges_of(car))
    problems = (*problems_of_keepers(car), *problems_of_counts(car, counts, exchanged))
    return Keepers(
        car.car.odometer, stints, tuple(findings_of(car, stints)), tuple(_plates(car)), counts,
        exchanged, tuple(backwards_in(counts, exchanged)), problems,
    )  # fmt: skip


def _plates(car: CarFile) -> Iterator[Plate]:
    """Registrations in the order in which they are first given; what has no day comes last."""
    given: list[tuple[str, str | None, date | None]] = [
        (paper.registration, name, paper.date) for name, paper in car.papers if paper.registration
    ]
    if car.car.plate:
        given.append((car.car.plate, None, car.car.booked_in))
    given.sort(key=lambda g: (g[2] is None, g[2] or date.max))
    for key in dict.fromkeys(comparable(value) for value, _, _ in given):
        same = [g for g in given if comparable(g[0]) == key]
        yield Plate(same[0][0], tuple((paper, day) for _, paper, day in same))

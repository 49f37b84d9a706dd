"""Hours: who spent how long on which subsystem, and in which month.

Hears `hours` in sheets. Hours of a sheet with several subsystems that does not split them are
shared equally between its subsystems.
"""

from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import TypeVar

from journal.records.carfile import CarFile
from journal.records.sheet import Sheet

K = TypeVar("K")


@dataclass(frozen=True)
class Spent:
    """Hours of one hand on one subsystem in one sheet."""

    day: date
    sheet: str
    subsystem: str
    hand: str
    hours: Fraction


@dataclass(frozen=True)
class Hours:
    """Every hour in order of sheets; totals are sums of these lines and nothing else."""

    spent: tuple[Spent, ...] = ()

    @property
    def total(self) -> Fraction:
        """All hours."""
        return sum((s.hours for s in self.spent), Fraction(0))

    def by_subsystem(self) -> dict[str, Fraction]:
        """Hours by subsystem, in order of first work."""
        return self._sums(lambda s: s.subsystem)

    def by_hand(self) -> dict[str, Fraction]:
        """Hours by hand, in alphabetical order of initials."""
        return dict(sorted(self._sums(lambda s: s.hand).items()))

    def by_month(self) -> dict[tuple[int, int], Fraction]:
        """Hours by (year, month), only months with work."""
        return self._sums(lambda s: (s.day.year, s.day.month))

    def by_month_and_subsystem(self) -> dict[tuple[tuple[int, int], str], Fraction]:
        """Hours by month and subsystem together."""
        return self._sums(lambda s: ((s.day.year, s.day.month), s.subsystem))

    def of_sheet(self, name: str) -> tuple[Spent, ...]:
        """The lines that one sheet gave."""
        return tuple(s for s in self.spent if s.sheet == name)

    def _sums(self, key: Callable[[Spent], K]) -> dict[K, Fraction]:
        sums: dict[K, Fraction] = defaultdict(Fraction)
        for line in self.spent:
            sums[key(line)] += line.hours
        return dict(sums)


def fold_hours(car: CarFile) -> Hours:
    """Hours of every sheet, each hand's under its subsystem."""
    return Hours(tuple(line for sheet in car.sheets for line in _of_sheet(sheet)))


def _of_sheet(sheet: Sheet) -> list[Spent]:
    lines = []
    for subsystem, hands in sheet.front.hours:
        places = (subsystem,) if subsystem else sheet.front.subsystem
        for hand, hours in hands:
            share = Fraction(hours) / len(places)
            lines += [Spent(sheet.date, sheet.name, place, hand, share) for place in places]
    return lines

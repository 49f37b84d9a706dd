"""Hours: who spent how long on which subsystem, in which week and month, and of which kind.

Hears `hours` in sheets. Hours of a sheet with several subsystems that does not split them are
shared equally between its subsystems, to a hundredth of an hour: the first ones take what does not
divide, so that the shares add up as they are printed.
"""

from collections.abc import Callable
from datetime import date
from fractions import Fraction
from functools import cached_property
from typing import Any, TypeVar

from msgspec import Struct

from journal.records.carfile import CarFile
from journal.records.sheet import Sheet
from journal.words.amounts import even_shares, total_of
from journal.words.groups import grouped
from journal.words.vocabulary import HourKind

K = TypeVar("K")
Week = tuple[int, int]


def week_of(day: date) -> Week:
    """The ISO 8601 week of a day as (year, week): weeks start on Monday, and week 1 holds the
    first Thursday of its year."""
    year, week, _ = day.isocalendar()
    return (year, week)


class Spent(Struct, frozen=True):
    """Hours of one hand on one subsystem in one sheet.

    `because` names the part that made them necessary by not fitting.
    """

    day: date
    sheet: str
    subsystem: str
    hand: str
    hours: Fraction
    kind: HourKind = HourKind.BILLABLE
    because: str | None = None
    note: str | None = None


class Hours(Struct, frozen=True, dict=True):
    """Every hour in order of sheets; totals are sums of these lines and nothing else."""

    spent: tuple[Spent, ...] = ()

    @cached_property
    def total(self) -> Fraction:
        """All hours."""
        return total_of(s.hours for s in self.spent)

    def by_subsystem(self) -> dict[str, Fraction]:
        """Hours by subsystem, in order of first work."""
        return self._sums("subsystem", lambda s: s.subsystem)

    def by_hand(self) -> dict[str, Fraction]:
        """Hours by hand, in alphabetical order of initials."""
        return dict(sorted(self._sums("hand", lambda s: s.hand).items()))

    def by_month(self) -> dict[tuple[int, int], Fraction]:
        """Hours by (year, month), only months with work."""
        return self._sums("month", lambda s: (s.day.year, s.day.month))

    def by_month_and_subsystem(self) -> dict[tuple[tuple[int, int], str], Fraction]:
        """Hours by month and subsystem together."""
        return self._sums("month-subsystem", lambda s: ((s.day.year, s.day.month), s.subsystem))

    def by_year(self) -> dict[int, "Hours"]:
        """The hours of each year with work, with all that can be asked of them."""
        return dict(self._years)

    @cached_property
    def _years(self) -> dict[int, "Hours"]:
        lines = grouped(self.spent, lambda s: s.day.year)
        return {year: Hours(of_year) for year, of_year in lines.items()}

    def by_week(self) -> dict[Week, Fraction]:
        """Hours by ISO week, only weeks with work."""
        return self._sums("week", lambda s: week_of(s.day))

    def by_week_and_kind(self) -> dict[tuple[Week, HourKind], Fraction]:
        """Hours by ISO week and kind together."""
        return self._sums("week-kind", lambda s: (week_of(s.day), s.kind))

    def by_kind(self) -> dict[HourKind, Fraction]:
        """Hours by kind in the order of the kinds, only kinds with hours."""
        sums = self._sums("kind", lambda s: s.kind)
        return {kind: sums[kind] for kind in HourKind if sums.get(kind)}

    def by_hand_and_kind(self) -> dict[tuple[str, HourKind], Fraction]:
        """Hours by hand and kind together."""
        return self._sums("hand-kind", lambda s: (s.hand, s.kind))

    @cached_property
    def lost(self) -> tuple[Spent, ...]:
        """Hours that a part made necessary by not fitting."""
        return tuple(s for s in self.spent if s.because)

    def lost_to_parts(self) -> dict[str, Fraction]:
        """Hours lost because of a part, by its name, in the order of sheets."""
        return self._losses._sums("because", lambda s: s.because or "")

    def of_sheet(self, name: str) -> tuple[Spent, ...]:
        """The lines that one sheet gave."""
        return self._by_sheet.get(name, ())

    @cached_property
    def _by_sheet(self) -> dict[str, tuple[Spent, ...]]:
        return grouped(self.spent, lambda line: line.sheet)

    @cached_property
    def _losses(self) -> "Hours":
        return Hours(self.lost)

    def _sums(self, of: str, key: Callable[[Spent], K]) -> dict[K, Fraction]:
        """Hours by a key, added up once however often they are asked for `of` it."""
        if of not in self._added:
            self._added[of] = {
                at: total_of(line.hours for line in lines)
                for at, lines in grouped(self.spent, key).items()
            }
        return dict(self._added[of])

    @cached_property
    def _added(self) -> dict[str, dict[Any, Fraction]]:
        return {}


def fold_hours(car: CarFile) -> Hours:
    """Hours of every sheet, each hand's under its subsystem."""
    return Hours(tuple(line for sheet in car.sheets for line in _of_sheet(sheet)))


def _of_sheet(sheet: Sheet) -> list[Spent]:
    lines = []
    for subsystem, hands in sheet.front.hours:
        places = (subsystem,) if subsystem else sheet.front.subsystem
        for hand, hours in hands:
            for line in hours:
                shares = even_shares(line.hours, len(places))
                lines += [
                    Spent(
                        sheet.date, sheet.name, place, hand, share, line.kind, line.because,
                        line.note,
                    )
                    for place, share in zip(places, shares, strict=True)
                ]  # fmt: skip
    return lines

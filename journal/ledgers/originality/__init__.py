"""Originality ledger: how much of the car is its own, how far it conforms, and how anyone knows."""

from datetime import date
from fractions import Fraction
from functools import cached_property

from msgspec import Struct

from journal.ledgers.originality.figures import Summary, Weighted, figures_of
from journal.ledgers.originality.items import (
    Contradiction,
    Displacement,
    Entry,
    Item,
    Learned,
    Link,
    StandIn,
)
from journal.records.problem import Problem
from journal.records.register import Component
from journal.words.amounts import total_of
from journal.words.groups import grouped
from journal.words.vocabulary import Evidence, Position


class Line(Struct, frozen=True, dict=True):
    """One component's line of the ledger, with its biography.

    `learned` is there when a sheet corrected what was thought of the state as found.
    `displaced` are the items that came off and stay off, oldest first. `recovered` is the item
    that would be there if every reversible change were undone.
    """

    component: Component
    as_found: Item
    now: Item
    recovered: Item
    position: Position
    evidence: Evidence
    learned: tuple[Learned, ...] = ()
    displaced: tuple[Displacement, ...] = ()
    links: tuple[Link, ...] = ()
    biography: tuple[Entry, ...] = ()
    contradictions: tuple[Contradiction, ...] = ()
    stand_in: StandIn | None = None

    @cached_property
    def weight(self) -> Fraction:
        """w of the ledger."""
        return Fraction(self.component.line.weight)

    @property
    def changed(self) -> bool:
        """Whether another item is there now than was found."""
        return bool(self.displaced) or self.now.since is not None

    @property
    def departure(self) -> Displacement | None:
        """The change that made the item there now depart from the works specification."""
        return self.displaced[-1] if self.displaced and self.now.departs else None

    def entry(self, sheet: str) -> Entry | None:
        """The first line of the biography that a sheet gave, or None."""
        return next(iter(self._by_sheet.get(sheet, ())), None)

    @cached_property
    def _by_sheet(self) -> dict[str, tuple[Entry, ...]]:
        return grouped(self.biography, lambda entry: entry.sheet)


class Originality(Struct, frozen=True, dict=True):
    """The ledger as of a day (absent: as of the last sheet)."""

    lines: tuple[Line, ...]
    as_of: date | None = None
    problems: tuple[Problem, ...] = ()

    @cached_property
    def subsystems(self) -> tuple[tuple[str, Summary], ...]:
        """The figures of each subsystem, in the order of the register."""
        lines = grouped(self.lines, lambda line: line.component.subsystem)
        return tuple((name, _summary(of)) for name, of in lines.items())

    @cached_property
    def whole(self) -> Summary:
        """The figures of the whole car."""
        return _summary(self.lines)

    def line(self, key: str) -> Line | None:
        """The line of a component, or None."""
        return self._by_key.get(key)

    @cached_property
    def _by_key(self) -> dict[str, Line]:
        return {line.component.key: line for line in self.lines}


def _summary(lines: tuple[Line, ...]) -> Summary:
    return Summary(
        len(lines),
        total_of(line.weight for line in lines),
        figures_of(Weighted(line.weight, line.as_found) for line in lines),
        figures_of(Weighted(line.weight, line.now) for line in lines),
        figures_of(Weighted(line.weight, line.recovered) for line in lines),
    )

"""Progress: how far every component has come, and planned, earned and spent hours by subsystem.

Hears the lines of the originality ledger (biography and position), the proofs, the hours, the
estimate in `car.yaml` and the hours of agreed extras.
"""

from collections.abc import Iterator, Mapping
from datetime import date
from fractions import Fraction
from typing import NamedTuple

from msgspec import Struct

from journal.digests.progress.earned import Earned, elapsed
from journal.digests.progress.steps import ComponentProgress, component_progress, share_done
from journal.ledgers.hours import Hours
from journal.ledgers.originality import Originality
from journal.ledgers.proving import Proving
from journal.records.carfile import CarFile
from journal.records.workshop import Workshop


class SubsystemProgress(Struct, frozen=True):
    """One subsystem: its components, and its hours. `agreed` is what extras added to the budget."""

    name: str
    components: tuple[ComponentProgress, ...]
    hours: Earned
    agreed: Fraction

    @property
    def share(self) -> Fraction | None:
        """Share of the work done, components by their weight; absent when none has steps."""
        return share_done(self.components)


class Progress(Struct, frozen=True):
    """The subsystems in the order of the trade, and the whole, which is their sum."""

    subsystems: tuple[SubsystemProgress, ...]
    day: date

    @property
    def whole(self) -> Earned:
        """Sums of the subsystems' hours."""
        hours = [s.hours for s in self.subsystems]
        planned = [h.planned for h in hours if h.planned is not None]
        none = Fraction(0)
        return Earned(
            sum((h.budget for h in hours), none),
            sum(planned, none) if planned else None,
            sum((h.earned for h in hours), none),
            sum((h.spent for h in hours), none),
        )

    def component(self, key: str) -> ComponentProgress | None:
        """How far a component has come, or None when the register does not have it."""
        found = (c for s in self.subsystems for c in s.components if c.key == key)
        return next(found, None)


def digest_progress(
    car: CarFile,
    *,
    originality: Originality,
    hours: Hours,
    proving: Proving,
    day: date,
) -> Progress:
    """Progress on a day.

    Planned hours grow evenly from booking in to the target date, those of an extra from the day it
    was agreed; without a target nothing is planned by any day. A subsystem earns its budget times
    the share of its steps done; one without components in the register earns nothing, since
    nothing shows it. Both are reckoned to the tenth of an hour, so that they add up as they are
    printed. All hours count as spent, whether they are charged or not.
    """
    delivered = car.car.delivered is not None and car.car.delivered <= day
    lines: dict[str, tuple[ComponentProgress, ...]] = {}
    for line in originality.lines:
        name = line.component.subsystem
        found = component_progress(
            line, car.workshop, delivered=delivered, proved=_proved(proving, name)
        )
        lines[name] = (*lines.get(name, ()), found)
    budget, spent = _budget(car), hours.by_subsystem()
    return Progress(
        tuple(
            _subsystem(car, day, name, lines.get(name, ()), budget.get(name, ()), spent)
            for name in _in_order(car.workshop, {**budget, **spent, **lines})
        ),
        day,
    )


def _proved(proving: Proving, subsystem: str) -> bool:
    """Whether proofs are asked of a subsystem and none of them is wanting."""
    asked = proving.of(subsystem)
    return bool(asked) and not any(proof.holds for proof in asked)


def _in_order(workshop: Workshop, used: Mapping[str, object]) -> tuple[str, ...]:
    known = tuple(workshop.all_subsystems())
    return (*(n for n in known if n in used), *(n for n in used if n not in known))


class _Given(NamedTuple):
    """Hours that the owner agreed to, and the day from which they are planned."""

    hours: Fraction
    since: date
    extra: bool = False


def _budget(car: CarFile) -> dict[str, tuple[_Given, ...]]:
    """What was agreed for each subsystem: its estimate, and its extras."""
    budget: dict[str, tuple[_Given, ...]] = {
        name: (_Given(Fraction(hours), car.car.booked_in),) for name, hours in car.car.estimate
    }
    for subsystem, given in _extras(car):
        budget[subsystem] = (*budget.get(subsystem, ()), given)
    return budget


def _extras(car: CarFile) -> Iterator[tuple[str, _Given]]:
    """Hours of extras by subsystem: with the first component that an extra is of, else with its
    sheet, where the money of it is reckoned too. An extra told again is the same extra in the same
    place, with the hours that the later sheet says."""
    places: dict[str, str] = {}
    latest: dict[str, _Given] = {}
    for sheet in car.sheets:
        for name, extra in sheet.front.extras:
            first = extra.of[0].partition("/")[0] if extra.of else sheet.front.subsystem[0]
            places.setdefault(name, first)
            if extra.hours is not None:
                latest[name] = _Given(Fraction(extra.hours), sheet.date, extra=True)
    for name, given in latest.items():
        yield places[name], given


def _subsystem(
    car: CarFile,
    day: date,
    name: str,
    components: tuple[ComponentProgress, ...],
    given: tuple[_Given, ...],
    spent: Mapping[str, Fraction],
) -> SubsystemProgress:
    none, target = Fraction(0), car.car.target
    budget = sum((g.hours for g in given), none)
    planned = None
    if target is not None:
        planned = sum((_part(g.hours, elapsed(g.since, target, day)) for g in given), none)
    earned = _part(budget, share_done(components) or none)
    hours = Earned(budget, planned, earned, spent.get(name, none))
    return SubsystemProgress(
        name, components, hours, sum((g.hours for g in given if g.extra), none)
    )


def _part(hours: Fraction, share: Fraction) -> Fraction:
    """A share of some hours to the tenth of an hour, half up; all of them just as written."""
    return hours if share == 1 else Fraction(int(hours * share * 10 + Fraction(1, 2)), 10)

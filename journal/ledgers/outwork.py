"""Outwork: items sent to a plater, machinist or trimmer, counted out and counted back.

Hears `outwork` in sheets.
"""

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from journal.records.carfile import CarFile
from journal.records.problem import Problem, problem_at
from journal.records.sheet import OutworkLine, Sheet


@dataclass(frozen=True)
class Movement:
    """Items going out or coming back on one day."""

    day: date
    sheet: str
    sent: Decimal
    back: Decimal
    note: str | None


@dataclass(frozen=True)
class Batch:
    """One lot of outwork from first to last movement."""

    name: str
    subsystem: str
    what: str | None = None
    to: str | None = None
    of: tuple[str, ...] = ()
    due: date | None = None
    cost: Decimal | None = None
    movements: tuple[Movement, ...] = ()

    @property
    def sent(self) -> Decimal:
        """Items sent in all."""
        return sum((m.sent for m in self.movements), Decimal(0))

    @property
    def back(self) -> Decimal:
        """Items come back in all."""
        return sum((m.back for m in self.movements), Decimal(0))

    @property
    def out(self) -> Decimal:
        """Items still out."""
        return self.sent - self.back

    @property
    def short(self) -> bool:
        """Whether some came back and some did not."""
        return self.back > 0 and self.out > 0


@dataclass(frozen=True)
class Outwork:
    """All lots in the order first sent."""

    batches: tuple[Batch, ...] = ()
    problems: tuple[Problem, ...] = ()

    @property
    def out(self) -> tuple[Batch, ...]:
        """Lots with items still out."""
        return tuple(b for b in self.batches if b.out > 0)


def fold_outwork(car: CarFile) -> Outwork:
    """Add up the movements of every lot; more back than were sent is a problem."""
    batches: dict[str, Batch] = {}
    problems: list[Problem] = []
    for sheet in car.sheets:
        for name, line in sheet.front.outwork:
            before = batches.get(name) or Batch(name, sheet.front.subsystem[0])
            batch = _move(before, line, sheet)
            if batch.out < 0:
                problems.append(_too_many(sheet, name, before, line))
            else:
                batches[name] = batch
    return Outwork(tuple(batches.values()), tuple(problems))


def _move(batch: Batch, line: OutworkLine, sheet: Sheet) -> Batch:
    move = Movement(
        sheet.date, sheet.name, line.sent or Decimal(0), line.back or Decimal(0), line.note
    )
    return replace(
        batch, movements=(*batch.movements, move), what=line.what or batch.what,
        to=line.to or batch.to, of=line.of or batch.of, due=line.due or batch.due,
        cost=line.cost if line.cost is not None else batch.cost,
    )  # fmt: skip


def _too_many(sheet: Sheet, name: str, before: Batch, line: OutworkLine) -> Problem:
    return problem_at(
        sheet.source, ("outwork", name, "back"), "more-back-than-sent",
        f'{line.back} of "{name}" cannot come back when {before.out} are out',
        help="correct the count, or give the lot that it belongs to",
    )  # fmt: skip

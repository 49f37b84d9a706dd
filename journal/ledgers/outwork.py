"""Outwork: items sent to a plater, machinist or trimmer, counted out and counted back.

Hears `outwork` in sheets: counts, the day due, cost, and what the items came back as.
"""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from journal.records.carfile import CarFile
from journal.records.goods import OutworkLine
from journal.records.problem import Problem, Severity, problem_at
from journal.records.sheet import Sheet
from journal.records.workshop import Workshop
from journal.words.calendar import OpenDays, working_days
from journal.words.money import to_coin

NONE = Decimal(0)


class Movement(Struct, frozen=True):
    """Items going out or coming back on one day; `finish` and `certificate` tell what they came
    back as."""

    day: date
    sheet: str
    sent: Decimal
    back: Decimal
    note: str | None
    finish: str | None = None
    certificate: str | None = None


class LotCharge(Struct, frozen=True):
    """What one sheet adds to the cost of a lot, in the workshop's currency, or takes off it when
    it corrects the cost."""

    day: date
    sheet: str
    net: Decimal


class Batch(Struct, frozen=True):
    """One lot of outwork from first to last movement.

    `cost` is for the whole lot and the sum of its `charges`. `home` is the day on which all of it
    was back; `late` the working days from the day due until then, negative when it came early, and
    `away` those from the first sending; all three are absent while anything is out.
    """

    name: str
    subsystem: str
    what: str | None = None
    to: str | None = None
    of: tuple[str, ...] = ()
    due: date | None = None
    cost: Decimal | None = None
    charges: tuple[LotCharge, ...] = ()
    movements: tuple[Movement, ...] = ()
    home: date | None = None
    late: int | None = None
    away: int | None = None

    @property
    def sent(self) -> Decimal:
        """Items sent in all."""
        return sum((m.sent for m in self.movements), NONE)

    @property
    def back(self) -> Decimal:
        """Items come back in all."""
        return sum((m.back for m in self.movements), NONE)

    @property
    def out(self) -> Decimal:
        """Items still out."""
        return self.sent - self.back

    @property
    def short(self) -> bool:
        """Whether some came back and some did not."""
        return self.back > 0 and self.out > 0

    @property
    def was_short(self) -> bool:
        """Whether a return ever left some out, found since or not."""
        out = NONE
        for move in self.movements:
            out += move.sent - move.back
            if move.back > 0 and out > 0:
                return True
        return False

    @property
    def first_sent(self) -> date | None:
        """The day on which the first items went out; absent when none did."""
        return next((m.day for m in self.movements if m.sent > 0), None)

    @property
    def finishes(self) -> tuple[str, ...]:
        """What it came back as, each told once."""
        return tuple(dict.fromkeys(m.finish for m in self.movements if m.finish))

    @property
    def certificates(self) -> tuple[str, ...]:
        """The certificates that came with it, each told once."""
        return tuple(dict.fromkeys(m.certificate for m in self.movements if m.certificate))

    def overdue(self, day: date, workshop: OpenDays) -> int:
        """Working days by which what is still out is late on a day; 0 when it is not."""
        if self.out <= 0 or self.due is None:
            return 0
        return max(working_days(workshop, self.due, day), 0)


class Outwork(Struct, frozen=True, dict=True):
    """All lots in the order first sent."""

    batches: tuple[Batch, ...] = ()
    problems: tuple[Problem, ...] = ()

    @property
    def out(self) -> tuple[Batch, ...]:
        """Lots with items still out."""
        return tuple(b for b in self.batches if b.out > 0)

    @property
    def short(self) -> tuple[Batch, ...]:
        """Lots of which some came back and some did not."""
        return tuple(b for b in self.batches if b.short)

    @property
    def net(self) -> Decimal:
        """What all lots cost, without tax."""
        return sum((c.net for b in self.batches for c in b.charges), NONE)

    def overdue(self, day: date) -> tuple[Batch, ...]:
        """Lots with items out after the day they were due, the longest due first."""
        late = [(b.due, b) for b in self.out if b.due is not None and b.due < day]
        return tuple(b for _, b in sorted(late, key=lambda pair: pair[0]))

    def of_sheet(self, name: str) -> tuple[LotCharge, ...]:
        """What one sheet charges for outwork."""
        return tuple(c for b in self.batches for c in b.charges if c.sheet == name)

    def named(self, name: str) -> Batch | None:
        """The lot of a name, or None."""
        return self._by_name.get(name)

    @cached_property
    def _by_name(self) -> dict[str, Batch]:
        return {batch.name: batch for batch in self.batches}


def fold_outwork(car: CarFile) -> Outwork:
    """Add up the movements of every lot; more back than were sent is a problem and not counted."""
    batches: dict[str, Batch] = {}
    problems: list[Problem] = []
    for sheet in car.sheets:
        for name, line in sheet.front.outwork:
            before = batches.get(name) or Batch(name, sheet.front.subsystem[0])
            if (line.back or NONE) > before.out + (line.sent or NONE):
                problems.append(_too_many(sheet, name, before, line))
                line = line.model_copy(update={"back": None})
                if not (before.movements or line.sent):
                    continue
            batches[name] = _priced(_move(before, line, sheet), line, sheet, car.workshop)
            problems += _due_too_soon(batches[name], line, sheet)
    return Outwork(tuple(_home(b, car.workshop) for b in batches.values()), tuple(problems))


def _move(batch: Batch, line: OutworkLine, sheet: Sheet) -> Batch:
    sent, back = line.sent or NONE, line.back or NONE
    move = Movement(
        sheet.date, sheet.name, sent, back, line.note, line.finish, line.certificate
    )  # fmt: skip
    moves = bool(sent or back or line.note or line.finish or line.certificate)
    return replace(
        batch, movements=(*batch.movements, move) if moves else batch.movements,
        what=line.what or batch.what, to=line.to or batch.to, of=line.of or batch.of,
        due=line.due or batch.due,
    )  # fmt: skip


def _priced(batch: Batch, line: OutworkLine, sheet: Sheet, workshop: Workshop) -> Batch:
    """The cost as it stands; a sheet that corrects it charges the difference."""
    if line.cost is None:
        return batch
    cost = to_coin(line.cost, workshop.currency)
    change = cost - (batch.cost or NONE)
    more = (LotCharge(sheet.date, sheet.name, change),) if change else ()
    return replace(batch, cost=cost, charges=batch.charges + more)


def _home(batch: Batch, workshop: Workshop) -> Batch:
    sent, home = batch.first_sent, [m.day for m in batch.movements if m.back > 0]
    if sent is None or not home or batch.out > 0:
        return batch
    late = working_days(workshop, batch.due, home[-1]) if batch.due else None
    return replace(batch, home=home[-1], late=late, away=working_days(workshop, sent, home[-1]))


def _too_many(sheet: Sheet, name: str, before: Batch, line: OutworkLine) -> Problem:
    return problem_at(
        sheet.source, ("outwork", name, "back"), "more-back-than-sent",
        f'{line.back} of "{name}" cannot come back when {before.out + (line.sent or NONE)} are out',
        help="correct the count, or give the lot that it belongs to",
    )  # fmt: skip


def _due_too_soon(batch: Batch, line: OutworkLine, sheet: Sheet) -> Iterator[Problem]:
    sent = batch.first_sent
    if line.due is not None and sent is not None and line.due < sent:
        yield problem_at(
            sheet.source, ("outwork", batch.name, "due"), "due-before-sent",
            f'"{batch.name}" cannot be due on {line.due} when it was sent on {sent}',
            severity=Severity.WARNING,
            help="correct the day due, or write sent: in the sheet of the day on which it went",
        )  # fmt: skip

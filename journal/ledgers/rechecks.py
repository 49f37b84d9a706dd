"""Re-checks: what must be looked at again after delivery, when each falls due, and what was done.

Hears `rechecks` and `odometer` in sheets and the day of delivery; ignores all else. A stretch that is
asked for before delivery counts from delivery, one that is asked for later from the day of its sheet. It
says what the record holds; it does not say that a car may be driven meanwhile.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal
from enum import StrEnum
from functools import cached_property
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from journal.records.carfile import CarFile
from journal.records.problem import Problem, problem_at
from journal.records.recheck import RecheckLine, Wanted
from journal.records.sheet import Sheet
from journal.words.groups import grouped_by_each
from journal.words.names import nearest, title_of
from journal.words.stretch import Stretch, day_after, distance_in
from journal.words.vocabulary import OdometerUnit


class RecheckState(StrEnum):
    """How a re-check stands on a day."""

    LATE = "late"
    DUE = "due"
    AHEAD = "not yet due"
    WAITING = "counts from delivery"
    DONE = "done"


class At(NamedTuple):
    """An odometer reading with the day and the sheet of it."""

    value: Decimal
    day: date
    sheet: str


class Done(NamedTuple):
    """The looking: what was found, and by which hand. `reading` is the latest known on that day."""

    day: date
    sheet: str
    found: str
    by: str | None
    reading: At | None


class Recheck(Struct, frozen=True):
    """One thing to be looked at again, once.

    `turn` counts how often the same name was asked for. `start` is the day from which it counts,
    absent until the day of delivery is known; `start_at` is the odometer reading from which a
    distance counts, absent when none was taken by then. `due_on` and `due_at` are the day and the
    reading at which it falls due, each absent where nothing can be told; `reading` is the latest
    one taken while it was open. `exchanged` is the day on which another odometer went in
    meanwhile, so that the distance can no longer be told.
    """

    name: str
    what: str
    on: tuple[str, ...]
    subsystem: str
    after: Stretch
    value: Wanted | None
    asked: date
    asked_in: str
    turn: int = 1
    start: date | None = None
    start_at: At | None = None
    due_on: date | None = None
    due_at: Decimal | None = None
    reading: At | None = None
    exchanged: date | None = None
    done: Done | None = None

    @property
    def open(self) -> bool:
        """Whether nobody has looked yet."""
        return self.done is None

    def state(self, day: date) -> RecheckState:
        """How it stands at the end of a day on which all that is told here was known.

        On its very day, or at its very reading, it is due; past either it is late.
        """
        if self.done is not None:
            return RecheckState.DONE
        if self.start is None or self.start > day:
            return RecheckState.WAITING
        past = (*self._past(day, self.reading),)
        if any(over > 0 for over in past):
            return RecheckState.LATE
        return RecheckState.DUE if 0 in past else RecheckState.AHEAD

    @property
    def was_late(self) -> bool:
        """Whether it was done, and after it fell due."""
        done = self.done
        return done is not None and any(over > 0 for over in self._past(done.day, done.reading))

    def distance_left(self) -> Decimal | None:
        """How far it was still to go at the latest reading, below nothing when it was past."""
        if self.due_at is None or self.reading is None:
            return None
        return self.due_at - self.reading.value

    def _past(self, day: date, reading: At | None) -> Iterator[Decimal]:
        """How far a day and a reading lie past what is due, in days and in the odometer's unit."""
        if self.due_on is not None:
            yield Decimal((day - self.due_on).days)
        if self.due_at is not None and reading is not None:
            yield reading.value - self.due_at


class Rechecks(Struct, frozen=True, dict=True):
    """All re-checks in the order asked for; distances are in the `unit` of the odometer."""

    unit: OdometerUnit = OdometerUnit.MILE
    rechecks: tuple[Recheck, ...] = ()
    problems: tuple[Problem, ...] = ()

    def in_state(self, day: date, *states: RecheckState) -> tuple[Recheck, ...]:
        """Those in one of some states on a day, what falls due first before the others."""
        found = [recheck for recheck in self.rechecks if recheck.state(day) in states]
        return tuple(sorted(found, key=_first_due))

    @property
    def open(self) -> tuple[Recheck, ...]:
        """Those that nobody has looked at, what falls due first before the others."""
        return tuple(sorted((r for r in self.rechecks if r.open), key=_first_due))

    @property
    def done(self) -> tuple[Recheck, ...]:
        """Those that were looked at, the latest first."""
        done = [(r.done.day, r) for r in self.rechecks if r.done is not None]
        return tuple(r for _, r in sorted(done, key=lambda told: told[0], reverse=True))

    def of_sheet(self, name: str) -> tuple[Recheck, ...]:
        """Those that one sheet asks for or tells to be done."""
        return self._by_sheet.get(name, ())

    @cached_property
    def _by_sheet(self) -> dict[str, tuple[Recheck, ...]]:
        return grouped_by_each(self.rechecks, _told_in)


def _told_in(recheck: Recheck) -> tuple[str, ...]:
    return (recheck.asked_in, recheck.done.sheet) if recheck.done else (recheck.asked_in,)


def _first_due(recheck: Recheck) -> tuple[date, Decimal]:
    return recheck.due_on or date.max, recheck.due_at or Decimal("Infinity")


def fold_rechecks(car: CarFile, *, exchanged: Iterable[tuple[date, str]] = ()) -> Rechecks:
    """Follow every re-check through the sheets in order.

    `exchanged` are the days, with their sheets, on which another odometer went in.
    """
    told: dict[str, list[Recheck]] = {}
    problems: list[Problem] = []
    for sheet in car.sheets:
        for name, line in sheet.front.rechecks:
            turns, problem = _step(car, sheet, name, line, told)
            told[name] = turns
            problems += [problem] if problem else []
    readings = tuple(_readings(car))
    days = tuple(day for day, _ in exchanged)
    asked = sorted((r for turns in told.values() for r in turns), key=lambda r: r.asked)
    reckoned = tuple(_reckoned(car, recheck, readings, days) for recheck in asked)
    return Rechecks(car.car.odometer, reckoned, tuple(problems))


def _step(
    car: CarFile, sheet: Sheet, name: str, line: RecheckLine, told: dict[str, list[Recheck]]
) -> tuple[list[Recheck], Problem | None]:
    """The turns of a name after one line: ticked, asked for, or both."""
    turns = told.get(name, [])
    last = turns[-1] if turns else None
    if line.done is not None:
        if last is None:
            return [], None if _may_be_asked(car, sheet, name) else _unknown(sheet, name, told)
        if not last.open:
            return turns, _twice(sheet, name, last)
        done = Done(sheet.date, sheet.name, line.done, line.by, None)
        turns = [*turns[:-1], replace(last, done=done)]
    elif last is not None and last.open and line.after is not None:
        return turns, _asked_already(sheet, name, last)
    if line.after is not None:
        return [*turns, _asked(sheet, name, line, last)], None
    return turns, None if line.done is not None else _when(sheet, name, last)


def _asked(sheet: Sheet, name: str, line: RecheckLine, last: Recheck | None) -> Recheck:
    """A re-check as a line asks for it; what it leaves out is as it was the time before."""
    assert line.after is not None
    on = line.on or (last.on if last else ())
    return Recheck(
        name,
        line.what or (last.what if last else title_of(name)),
        on,
        on[0].split("/")[0] if on else last.subsystem if last else sheet.front.subsystem[0],
        line.after,
        line.value or (last.value if last else None),
        sheet.date,
        sheet.name,
        last.turn + 1 if last else 1,
    )


def _readings(car: CarFile) -> Iterator[At]:
    for sheet in car.sheets:
        if sheet.front.odometer is not None:
            yield At(sheet.front.odometer, sheet.date, sheet.name)


def _latest(readings: Sequence[At], day: date) -> At | None:
    """The last reading taken up to a day."""
    return next((at for at in reversed(readings) if at.day <= day), None)


def _reckoned(
    car: CarFile, recheck: Recheck, readings: Sequence[At], exchanged: Sequence[date]
) -> Recheck:
    """A re-check with what it counts from and when it falls due."""
    done = recheck.done
    if done is not None:
        done = done._replace(reading=_latest(readings, done.day))
    latest = done.reading if done else (readings[-1] if readings else None)
    recheck = replace(recheck, done=done, reading=latest)
    start = _start(car, recheck)
    if start is None:
        return recheck
    time, distance = recheck.after.time, recheck.after.distance
    recheck = replace(
        recheck,
        start=start,
        start_at=_latest(readings, start),
        due_on=day_after(start, time) if time else None,
    )
    if distance is None or recheck.start_at is None:
        return recheck
    begun, until = recheck.start_at, done.day if done else date.max
    other = min((day for day in exchanged if begun.day < day <= until), default=None)
    if other is not None:
        return replace(recheck, exchanged=other)
    return replace(recheck, due_at=begun.value + distance_in(distance, car.car.odometer))


def _start(car: CarFile, recheck: Recheck) -> date | None:
    """The day from which it counts; None while that of delivery is not known.

    What was looked at while the car was still in the workshop counts from its own sheet.
    """
    delivered, done = car.car.delivered, recheck.done
    if done is not None and (delivered is None or done.day < delivered):
        return recheck.asked
    return max(delivered, recheck.asked) if delivered else None


def _may_be_asked(car: CarFile, sheet: Sheet, name: str) -> bool:
    """Whether it was perhaps asked for in what cannot be read: that mistake is told there."""
    others = (other for other in car.sheets if other.name != sheet.name)
    return bool(car.unread) or any(("rechecks", name) in s.source.marks for s in others)


def _unknown(sheet: Sheet, name: str, told: dict[str, list[Recheck]]) -> Problem:
    meant = nearest(name, [n for n, turns in told.items() if turns and turns[-1].open])
    way = f"write {meant}" if meant else "ask for it first with after: and when it is due"
    return problem_at(
        sheet.source, ("rechecks", name), "unknown-recheck",
        f'no re-check "{name}" was asked for before this day', help=way,
    )  # fmt: skip


def _twice(sheet: Sheet, name: str, last: Recheck) -> Problem:
    return problem_at(
        sheet.source, ("rechecks", name), "recheck-done-twice", f'the re-check "{name}" was done before',
        help="take the line out, or ask for it again with after:",
        note=f"it was done in {last.done.sheet}" if last.done else None,
    )  # fmt: skip


def _asked_already(sheet: Sheet, name: str, last: Recheck) -> Problem:
    return problem_at(
        sheet.source, ("rechecks", name), "recheck-asked-twice",
        f'the re-check "{name}" is asked for already',
        help="write done: with what was found, or give the new one a name of its own",
        note=f"it was asked for in {last.asked_in}",
    )  # fmt: skip


def _when(sheet: Sheet, name: str, last: Recheck | None) -> Problem | None:
    """A line that says neither; None when what it says could not be read, which is told there."""
    written = sheet.source.marks
    if any(("rechecks", name, key) in written for key in ("after", "done")):
        return None
    way = (
        "add done: and what was found" if last and last.open else "add after: 500 miles or 6 weeks"
    )
    field = "done" if last and last.open else "after"
    return problem_at(
        sheet.source, ("rechecks", name), "missing-key", f"{field} of {name} is missing", help=way
    )

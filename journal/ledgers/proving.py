"""Proving: what every safety-critical subsystem is asked for, what is recorded, what is missing.

Hears `proving` and `work` in sheets, the register, and the workshop's own proofs; ignores all else.
What it calls missing stops the handover. It says what the record holds and never that a car is safe.
"""

from bisect import bisect_right
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from enum import StrEnum
from functools import cached_property
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from journal.records.carfile import CarFile
from journal.records.problem import Problem, problem_at
from journal.records.sections import Proof
from journal.records.sheet import Sheet
from journal.words.groups import grouped
from journal.words.names import nearest
from journal.words.proving import CHANGES, LOCKED, OTHERWISE, PROVING
from journal.words.text import listed
from journal.words.vocabulary import Act


class ProofState(StrEnum):
    """How a proof stands. Only the first two let the car go."""

    PROVED = "proved"
    NOT_ASKED = "does not apply"
    INCOMPLETE = "record incomplete"
    OUT_OF_DATE = "out of date"
    FAILED = "failed"
    MISSING = "not recorded"


_LETS_GO = frozenset({ProofState.PROVED, ProofState.NOT_ASKED})


class Recorded(Struct, frozen=True):
    """A proof as one sheet recorded it.

    `by` are the hands: the one named, else those with hours on the subsystem that day without the
    second pair of eyes. `lacks` names what the record leaves out.
    """

    day: date
    sheet: str
    found: str | None
    read: tuple[Decimal, ...]
    unit: str | None
    passed: bool
    reason: str | None
    by: tuple[str, ...]
    checked: str | None
    note: str | None
    lacks: tuple[str, ...] = ()


class Overtaken(NamedTuple):
    """Work that came after a proof, so that the proof does not hold any more."""

    day: date
    sheet: str
    component: str


class ProofLine(Struct, frozen=True):
    """One proof that is asked for, with every record of it, the latest last.

    `own` marks those that the workshop added; `overtaken` is the first work on the subsystem after
    the latest record.
    """

    subsystem: str
    name: str
    label: str
    own: bool = False
    reads: bool = False
    records: tuple[Recorded, ...] = ()
    overtaken: Overtaken | None = None

    @property
    def key(self) -> str:
        """The full name, `subsystem/name`."""
        return f"{self.subsystem}/{self.name}"

    @property
    def latest(self) -> Recorded | None:
        """The record that counts."""
        return self.records[-1] if self.records else None

    @property
    def state(self) -> ProofState:
        """How it stands: what failed or is overtaken goes before what is left out."""
        latest = self.latest
        if latest is None:
            return ProofState.MISSING
        if not latest.passed:
            return ProofState.FAILED
        if self.overtaken is not None:
            return ProofState.OUT_OF_DATE
        if latest.lacks:
            return ProofState.INCOMPLETE
        return ProofState.NOT_ASKED if latest.reason else ProofState.PROVED

    @property
    def holds(self) -> bool:
        """Whether it stops the handover."""
        return self.state not in _LETS_GO


class Proving(Struct, frozen=True, dict=True):
    """Every proof that is asked for, by subsystem in the order of the trade.

    `unlocked` are components whose latest fitting tells of no locking, where the locking of every
    fastener is asked for.
    """

    lines: tuple[ProofLine, ...] = ()
    unlocked: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()

    @property
    def holds(self) -> tuple[ProofLine, ...]:
        """Proofs that stop the handover."""
        return tuple(line for line in self.lines if line.holds)

    @property
    def subsystems(self) -> tuple[str, ...]:
        """The subsystems that proofs are asked of."""
        return tuple(dict.fromkeys(line.subsystem for line in self.lines))

    def of(self, subsystem: str) -> tuple[ProofLine, ...]:
        """The list of a subsystem."""
        return tuple(line for line in self.lines if line.subsystem == subsystem)

    def of_sheet(self, name: str) -> tuple[tuple[ProofLine, Recorded], ...]:
        """What one sheet recorded, by the lists."""
        return self._by_sheet.get(name, ())

    @cached_property
    def _by_sheet(self) -> dict[str, tuple[tuple[ProofLine, Recorded], ...]]:
        told = ((line, record) for line in self.lines for record in line.records)
        return grouped(told, lambda pair: pair[1].sheet)


def fold_proving(car: CarFile) -> Proving:
    """The lists of every subsystem that the register or a sheet tells of, with their records."""
    asked = {line.key: line for line in _asked(car)}
    told, problems = _records(car, asked)
    changes = grouped(sorted(_changes(car)), lambda change: change.component.split("/")[0])
    lines = [
        _with(line, told.get(key, ()), changes.get(line.subsystem, ()))
        for key, line in asked.items()
    ]
    locking = {line.subsystem for line in lines if line.name == LOCKED}
    return Proving(tuple(lines), _unlocked(car, locking), tuple(problems))


def _with(
    line: ProofLine, records: tuple[Recorded, ...], changes: tuple[Overtaken, ...]
) -> ProofLine:
    """A line with its records; `changes` are those of its subsystem, in order of days."""
    if not records:
        return line
    if records[-1].reason:
        # What the car does not have is not there after later work either.
        return replace(line, records=records)
    # Work of the same day does not count: a proof closes the day on which it is written.
    after = bisect_right(changes, records[-1].day, key=lambda change: change.day)
    return replace(line, records=records, overtaken=next(iter(changes[after:]), None))


def _asked(car: CarFile) -> Iterator[ProofLine]:
    """The trade's list of each subsystem, then what the workshop adds to it."""
    known = car.workshop.all_subsystems()
    met = {c.subsystem for c in car.register.components}
    for sheet in car.sheets:
        met |= {key.split("/")[0] for key, _ in sheet.front.work}
        met |= {*sheet.front.subsystem} | {
            key.split("/")[0] for key in sheet.front.proving.names() if "/" in key
        }
    for subsystem, branch in known.items():
        if subsystem not in met:
            continue
        usual = PROVING.get(subsystem, OTHERWISE if branch.safety else ())
        for asked in usual:
            yield ProofLine(subsystem, asked.name, asked.label, reads=asked.reads)
        for key, own in car.workshop.proving:
            place, _, name = key.partition("/")
            if place == subsystem and name and name not in [asked.name for asked in usual]:
                yield ProofLine(subsystem, name, own.label, own=True)


def _records(
    car: CarFile, asked: dict[str, ProofLine]
) -> tuple[dict[str, tuple[Recorded, ...]], list[Problem]]:
    told: dict[str, tuple[Recorded, ...]] = {}
    problems: list[Problem] = []
    for sheet in car.sheets:
        for name, proof in sheet.front.proving:
            meant = _meant(sheet, name, asked)
            if proof.says_both:
                # A check tells of it; until it is mended, the proof stands as not recorded.
                continue
            if len(meant) == 1:
                record = _record(car, sheet, asked[meant[0]], proof)
                told[meant[0]] = (*told.get(meant[0], ()), record)
            else:
                problems.append(_not_one(sheet, name, meant, asked))
    return told, problems


def _meant(sheet: Sheet, name: str, asked: dict[str, ProofLine]) -> tuple[str, ...]:
    """The proofs that a name may mean: a full name its own, a short one those of the sheet."""
    keys = (name,) if "/" in name else tuple(f"{s}/{name}" for s in sheet.front.subsystem)
    return tuple(key for key in dict.fromkeys(keys) if key in asked)


def _not_one(
    sheet: Sheet, name: str, meant: tuple[str, ...], asked: dict[str, ProofLine]
) -> Problem:
    loc = ("proving", name)
    if meant:
        return problem_at(
            sheet.source, loc, "whose-proof",
            f'the proof "{name}" is asked of {listed([key.split("/")[0] for key in meant])}',
            help=f"write {listed(meant, 'or')}, a line for each that was proved",
        )  # fmt: skip
    near = nearest(name, asked)
    way = f"write {near}" if near else "name one of the list"
    return problem_at(
        sheet.source, loc, "unknown-proof", f'no proof "{name}" is asked for',
        help=f"{way}, or add it under proving: in workshop.yaml",
    )  # fmt: skip


def _record(car: CarFile, sheet: Sheet, line: ProofLine, proof: Proof) -> Recorded:
    hands = (proof.by,) if proof.by else car.hands_on(sheet, line.subsystem)
    by = tuple(hand for hand in hands if hand != proof.checked) or hands
    return Recorded(
        sheet.date, sheet.name, proof.found, proof.read, proof.unit, proof.passed,
        proof.does_not_apply, by, proof.checked, proof.note, tuple(_lacks(car, line, proof, by)),
    )  # fmt: skip


def _lacks(car: CarFile, line: ProofLine, proof: Proof, by: tuple[str, ...]) -> Iterator[str]:
    """What the record leaves out. Where hands are not named at all, none is missed."""
    if not proof.does_not_apply:
        if line.reads and not proof.read:
            yield "the reading"
        elif not proof.read and not proof.found:
            yield "what was found"
        if proof.read and not proof.unit:
            yield "the unit of the reading"
    if len(car.workshop.hands):
        if not by:
            yield "by whom"
        if not proof.checked:
            yield "a second pair of eyes"
        elif by == (proof.checked,):
            yield "eyes other than those of the hand that did it"


def _changes(car: CarFile) -> Iterator[Overtaken]:
    """Every change of a component, as what may overtake a proof."""
    for sheet in car.sheets:
        for key, work in sheet.front.work:
            if CHANGES & {*work.did} or work.now or work.stand_in:
                yield Overtaken(min(work.since or sheet.date, sheet.date), sheet.name, key)


def _unlocked(car: CarFile, subsystems: set[str]) -> tuple[str, ...]:
    """Components whose latest fitting says nothing of how their fasteners are locked."""
    locked: dict[str, bool] = {}
    for sheet in car.sheets:
        for key, work in sheet.front.work:
            if Act.FITTED in work.did:
                locked[key] = bool(work.locking)
            elif key in locked and work.locking:
                locked[key] = True
    return tuple(c.key for c in car.register.components
                 if c.subsystem in subsystems and locked.get(c.key) is False)  # fmt: skip

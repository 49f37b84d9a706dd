"""Snags: what is open, since when, what stops the handover, and how the rest was cleared.

Hears `snags` in sheets, stand-ins and trial fits in `work`, and `outwork` that takes a thing away
again; ignores all else.
"""

from datetime import date
from enum import StrEnum
from functools import cached_property
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from journal.records.carfile import CarFile
from journal.records.problem import Problem, problem_at
from journal.records.sections import SnagLine
from journal.records.sheet import Sheet
from journal.records.work import Work
from journal.words.names import nearest
from journal.words.vocabulary import EFFECT, Act, Position


class SnagKind(StrEnum):
    """Where a snag comes from: a person, or a thing that is in its place only for now."""

    RAISED = "raised"
    STAND_IN = "stand-in"
    TRIAL_FIT = "trial fit"


class PutOff(NamedTuple):
    """A snag put off, with the reason."""

    day: date
    sheet: str
    why: str


class Snag(Struct, frozen=True):
    """One snag from raising to clearing.

    `asks` names the one whose word is wanted, `owner` for the owner. `put_off` tells of every time
    that it was put off, and `deferred` the latest reason. `cleared` is absent while it is open;
    `how` and `by` tell of the clearing.
    """

    name: str
    text: str
    raised: date
    raised_in: str
    subsystem: str
    hold: bool = False
    on: str | None = None
    asks: str | None = None
    put_off: tuple[PutOff, ...] = ()
    cleared: date | None = None
    cleared_in: str | None = None
    how: str | None = None
    by: str | None = None
    kind: SnagKind = SnagKind.RAISED

    @property
    def open(self) -> bool:
        """Whether it still wants doing."""
        return self.cleared is None

    @property
    def deferred(self) -> str | None:
        """The latest reason for which it was put off, or None."""
        return self.put_off[-1].why if self.put_off else None

    def age(self, day: date) -> int:
        """Days from raising to clearing, or to `day` while it is open."""
        return ((self.cleared or day) - self.raised).days


class Snags(Struct, frozen=True, dict=True):
    """All snags in the order raised."""

    snags: tuple[Snag, ...] = ()
    problems: tuple[Problem, ...] = ()

    @property
    def open(self) -> tuple[Snag, ...]:
        """Open snags: holds first, then the oldest."""
        return tuple(sorted((s for s in self.snags if s.open), key=lambda s: not s.hold))

    @property
    def cleared(self) -> tuple[Snag, ...]:
        """Cleared snags, the latest first."""
        done = [s for s in self.snags if s.cleared is not None]
        return tuple(sorted(done, key=lambda s: s.cleared or date.min, reverse=True))

    @property
    def holds(self) -> tuple[Snag, ...]:
        """Open snags that stop the handover."""
        return tuple(s for s in self.open if s.hold)

    def named(self, name: str) -> Snag | None:
        """The snag of a name, or None."""
        return self._by_name.get(name)

    @cached_property
    def _by_name(self) -> dict[str, Snag]:
        return {snag.name: snag for snag in self.snags}


def fold_snags(car: CarFile) -> Snags:
    """Follow every snag through the sheets in order.

    A stand-in is a snag with a hold by itself: it is not the car's, and must not leave with it. A
    trial fit is open by itself without a hold, since it is a step on the way; but what is only
    tried in place is neither tightened nor locked, so on a safety-critical component it holds.
    Both end when the item is fitted, or off the car again.
    """
    snags: dict[str, Snag] = {}
    problems: list[Problem] = []
    lots: dict[str, tuple[str, ...]] = {}
    for sheet in car.sheets:
        for key, work in sheet.front.work:
            _for_now(car, sheet, key, work, snags)
        for lot, line in sheet.front.outwork:
            lots[lot] = line.of or lots.get(lot, ())
            for key in lots[lot] if line.sent else ():
                _end(sheet, f"trial-fit {key}", "sent out for work", snags)
        for name, written in sheet.front.snags:
            snag, problem = _step(sheet, name, written, snags)
            if snag is not None:
                snags[name] = snag
            if problem is not None and not car.unread:
                # A sheet that cannot be read may have raised or cleared it.
                problems.append(problem)
    return Snags(tuple(snags.values()), tuple(problems))


def _for_now(car: CarFile, sheet: Sheet, key: str, work: Work, snags: dict[str, Snag]) -> None:
    """Stand-ins and trial fits that a line of work begins or ends, by where it leaves the item."""
    stand_in, trial = f"stand-in {key}", f"trial-fit {key}"
    moves = [effect.position for act in work.did if (effect := EFFECT[act]).position]
    if work.stand_in:
        text = f"Stand-in to come out: {work.stand_in}"
        _begin(Snag(
            stand_in, text, sheet.date, sheet.name, key.split("/")[0], True, key,
            kind=SnagKind.STAND_IN,
        ), snags)  # fmt: skip
        _end(sheet, trial, "off again, with a stand-in in its place", snags)
    elif moves and moves[-1] is Position.TRIAL:
        text = f"Tried in place, to be fitted: {_label(car, key)}"
        _begin(Snag(
            trial, text, sheet.date, sheet.name, key.split("/")[0], car.critical(key), key,
            kind=SnagKind.TRIAL_FIT,
        ), snags)  # fmt: skip
    elif Act.FITTED in work.did or (work.now and not work.did):
        for name in (stand_in, trial):
            _end(sheet, name, "the item itself is fitted", snags)
    elif moves and moves[-1] is Position.OFF:
        _end(sheet, trial, "taken off again", snags)
        if Act.REMOVED in work.did:
            # Other work may be on the item itself, on the bench, while the stand-in stays in.
            _end(sheet, stand_in, "taken off again", snags)


def _label(car: CarFile, key: str) -> str:
    known = car.component(key)
    return known.label if known else key


def _begin(snag: Snag, snags: dict[str, Snag]) -> None:
    """Open a snag; one that is open already keeps the day from which the place has waited."""
    held = snags.get(snag.name)
    if held is not None and held.open:
        snag = replace(held, text=snag.text, hold=snag.hold)
    snags[snag.name] = snag


def _end(sheet: Sheet, name: str, how: str, snags: dict[str, Snag]) -> None:
    held = snags.get(name)
    if held is not None and held.open:
        snags[name] = replace(held, cleared=sheet.date, cleared_in=sheet.name, how=how)


def _step(
    sheet: Sheet, name: str, line: SnagLine, snags: dict[str, Snag]
) -> tuple[Snag | None, Problem | None]:
    known = snags.get(name)
    if known is None and line.raise_ is None:
        return None, _unknown(sheet, name, snags)
    if known is not None and line.raise_ is not None and known.open:
        return None, problem_at(
            sheet.source, ("snags", name), "snag-raised-twice", f'the snag "{name}" is open already',
            help="write clear: with how it was cleared, or give the new snag a name of its own",
            note=f"it was raised in {known.raised_in}",
        )  # fmt: skip
    if known is not None and not known.open and line.raise_ is None:
        return None, problem_at(
            sheet.source, ("snags", name), "snag-cleared-twice", f'the snag "{name}" was cleared before',
            help="take the line out, or raise it again with raise:",
            note=f"it was cleared in {known.cleared_in}",
        )  # fmt: skip
    if line.raise_ is not None:
        known = Snag(
            name, line.raise_, sheet.date, sheet.name, _subsystem(sheet, line),
            line.hold, line.on, line.ask,
        )  # fmt: skip
    assert known is not None
    if line.defer is not None:
        put_off = (*known.put_off, PutOff(sheet.date, sheet.name, line.defer))
        known = replace(known, put_off=put_off)
    if line.clear is not None:
        known = replace(
            known, cleared=sheet.date, cleared_in=sheet.name, how=line.clear, by=line.by
        )
    return known, None


def _subsystem(sheet: Sheet, line: SnagLine) -> str:
    return line.on.split("/")[0] if line.on else sheet.front.subsystem[0]


def _unknown(sheet: Sheet, name: str, snags: dict[str, Snag]) -> Problem:
    open_names = [n for n, s in snags.items() if s.open]
    meant = nearest(name, open_names)
    way = f"write {meant}" if meant else "raise it first with raise: and what is open"
    return problem_at(
        sheet.source, ("snags", name), "unknown-snag", f'no snag "{name}" was raised before this day',
        help=way,
    )  # fmt: skip

"""Snags: what is open, since when, what stops the handover, and how the rest was cleared.

Hears `snags` in sheets, and stand-ins in `work`; ignores all else.
"""

from dataclasses import dataclass, replace
from datetime import date

from journal.records.carfile import CarFile
from journal.records.problem import Problem, problem_at
from journal.records.sheet import Sheet, SnagLine
from journal.words.names import nearest
from journal.words.vocabulary import Act


@dataclass(frozen=True)
class Snag:
    """One snag from raising to clearing.

    `asks` names the one whose word is wanted, `owner` for the owner. `deferred` is the reason
    when it was put off. `cleared` is absent while it is open; `how` and `by` tell of the clearing.
    """

    name: str
    text: str
    raised: date
    raised_in: str
    subsystem: str
    hold: bool = False
    on: str | None = None
    asks: str | None = None
    deferred: str | None = None
    cleared: date | None = None
    cleared_in: str | None = None
    how: str | None = None
    by: str | None = None

    @property
    def open(self) -> bool:
        """Whether it still wants doing."""
        return self.cleared is None

    def age(self, day: date) -> int:
        """Days from raising to clearing, or to `day` while it is open."""
        return ((self.cleared or day) - self.raised).days


@dataclass(frozen=True)
class Snags:
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


def fold_snags(car: CarFile) -> Snags:
    """Follow every snag through the sheets in order; a stand-in is a snag with a hold by itself."""
    snags: dict[str, Snag] = {}
    problems: list[Problem] = []
    for sheet in car.sheets:
        _stand_ins(sheet, snags)
        for name, line in sheet.front.snags:
            snag, problem = _step(sheet, name, line, snags)
            if snag is not None:
                snags[name] = snag
            if problem is not None and not car.unread:
                # A sheet that cannot be read may have raised or cleared it.
                problems.append(problem)
    return Snags(tuple(snags.values()), tuple(problems))


def _stand_ins(sheet: Sheet, snags: dict[str, Snag]) -> None:
    for key, work in sheet.front.work:
        name = f"stand-in {key}"
        held = snags.get(name)
        if work.stand_in:
            text = f"Stand-in to come out: {work.stand_in}"
            snags[name] = Snag(
                name, text, sheet.date, sheet.name, key.split("/")[0], hold=True, on=key
            )
        elif held and held.open and Act.FITTED in work.did:
            snags[name] = replace(
                held, cleared=sheet.date, cleared_in=sheet.name, how="the item itself is fitted"
            )


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
        known = replace(known, deferred=line.defer)
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

"""What a new sheet may start from: what is open, what is awaited, and what was worked on last."""

from collections import Counter
from datetime import date

from msgspec import Struct

from journal.digests.waiting import Awaited, Kind, digest_waiting
from journal.ledgers.decisions import fold_decisions
from journal.ledgers.outwork import fold_outwork
from journal.ledgers.parts import fold_parts
from journal.ledgers.snags import Snag, fold_snags
from journal.records.carfile import CarFile
from journal.records.sheet import Sheet

# As many sheets tell what is in hand; what was worked on before that is looked up in the register.
_LATELY = 20
_MOST_COMPONENTS = 6


class Proposal(Struct, frozen=True):
    """What a sheet of a day on one subsystem may take up. Nothing of it is claimed to have happened.

    `subsystem` is empty for a car without sheets of which none was said; `hand` is empty where nobody
    can tell. `snags` are those open on the subsystem, holds first; `waiting` are its orders and its
    outwork, what hurts most first. `components` are those worked on lately, the latest first, and
    `subsystems` all there are, those worked on most lately first.
    """

    day: date
    subsystem: str
    hand: str
    snags: tuple[Snag, ...] = ()
    waiting: tuple[Awaited, ...] = ()
    components: tuple[str, ...] = ()
    subsystems: tuple[str, ...] = ()

    @property
    def last(self) -> str | None:
        """The component that a picture most likely shows: the one worked on last."""
        return self.components[0] if self.components else None


def propose(car: CarFile, day: date, subsystem: str | None = None, hand: str = "") -> Proposal:
    """What is open and awaited on a day. Without a subsystem it is that of the last sheet; without a
    hand that of the only one who works here."""
    then = car.as_of(day)
    branch = subsystem or (then.sheets[-1].front.subsystem[0] if then.sheets else "")
    hands = car.workshop.hands.names()
    snags = fold_snags(then)
    waiting = digest_waiting(
        then, parts=fold_parts(then), outwork=fold_outwork(then), decisions=fold_decisions(then),
        snags=snags, day=day,
    )  # fmt: skip
    return Proposal(
        day,
        branch,
        hand or (hands[0] if len(hands) == 1 else ""),
        tuple(snag for snag in snags.open if snag.subsystem == branch),
        tuple(i for i in waiting.of(Kind.ORDER, Kind.OUTWORK) if branch in i.subsystems),
        _components(then.sheets, branch),
        _subsystems(then),
    )


def _components(sheets: tuple[Sheet, ...], branch: str) -> tuple[str, ...]:
    lately = [sheet for sheet in sheets if branch in sheet.front.subsystem][-_LATELY:]
    keys = (
        key
        for sheet in reversed(lately)
        for key in reversed(sheet.front.work.names())
        if key.split("/")[0] == branch
    )
    return tuple(dict.fromkeys(keys))[:_MOST_COMPONENTS]


def _subsystems(car: CarFile) -> tuple[str, ...]:
    used = Counter(name for sheet in car.sheets[-_LATELY:] for name in sheet.front.subsystem)
    known = car.workshop.all_subsystems()
    return tuple(sorted(known, key=lambda name: -used[name]))

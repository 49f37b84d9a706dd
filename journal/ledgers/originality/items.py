"""Items: what is or was in a place on the car, and how its shares of material and conformity count."""

from datetime import date
from typing import NamedTuple

from msgspec import Struct

from journal.records.work import Decided, Work
from journal.words.amounts import NOTHING, OPEN, WHOLE, Interval
from journal.words.vocabulary import CONFORMITY, Act, Fate, Origin, Treatment


class Item(Struct, frozen=True):
    """One physical item.

    `retained` is the share of original material in it and counts for first-fit items only;
    `conforms` a stated conformity, absent when the usual one for the origin holds. `since` and
    `sheet` tell when it took its place; both are absent for the item that was found there.
    `kept` is where it lies once it is off; `fate` what became of it when it was not kept.
    """

    origin: Origin
    retained: Interval = WHOLE
    conforms: Interval | None = None
    conforms_why: str | None = None
    since: date | None = None
    sheet: str | None = None
    treatments: tuple[Treatment, ...] = ()
    kept: str | None = None
    fate: Fate | None = None
    part: str | None = None

    @property
    def material(self) -> Interval:
        """r of the ledger: the car's own material in this item."""
        if self.fate is not None:
            return NOTHING
        if self.origin is Origin.FIRST_FIT:
            return self.retained
        return OPEN if self.origin is Origin.UNKNOWN else NOTHING

    @property
    def conformity(self) -> Interval:
        """c of the ledger: how far this item conforms to the works specification."""
        if self.fate is not None:
            return NOTHING
        if self.conforms is not None:
            return self.conforms
        usual = CONFORMITY[self.origin]
        return OPEN if usual is None else Interval(usual, usual)

    @property
    def gone(self) -> bool:
        """Whether nothing of the item is left in the workshop."""
        return self.fate is not None

    @property
    def departs(self) -> bool:
        """Whether the item is known to depart from the works specification."""
        return self.conformity.high < 1


class Displacement(Struct, frozen=True):
    """An item that came off to make place for another: why, who decided, and the way back.

    `reversible` is absent when the sheet does not say; then it does not count as reversible.
    `usable` is false when the item is kept as a witness only and must not go back into use.
    """

    item: Item
    day: date
    sheet: str
    why: str | None = None
    decided: Decided | None = None
    reversible: bool | None = None
    undo: str | None = None
    usable: bool = True

    @property
    def recoverable(self) -> bool:
        """Whether the item can be put back: the change is reversible, the item kept and usable."""
        kept = not self.item.gone and self.item.kept is not None
        return self.reversible is True and kept and self.usable


class Link(NamedTuple):
    """One piece of evidence: `kind` is photo, paper, number or words; `ref` names it; `sheet`
    the sheet it came with, absent for the register."""

    kind: str
    ref: str
    sheet: str | None
    day: date | None


class Entry(Struct, frozen=True):
    """One line of a component's biography.

    `day` is when it was true, `told` when it was written down; they differ for a line told
    later. `before` and `after` are origins, given when the item changed.
    """

    day: date
    told: date
    sheet: str
    work: Work
    before: Origin | None = None
    after: Origin | None = None

    @property
    def acts(self) -> tuple[Act, ...]:
        """What was done."""
        return self.work.did


class Learned(NamedTuple):
    """What a sheet taught about the state as found."""

    day: date
    sheet: str
    before: Origin


class Contradiction(NamedTuple):
    """Two statements that cannot both hold.

    `code` names the kind; `says` tells the contradiction in a sentence; `against` names the
    sheet that says otherwise, absent for the register. `disputes` marks one that throws doubt on
    what the item there now is.
    """

    component: str
    day: date
    sheet: str
    code: str
    says: str
    against: str | None = None
    disputes: bool = False


class StandIn(NamedTuple):
    """Something in place only for now."""

    what: str
    day: date
    sheet: str

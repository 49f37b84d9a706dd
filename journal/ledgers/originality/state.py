"""The state of one component while its biography is folded."""

from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from journal.ledgers.originality.items import (
    Contradiction,
    Displacement,
    Entry,
    Item,
    Learned,
    Link,
    StandIn,
)
from journal.records.register import Component
from journal.words.vocabulary import Origin, Position


class State(Struct, frozen=True):
    """A component between two lines of its biography. `displaced` is a stack, latest last."""

    component: Component
    as_found: Item
    now: Item
    position: Position = Position.ON
    moved_in: str | None = None
    learned: tuple[Learned, ...] = ()
    displaced: tuple[Displacement, ...] = ()
    links: tuple[Link, ...] = ()
    biography: tuple[Entry, ...] = ()
    contradictions: tuple[Contradiction, ...] = ()
    stand_in: StandIn | None = None

    @property
    def first_fit_off(self) -> Displacement | None:
        """The displaced item that the works fitted, when it came off and stays off.

        Should two be said to be that, it is the one that came off last.
        """
        off = (d for d in reversed(self.displaced) if d.item.origin is Origin.FIRST_FIT)
        return next(off, None)


def as_found(component: Component) -> State:
    """The state at booking in, as the register has it."""
    line = component.line
    item = Item(line.as_found, component.retained, line.conforms, line.condition)
    position = Position.OFF if line.as_found is Origin.ABSENT else Position.ON
    return State(component, item, item, position)


class Moment(Struct, frozen=True):
    """When a line was true, when it was told, in which sheet, and whether the sheet corrects another."""

    day: date
    told: date
    sheet: str
    corrects: bool


def contradicted(
    state: State,
    at: Moment,
    code: str,
    says: str,
    *,
    against: str | None = None,
    disputes: bool = False,
) -> State:
    """The state with one more contradiction on record."""
    found = Contradiction(state.component.key, at.told, at.sheet, code, says, against, disputes)
    return replace(state, contradictions=(*state.contradictions, found))


def recovered(state: State) -> Item:
    """The item that is there once every reversible change is undone, the latest first.

    A change counts when it is said to be reversible and the item that came off is kept.
    """
    item = state.now
    for displacement in reversed(state.displaced):
        if not displacement.recoverable:
            break
        item = displacement.item
    return item

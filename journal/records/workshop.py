"""`workshop.yaml`: the workshop itself, its hands, its suppliers and its ways."""

from typing import Annotated

from pydantic import BeforeValidator

from journal.records.fields import (
    Amount,
    Named,
    Text,
    Written,
    Yes,
    one_of,
    short_form,
    vocabulary_schema,
)
from journal.words.names import title_of
from journal.words.vocabulary import SUBSYSTEMS, Sides, Subsystem


class Hand(Written):
    """One who works here, under the initials that sheets use.

    `rate` is the price of an hour in the workshop's currency; absent when it is not charged.
    """

    name: Text
    rate: Amount | None = None


class Supplier(Written):
    """One who sells parts or takes in work. `shown` lets the owner see the name."""

    name: Text
    does: Text | None = None
    shown: Yes = True


class OwnSubsystem(Written):
    """A branch that this workshop adds; `safety` marks one whose failure can hurt someone."""

    label: Text
    safety: Yes = False


class Workshop(Written):
    """The workshop: name, address lines, hands by initials, suppliers by short name, currency
    (ISO 4217), rate of tax in percent, how sides are named, and subsystems of its own."""

    name: Text
    address: Text | None = None
    hands: Named[Annotated[Hand, short_form("name")]]
    suppliers: Named[Annotated[Supplier, short_form("name")]] = Named()
    currency: Text = "GBP"
    tax: Amount | None = None
    sides: Annotated[Sides, BeforeValidator(one_of(Sides)), vocabulary_schema(Sides)] = (
        Sides.NEAR_OFF
    )
    subsystems: Named[Annotated[OwnSubsystem, short_form("label")]] = Named()

    def all_subsystems(self) -> dict[str, Subsystem]:
        """The subsystems of the trade with the workshop's own after them, by name, in order."""
        own = {name: Subsystem(s.label, s.safety) for name, s in self.subsystems}
        return {**SUBSYSTEMS, **own}


def subsystem_label(workshop: Workshop, name: str) -> str:
    """What a subsystem is called on a page."""
    known = workshop.all_subsystems().get(name)
    return known.label if known else title_of(name)

"""`workshop.yaml`: the workshop itself, its hands, its suppliers and its ways."""

from datetime import date
from decimal import Decimal
from typing import Annotated

from pydantic import BeforeValidator, WithJsonSchema

from journal.records.fields import (
    Amount,
    Currency,
    Day,
    Named,
    Text,
    Written,
    Yes,
    as_list,
    one_of,
    refuse,
    short_form,
    vocabulary_schema,
)
from journal.words.dates import parse_date
from journal.words.names import title_of
from journal.words.vocabulary import SUBSYSTEMS, Subsystem, TaxBy, TaxRounding, Weekday

# A rate told without a day holds from before any day that is written; messages leave it out.
_ALWAYS = ""


_RATE_SCHEMA = {
    "anyOf": [
        {"type": ["number", "string"]},
        {"type": "object", "additionalProperties": {"type": ["number", "string"]}},
    ]
}


def _rates(value: object) -> object:
    """Short form: one rate for all time. Days are checked to be days."""
    if not isinstance(value, dict):
        return {_ALWAYS: value}
    for day in value:
        try:
            parse_date(str(day))
        except ValueError:
            raise refuse(
                "bad-date", f'must be given from a day on, found "{day}"',
                help="write {2024-01-01: 54.00}",
            ) from None  # fmt: skip
    return value


class Holiday(Written):
    """A day, or days from first to last, on which nobody works."""

    from_: Day
    to: Day | None = None
    what: Text | None = None


class OwnProof(Written):
    """A proof that this workshop adds to the list of a subsystem."""

    label: Text


class Hand(Written):
    """One who works here, under the initials that sheets use.

    `rate` is the price of an hour in the workshop's currency by the day from which it holds; a
    single rate holds from the start. Empty when the hand is not charged.
    """

    name: Text
    rate: Annotated[Named[Amount], BeforeValidator(_rates), WithJsonSchema(_RATE_SCHEMA)] = Named()

    def rate_on(self, day: date) -> Decimal | None:
        """The price of an hour on a day, or None when no rate holds by then."""
        held = [(since, rate) for since, rate in self.rate if since <= day.isoformat()]
        return max(held)[1] if held else None


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
    (ISO 4217), rate of tax in percent and how it is rounded, subsystems of its
    own, working days of the week and holidays, proofs beyond the usual by
    `subsystem/name`, and the `inbox`: the folder in which pictures arrive, relative to the content
    folder or absolute; `inbox` beside the cars when absent."""

    name: Text
    address: Text | None = None
    hands: Named[Annotated[Hand, short_form("name")]]
    suppliers: Named[Annotated[Supplier, short_form("name")]] = Named()
    currency: Currency = "GBP"
    tax: Amount | None = None
    tax_by: Annotated[TaxBy, BeforeValidator(one_of(TaxBy)), vocabulary_schema(TaxBy)] = TaxBy.TOTAL
    tax_rounding: Annotated[
        TaxRounding, BeforeValidator(one_of(TaxRounding)), vocabulary_schema(TaxRounding)
    ] = TaxRounding.NEAREST
    working_days: Annotated[
        tuple[
            Annotated[Weekday, BeforeValidator(one_of(Weekday)), vocabulary_schema(Weekday)], ...
        ],
        BeforeValidator(as_list),
    ] = tuple(Weekday)[:5]
    holidays: Annotated[
        tuple[Annotated[Holiday, short_form("from")], ...], BeforeValidator(as_list)
    ] = ()
    proving: Named[Annotated[OwnProof, short_form("label")]] = Named()
    subsystems: Named[Annotated[OwnSubsystem, short_form("label")]] = Named()
    inbox: Text | None = None

    def all_subsystems(self) -> dict[str, Subsystem]:
        """The subsystems of the trade with the workshop's own after them, by name, in order."""
        own = {name: Subsystem(s.label, s.safety) for name, s in self.subsystems}
        return {**SUBSYSTEMS, **own}


def subsystem_label(workshop: Workshop, name: str) -> str:
    """What a subsystem is called on a page."""
    known = workshop.all_subsystems().get(name)
    return known.label if known else title_of(name)

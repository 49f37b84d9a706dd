"""Goods and outwork: parts from order to car, items sent away, extras agreed."""

from typing import Annotated

from pydantic import BeforeValidator

from journal.records.fields import (
    Amount,
    Count,
    Currency,
    DayOrToday,
    Text,
    Written,
    one_of,
    short_form,
    vocabulary_schema,
)
from journal.records.lists import Keys
from journal.records.papers import ReaderField
from journal.records.work import Decided
from journal.words.vocabulary import GoodsIn, Reader


class PartLine(Written):
    """What the day brought for one part. Its name carries it through later sheets.

    `qty` is how many are ordered; `got` and `sent_back` count what came and what went back on the
    day of the sheet, all of them when a date stands alone. `price`, `carriage` and `credited` are
    for the whole quantity, in `currency` (the workshop's own when absent) at the `rate` written:
    what one unit of it cost in the workshop's currency.
    """

    what: Text | None = None
    number: Text | None = None
    from_: Text | None = None
    of: Keys = ()
    qty: Count | None = None
    price: Amount | None = None
    carriage: Amount | None = None
    currency: Currency | None = None
    rate: Amount | None = None
    ordered: DayOrToday | None = None
    promised: DayOrToday | None = None
    received: DayOrToday | None = None
    got: Count | None = None
    outcome: (
        Annotated[GoodsIn, BeforeValidator(one_of(GoodsIn)), vocabulary_schema(GoodsIn)] | None
    ) = None
    why: Text | None = None
    returned: DayOrToday | None = None
    sent_back: Count | None = None
    credited: Amount | None = None
    fitted: DayOrToday | None = None
    note: Text | None = None
    for_: ReaderField = Reader.PUBLIC


class OutworkLine(Written):
    """Items sent out for work, or come back, by count, on the day of the sheet.

    `finish` and `certificate` tell what they came back as; `cost` is for the whole lot.
    """

    what: Text | None = None
    to: Text | None = None
    of: Keys = ()
    sent: Count | None = None
    back: Count | None = None
    due: DayOrToday | None = None
    cost: Amount | None = None
    finish: Text | None = None
    certificate: Text | None = None
    note: Text | None = None
    for_: ReaderField = Reader.PUBLIC


class Extra(Written):
    """Work agreed with the owner beyond the estimate: its price, or the hours it adds."""

    what: Text
    of: Keys = ()
    price: Amount | None = None
    hours: Amount | None = None
    decided: Annotated[Decided, short_form("by")]
    for_: ReaderField = Reader.KEEPER

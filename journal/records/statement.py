"""`statements/<name>.yaml`: a period of the job as it was stated to the owner, never changed after."""

from datetime import date
from decimal import Decimal

from msgspec import Struct

from journal.records.fields import Day, Named, Number, Text, Written
from journal.records.place import Source


class StatedLine(Written):
    """What one sheet was stated to come to, net of tax, in the workshop's currency.

    `on` is the day of the sheet, `hours` those charged, `uncharged` those told and not charged. A
    credit makes parts negative; in an adjustment every figure is a difference.
    """

    on: Day | None = None
    hours: Number
    uncharged: Number = Decimal(0)
    labour: Number
    parts: Number
    outwork: Number
    extras: Number

    @property
    def net(self) -> Decimal:
        """What it comes to without tax."""
        return self.labour + self.parts + self.outwork + self.extras


class StatedPayment(Written):
    """A payment as it was stated; negative when an earlier one was taken back."""

    on: Day
    amount: Number
    what: Text | None = None


class StatementFile(Written):
    """An issued statement: its period, the day of issue, and the net amounts by sheet.

    `adjusted` are the corrections to earlier periods that it carried, by sheet, `adjustments` their
    net sum, `tax` the tax on all of it, `total` what it came to, `payments` what was received.
    """

    from_: Day
    to: Day
    issued: Day
    sheets: Named[StatedLine] = Named()
    adjusted: Named[StatedLine] = Named()
    adjustments: Number
    tax: Number
    total: Number
    payments: tuple[StatedPayment, ...] = ()
    note: Text | None = None


class Statement(Struct, frozen=True):
    """An issued statement with the file it stands in. `name` is its file name without ending."""

    name: str
    source: Source
    file: StatementFile


def statement_order(statement: Statement) -> tuple[date, str]:
    """Statements are ordered by the first day of their period."""
    return (statement.file.from_, statement.name)

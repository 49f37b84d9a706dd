"""Tables of hours, money and statements."""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from fractions import Fraction

from journal.digests.money.fold import money_of
from journal.digests.statement import Stated, Statements, digest_statement, known_until
from journal.ledgers.hours import fold_hours, week_of
from journal.outputs.table import Cell, Table
from journal.records.carfile import CarFile
from journal.records.statement import StatedLine
from journal.words.amounts import plain_number
from journal.words.money import to_coin
from journal.words.text import listed


def table_hours(car: CarFile, day: date) -> Table:
    """One row a month, ISO week, subsystem, hand, kind and part that did not fit."""
    hours = fold_hours(car)
    sums: dict[tuple[str, str, str, str, str, str], Fraction] = {}
    for spent in hours.spent:
        week = "{}-W{:02d}".format(*week_of(spent.day))
        key = (
            f"{spent.day:%Y-%m}", week, spent.subsystem, spent.hand, spent.kind.value,
            spent.because or "",
        )  # fmt: skip
        sums[key] = sums.get(key, Fraction(0)) + spent.hours
    rows = tuple((*key[:5], key[5] or None, value) for key, value in sorted(sums.items()))
    kinds = [f"{plain_number(n)} {kind.value}" for kind, n in hours.by_kind().items()]
    of_which = f", {listed(kinds)}" if len(kinds) > 1 else ""
    return Table(
        ("month", "week", "subsystem", "hand", "kind", "because", "hours"), rows,
        f"{plain_number(hours.total)} hours in all{of_which}.",
    )  # fmt: skip


def table_money(car: CarFile, day: date) -> Table:
    """One row a subsystem: hours against the estimate, and net amounts."""
    money, currency = money_of(car), car.workshop.currency
    columns = (
        "subsystem", "estimate", "agreed", "hours", "not charged", "labour", "parts", "outwork",
        "extras", "net",
    )  # fmt: skip
    rows = tuple(
        (
            r.subsystem, r.estimate, r.agreed or None, r.hours, r.uncharged or None,
            *_coins(currency, r.labour, r.parts, r.outwork, r.extras, r.net),
        )
        for r in money.by_subsystem()
    )  # fmt: skip
    balance = _statements(car, day).balance
    return Table(
        columns,
        rows,
        f"{currency} {_coins(currency, money.net)[0]} before tax; "
        f"the balance is {currency} {_coins(currency, balance)[0]}.",
    )


def _statements(car: CarFile, day: date) -> Statements:
    lines = money_of(car).by_sheet()
    return digest_statement(car, lines=lines, until=known_until(car, day))


_COLUMNS = (
    "statement", "from", "to", "line", "day", "sheet", "what", "hours", "not charged", "labour",
    "parts", "outwork", "extras", "amount",
)  # fmt: skip


def table_statement(car: CarFile, day: date) -> Table:
    """Every line of every statement, issued or running. A balance above 0 is owed by the owner."""
    statements = _statements(car, day)
    rows: list[tuple[Cell, ...]] = []
    for number, stated in enumerate(statements.shown, 1):
        rows += _rows(car, stated, str(number) if stated.issued else "running")
    (balance,) = _coins(car.workshop.currency, statements.balance)
    return Table(_COLUMNS, tuple(rows), f"The balance is {car.workshop.currency} {balance}.")


def table_of(car: CarFile, stated: Stated, name: str) -> Table:
    """The lines of one statement; `name` is what its first column calls it."""
    return Table(_COLUMNS, tuple(_rows(car, stated, name)))


def table_in_short(car: CarFile, stated: Stated) -> Table:
    """The lines of one statement in the few columns that a terminal has room for."""
    short = ("line", "day", "sheet", "hours", "amount")
    places = [_COLUMNS.index(column) for column in short]
    rows = (tuple(row[n] for n in places) for row in _rows(car, stated, ""))
    currency = car.workshop.currency
    total, balance = _coins(currency, stated.total, stated.carried)
    return Table(
        short, tuple(rows), f"{currency} {total} in all; the balance is {currency} {balance}."
    )


def _rows(car: CarFile, stated: Stated, name: str) -> Iterator[tuple[Cell, ...]]:
    titles = {sheet.name: sheet.title for sheet in car.sheets}
    currency, none = car.workshop.currency, (None,) * 6
    head = (name, stated.from_, stated.to)
    for kind, lines in (("work", stated.lines), ("adjustment", stated.adjusted)):
        for sheet, line in lines:
            figures = _figures(currency, line)
            yield (*head, kind, line.on, sheet or None, titles.get(sheet), *figures)
    for kind, amount in (
        ("net", stated.net), ("tax", stated.tax), ("total", stated.total),
        ("brought forward", stated.brought),
    ):  # fmt: skip
        yield (*head, kind, None, None, None, *none, *_coins(currency, amount))
    for paid in stated.payments:
        amounts = _coins(currency, paid.amount)
        yield (*head, "payment", paid.on, None, paid.what, *none, *amounts)
    yield (*head, "balance", None, None, None, *none, *_coins(currency, stated.carried))


def _figures(currency: str, line: StatedLine) -> tuple[Cell, ...]:
    hours, told = (Fraction(n) if n else None for n in (line.hours, line.uncharged))
    amounts = (line.labour, line.parts, line.outwork, line.extras, line.net)
    return (hours, told, *_coins(currency, *amounts))


def _coins(currency: str, *amounts: Decimal) -> tuple[Decimal, ...]:
    """Amounts with all the decimals of their currency, so that columns line up."""
    return tuple(to_coin(amount, currency) for amount in amounts)

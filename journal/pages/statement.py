"""The owner's statements: one page each, and the one that runs."""

from decimal import Decimal
from functools import partial
from typing import Any

from journal.digests.statement import Stated, added
from journal.pages.common import frame, has_page
from journal.pages.links import Links, Ref
from journal.pages.page import Later, Page
from journal.pages.standing import balance_words
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import (
    Figure,
    day_words,
    decimals_in,
    exact_hours,
    hours_figure,
    money_words,
    owner_words,
    sentence,
    some,
    some_money,
)
from journal.records.statement import StatedLine
from journal.words.amounts import plain_number
from journal.words.money import tax_on
from journal.words.vocabulary import TaxBy


class StatementRow(Value, frozen=True):
    """One statement in a list of them."""

    ref: Ref
    period: str
    issued: str
    net: str
    total: str
    paid: str
    carried: str


class SheetMoney(Value, frozen=True):
    """One sheet in a statement; figures of nothing are empty."""

    ref: Ref
    day: str
    hours: Figure
    told: str
    labour: str
    parts: str
    outwork: str
    extras: str
    net: str


class Sum(Value, frozen=True):
    """One line of the reckoning at the foot; `whole` marks a sum of those above."""

    label: str
    amount: str
    whole: bool


def statement_name(view: CarView, stated: Stated) -> str:
    """The name of a statement's files: by its number, or `running` before it is issued."""
    if stated.issued is None:
        return "running"
    return f"statement-{view.statements.issued.index(stated) + 1}"


def statement_path(view: CarView, stated: Stated) -> str:
    """The page of a statement; its table lies beside it with the ending `.csv`."""
    return f"statements/{statement_name(view, stated)}.html"


def statement_title(view: CarView, stated: Stated) -> str:
    """`Statement 3`, or what the running one is called."""
    if stated.issued is None:
        return "Not stated yet"
    return f"Statement {view.statements.issued.index(stated) + 1}"


def page_statement(view: CarView) -> tuple[Page, ...]:
    """A page for each statement, for those who see money."""
    if not has_page(view.reader, "money.html"):
        return ()
    links = Links(view, "money.html")
    return tuple(
        Page(
            view.base + statement_path(view, stated), "statement.html",
            Later(partial(_values, view, links, stated)),
        )
        for stated in view.statements.shown
    )  # fmt: skip


def _values(view: CarView, start: Links, stated: Stated) -> dict[str, Any]:
    path = statement_path(view, stated)
    links = start.at(path)
    shown = view.statements.shown
    here = shown.index(stated)
    return {
        **frame(links, statement_title(view, stated)),
        **statement_values(view, links, stated),
        "csv": links.to(path.removesuffix(".html") + ".csv"),
        "money": links.to("money.html"),
        "before": _neighbour(view, links, shown[here - 1]) if here else None,
        "after": _neighbour(view, links, shown[here + 1]) if here + 1 < len(shown) else None,
    }


def statement_values(view: CarView, links: Links, stated: Stated) -> dict[str, Any]:
    """What a statement says, on a page or on paper."""
    decimals = _decimals(stated)
    lines = tuple(_line(view, links, name, line, decimals) for name, line in stated.lines)
    adjusted = tuple(_line(view, links, name, line, decimals) for name, line in stated.adjusted)
    columns = tuple(f for f in ("parts", "outwork", "extras") if _used(stated, f))
    return {
        "period": period_words(stated),
        "issued": day_words(stated.issued) if stated.issued else "",
        "to": view.car.car.owner.name,
        "address": view.car.workshop.address or "",
        "balance": balance_words(view, stated.carried, "was" if stated.issued else "is"),
        "worked": sentence(some(stated.days, "day")),
        "note": stated.note or "",
        "columns": columns,
        "lines": lines,
        "whole": _line(view, links, "", stated.work, decimals),
        "adjusted": adjusted,
        "adjusted_whole": _line(
            view, links, "", added(line for _, line in stated.adjusted), decimals
        ),
        "sums": _sums(view, stated),
    }


def _used(stated: Stated, figure: str) -> bool:
    return any(getattr(line, figure) for _, line in (*stated.lines, *stated.adjusted))


def _neighbour(view: CarView, links: Links, stated: Stated) -> Ref:
    return Ref(statement_title(view, stated), links.to(statement_path(view, stated)))


def period_words(stated: Stated) -> str:
    """`4 to 31 March 2024`, as long as both days need no more."""
    first, last = stated.from_, stated.to
    if first == last:
        return day_words(last)
    start = day_words(first)
    if first.year == last.year:
        start = start.removesuffix(f" {first.year}")
        if first.month == last.month:
            start = str(first.day)
    return f"{start} to {day_words(last)}"


def _decimals(stated: Stated) -> int:
    lines = (stated.work, *(line for _, line in (*stated.lines, *stated.adjusted)))
    return decimals_in(line.hours for line in lines)


def _line(view: CarView, links: Links, name: str, line: StatedLine, decimals: int) -> SheetMoney:
    shop = view.car.workshop
    return SheetMoney(
        links.sheet(name) if name else Ref(""),
        day_words(line.on) if line.on else "",
        hours_figure(line.hours or None, decimals),
        f"{exact_hours(line.uncharged)} not charged" if line.uncharged else "",
        some_money(shop, line.labour),
        some_money(shop, line.parts),
        some_money(shop, line.outwork),
        some_money(shop, line.extras),
        money_words(shop, line.net),
    )


def _sums(view: CarView, stated: Stated) -> tuple[Sum, ...]:
    """From the work of the period to the balance that is carried forward."""
    shop = view.car.workshop
    told: list[tuple[str, Decimal, bool]] = [("Work of the period", stated.work.net, False)]
    if stated.adjustments:
        told.append(("Adjustments to earlier periods", stated.adjustments, False))
    if stated.tax:
        told.append((_tax_words(view, stated), stated.tax, False))
    told.append(("This statement", stated.total, True))
    told.append((_brought_words(view, stated), stated.brought, False))
    for paid in stated.payments:
        what = f": {paid.what}" if paid.what else ""
        told.append((f"Received {day_words(paid.on)}{what}", -paid.amount, False))
    told.append((balance_label(view, stated.carried), abs(stated.carried), True))
    return tuple(Sum(label, money_words(shop, n), whole) for label, n, whole in told)


def balance_label(view: CarView, balance: Decimal) -> str:
    """Which way a balance goes."""
    owner = owner_words(view.reader)
    return f"Held for {owner}" if balance < 0 else f"Due from {owner}"


def _brought_words(view: CarView, stated: Stated) -> str:
    if stated.brought >= 0:
        return "Brought forward"
    return f"Brought forward, held for {owner_words(view.reader)}"


def _tax_words(view: CarView, stated: Stated) -> str:
    """An issued statement keeps its tax whatever the rate is now; the rate is told where it is the
    one that gives that tax."""
    shop = view.car.workshop
    nets = tuple(line.net for _, line in (*stated.lines, *stated.adjusted))
    if shop.tax is None:
        return "Tax"
    if tax_on(nets, shop.tax, shop.currency, shop.tax_by, shop.tax_rounding) != stated.tax:
        return "Tax, as it was stated"
    way = "sheet by sheet" if shop.tax_by is TaxBy.LINE else "on the whole"
    return f"Tax, {plain_number(shop.tax)}\N{NO-BREAK SPACE}% {way}"


def statement_rows(view: CarView, links: Links) -> tuple[StatementRow, ...]:
    """Every statement as one row, the running one last."""
    shop = view.car.workshop
    return tuple(
        StatementRow(
            _neighbour(view, links, stated),
            period_words(stated),
            day_words(stated.issued) if stated.issued else "",
            money_words(shop, stated.net),
            money_words(shop, stated.total),
            some_money(shop, stated.paid),
            money_words(shop, stated.carried),
        )
        for stated in view.statements.shown
    )

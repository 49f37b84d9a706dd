"""Money: the account so far, the statements, hours against the estimate, extras, labour by hand."""

from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from journal.digests.money import Agreed, Reckoned
from journal.pages.common import frame, has_page
from journal.pages.links import Links, Ref
from journal.pages.moneycharts import AllowedBar, allowed_bars
from journal.pages.page import Page
from journal.pages.standing import balance_words
from journal.pages.statement import balance_label, statement_rows
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import (
    Figure,
    day_words,
    decided_words,
    decimals_in,
    exact_hours,
    hours_figure,
    hours_words,
    money_words,
    owner_words,
    some_money,
)
from journal.pages.workwords import view_hand

PATH = "money.html"
BAR_HEIGHT = 24


class SubsystemMoney(Value, frozen=True):
    """One subsystem: hours against what was allowed for them, and its net amounts."""

    ref: Ref
    bar: AllowedBar | None
    words: str
    allowed: Figure
    agreed: str
    hours: Figure
    told: Figure
    labour: str
    parts: str
    outwork: str
    extras: str
    net: str


class ExtraRow(Value, frozen=True):
    """One extra: what was agreed, by whom, on which sheet, and at what price or for how long."""

    what: str
    decided: str
    advice: str
    sheet: Ref
    day: str
    hours: str
    price: str


class HandRow(Value, frozen=True):
    """What one hand worked at one rate; `holds` are the days for which the rate holds."""

    hand: str
    holds: str
    rate: str
    hours: Figure
    labour: str


def page_money(view: CarView) -> tuple[Page, ...]:
    """The money of the car, for those who see any."""
    if not has_page(view.reader, PATH):
        return ()
    links = Links(view, PATH)
    rows = view.money.by_subsystem()
    whole, drawn = whole_of(rows), allowed_bars(rows)
    decimals = _decimals((*rows, whole))
    statements = statement_rows(view, links)
    values = {
        **frame(links, "Money"),
        "any": bool(rows or statements),
        "lead": _lead(view),
        "account": _account(view),
        "statements": statements,
        "scale": drawn.scale,
        "bar_height": BAR_HEIGHT,
        "told": any(row.uncharged for row in rows),
        "rows": tuple(
            _row(view, links.subsystem(row.subsystem), row, bar, decimals)
            for row, bar in zip(rows, drawn.bars, strict=True)
        ),
        "whole": _row(view, Ref("The whole car"), whole, None, decimals),
        "owner": owner_words(view.reader),
        "extras": tuple(_extra(view, links, extra) for extra in view.money.agreed),
        "hands": _hands(view, whole),
    }
    return (Page(view.base + PATH, "money.html", values),)


def whole_of(rows: tuple[Reckoned, ...]) -> Reckoned:
    """The sum of lines, figure by figure; the estimate is absent when no line has one."""
    estimates = [row.estimate for row in rows if row.estimate is not None]

    def total(figure: str) -> Decimal:
        return sum((getattr(row, figure) for row in rows), Decimal(0))

    return Reckoned(
        "", sum(estimates, Decimal(0)) if estimates else None, total("agreed"),
        sum((row.hours for row in rows), Fraction(0)),
        sum((row.uncharged for row in rows), Fraction(0)),
        total("labour"), total("parts"), total("outwork"), total("extras"),
    )  # fmt: skip


def _lead(view: CarView) -> str:
    shop = view.car.workshop
    net = sum((s.net for s in view.statements.shown), Decimal(0))
    said = f"The work comes to {money_words(shop, net)}{' before tax' if shop.tax else ''}."
    return f"{said} {balance_words(view, view.statements.balance)}"


def _account(view: CarView) -> tuple[tuple[str, str, bool], ...]:
    """Lines of the account with their amounts; those marked are sums of the lines above."""
    shop, shown = view.car.workshop, view.statements.shown
    lines = [line for s in shown for _, line in (*s.lines, *s.adjusted)]
    parts = [
        (label, sum((getattr(line, figure) for line in lines), Decimal(0)))
        for label, figure in (
            ("Labour", "labour"), ("Parts", "parts"), ("Outwork", "outwork"),
            ("Agreed extras", "extras"),
        )
    ]  # fmt: skip
    net, tax = (
        sum((amount for _, amount in parts), Decimal(0)),
        sum((s.tax for s in shown), Decimal(0)),
    )
    paid = sum((s.paid for s in shown), Decimal(0))
    told: list[tuple[str, Decimal, bool]] = [(label, n, False) for label, n in parts if n]
    if tax:
        told += [("Before tax", net, True), ("Tax", tax, False)]
    told += [("In all", net + tax, True), ("Received", -paid, False)]
    told += [(balance_label(view, net + tax - paid), abs(net + tax - paid), True)]
    return tuple((label, money_words(shop, n), is_sum) for label, n, is_sum in told)


class Decimals(Struct, frozen=True):
    """How many decimals each column of hours has."""

    allowed: int
    hours: int
    told: int


def _decimals(rows: tuple[Reckoned, ...]) -> Decimals:
    return Decimals(
        decimals_in(row.allowed for row in rows),
        decimals_in(row.hours for row in rows),
        decimals_in(row.uncharged for row in rows),
    )


def _row(
    view: CarView, ref: Ref, row: Reckoned, bar: AllowedBar | None, decimals: Decimals
) -> SubsystemMoney:
    shop = view.car.workshop
    allowed = exact_hours(row.allowed) if row.allowed is not None else ""
    told = f", {exact_hours(row.uncharged)} not charged" if row.uncharged else ""
    spent = f"{exact_hours(row.hours)} charged{told}"
    return SubsystemMoney(
        ref,
        bar,
        f"{spent}, {allowed} allowed" if allowed else f"{spent}, none estimated",
        hours_figure(row.allowed, decimals.allowed),
        f"{exact_hours(row.agreed)} of them extras" if row.agreed else "",
        hours_figure(row.hours or None, decimals.hours),
        hours_figure(row.uncharged or None, decimals.told),
        some_money(shop, row.labour),
        some_money(shop, row.parts),
        some_money(shop, row.outwork),
        some_money(shop, row.extras),
        money_words(shop, row.net),
    )


def _extra(view: CarView, links: Links, extra: Agreed) -> ExtraRow:
    shop, decided = view.car.workshop, extra.decided
    return ExtraRow(
        extra.what,
        decided_words(shop, decided.by, decided.on),
        decided.advice or "",
        links.sheet(extra.sheet),
        day_words(extra.day),
        hours_words(Fraction(extra.hours)) if extra.hours else "",
        money_words(shop, extra.price) if extra.price is not None else "",
    )


def _hands(view: CarView, whole: Reckoned) -> tuple[HandRow, ...]:
    """A row for each hand and rate, and the last for all of them."""
    shop, told = view.car.workshop, view.money.by_hand()
    if not told:
        return ()
    decimals = decimals_in((whole.hours, *(hours for hours, _ in told.values())))
    rows = (
        HandRow(
            view_hand(view, hand),
            ", ".join(_holds(view, hand, rate)) if rate is not None else "",
            money_words(shop, rate) if rate is not None else "no rate",
            hours_figure(hours, decimals),
            money_words(shop, net),
        )
        for (hand, rate), (hours, net) in told.items()
    )
    together = hours_figure(whole.hours, decimals), money_words(shop, whole.labour)
    return (*rows, HandRow("Together", "", "", *together))


def _holds(view: CarView, hand: str, rate: Decimal) -> Iterator[str]:
    """The days for which a hand has a rate, told where the hand has more than one."""
    known = view.car.workshop.hands.get(hand)
    held = sorted(known.rate) if known else []
    if len(held) < 2:
        return
    ends = [date.fromisoformat(then) - timedelta(days=1) for _, (then, _) in pairwise(held)]
    for n, (since, price) in enumerate(held):
        if price != rate:
            continue
        first = f"from {day_words(date.fromisoformat(since))}"
        until = f"to {day_words(ends[n])}" if n < len(ends) else ""
        yield until if not n else f"{first} {until}".rstrip()

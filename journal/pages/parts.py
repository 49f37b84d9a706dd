"""Parts from the order to the car, and outwork counted out and counted back."""

from datetime import date
from decimal import Decimal
from typing import NamedTuple

from journal.ledgers.outwork import Batch, Movement
from journal.ledgers.parts import Part, PartState
from journal.pages.common import frame
from journal.pages.links import Links, Ref, anchor
from journal.pages.page import Page
from journal.pages.view import CarView
from journal.pages.words import (
    day_words,
    days_words,
    in_words,
    money_words,
    plain_count,
    sentence,
    some,
    supplier_words,
)
from journal.words.text import listed

PATH = "parts.html"

# Each group: its heading, and the states it holds.
GROUPS = (
    ("On order", (PartState.ORDERED, PartState.NOTED)),
    ("Here, not fitted yet", (PartState.RECEIVED, PartState.ACCEPTED, PartState.REWORKED)),
    ("On the car", (PartState.FITTED,)),
    ("Sent back or refused", (PartState.REJECTED, PartState.RETURNED)),
)


class PartRow(NamedTuple):
    """One part; what this reader does not see is empty."""

    anchor: str
    what: str
    number: str
    of: tuple[Ref, ...]
    supplier: str
    state: str
    story: tuple[str, ...]
    note: str
    price: str
    sheets: tuple[Ref, ...]


class PartGroup(NamedTuple):
    """Parts at the same point of their life. The two flags say which columns hold anything."""

    heading: str
    rows: tuple[PartRow, ...]
    suppliers: bool
    prices: bool


class LotRow(NamedTuple):
    """One lot of outwork."""

    anchor: str
    what: str
    to: str
    of: tuple[Ref, ...]
    counts: str
    short: bool
    due: str
    cost: str
    moves: tuple[tuple[str, Ref, str], ...]


def page_parts(view: CarView) -> tuple[Page, ...]:
    """Parts by where they stand, then outwork."""
    links = Links(view, PATH)
    parts, lots = view.parts.parts, view.outwork.batches
    groups = (_group(view, links, *group) for group in GROUPS)
    values = {
        **frame(links, "Parts and outwork"),
        "how_many": some(len(parts), "part"),
        "waiting": _none_or(len(view.parts.waiting)),
        "groups": tuple(group for group in groups if group.rows),
        "lots": tuple(_lot(view, links, lot) for lot in lots),
        "out": f"{some(out, 'lot')} out for work" if (out := len(view.outwork.out)) else "",
    }
    return (Page(view.base + PATH, "parts.html", values),)


def _none_or(count: int) -> str:
    return in_words(count) if count else "none"


def _group(view: CarView, links: Links, heading: str, states: tuple[PartState, ...]) -> PartGroup:
    parts = [part for part in view.parts.parts if part.state in states]
    rows = tuple(_row(view, links, part) for part in parts)
    suppliers, prices = any(r.supplier for r in rows), any(r.price for r in rows)
    return PartGroup(heading, rows, suppliers, prices)


def _row(view: CarView, links: Links, part: Part) -> PartRow:
    workshop = view.car.workshop
    quantity = f"{plain_count(part.qty)} × " if part.qty and part.qty != 1 else ""
    return PartRow(
        anchor("part", part.name),
        quantity + (part.what or sentence(part.name.replace("-", " "))),
        part.number or "",
        links.components(part.of),
        supplier_words(workshop, part.supplier) or "",
        part.state.value,
        _story(view, part),
        "; ".join(w for w in (part.why, *part.notes) if w),
        _price(view, part),
        tuple(links.sheet(name) for name in part.sheets),
    )


def _story(view: CarView, part: Part) -> tuple[str, ...]:
    """The part's days as short lines, in order."""
    lead = f", after {days_words(part.lead_days)}" if part.lead_days else ""
    late = part.promised if part.received is None else None
    outcome = f", {part.outcome.value}" if part.outcome else ""
    told: list[tuple[str, date | None, str]] = [
        ("ordered", part.ordered, ""),
        ("promised for", late, _overdue(view, late)),
        ("received", part.received, lead + outcome),
        ("returned", part.returned, ""),
        ("fitted", part.fitted, ""),
    ]
    return tuple(f"{word} {day_words(day)}{more}" for word, day, more in told if day is not None)


def _overdue(view: CarView, promised: date | None) -> str:
    if promised is None or promised >= view.until:
        return ""
    return f", {days_words((view.until - promised).days)} over"


def _price(view: CarView, part: Part) -> str:
    if part.price is None:
        return ""
    back = f", {money_words(view.car.workshop, part.credited)} credited" if part.credited else ""
    return money_words(view.car.workshop, part.price) + back


def _lot(view: CarView, links: Links, lot: Batch) -> LotRow:
    due = f"due {day_words(lot.due)}{_overdue(view, lot.due)}" if lot.due and lot.out > 0 else ""
    return LotRow(
        anchor("lot", lot.name),
        lot.what or sentence(lot.name.replace("-", " ")),
        supplier_words(view.car.workshop, lot.to) or "",
        links.components(lot.of),
        _counts(lot),
        lot.short,
        due,
        money_words(view.car.workshop, lot.cost) if lot.cost is not None else "",
        tuple(_move(links, move) for move in lot.movements),
    )


def _counts(lot: Batch) -> str:
    if lot.out == 0:
        return f"{plain_count(lot.sent)} sent, all back"
    back = plain_count(lot.back) if lot.back else "none"
    return f"{plain_count(lot.sent)} sent, {back} back, {plain_count(lot.out)} still out"


def _move(links: Links, move: Movement) -> tuple[str, Ref, str]:
    said = [f"{plain_count(n)} {word}" for n, word in _moved(move) if n]
    return (day_words(move.day), links.sheet(move.sheet, sentence(listed(said))), move.note or "")


def _moved(move: Movement) -> tuple[tuple[Decimal, str], ...]:
    return ((move.sent, "sent"), (move.back, "back"))

"""Outwork: what is away for work, what came back, as what, and what is missing."""

from decimal import Decimal
from functools import partial
from typing import Any

from journal.ledgers.outwork import Batch, Movement
from journal.pages.anchors import anchor
from journal.pages.common import frame
from journal.pages.leafwords import AS_TOLD, contents, sections_told, titled, turn_words
from journal.pages.links import Links, Ref
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf
from journal.pages.partwords import supplier_ref
from journal.pages.placing import lot_leaves
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, money_words, plain_count, sentence, some
from journal.words.text import counted, listed

HEADINGS = {"out": "Still out", "back": "Home, counted in"}


class MoveWords(Value, frozen=True):
    """Items going out or coming back on one day."""

    day: str
    iso: str
    ref: Ref
    note: str


class LotRow(Value, frozen=True):
    """One lot; what this reader does not see is empty. `missing` and `overdue` are told in red."""

    anchor: str
    what: str
    to: Ref
    of: tuple[Ref, ...]
    counts: str
    missing: bool
    due: str
    overdue: str
    home: str
    finish: str
    certificate: str
    cost: str
    moves: tuple[MoveWords, ...]


def page_outwork(view: CarView) -> tuple[Page, ...]:
    """Lots with anything out first, then those that are home."""
    start, leaves = Links(view, ""), view.once(lot_leaves)
    return tuple(
        Page(view.base + leaf.path, "outwork.html", Later(partial(_values, start, leaves, leaf)))
        for leaf in leaves
    )


def _values(start: Links, leaves: tuple[Leaf, ...], leaf: Leaf) -> dict[str, Any]:
    links, view = start.at(leaf.path), start.view
    return {
        **frame(links, titled("Outwork", leaf)),
        "lead": outwork_lead(view),
        "out": tuple(lot_row(view, links, lot) for lot in leaf.entries("out")),
        "back": tuple(lot_row(view, links, lot) for lot in leaf.entries("back")),
        "continued": leaf.continued,
        "contents": contents(links, leaves, HEADINGS),
        "turn": turn_words(links, leaves, sections_told(HEADINGS), AS_TOLD),
        "cost": _cost(view),
    }


def outwork_lead(view: CarView) -> str:
    """How many lots were sent and what is still out; empty without any."""
    lots, out = view.outwork.batches, view.outwork.out
    if not lots:
        return ""
    items = sum((lot.out for lot in out), Decimal(0))
    things = "item" if items == 1 else "items"
    away = f"{plain_count(items)} {things} still out" if out else "all home"
    late = view.outwork.overdue(view.until)
    over = f", {some(len(late), 'lot')} overdue" if late else ""
    return f"{sentence(some(len(lots), 'lot'))} sent to other trades, {away}{over}."


def _cost(view: CarView) -> str:
    """The sum of what the lots cost, where that is seen and there is more than one."""
    priced = [lot for lot in view.outwork.batches if lot.cost is not None]
    return money_words(view.car.workshop, view.outwork.net) if len(priced) > 1 else ""


def lot_row(view: CarView, links: Links, lot: Batch) -> LotRow:
    """The whole story of a lot."""
    over = lot.overdue(view.until, view.car.workshop)
    return LotRow(
        anchor("lot", lot.name),
        lot.what or sentence(lot.name.replace("-", " ")),
        supplier_ref(view, links, lot.to),
        links.components(lot.of),
        _counts(lot),
        lot.short,
        f"due {day_words(lot.due)}" if lot.due and lot.out > 0 else "",
        f"{counted(over, 'working day')} overdue" if over else "",
        _home(lot),
        "; ".join(lot.finishes),
        "; ".join(lot.certificates),
        money_words(view.car.workshop, lot.cost) if lot.cost is not None else "",
        tuple(_move(links, move) for move in lot.movements),
    )


def _counts(lot: Batch) -> str:
    if not lot.sent:
        return "Not counted out yet"
    if lot.out == 0:
        return f"{plain_count(lot.sent)} sent, all back"
    back = f"{plain_count(lot.back)} back" if lot.back else "none back"
    return f"{plain_count(lot.sent)} sent, {back}, {plain_count(lot.out)} still out"


def _home(lot: Batch) -> str:
    """How long it was away and whether it kept its day; empty while anything is out."""
    if lot.away is None:
        return ""
    away = f"away for {counted(lot.away, 'working day')}"
    if lot.late is None:
        return away
    if lot.late > 0:
        return f"{away}, {lot.late} of them past the day due"
    return f"{away}, home by the day due"


def _move(links: Links, move: Movement) -> MoveWords:
    said = [f"{plain_count(n)} {word}" for n, word in _moved(move) if n]
    text = sentence(listed(said)) if said else "Noted"
    ref = links.sheet(move.sheet, text)
    return MoveWords(day_words(move.day), move.day.isoformat(), ref, move.note or "")


def _moved(move: Movement) -> tuple[tuple[Decimal, str], ...]:
    return ((move.sent, "sent"), (move.back, "back"))

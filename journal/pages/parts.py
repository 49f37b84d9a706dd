"""Parts: what is still to come, what came in and how it was found, and where it is now."""

from collections.abc import Callable
from decimal import Decimal
from typing import NamedTuple

from journal.ledgers.parts import Part, PartState
from journal.pages.common import frame
from journal.pages.links import Links
from journal.pages.page import Page
from journal.pages.partwords import PartRow, part_row
from journal.pages.view import CarView
from journal.pages.words import in_words, money_words, sentence, some
from journal.words.text import listed
from journal.words.vocabulary import GoodsIn

PATH = "parts.html"

_BACK = (PartState.REJECTED, PartState.RETURNED)

# Each group: its heading, and which parts belong to it; a part stands in the first that has it.
GROUPS: tuple[tuple[str, Callable[[Part], bool]], ...] = (
    ("Still to come", lambda part: part.waiting),
    ("Rejected or sent back", lambda part: part.state in _BACK),
    ("On the car", lambda part: part.state is PartState.FITTED),
    ("Noted, not ordered", lambda part: part.state is PartState.NOTED),
    ("Here, not fitted yet", lambda part: True),
)
# The order in which groups are printed, by heading.
PRINTED = (
    "Still to come", "Here, not fitted yet", "Rejected or sent back", "On the car",
    "Noted, not ordered",
)  # fmt: skip


class PartGroup(NamedTuple):
    """Parts at the same point of their life. The two flags say which columns hold anything; `cost`
    is the sum of the costs of its rows."""

    heading: str
    rows: tuple[PartRow, ...]
    suppliers: bool
    prices: bool
    cost: str


def page_parts(view: CarView) -> tuple[Page, ...]:
    """Parts by where they stand."""
    links = Links(view, PATH)
    values = {
        **frame(links, "Parts"),
        "lead": parts_lead(view),
        "goods_in": goods_in_words(view),
        "groups": part_groups(view, links),
        "outwork": links.to("outwork.html"),
    }
    return (Page(view.base + PATH, "parts.html", values),)


def part_groups(view: CarView, links: Links) -> tuple[PartGroup, ...]:
    """All parts, by the point of their life that they are at; empty groups are left out."""
    held: dict[str, list[Part]] = {heading: [] for heading in PRINTED}
    for part in view.parts.parts:
        held[next(heading for heading, belongs in GROUPS if belongs(part))].append(part)
    return tuple(_group(view, links, heading, own) for heading, own in held.items() if own)


def parts_lead(view: CarView) -> str:
    """How many parts there are, how many are still to come, and what they cost where that is seen."""
    parts, waiting = view.parts.parts, len(view.parts.waiting)
    if not parts:
        return ""
    come = f"{in_words(waiting) if waiting else 'none'} still to come"
    priced = any(part.net is not None for part in parts)
    cost = f" They cost {money_words(view.car.workshop, view.parts.net)} without tax, credits taken off."
    return f"{sentence(some(len(parts), 'part'))}, {come}.{cost if priced else ''}"


def goods_in_words(view: CarView) -> str:
    """How parts were found when they came, by the worst that was found of each."""
    parts = view.parts.parts
    outcomes = [{o for a in part.arrivals for o in a.outcomes} for part in parts]
    refused = sum(GoodsIn.REJECTED in found for found in outcomes)
    reworked = sum(
        GoodsIn.REWORKED in found and GoodsIn.REJECTED not in found for found in outcomes
    )
    accepted = sum(found == {GoodsIn.ACCEPTED} for found in outcomes)
    if not refused + reworked + accepted:
        return ""
    said = [f"{in_words(n)} {word}" for n, word in (
        (accepted, "accepted"), (reworked, "reworked"), (refused, "rejected"),
    ) if n]  # fmt: skip
    return f"At goods in: {listed(said)}."


def _group(view: CarView, links: Links, heading: str, parts: list[Part]) -> PartGroup:
    rows = tuple(part_row(view, links, part) for part in parts)
    costs = [part.net for part in parts if part.net is not None]
    cost = money_words(view.car.workshop, sum(costs, Decimal(0))) if costs else ""
    suppliers, prices = any(r.supplier.text for r in rows), any(r.cost or r.priced for r in rows)
    return PartGroup(heading, rows, suppliers, prices, cost)

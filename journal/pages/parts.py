"""Parts: what is still to come, what came in and how it was found, and where it is now."""

from decimal import Decimal
from functools import partial
from typing import Any

from msgspec.structs import replace

from journal.ledgers.parts import Part
from journal.pages.common import frame
from journal.pages.leafwords import AS_TOLD, contents, sections_told, titled, turn_words
from journal.pages.links import Links
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf, Stretch
from journal.pages.partwords import PartRow, part_row
from journal.pages.placing import grouped_parts, part_leaves
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import in_words, money_words, sentence, some
from journal.words.text import listed
from journal.words.vocabulary import GoodsIn


class PartGroup(Value, frozen=True):
    """Parts at the same point of their life, or those of them that one page has. The two flags say which
    columns hold anything; `cost` is what several come to, told where the last of them stands."""

    heading: str
    rows: tuple[PartRow, ...]
    suppliers: bool
    prices: bool
    cost: str
    anchor: str = ""


def page_parts(view: CarView) -> tuple[Page, ...]:
    """Parts by where they stand."""
    start, leaves = Links(view, ""), view.once(part_leaves)
    return tuple(
        Page(view.base + leaf.path, "parts.html", Later(partial(_values, start, leaves, leaf)))
        for leaf in leaves
    )


def _values(start: Links, leaves: tuple[Leaf, ...], leaf: Leaf) -> dict[str, Any]:
    links, view = start.at(leaf.path), start.view
    groups = {f"group-{n}": of for n, of in enumerate(grouped_parts(view).items(), 1)}
    headings = {key: heading for key, (heading, _) in groups.items()}
    return {
        **frame(links, titled("Parts", leaf)),
        "lead": parts_lead(view),
        "goods_in": goods_in_words(view),
        "groups": tuple(
            _stretch(links, *groups[stretch.key], stretch) for stretch in leaf.stretches
        ),
        "continued": leaf.continued,
        "contents": contents(links, leaves, headings),
        "turn": turn_words(links, leaves, sections_told(headings), AS_TOLD),
        "outwork": links.to("outwork.html"),
    }


def _stretch(links: Links, heading: str, parts: tuple[Part, ...], stretch: Stretch) -> PartGroup:
    group = _group(links.view, links, heading, stretch.entries)
    cost = _cost(links.view, parts) if stretch.last and len(parts) > 1 else ""
    return replace(group, anchor=stretch.key, cost=cost)


def part_groups(view: CarView, links: Links) -> tuple[PartGroup, ...]:
    """All parts, by the point of their life that they are at; empty groups are left out."""
    return tuple(_group(view, links, *group) for group in grouped_parts(view).items())


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


def _group(view: CarView, links: Links, heading: str, parts: tuple[Part, ...]) -> PartGroup:
    rows = tuple(part_row(view, links, part) for part in parts)
    suppliers, prices = any(r.supplier.text for r in rows), any(r.cost or r.priced for r in rows)
    return PartGroup(heading, rows, suppliers, prices, _cost(view, parts))


def _cost(view: CarView, parts: tuple[Part, ...]) -> str:
    costs = [part.net for part in parts if part.net is not None]
    return money_words(view.car.workshop, sum(costs, Decimal(0))) if costs else ""

"""Snags: what holds the handover, what is open, tried in place, put off, and how the rest was cleared."""

from functools import partial
from typing import Any

from journal.ledgers.snags import Snag, SnagKind
from journal.pages.anchors import anchor
from journal.pages.common import frame
from journal.pages.leafwords import AS_TOLD, contents, sections_told, titled, turn_words
from journal.pages.links import Links, Ref
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf
from journal.pages.placing import snag_leaves
from journal.pages.provingwords import proving_holds
from journal.pages.standing import is_delivered
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, days_words, in_words, sentence, some, who
from journal.pages.workwords import view_hand

# The headings of the sections whose name is always the same.
HEADINGS = {
    "holds": "What holds the handover",
    "tried": "Tried in place",
    "deferred": "Put off",
    "cleared": "Cleared",
    "since-fitted": "Tried in place, and since fitted or taken off",
}


class SnagWords(Value, frozen=True):
    """One snag from raising to clearing."""

    anchor: str
    text: str
    hold: bool
    subsystem: Ref
    on: Ref | None
    raised: str
    raised_in: Ref
    age: str
    asks: str
    put_off: tuple[tuple[str, Ref, str], ...]
    cleared: str
    cleared_in: Ref | None
    how: str
    by: str


def page_snags(view: CarView) -> tuple[Page, ...]:
    """What is open, what was put off, what was cleared."""
    start, leaves = Links(view, ""), view.once(snag_leaves)
    return tuple(
        Page(view.base + leaf.path, "snags.html", Later(partial(_values, start, leaves, leaf)))
        for leaf in leaves
    )


def _values(start: Links, leaves: tuple[Leaf, ...], leaf: Leaf) -> dict[str, Any]:
    links, view = start.at(leaf.path), start.view
    still = view.snags.open
    tried = sum(snag.kind is SnagKind.TRIAL_FIT for snag in view.snags.cleared)
    resting = sum(bool(snag.deferred) for snag in still)
    headings = {**HEADINGS, "open": _open_heading(view)}

    def told(key: str) -> tuple[SnagWords, ...]:
        return tuple(_words(view, links, snag) for snag in leaf.entries(key))

    return {
        **frame(links, titled("Snags", leaf)),
        "first": leaf.number == 1,
        "any": bool(view.snags.snags),
        "held": bool(view.snags.holds or view.proving.holds),
        "open_count": some(len(still), "snag"),
        "hold_count": in_words(len(view.snags.holds)) if view.snags.holds else "",
        "put_off_count": in_words(resting) if resting else "",
        "delivered": is_delivered(view),
        "headings": headings,
        "holds": told("holds"),
        "proofs": proving_holds(view, links),
        "open": told("open"),
        "tried": told("tried"),
        "deferred": told("deferred"),
        "cleared": told("cleared"),
        "since_fitted_count": sentence(some(tried, "snag")),
        "since_fitted": told("since-fitted"),
        "continued": leaf.continued,
        "contents": contents(links, leaves, headings),
        "turn": turn_words(links, leaves, sections_told(headings), AS_TOLD),
    }


def _open_heading(view: CarView) -> str:
    return "Open besides" if view.snags.holds or view.proving.holds else "Still open"


def _words(view: CarView, links: Links, snag: Snag) -> SnagWords:
    return SnagWords(
        anchor("snag", snag.name),
        snag.text,
        snag.hold,
        links.subsystem(snag.subsystem),
        links.component(snag.on) if snag.on else None,
        day_words(snag.raised),
        links.sheet(snag.raised_in),
        days_words(age) if (age := snag.age(view.until)) else "",
        who(view.car.workshop, snag.asks) if snag.asks else "",
        tuple((day_words(p.day), links.sheet(p.sheet), p.why) for p in snag.put_off),
        day_words(snag.cleared) if snag.cleared else "",
        links.sheet(snag.cleared_in) if snag.cleared_in else None,
        snag.how or "",
        view_hand(view, snag.by) if snag.by else "",
    )

"""Snags: open ones with their age, those put off, and how the rest was cleared."""

from typing import NamedTuple

from journal.ledgers.snags import Snag
from journal.pages.common import frame
from journal.pages.links import Links, Ref, anchor
from journal.pages.page import Page
from journal.pages.view import CarView
from journal.pages.words import day_words, days_words, in_words, some, who
from journal.pages.workwords import view_hand

PATH = "snags.html"


class SnagWords(NamedTuple):
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
    deferred: str
    cleared: str
    cleared_in: Ref | None
    how: str
    by: str


def page_snags(view: CarView) -> tuple[Page, ...]:
    """What is open, what was put off, what was cleared."""
    links = Links(view, PATH)
    still = view.snags.open
    values = {
        **frame(links, "Snags"),
        "any": bool(view.snags.snags),
        "open_count": some(len(still), "snag"),
        "hold_count": in_words(len(view.snags.holds)) if view.snags.holds else "",
        "holds": tuple(_words(view, links, s) for s in still if s.hold),
        "open": tuple(_words(view, links, s) for s in still if not s.hold and not s.deferred),
        "deferred": tuple(_words(view, links, s) for s in still if not s.hold and s.deferred),
        "cleared": tuple(_words(view, links, s) for s in view.snags.cleared),
    }
    return (Page(view.base + PATH, "snags.html", values),)


def _words(view: CarView, links: Links, snag: Snag) -> SnagWords:
    return SnagWords(
        anchor("snag", snag.name),
        snag.text,
        snag.hold,
        links.subsystem(snag.subsystem),
        links.component(snag.on) if snag.on else None,
        day_words(snag.raised),
        links.sheet(snag.raised_in),
        days_words(snag.age(view.until)),
        who(view.car.workshop, snag.asks) if snag.asks else "",
        snag.deferred or "",
        day_words(snag.cleared) if snag.cleared else "",
        links.sheet(snag.cleared_in) if snag.cleared_in else None,
        snag.how or "",
        view_hand(view, snag.by) if snag.by else "",
    )

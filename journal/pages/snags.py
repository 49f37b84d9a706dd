"""Snags: what holds the handover, what is open, tried in place, put off, and how the rest was cleared."""

from typing import NamedTuple

from journal.ledgers.snags import Snag, SnagKind
from journal.pages.common import frame
from journal.pages.links import Links, Ref, anchor
from journal.pages.page import Page
from journal.pages.provingwords import proving_holds
from journal.pages.standing import is_delivered
from journal.pages.view import CarView
from journal.pages.words import day_words, days_words, in_words, sentence, some, who
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
    put_off: tuple[tuple[str, Ref, str], ...]
    cleared: str
    cleared_in: Ref | None
    how: str
    by: str


def page_snags(view: CarView) -> tuple[Page, ...]:
    """What is open, what was put off, what was cleared."""
    links = Links(view, PATH)
    still = view.snags.open
    loose = [snag for snag in still if not snag.hold]
    tried = sum(_tried(snag) for snag in view.snags.cleared)
    resting = sum(bool(snag.deferred) for snag in still)
    values = {
        **frame(links, "Snags"),
        "any": bool(view.snags.snags),
        "held": bool(view.snags.holds or view.proving.holds),
        "open_count": some(len(still), "snag"),
        "hold_count": in_words(len(view.snags.holds)) if view.snags.holds else "",
        "put_off_count": in_words(resting) if resting else "",
        "delivered": is_delivered(view),
        "holds": tuple(_words(view, links, s) for s in still if s.hold),
        "proofs": proving_holds(view, links),
        "open": tuple(_words(view, links, s) for s in loose if not s.deferred and not _tried(s)),
        "tried": tuple(_words(view, links, s) for s in loose if not s.deferred and _tried(s)),
        "deferred": tuple(_words(view, links, s) for s in loose if s.deferred),
        "cleared": tuple(_words(view, links, s) for s in view.snags.cleared if not _tried(s)),
        "since_fitted_count": sentence(some(tried, "snag")),
        "since_fitted": tuple(_words(view, links, s) for s in view.snags.cleared if _tried(s)),
    }
    return (Page(view.base + PATH, "snags.html", values),)


def _tried(snag: Snag) -> bool:
    return snag.kind is SnagKind.TRIAL_FIT


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

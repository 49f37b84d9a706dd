"""Running in and re-checks: what is due, what is to come, and what was found."""

from functools import partial
from typing import Any

from journal.pages.common import cautions_for, frame, has_page
from journal.pages.leafwords import AS_TOLD, contents, sections_told, titled, turn_words
from journal.pages.links import Links
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf
from journal.pages.placing import RECHECKS, recheck_leaves
from journal.pages.recheckwords import RecheckWords, counting_words, lead_words, recheck_words
from journal.pages.view import CarView

HEADINGS = {"due": "Due", "to-come": "To come", "done": "Done"}


def page_rechecks(view: CarView) -> tuple[Page, ...]:
    """The schedule after delivery, for those who have the car in hand: workshop and owner."""
    if not has_page(view.reader, RECHECKS):
        return ()
    start, leaves = Links(view, ""), view.once(recheck_leaves)
    return tuple(
        Page(view.base + leaf.path, "rechecks.html", Later(partial(_values, start, leaves, leaf)))
        for leaf in leaves
    )


def _values(start: Links, leaves: tuple[Leaf, ...], leaf: Leaf) -> dict[str, Any]:
    links, view = start.at(leaf.path), start.view
    asked = dict.fromkeys(recheck.subsystem for recheck in view.rechecks.open)

    def told(key: str) -> tuple[RecheckWords, ...]:
        return tuple(recheck_words(view, links, recheck) for recheck in leaf.entries(key))

    return {
        **frame(links, titled("Running in and re-checks", leaf)),
        "lead": lead_words(view),
        "counting": counting_words(view),
        "pressing": told("due"),
        "ahead": told("to-come"),
        "done": told("done"),
        "cautions": cautions_for(view, tuple(asked), safety=bool(asked)),
        "continued": leaf.continued,
        "contents": contents(links, leaves, HEADINGS),
        "turn": turn_words(links, leaves, sections_told(HEADINGS), AS_TOLD),
    }

"""Running in and re-checks: what is due, what is to come, and what was found."""

from journal.ledgers.rechecks import RecheckState
from journal.pages.common import cautions_for, frame, has_page
from journal.pages.links import Links
from journal.pages.page import Page
from journal.pages.recheckwords import PATH, counting_words, lead_words, recheck_words
from journal.pages.view import CarView

_TITLE = "Running in and re-checks"


def page_rechecks(view: CarView) -> tuple[Page, ...]:
    """The schedule after delivery, for those who have the car in hand: workshop and owner."""
    if not has_page(view.reader, PATH):
        return ()
    links = Links(view, PATH)
    rechecks = view.rechecks
    pressing = rechecks.in_state(view.until, RecheckState.LATE, RecheckState.DUE)
    ahead = rechecks.in_state(view.until, RecheckState.AHEAD, RecheckState.WAITING)
    asked = dict.fromkeys(r.subsystem for r in rechecks.open)
    values = {
        **frame(links, _TITLE),
        "lead": lead_words(view),
        "counting": counting_words(view),
        "pressing": tuple(recheck_words(view, links, r) for r in pressing),
        "ahead": tuple(recheck_words(view, links, r) for r in ahead),
        "done": tuple(recheck_words(view, links, r) for r in rechecks.done),
        "cautions": cautions_for(view, tuple(asked), safety=bool(asked)),
    }
    return (Page(view.base + PATH, "rechecks.html", values),)

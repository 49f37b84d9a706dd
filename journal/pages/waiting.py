"""Waiting: what has not come, what has not been answered, and what each holds up."""

from journal.pages.common import frame, has_page
from journal.pages.links import Links
from journal.pages.page import Page
from journal.pages.view import CarView
from journal.pages.waitingwords import awaited_words, still_awaited, waiting_lead

PATH = "waiting.html"


def page_waiting(view: CarView) -> tuple[Page, ...]:
    """One list, what hurts most first; then the questions that were put off."""
    if not has_page(view.reader, PATH):
        return ()
    links = Links(view, PATH)
    resting = [item for item in view.waiting.items if item.put_off]
    values = {
        **frame(links, "Waiting"),
        "lead": waiting_lead(view),
        "items": awaited_words(view, links, still_awaited(view)),
        "resting": awaited_words(view, links, resting),
    }
    return (Page(view.base + PATH, "waiting.html", values),)

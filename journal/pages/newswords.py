"""News in words: the first things of the morning, what came in, and what happened of late."""

from datetime import timedelta

from journal.digests.news import LATELY, CameIn
from journal.digests.waiting import Awaited, Kind
from journal.pages.links import Links, Ref
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.waitingwords import asked_of, awaited_what, still_awaited
from journal.pages.words import (
    day_words,
    hours_words,
    in_words,
    plain_count,
    sentence,
    some,
    supplier_words,
)

# A front page shows this many things that are waited for; its own page shows them all.
FIRST = 5
DUE_WITHIN = 7


_VERB = {
    Kind.ORDER: "on order since",
    Kind.OUTWORK: "out for work since",
    Kind.QUESTION: "asked of",
    Kind.DEPARTURE: "nobody is said to have decided it; in place since",
}


class NewsLine(Value, frozen=True):
    """One line of news: what, a note under it, and where it leads."""

    text: str
    note: str
    ref: Ref
    hold: bool = False


def came_in_words(view: CarView, links: Links) -> tuple[NewsLine, ...]:
    """What came in during the last days, the latest first."""
    return tuple(_came_in(links, came) for came in view.news.came_in)


def _came_in(links: Links, came: CameIn) -> NewsLine:
    looked = came.outcome.value if came.outcome else "not inspected yet"
    outcome = "back from outwork" if came.outwork else looked
    many = "" if came.count == 1 else f"{plain_count(came.count)} of them; "
    note = f"{many}{outcome}; {day_words(came.day)}"
    return NewsLine(sentence(came.what), note, links.sheet(came.sheet))


def due_words(view: CarView, links: Links) -> tuple[NewsLine, ...]:
    """What is promised for the coming days, or was promised and has not come."""
    until = view.until + timedelta(days=DUE_WITHIN)
    due = (i for i in still_awaited(view) if i.due is not None and i.due <= until)
    return tuple(awaited_line(view, links, item) for item in due)


def awaited_line(view: CarView, links: Links, item: Awaited) -> NewsLine:
    """One thing that is waited for, in a line: what, from whom, for when, and how late."""
    whom = f" {asked_of(view, item)}" if item.kind is Kind.QUESTION else ""
    since = f"{_VERB[item.kind]}{whom} {day_words(item.since)}"
    supplied = item.kind in (Kind.ORDER, Kind.OUTWORK)
    name = supplier_words(view.car.workshop, item.whom) if supplied else None
    source = f"from {name}" if name else ""
    promised = f"promised for {day_words(item.due)}" if item.due else since
    late = f"{some(item.late, 'working day')} late" if item.late else ""
    hold = "holds the handover" if item.holds else ""
    note = "; ".join(word for word in (hold, source, promised, late) if word)
    return NewsLine(awaited_what(view, item), note, links.sheet(item.sheet), bool(item.holds))


def asked_words(view: CarView, links: Links, resting: bool) -> tuple[NewsLine, ...]:
    """Questions that wait for the owner's word, or those of them that were put off."""
    return tuple(
        _asked(view, links, item)
        for item in view.waiting.asked_of("owner")
        if bool(item.put_off) is resting
    )


def _asked(view: CarView, links: Links, item: Awaited) -> NewsLine:
    why = item.put_off
    note = f"asked {day_words(item.since)}" + (f"; put off: {why}" if why else "")
    return NewsLine(item.what, note, links.sheet(item.sheet), bool(item.holds))


def week_words(view: CarView) -> str:
    """Hours of the week, from Monday to the day spoken of."""
    return (
        f"{sentence(hours_words(view.news.week))} in the week from {day_words(view.news.monday)}."
    )


def lately_words() -> str:
    """How long ago lately is."""
    return f"the last {in_words(LATELY)} days"


def since_words(view: CarView) -> str:
    """What happened since the last statement, as a sentence; empty when none was issued."""
    since = view.news.since
    if since is None:
        return ""
    if not since.days:
        return f"Nothing was written since the statement up to {day_words(since.day)}."
    did = [some(since.days, "day"), hours_words(since.hours)]
    did += [f"{some(since.fitted, 'component')} fitted or proved"] if since.fitted else []
    did += [f"{some(since.cleared, 'snag')} cleared"] if since.cleared else []
    return f"Since the statement up to {day_words(since.day)}: {', '.join(did)}."

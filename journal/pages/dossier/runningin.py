"""Running in and re-checks: what is to be looked at again, by whom it was asked, and a form to fill in.

A schedule that the sheets keep belongs here, before what was left open.
"""

from typing import NamedTuple

from journal.ledgers.originality import Line
from journal.pages.dossier.book import Book, Section
from journal.pages.links import Ref
from journal.pages.words import day_words
from journal.words.vocabulary import Verdict

NO_SCHEDULE = (
    "The record holds no schedule of re-checks. The maker’s manual says what is due, and when."
)
# Lines of the form that are left to be written by hand.
BLANK = 8


class WatchRow(NamedTuple):
    """Something to look at again: where, what was said of it, when and in which sheet."""

    where: str
    words: str
    day: str
    sheet: Ref


def running_in(book: Book) -> Section:
    """What the sheets leave to be watched, and room for what will be done."""
    return Section(
        "running-in",
        "Running in and re-checks",
        {
            "schedule": NO_SCHEDULE,
            "watch": (*_verdicts(book), *_snags(book)),
            "blank": tuple(range(BLANK)),
        },
    )


def _verdicts(book: Book) -> tuple[WatchRow, ...]:
    """Components of which the last verdict was to watch them."""
    return tuple(
        row for line in book.view.originality.lines if (row := _watched(book, line)) is not None
    )


def _watched(book: Book, line: Line) -> WatchRow | None:
    judged = [entry for entry in line.biography if entry.work.verdict]
    if not judged or judged[-1].work.verdict is not Verdict.WATCH:
        return None
    last = judged[-1]
    return WatchRow(
        book.places.component(line.component.key, full=True).text,
        last.work.found or "to be watched",
        day_words(last.told),
        book.places.sheet_code(last.sheet),
    )


def _snags(book: Book) -> tuple[WatchRow, ...]:
    """Snags that are open, those put off with the reason."""
    return tuple(
        WatchRow(
            book.places.subsystem(snag.subsystem).text,
            f"{snag.text}; put off: {snag.deferred}" if snag.deferred else snag.text,
            day_words(snag.raised),
            book.places.sheet_code(snag.raised_in),
        )
        for snag in book.view.snags.open
    )

"""Running in and re-checks: what is asked for and when, with room to sign it off; what was done already;
what the sheets leave open; and a form for all else that will be done."""

from journal.ledgers.originality import Line
from journal.ledgers.rechecks import Recheck, RecheckState
from journal.pages.common import cautions_for
from journal.pages.dossier.book import Book, Section
from journal.pages.links import Ref
from journal.pages.recheckwords import (
    counting_words,
    lead_words,
    recheck_words,
    value_words,
    when_words,
)
from journal.pages.value import Value
from journal.pages.words import day_words, sentence
from journal.words.stretch import stretch_words
from journal.words.vocabulary import Verdict

NO_SCHEDULE = (
    "No sheet asks for anything to be looked at again. That is not to say that nothing is due: the maker’s"
    " manual says what is, and when. Whoever looks at the car may write it down below."
)
BY_WHOM = (
    "Let a qualified person look, with the maker’s manual open. The figures are those that were written down;"
    " where the maker gives another, the maker’s counts."
)
# Lines of the form that are left to be written by hand, beside a schedule and without one.
BLANK, BLANK_ALONE = 12, 16


class DueRow(Value, frozen=True):
    """One thing that is asked for: when it falls due by odometer and calendar as far as that can be
    told, the stretch it was asked in, what should be found, and where it stands if it is due. `under` is
    the subsystem of the components in `on`."""

    what: str
    under: str
    on: tuple[Ref, ...]
    when: str
    counted: str
    value: str
    state: str
    sheet: Ref


class DoneRow(Value, frozen=True):
    """One thing that was looked at: what was found, when, by whom."""

    what: str
    under: str
    on: tuple[Ref, ...]
    found: str
    day: str
    by: str
    sheet: Ref
    state: str


class WatchRow(Value, frozen=True):
    """Something that is open or to be watched: where, what was said of it, when and in which sheet."""

    where: str
    words: str
    day: str
    sheet: Ref


def running_in(book: Book) -> Section:
    """The schedule with its boxes, what was done of it, what is to be watched, and a form."""
    view = book.view
    still, done = view.rechecks.open, view.rechecks.done
    asked = tuple(dict.fromkeys(recheck.subsystem for recheck in still))
    return Section(
        "running-in",
        "Running in and re-checks",
        {
            "lead": lead_words(view) or NO_SCHEDULE,
            "counting": counting_words(view) if still else "",
            "by_whom": BY_WHOM,
            "due": tuple(_due(book, recheck) for recheck in still),
            "done": tuple(_done(book, recheck) for recheck in done),
            "cautions": cautions_for(view, asked, safety=bool(asked)),
            "watch": (*_verdicts(book), *_snags(book)),
            "blank": tuple(range(BLANK if still else BLANK_ALONE)),
        },
    )


def _due(book: Book, recheck: Recheck) -> DueRow:
    begun = recheck.start is not None and recheck.start <= book.view.until
    told = begun and (recheck.due_at is not None or recheck.after.distance is None)
    when = when_words(book.view, recheck)
    words = recheck_words(book.view, book.places, recheck)
    return DueRow(
        words.what,
        book.places.subsystem(recheck.subsystem).text,
        book.places.components(recheck.on),
        sentence(when),
        _counted(book, recheck) if told else "",
        value_words(recheck.value),
        ": ".join(part for part in (words.state, words.left) if part),
        book.places.sheet_code(recheck.asked_in),
    )


def _counted(book: Book, recheck: Recheck) -> str:
    """`500 miles or 6 weeks after delivery`."""
    from_delivery = recheck.start == book.view.car.car.delivered
    start = "delivery" if from_delivery or recheck.start is None else day_words(recheck.start)
    return f"{stretch_words(recheck.after)} after {start}"


def _done(book: Book, recheck: Recheck) -> DoneRow:
    assert recheck.state(book.view.until) is RecheckState.DONE
    assert recheck.done is not None
    words = recheck_words(book.view, book.places, recheck)
    return DoneRow(
        words.what,
        book.places.subsystem(recheck.subsystem).text,
        book.places.components(recheck.on),
        words.found,
        words.done,
        words.by,
        book.places.sheet_code(recheck.done.sheet),
        words.state,
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
        sentence(last.work.found or "to be watched"),
        day_words(last.told),
        book.places.sheet_code(last.sheet),
    )


def _snags(book: Book) -> tuple[WatchRow, ...]:
    """Snags that are open, those put off with the reason."""
    return tuple(
        WatchRow(
            book.places.subsystem(snag.subsystem).text,
            _put_off(snag.text, snag.deferred) if snag.deferred else sentence(snag.text),
            day_words(snag.raised),
            book.places.sheet_code(snag.raised_in),
        )
        for snag in book.view.snags.open
    )


def _put_off(text: str, reason: str) -> str:
    stop = "" if text.endswith((".", "?", "!")) else "."
    return f"{sentence(text)}{stop} Put off: {reason}"

"""What changed since an earlier bag: sheets, lines of the ledger, proofs, re-checks and reservations."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date
from typing import NamedTuple

from journal.digests.since import Change, How, Row
from journal.ledgers.rechecks import Recheck, RecheckState
from journal.pages.dossier.book import ReservationWords, Section
from journal.pages.dossier.later import LaterBook
from journal.pages.links import Ref
from journal.pages.recheckwords import when_words
from journal.pages.words import day_words, in_words, sentence, some, who
from journal.pages.workwords import view_hand
from journal.words.text import listed

# What the columns of the tables are called where they are set against each other. Those that are not
# named here say nothing of their own.
_LEDGER = {
    "weight": "Weight",
    "as found": "As found",
    "now": "There now",
    "own material": "Material of its own",
    "conforms": "Conforms",
    "position": "Position",
    "evidence": "Evidence",
    "displaced": "What came off",
    "decided": "Decided by",
}
_PROVING = {
    "state": "How it stands",
    "on": "Day",
    "found": "Found",
    "read": "Reading",
    "unit": "Unit",
    "by": "By",
    "checked": "Looked at again by",
    "left out": "Left out",
    "overtaken by": "Later work on",
    "overtaken on": "Day of that work",
}
_DAYS = frozenset({"on", "overtaken on"})
_HANDS = frozenset({"by", "checked"})
_HOW = {
    How.NEW: "New",
    How.ADDED: "Added to a day that was closed by then",
    How.AMENDED: "Amended openly; as it was, it lies in an earlier bag",
}
_FIXED = {
    "car.yaml": "the particulars of the car",
    "register.yaml": "the register of components",
    "papers/papers.yaml": "the list of papers",
}


class NewSheet(NamedTuple):
    """A sheet that came later, and how."""

    code: Ref
    day: str
    title: str
    how: str


class CellTold(NamedTuple):
    """One thing that is not what it was, each side empty where nothing was told."""

    label: str
    before: str
    now: str


class ChangeTold(NamedTuple):
    """A line of the ledger or a proof, all that changed of it, and the new sheets that tell of it."""

    what: str
    cells: tuple[CellTold, ...]
    sheets: tuple[Ref, ...]


class RecheckTold(NamedTuple):
    """A re-check: what, when it falls or fell due, what was found, and the sheet of it."""

    what: str
    when: str
    found: str
    sheet: Ref


def changes(book: LaterBook) -> Section:
    """Everything that is not as the earlier bag tells it."""
    done, due, asked = _rechecks(book)
    return Section(
        "changes",
        "What changed since",
        {
            "sheets": tuple(
                NewSheet(book.places.sheet_code(name), day_words(s.date), s.title, _HOW[how])
                for name, (s, how) in book.sheets.items()
            ),
            "others": _others(book),
            "ledger": tuple(_line(book, change) for change in book.since.ledger),
            "proofs": tuple(_proof(book, change) for change in book.since.proving),
            "done": tuple(_recheck(book, r) for r in done),
            "due": tuple(_recheck(book, r) for r in due),
            "asked": tuple(_recheck(book, r) for r in asked),
            "raised": raised(book),
            "cleared": tuple(_cleared(book, row) for row in book.since.cleared),
        },
    )


def change_sentences(book: LaterBook) -> tuple[str, ...]:
    """The same in a few sentences, for the first page."""
    done, due, _ = _rechecks(book)
    since = book.since
    ledger = some(len(since.ledger), "line")
    proofs = some(len(since.proving), "proof")
    said = (
        _sheet_sentence(book),
        *_others(book),
        f"{ledger} of the originality ledger {_is(len(since.ledger))} not what "
        f"{'it was' if len(since.ledger) == 1 else 'they were'}."
        if since.ledger
        else "No line of the originality ledger changed.",
        f"{proofs} {_is(len(since.proving))} told anew." if since.proving else "No proof changed.",
        _recheck_sentence(len(done), len(due)),
        _reservation_sentence(len(since.cleared), len(since.raised)),
    )
    return tuple(sentence(words) for words in said if words)


def raised(book: LaterBook) -> tuple[ReservationWords, ...]:
    """Reservations that the earlier bag does not have."""
    every = book.reservations()
    return tuple(every[n] for n in book.since.raised)


def _is(count: int) -> str:
    """None of them *is*."""
    return "is" if count < 2 else "are"


def _was(count: int) -> str:
    return "was" if count < 2 else "were"


def _none(count: int) -> str:
    return in_words(count) if count else "none"


def _some(count: int, one: str) -> str:
    return some(count, one) if count else f"no {one}"


def _sheet_sentence(book: LaterBook) -> str:
    count = {how: sum(h is how for _, h in book.sheets.values()) for how in How}
    ways = (
        (count[How.NEW], "new"),
        (count[How.ADDED], "added to days that were closed by then"),
        (count[How.AMENDED], "amended openly"),
    )
    told = [(n, words) for n, words in ways if n]
    if not told:
        return "No day sheet is new."
    first, *rest = (f"{in_words(n)} {_is(n)} {words}" for n, words in told)
    number, _, words = first.partition(" ")
    noun = "day sheet" if told[0][0] == 1 else "day sheets"
    return f"{listed([f'{number} {noun} {words}', *rest])}."


def _others(book: LaterBook) -> tuple[str, ...]:
    """Everything else that came later: pictures, papers, small files, and what is not for this reader."""
    files, untold = book.since.files, book.since.untold
    goods = [some(len(book.pictures), "photograph")] if book.pictures else []
    goods += [some(len(book.papers), "scan of a paper", "scans of papers")] if book.papers else []
    count = len(book.pictures) + len(book.papers)
    fixed = [words for path, words in _FIXED.items() if path in files]
    said = (
        f"{listed(goods)} {'lies' if count == 1 else 'lie'} in this bag." if goods else "",
        f"{listed(fixed)} {_is(len(fixed))} written anew." if fixed else "",
        f"{some(untold, 'more file')} of the workshop’s own {_was(untold)} "
        "sealed, which the seals count and this bag does not show."
        if untold
        else "",
    )
    return tuple(sentence(words) for words in said if words)


def _recheck_sentence(done: int, due: int) -> str:
    if not done and not due:
        return "No re-check was done, and none is due."
    return f"{_some(done, 're-check')} {_was(done)} done; {_none(due)} {_is(due)} due."


def _reservation_sentence(cleared: int, new: int) -> str:
    if not cleared and not new:
        return ""
    stands = "no longer stands" if cleared == 1 else "no longer stand"
    gone = f"{some(cleared, 'reservation')} {stands}; {_none(new)} {_is(new)} new."
    return gone if cleared else f"{some(new, 'reservation')} {_is(new)} new."


def _line(book: LaterBook, change: Change) -> ChangeTold:
    line = next((x for x in book.view.originality.lines if x.component.key == change.name), None)
    sheets = [entry.sheet for entry in line.biography] if line else []
    return ChangeTold(
        book.places.component(change.name, full=True).text,
        tuple(_cells(change, _LEDGER, lambda column, text: _ledger_word(book, column, text))),
        _new(book, sheets),
    )


def _ledger_word(book: LaterBook, column: str, text: str) -> str:
    return who(book.view.car.workshop, text) if column == "decided" and text else text


def _proof(book: LaterBook, change: Change) -> ChangeTold:
    row: Row = change.now or change.before or {}
    subsystem = book.places.subsystem(change.name.split("/")[0]).text
    return ChangeTold(
        f"{subsystem}: {row.get('what', change.name)}",
        tuple(_cells(change, _PROVING, lambda column, text: _proof_word(book, column, text))),
        _new(book, [row.get("sheet", "")]),
    )


def _proof_word(book: LaterBook, column: str, text: str) -> str:
    if not text:
        return ""
    if column in _DAYS:
        return day_words(date.fromisoformat(text))
    if column in _HANDS:
        return listed([view_hand(book.view, hand) for hand in text.split(", ")])
    return book.places.component(text, full=True).text if column == "overtaken by" else text


def _cells(
    change: Change, labels: Mapping[str, str], word: Callable[[str, str], str]
) -> Iterator[CellTold]:
    before, now = change.before or {}, change.now or {}
    for column in change.columns:
        if column in labels:
            yield CellTold(
                labels[column],
                word(column, before.get(column, "")),
                word(column, now.get(column, "")),
            )


def _new(book: LaterBook, sheets: Iterable[str]) -> tuple[Ref, ...]:
    return book.places.sheet_codes(name for name in sheets if name in book.sheets)


def _rechecks(
    book: LaterBook,
) -> tuple[tuple[Recheck, ...], tuple[Recheck, ...], tuple[Recheck, ...]]:
    """Those done in a new sheet, those that are due, and those that a new sheet asked for."""
    rechecks, day = book.view.rechecks, book.view.until
    return (
        tuple(r for r in rechecks.done if r.done and r.done.sheet in book.sheets),
        rechecks.in_state(day, RecheckState.LATE, RecheckState.DUE),
        tuple(r for r in rechecks.rechecks if r.asked_in in book.sheets),
    )


def _recheck(book: LaterBook, recheck: Recheck) -> RecheckTold:
    done = recheck.done
    if done is None:
        late = recheck.state(book.view.until) is RecheckState.LATE
        found = "past due, and not done" if late else "not done"
        sheet = recheck.asked_in
    else:
        by = f", by {view_hand(book.view, done.by)}" if done.by else ""
        after = " after it was due" if recheck.was_late else ""
        found, sheet = f"{done.found}; done on {day_words(done.day)}{after}{by}", done.sheet
    return RecheckTold(
        sentence(recheck.what), when_words(book.view, recheck), sentence(found),
        book.places.sheet_code(sheet),
    )  # fmt: skip


def _cleared(book: LaterBook, row: Row) -> ReservationWords:
    since = row.get("open since", "")
    opened = f"open since {day_words(date.fromisoformat(since))}: " if since else ""
    sheet = row.get("sheet", "")
    return ReservationWords(
        book.places.subsystem(row["subsystem"]).text,
        opened + row["reservation"],
        book.places.sheet_code(sheet) if sheet else Ref(""),
    )

"""What changed since an earlier bag: sheets, lines of the ledger, proofs, re-checks and reservations."""

from collections.abc import Iterable
from datetime import date

from journal.digests.since import Asked, Change, How, Row
from journal.ledgers.rechecks import Recheck, RecheckState
from journal.pages.dossier.book import ReservationWords, Section
from journal.pages.dossier.later import LaterBook
from journal.pages.links import Ref
from journal.pages.recheckwords import when_words
from journal.pages.value import Value
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
_HANDS = {"by": "by", "checked": "looked at again by"}
HOW_WORDS = {
    How.NEW: "New",
    How.ADDED: "Added to a day that was closed by then",
    How.AMENDED: "Amended openly; as it was, it lies in an earlier bag",
}
_FIXED = {
    "car.yaml": "the particulars of the car",
    "register.yaml": "the register of components",
    "papers/papers.yaml": "the list of papers",
}


class NewSheet(Value, frozen=True):
    """A sheet that came later, and how."""

    code: Ref
    day: str
    title: str
    how: str


class CellTold(Value, frozen=True):
    """One thing that is not what it was, each side empty where nothing was told."""

    label: str
    before: str
    now: str


class LineChange(Value, frozen=True):
    """A line of the ledger, all that changed of it, and the new sheets that tell of it."""

    what: str
    cells: tuple[CellTold, ...]
    sheets: tuple[Ref, ...]


class ProofChange(Value, frozen=True):
    """A proof as it stood and as it stands, either empty where it was not asked for."""

    what: str
    before: str
    now: str
    sheets: tuple[Ref, ...]


class RecheckTold(Value, frozen=True):
    """A re-check: how it comes to be told here, what it is, when it falls or fell due, what was found,
    and the sheet of it."""

    how: str
    what: str
    when: str
    found: str
    sheet: Ref


class ReservationChange(Value, frozen=True):
    """A reservation that is new, or that no longer stands."""

    how: str
    words: ReservationWords


def changes(book: LaterBook) -> Section:
    """Everything that is not as the earlier bag tells it."""
    return Section(
        "changes",
        "What changed since",
        {
            "sheets": tuple(
                NewSheet(book.places.sheet_code(name), day_words(s.date), s.title, HOW_WORDS[how])
                for name, (s, how) in book.sheets.items()
            ),
            "others": _others(book),
            "ledger": tuple(_line(book, change) for change in book.since.ledger),
            "proofs": tuple(_proof(book, change) for change in book.since.proving),
            "rechecks": _rechecks_told(book),
            "reservations": _reservations(book),
        },
    )


def change_sentences(book: LaterBook) -> tuple[str, ...]:
    """The same in a few sentences, for the first page."""
    since = book.since
    lines, proofs = len(since.ledger), len(since.proving)
    said = (
        _sheet_sentence(book),
        *_others(book),
        f"{some(lines, 'line')} of the originality ledger {_is(lines)} not what {_it(lines)} {_was(lines)}."
        if lines
        else "No line of the originality ledger changed.",
        f"{some(proofs, 'proof')} {'does' if proofs == 1 else 'do'} not stand as {_it(proofs)} did."
        if proofs
        else "Every proof stands as it did.",
        _recheck_sentence(len(_done(book)), len(_due(book))),
        _reservation_sentence(len(since.cleared), len(since.raised)),
    )
    return tuple(sentence(words) for words in said if words)


def _is(count: int) -> str:
    """None of them *is*."""
    return "is" if count < 2 else "are"


def _was(count: int) -> str:
    return "was" if count < 2 else "were"


def _it(count: int) -> str:
    return "it" if count < 2 else "they"


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
    kept = [files[f"photos/{p.path}"] for p in book.pictures]
    kept += [files[f"papers/{paper.file}"] for paper in book.papers.values()]
    new = "new or amended" if How.AMENDED in kept else "new"
    fixed = [words for path, words in _FIXED.items() if path in files]
    said = (
        f"{listed(goods)} {_is(len(kept))} {new}." if goods else "",
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


def _line(book: LaterBook, change: Change) -> LineChange:
    line = next((x for x in book.view.originality.lines if x.component.key == change.name), None)
    before, now = change.before or {}, change.now or {}
    return LineChange(
        book.places.component(change.name, full=True).text,
        tuple(
            CellTold(
                _LEDGER[column],
                _ledger_words(book, column, before.get(column, "")),
                _ledger_words(book, column, now.get(column, "")),
            )
            for column in change.columns
            if column in _LEDGER
        ),
        _new(book, [entry.sheet for entry in line.biography] if line else []),
    )


def _ledger_words(book: LaterBook, column: str, text: str) -> str:
    return who(book.view.car.workshop, text) if column == "decided" and text else text


def _proof(book: LaterBook, change: Change) -> ProofChange:
    row: Row = change.now or change.before or {}
    subsystem = book.places.subsystem(change.name.split("/")[0]).text
    return ProofChange(
        f"{subsystem}: {row['what']}",
        _proof_words(book, change.before, change.columns),
        _proof_words(book, change.now, change.columns),
        _new(book, [row["sheet"], *_overtaking(book, change.name)]),
    )


def _overtaking(book: LaterBook, proof: str) -> tuple[str, ...]:
    """The sheet of the work that made a proof out of date."""
    lines = (line for line in book.view.proving.lines if line.key == proof)
    return tuple(line.overtaken.sheet for line in lines if line.overtaken)


def _proof_words(book: LaterBook, row: Row | None, changed: tuple[str, ...]) -> str:
    """How a proof stands, and as much of its record as is not what it was."""
    if row is None:
        return ""
    told = {column: row.get(column, "") for column in changed}
    said = [row["state"]]
    if told.get("on"):
        said[0] += f", {_day(told['on'])}"
    if told.get("found"):
        said.append(told["found"])
    if told.get("read"):
        said.append(f"{told['read']} {row['unit']}".rstrip())
    said += [f"{label} {_hands(book, told[c])}" for c, label in _HANDS.items() if told.get(c)]
    if told.get("left out"):
        said.append(f"without {told['left out']}")
    if told.get("overtaken by"):
        component = book.places.component(told["overtaken by"]).text
        said.append(f"recorded before the work of {_day(row['overtaken on'])} on {component}")
    return sentence("; ".join(said))


def _day(text: str) -> str:
    return day_words(date.fromisoformat(text))


def _hands(book: LaterBook, text: str) -> str:
    return listed([view_hand(book.view, hand) for hand in text.split(", ")])


def _new(book: LaterBook, sheets: Iterable[str]) -> tuple[Ref, ...]:
    return book.places.sheet_codes(name for name in sheets if name in book.sheets)


def _key(recheck: Recheck) -> Asked:
    return (recheck.name, recheck.asked.isoformat())


def _done(book: LaterBook) -> tuple[Recheck, ...]:
    return tuple(r for r in book.view.rechecks.done if _key(r) in book.since.done)


def _due(book: LaterBook) -> tuple[Recheck, ...]:
    day = book.view.until
    return book.view.rechecks.in_state(day, RecheckState.LATE, RecheckState.DUE)


def _rechecks_told(book: LaterBook) -> tuple[RecheckTold, ...]:
    """What was done since, what is due, and what was asked for since and is not due yet."""
    done, due = _done(book), _due(book)
    asked = (r for r in book.view.rechecks.open if _key(r) in book.since.asked and r not in due)
    return (
        *(_recheck(book, "Done", r) for r in done),
        *(_recheck(book, "Due", r) for r in due),
        *(_recheck(book, "Asked for", r) for r in asked),
    )


def _recheck(book: LaterBook, how: str, recheck: Recheck) -> RecheckTold:
    done = recheck.done
    if done is None:
        late = recheck.state(book.view.until) is RecheckState.LATE
        found, sheet = "Past due, and not done" if late else "Not done", recheck.asked_in
    else:
        by = f", by {view_hand(book.view, done.by)}" if done.by else ""
        after = " after it was due" if recheck.was_late else ""
        found, sheet = f"{done.found}; done on {day_words(done.day)}{after}{by}", done.sheet
    return RecheckTold(
        how, sentence(recheck.what), when_words(book.view, recheck), sentence(found),
        book.places.sheet_code(sheet),
    )  # fmt: skip


def _reservations(book: LaterBook) -> tuple[ReservationChange, ...]:
    every = book.reservations()
    return (
        *(ReservationChange("Cleared", _cleared(book, row)) for row in book.since.cleared),
        *(ReservationChange("New", every[n]) for n in book.since.raised),
    )


def _cleared(book: LaterBook, row: Row) -> ReservationWords:
    since, sheet = row["open since"], row["sheet"]
    return ReservationWords(
        book.places.subsystem(row["subsystem"]).text,
        (f"open since {_day(since)}: " if since else "") + row["reservation"],
        book.places.sheet_code(sheet) if sheet else Ref(""),
    )

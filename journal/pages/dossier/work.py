"""The work by subsystem as it was written: pictures before and after, then the days in order.

The text of a day stands once, under the first subsystem that its sheet names; the others lead there.
"""

from collections.abc import Iterable, Iterator
from typing import Any

from journal.ledgers.originality.figures import Summary
from journal.pages.branch import branch_sentences
from journal.pages.dossier.book import Book, Photograph, Section
from journal.pages.dossier.prosetree import ProseTree
from journal.pages.figures import FigureWords, kept_words, three_figures
from journal.pages.links import Ref, subsystem_names
from journal.pages.pairs import Pair, pairs_under
from journal.pages.value import Value
from journal.pages.words import day_words
from journal.records.sheet import Sheet
from journal.words.text import listed
from journal.words.vocabulary import Stage

# As many photographs of a subsystem as are not in a pair; the index has them all.
MORE = 4


class PairPrinted(Value, frozen=True):
    """Two photographs of one thing, before and after."""

    ref: Ref
    before: Photograph
    after: Photograph


class DayTold(Value, frozen=True):
    """A sheet with its text; `also` names the other subsystems that it tells of."""

    code: Ref
    day: str
    title: str
    also: str
    corrected: tuple[Ref, ...]
    passages: tuple[dict[str, Any], ...]


class DayElsewhere(Value, frozen=True):
    """A sheet that is told under another subsystem."""

    code: Ref
    day: str
    title: str
    under: str


class BranchTold(Value, frozen=True):
    """One subsystem's story."""

    label: str
    sentences: str
    figures: tuple[FigureWords, ...]
    pairs: tuple[PairPrinted, ...]
    photographs: tuple[Photograph, ...]
    days: tuple[DayTold, ...]
    elsewhere: tuple[DayElsewhere, ...]


def work(book: Book) -> Section:
    """Every subsystem that anything was done on."""
    names = [n for n in subsystem_names(book.view) if any(_touching(book, n))]
    return Section(
        "work", "The work, by subsystem", {"branches": tuple(_branch(book, n) for n in names)}
    )


def _touching(book: Book, name: str) -> Iterator[Sheet]:
    for sheet in book.view.car.sheets:
        front = sheet.front
        if name in front.subsystem or any(key.split("/")[0] == name for key, _ in front.work):
            yield sheet


def _branch(book: Book, name: str) -> BranchTold:
    view = book.view
    lines = [line for line in view.originality.lines if line.component.subsystem == name]
    summary = dict(view.originality.subsystems).get(name)
    back = sum(d.recoverable for line in lines for d in line.displaced)
    pairs = _unlike(pairs_under(view, book.places, name))
    touching = tuple(_touching(book, name))
    return BranchTold(
        book.places.subsystem(name).text,
        " ".join(branch_sentences(view, name)),
        _figures(summary, back) if summary and summary.weight else (),
        tuple(_pair(book, pair) for pair in pairs),
        _others(book, name, {p.number for pair in pairs for p in (pair.before, pair.after)}),
        tuple(_told(book, s) for s in touching if s.front.subsystem[0] == name),
        tuple(_elsewhere(book, s) for s in touching if s.front.subsystem[0] != name),
    )


def _figures(summary: Summary, back: int) -> tuple[FigureWords, ...]:
    """Material and conformity; the third figure only where an item that is kept makes it another."""
    figures = three_figures(summary, kept_words(back))
    return figures if back else figures[:2]


def _unlike(pairs: Iterable[Pair]) -> tuple[Pair, ...]:
    """Pairs in which no photograph stands a second time."""
    shown: set[int] = set()
    chosen = []
    for pair in pairs:
        numbers = {pair.before.number, pair.after.number}
        if not numbers & shown:
            shown |= numbers
            chosen.append(pair)
    return tuple(chosen)


def _pair(book: Book, pair: Pair) -> PairPrinted:
    before, after = book.printed((pair.before, pair.after))
    return PairPrinted(pair.ref, before, after)


def _others(book: Book, name: str, paired: set[int]) -> tuple[Photograph, ...]:
    """Photographs that stand in no pair: those as finished first, since the rest are on the way."""
    left = [
        p for p in book.view.gallery.pictures
        if p.subsystem == name and p.number not in paired and p.stage is not Stage.AS_FOUND
    ]  # fmt: skip
    left.sort(key=lambda p: p.stage is not Stage.AS_FINISHED)
    chosen = sorted(left[:MORE], key=lambda p: p.number)
    return book.photographs(chosen)


def _told(book: Book, sheet: Sheet) -> DayTold:
    also = [book.places.subsystem(name).text for name in sheet.front.subsystem[1:]]
    later = [
        s.name for s in book.view.car.sheets if sheet.name in {c.sheet for c in s.front.corrects}
    ]
    return DayTold(
        book.places.sheet_code(sheet.name),
        day_words(sheet.date),
        sheet.title,
        listed(also),
        book.places.sheet_codes(later),
        ProseTree(book.view, book.places, sheet.date).passages(sheet.body),
    )


def _elsewhere(book: Book, sheet: Sheet) -> DayElsewhere:
    under = book.places.subsystem(sheet.front.subsystem[0]).text
    return DayElsewhere(
        book.places.sheet_code(sheet.name), day_words(sheet.date), sheet.title, under
    )

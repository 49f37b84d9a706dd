"""The condition of the car as it was booked in: words, register, photographs."""

from journal.ledgers.originality import Line
from journal.ledgers.originality.items import Item
from journal.pages.dossier.book import Book, Section
from journal.pages.lines import ItemWords, item_words, learned_words
from journal.pages.links import Ref
from journal.pages.value import Value
from journal.pages.words import day_words, in_words, percent_words, sentence, some
from journal.words.vocabulary import Origin, Stage

# As many photographs as show the car as found; the index has them all.
MOST = 24


class FoundRow(Value, frozen=True):
    """One component as it was found; `learned` says until when it was taken for something else."""

    ref: Ref
    item: ItemWords
    condition: str
    learned: str


class FoundBranch(Value, frozen=True):
    """The components of a subsystem as found, and how much of it was the car's own.

    Those that were first-fit and of which nothing else is written are in `plain`, by name alone.
    """

    label: str
    material: str
    conforms: str
    rows: tuple[FoundRow, ...]
    plain: tuple[Ref, ...]


def condition(book: Book) -> Section:
    """What was said at booking in, every component as found, and photographs of that state."""
    view = book.view
    found = [
        p for p in view.gallery.pictures if p.stage is Stage.AS_FOUND and p.path in view.pictures
    ]
    return Section(
        "condition",
        "Condition as booked in",
        {
            "day": day_words(view.car.car.booked_in),
            "words": view.car.car.condition or "",
            "mileage": view.car.car.mileage or "",
            "count": _count(view.originality.lines),
            "branches": tuple(_branch(book, name) for name, _ in view.originality.subsystems),
            "photographs": tuple(sorted(book.photographs(found[:MOST]), key=lambda p: p.tall)),
            "more": f"{sentence(some(len(found) - MOST, 'more photograph'))} as found in the index."
            if len(found) > MOST
            else "",
        },
    )


def _count(lines: tuple[Line, ...]) -> str:
    if not lines:
        return ""
    own = sum(line.as_found.origin is Origin.FIRST_FIT for line in lines)
    absent = sum(line.as_found.origin is Origin.ABSENT for line in lines)
    unknown = sum(line.as_found.origin is Origin.UNKNOWN for line in lines)
    verb, items = ("was", "item") if own == 1 else ("were", "items")
    first = in_words(own) if own else "none"
    told = (
        f"{first} of {some(len(lines), 'component')} {verb} the very {items} that the works fitted"
    )
    rest = [f"{some(absent, 'place')} stood empty"] if absent else []
    rest += [f"of {in_words(unknown)} nobody can tell"] if unknown else []
    return sentence("; ".join([told, *rest])) + "."


def _branch(book: Book, name: str) -> FoundBranch:
    lines = [x for x in book.view.originality.lines if x.component.subsystem == name]
    figures = dict(book.view.originality.subsystems)[name].found
    return FoundBranch(
        book.places.subsystem(name).text,
        percent_words(figures.material),
        percent_words(figures.conformity),
        tuple(_row(book, line) for line in lines if not _plain(line)),
        tuple(book.places.component(line.component.key) for line in lines if _plain(line)),
    )


def _plain(line: Line) -> bool:
    """Whether it was first-fit and whole, and nothing else is written of how it was found."""
    whole = line.as_found == Item(Origin.FIRST_FIT)
    return whole and not line.learned and not line.component.line.condition


def _row(book: Book, line: Line) -> FoundRow:
    first = line.learned[0] if line.learned else None
    learned = learned_words(first.before, line.learned[-1].day) if first else ""
    return FoundRow(
        book.places.component(line.component.key),
        item_words(line.as_found),
        line.component.line.condition or "",
        learned,
    )

"""What the car is, and how anyone knows: its facts, its numbers with photographs, its papers."""

from journal.ledgers.numbers import NumberLine
from journal.pages.dossier.book import Book, Photograph, Section
from journal.pages.front import car_facts
from journal.pages.links import Ref
from journal.pages.numbers import numbers_lead
from journal.pages.numberwords import NumberWords, number_words
from journal.pages.papers import paper_words
from journal.pages.value import Value
from journal.pages.words import day_words
from journal.pages.workwords import Fact
from journal.words.vocabulary import Stage

# As many photographs as stand beside a number: the first and the last of what carries it.
BESIDE = 2
_SHOWS = (Stage.EVIDENCE, Stage.AS_FOUND, Stage.AS_FINISHED)


class NumberShown(Value, frozen=True):
    """One number, and photographs of what carries it."""

    number: NumberWords
    photographs: tuple[Photograph, ...]


class PaperLine(Value, frozen=True):
    """One paper: its code, what it is, its day, whence it comes, what it says."""

    code: Ref
    title: str
    kind: str
    day: str
    source: str
    says: str
    numbers: str


def identity(book: Book) -> Section:
    """The car, its numbers as recorded, found and delivered, and the papers that speak for them."""
    view = book.view
    return Section(
        "identity",
        "What the car is, and how we know",
        {
            "facts": (*car_facts(view), *_days(book)),
            "brief": view.car.car.brief or "",
            "lead": numbers_lead(view),
            "standing": book.standing,
            "numbers": tuple(_number(book, line) for line in view.numbers.lines),
            "papers": paper_lines(book),
        },
    )


def _days(book: Book) -> tuple[Fact, ...]:
    car = book.view.car.car
    days = [Fact("Booked in", day_words(car.booked_in))]
    if car.delivered and book.delivered:
        days.append(Fact("Delivered", day_words(car.delivered)))
    return tuple(days)


def _number(book: Book, line: NumberLine) -> NumberShown:
    pictures = [p for p in book.view.gallery.of(line.on or "") if p.path in book.view.pictures]
    chosen = [p for p in pictures if p.stage in _SHOWS] or pictures
    ends = chosen if len(chosen) <= BESIDE else [chosen[0], chosen[-1]]
    return NumberShown(number_words(book.places, line), book.photographs(ends))


def paper_lines(book: Book) -> tuple[PaperLine, ...]:
    """Every paper that the reader may see."""
    lines = []
    for name, paper in book.view.car.papers:
        told = paper_words(book.view, book.places, name, paper)
        numbers = "; ".join(f"{number} {value}" for number, value in told.numbers)
        lines.append(
            PaperLine(
                book.places.paper_code(name), told.title, told.kind, told.day, told.source,
                told.says, numbers,
            )
        )  # fmt: skip
    return tuple(lines)

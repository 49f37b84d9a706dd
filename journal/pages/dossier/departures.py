"""Each departure from the works specification: why, by whose word, and the way back."""

from msgspec.structs import replace

from journal.pages.departures import (
    DepartureWords,
    came_so,
    departures_of,
    reversible_sentence,
)
from journal.pages.dossier.book import Book, Photograph, Section
from journal.pages.lines import DisplacedWords, ItemWords, item_words
from journal.pages.links import Ref
from journal.pages.value import Value


class DepartureTold(Value, frozen=True):
    """One departure, with a photograph of it where there is one."""

    words: DepartureWords
    back: str
    photographs: tuple[Photograph, ...]


def departures(book: Book) -> Section:
    """Departures of this work, those renewed, and those the car came with and kept."""
    view, places = book.view, book.places
    made, renewed = departures_of(view, places)
    gone = tuple(
        (places.component(line.component.key, full=True), item_words(line.now))
        for line in view.originality.lines
        if line.now.gone
    )
    came: tuple[tuple[Ref, ItemWords, str], ...] = came_so(view, places)
    return Section(
        "departures",
        "Departures from the works specification",
        {
            "made": tuple(_told(book, d) for d in made),
            "renewed": tuple(_told(book, d) for d in renewed),
            "reversible": reversible_sentence(made + renewed) if made or renewed else "",
            "came_so": came,
            "gone": gone,
        },
    )


def _told(book: Book, departure: DepartureWords) -> DepartureTold:
    plates = (departure.picture,) if departure.picture else ()
    return DepartureTold(
        replace(departure, picture=None), back_words(departure.change), book.printed(plates)
    )


def back_words(change: DisplacedWords) -> str:
    """Whether the works item can go back, and whether it is the one that came off."""
    if change.recoverable:
        return "yes, with the item that came off"
    return "yes, with another item" if change.back == "yes" else change.back

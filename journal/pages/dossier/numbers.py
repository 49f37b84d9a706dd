"""Numbers and keepers in full: every reading of a number, the chain of keepers, the odometer."""

from journal.pages.dossier.book import Book, Section
from journal.pages.keeperwords import count_curve, count_words, keeper_lines, plate_words
from journal.pages.numbers import numbers_lead
from journal.pages.numberwords import number_words
from journal.words.units import partner_unit


def numbers(book: Book) -> Section:
    """What is stamped on the car, who kept it, what it was registered as, what its odometer read."""
    view, places = book.view, book.places
    keepers = view.keepers
    return Section(
        "numbers",
        "Numbers and keepers",
        {
            "lead": numbers_lead(view),
            "numbers": tuple(number_words(places, line) for line in view.numbers.lines),
            "keepers": keeper_lines(view, places),
            "plates": tuple(plate_words(places, plate) for plate in keepers.plates),
            "counts": count_words(view, places),
            "curve": count_curve(view),
            "backwards": bool(keepers.backwards),
            "exchanged": tuple(places.sheet(sheet) for _, sheet in keepers.exchanged),
            "units": (keepers.unit.value, partner_unit(keepers.unit.value) or ""),
        },
    )

"""The inventory of what is handed over beside the car: originals first, then all else that is kept."""

from journal.pages.departures import kept_items
from journal.pages.dossier.book import Book, Section
from journal.pages.words import sentence, some


def originals(book: Book) -> Section:
    """Items that came off and are kept, to be ticked one by one by both who sign."""
    first = kept_items(book.view, book.places, first_fit=True)
    others = kept_items(book.view, book.places, first_fit=False)
    return Section(
        "originals",
        "Originals handed over",
        {
            "lead": _lead(len(first), len(others)),
            "originals": first,
            "others": others,
            "signatures": (
                ("Handed over by", book.view.car.workshop.name),
                ("Received by", book.view.car.car.owner.name),
            ),
        },
    )


def _lead(first: int, others: int) -> str:
    if not first and not others:
        return "No item that came off the car is kept."
    told = f"{some(first, 'original item')} of the works" if first else "no original of the works"
    more = f", and {some(others, 'other item')}" if others else ""
    verb = "is" if first + others == 1 else "are"
    return sentence(
        f"{told}{more} came off the car and {verb} kept. Tick each as it is handed over."
    )

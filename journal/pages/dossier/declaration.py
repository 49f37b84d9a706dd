"""The declaration, with room for two hands to sign."""

from journal.pages.common import car_title
from journal.pages.dossier.book import Book, Section
from journal.pages.dossier.summary import reservations_words
from journal.words.cautions import GENERAL


def declaration(book: Book) -> Section:
    """What the restorer declares, what the owner takes over, and where each signs."""
    car = book.view.car
    chassis = car.car.numbers.get("chassis")
    number = f", chassis {chassis.found}" if chassis and chassis.found else ""
    return Section(
        "declaration",
        "Declaration",
        {
            "draft": not book.delivered,
            "restorer": (
                f"This dossier tells what the day sheets of {car.workshop.name} hold of"
                f" {car_title(car.car)}{number}. Notes that the workshop keeps for itself, and prices"
                " unless the owner has them shown, are no part of it. Of what was found, changed or left"
                " undone nothing has knowingly been left out."
            ),
            "owner": (
                "I have received the car, this dossier, and the items ticked in the inventory. I have"
                " read the reservations and the cautions."
            ),
            "reservations": reservations_words(book.reservations()),
            "general": GENERAL,
            "signatures": (
                ("For the workshop", car.workshop.name),
                ("The owner", car.car.owner.name),
            ),
            "fields": ("Signature", "Name", "Place and date"),
        },
    )

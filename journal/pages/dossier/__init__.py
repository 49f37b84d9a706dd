"""The dossier: what is handed over on paper, section by section, as values that a template prints."""

from typing import Any

from journal.digests.gate import Gate
from journal.ledgers.seals import Seals
from journal.pages.dossier.book import Book, Photograph, Sections
from journal.pages.dossier.condition import condition
from journal.pages.dossier.declaration import declaration
from journal.pages.dossier.departures import departures
from journal.pages.dossier.evidence import evidence
from journal.pages.dossier.identity import identity
from journal.pages.dossier.key import key_to
from journal.pages.dossier.ledger import ledger
from journal.pages.dossier.limits import limits
from journal.pages.dossier.numbers import numbers
from journal.pages.dossier.originals import originals
from journal.pages.dossier.parts import parts
from journal.pages.dossier.plain import plain
from journal.pages.dossier.provingrecord import proving
from journal.pages.dossier.runningin import running_in
from journal.pages.dossier.seal import seal
from journal.pages.dossier.settings import settings
from journal.pages.dossier.summary import reservations_words, summary
from journal.pages.dossier.work import work
from journal.pages.plates import cover_of
from journal.pages.view import CarView
from journal.pages.words import day_words

# In the order in which a valuer reads.
SECTIONS: Sections = (
    identity,
    summary,
    condition,
    work,
    ledger,
    departures,
    originals,
    parts,
    settings,
    proving,
    running_in,
    limits,
    numbers,
    evidence,
    seal,
    declaration,
)

# A first page with more reservations than this has room for nothing else.
WITH_COVER = 8


def dossier_values(view: CarView, gate: Gate, seals: Seals, *, paper: str) -> dict[str, Any]:
    """Everything that the dossier prints, as plain values: the document, its first page, its sections."""
    book = Book(view, gate, seals)
    draft = "" if book.delivered else f"Draft of {day_words(view.until)}"
    return {
        "document": book.document("Provenance dossier", paper, draft),
        "first": _first_page(book),
        "key": plain(key_to()),
        "sections": [plain(section(book)) for section in SECTIONS],
    }


def _first_page(book: Book) -> dict[str, Any]:
    car = book.view.car
    chassis = car.car.numbers.get("chassis")
    cover = cover_of(book.view, book.places)
    reservations = book.reservations()
    delivered = car.car.delivered
    shown: tuple[Photograph, ...] = book.printed((cover,)) if cover else ()
    values = {
        "car": car.car.name,
        "year": car.car.year or "",
        "body": car.car.body,
        "number": f"Chassis {chassis.found}" if chassis and chassis.found else "",
        "address": car.workshop.address or "",
        "day": f"Delivered on {day_words(delivered)}"
        if delivered and book.delivered
        else f"As it stood on {day_words(book.view.until)}",
        "cover": shown if len(reservations) <= WITH_COVER else (),
        "reservations": reservations,
        "reservations_count": reservations_words(reservations) if reservations else "",
        "handed_over": book.delivered,
    }
    told = plain(values)
    assert isinstance(told, dict)
    return told

"""A small car that every section of the dossier has something to tell of, and the values of one section."""

from typing import Any

from journal.ledgers.seals import Seals
from journal.outputs.tables_gate import gate_of
from journal.pages.dossier import SECTIONS
from journal.pages.dossier.book import Book
from journal.pages.dossier.plain import plain
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.printing import PHOTO, small_view
from tests.writing import a_car, a_sheet

FIT = {
    "did": ["removed", "fitted"], "now": "upgrade", "original": "bin B-2", "why": "rust",
    "decided": "owner", "reversible": "yes", "undo": "make the set again",
}  # fmt: skip


def a_full_car(**car: Any) -> CarFile:
    first = a_sheet(
        "2024-03-05", name="pipes", title="Pipes off", hours={"MT": "3"}, body="Nine pipes.",
        subsystem=["brakes", "trim"], work={"brakes/pipes": FIT},
        photos={"file": "pipes.jpg", "of": "brakes/pipes", "stage": "as-found"}, papers="card",
        measured={"bore": {"on": "brakes/pipes", "read": "3.2", "unit": "mm", "limit": ["3", "4"]}},
        snags={"bleed": {"raise": "bleed the brakes", "hold": "yes"}},
    )  # fmt: skip
    second = a_sheet(
        "2024-03-06", name="again", title="Pipes again", body="Ten.",
        work={"trim/seat": {"did": "inspected", "found": "springs tired", "verdict": "watch"}},
        measured={"Bore": {"on": "brakes/pipes", "read": "3.4", "unit": "mm", "limit": ["3", "4"]}},
        corrects={"sheet": first.name, "what": "ten pipes"},
    )  # fmt: skip
    return a_car(
        {"brakes/pipes": {"as-found": "first-fit", "condition": "weeping"}, "trim/seat": "unknown"},
        [first, second], photos=[PHOTO], numbers={"chassis": {"found": "TD 1", "on": "brakes/pipes"}},
        papers={"card": {"title": "Build card", "numbers": {"chassis": "TD 1"}}}, **car,
    )  # fmt: skip


def section(kind: str, car: CarFile, reader: Reader = Reader.WORKSHOP, **given: Any) -> Any:
    """The values of one section as plain data."""
    book = Book(
        small_view(car, reader),
        given.get("gate", gate_of(car, Seals())),
        given.get("seals", Seals()),
    )
    return next(plain(s.values) for s in (make(book) for make in SECTIONS) if s.kind == kind)

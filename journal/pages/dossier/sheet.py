"""One day sheet on paper: its text and photographs, then the facts of the day."""

from typing import Any

from journal.pages.dossier.book import Book
from journal.pages.dossier.plain import plain
from journal.pages.dossier.prosetree import ProseTree
from journal.pages.sheet import sheet_facts
from journal.pages.view import CarView
from journal.records.sheet import Sheet


def sheet_print(view: CarView, sheet: Sheet, *, paper: str) -> dict[str, Any]:
    """Everything that a sheet prints, as plain values."""
    book = Book(view, indexed=False)
    return {"document": book.document("Day sheet", paper), "sheet": plain(sheet_told(book, sheet))}


def sheet_told(book: Book, sheet: Sheet) -> dict[str, Any]:
    """What a sheet says, alone or within a document."""
    view = book.view
    return {
        **sheet_facts(view, book.places, sheet),
        "title": sheet.title,
        "passages": ProseTree(view, book.places, sheet.date).passages(sheet.body),
        "photographs": book.photographs(view.gallery.in_sheet(sheet.name)),
    }

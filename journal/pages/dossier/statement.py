"""A statement to the owner on paper: what its page says, in the form of a letter."""

from typing import Any

from journal.digests.statement import Stated
from journal.pages.dossier.book import Book
from journal.pages.dossier.plain import plain
from journal.pages.statement import statement_title, statement_values
from journal.pages.view import CarView


def statement_print(view: CarView, stated: Stated, *, paper: str) -> dict[str, Any]:
    """Everything that a statement prints, as plain values."""
    book = Book(view, indexed=False)
    title = statement_title(view, stated)
    told = plain(statement_values(view, book.places, stated))
    name = "Statement" if stated.issued is None else title
    return {
        "document": book.document(name, paper, "" if stated.issued else "Not issued"),
        "statement": {**told, "title": title, "owner_address": view.car.car.owner.address or ""},
    }

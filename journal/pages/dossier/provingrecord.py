"""The proving record with the names of those who did it and those who looked again."""

from journal.pages.dossier.book import Book, Section
from journal.pages.proving import (
    act_words,
    proving_branch,
    proving_lead,
    record_sentence,
    whole_acts,
)


def proving(book: Book) -> Section:
    """Every proof that is asked for with its latest record; then every act on which safety hangs."""
    view, places = book.view, book.places
    return Section(
        "proving",
        "Proving record",
        {
            "lead": proving_lead(view),
            "branches": tuple(proving_branch(view, places, n) for n in view.proving.subsystems),
            "record": record_sentence(view),
            "wanting": tuple(
                act_words(view, places, a, full=True) for a in view.completeness.wanting
            ),
            "whole": whole_acts(view, places),
        },
    )

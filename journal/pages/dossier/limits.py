"""Cautions, and the limits of what is declared."""

from journal.pages.common import cautions_for
from journal.pages.dossier.book import Book, Section
from journal.pages.links import subsystem_names
from journal.pages.photowords import NOT_OF_COPIES, PURPOSE
from journal.words.cautions import GENERAL

# What the figures and the lines claim, and what they do not.
LIMITS = (
    "This dossier is drawn from the day sheets of the workshop as they stood on the day it bears. It says"
    " what was written down; of what was not written down it says nothing.",
    "Every figure of originality is an interval. What nobody can tell counts as nothing at its lower end and"
    " as whole at its upper end. The weight and the shares behind each figure stand in the ledger.",
    "A line is graded by its evidence. Words alone are worth as much as who says them; what numbers or papers"
    " contradict is shown as disputed and never averaged away.",
    "A reading was taken with the tool named, on the day named. It tells nothing of a later day.",
    "A proof is a record that a check was made, by whom and with what result. It is no certificate, no test"
    " of roadworthiness and no warranty, and it is no substitute for an inspection by a qualified person.",
    "Nothing in it is an opinion of value.",
)


def limits(book: Book) -> Section:
    """What is declared and what is not; the usual cautions."""
    texts = cautions_for(book.view, subsystem_names(book.view))
    return Section(
        "limits",
        "Cautions and limits of what is declared",
        {
            "general": GENERAL,
            "limits": LIMITS,
            "cautions": tuple(text for text in texts if text != GENERAL),
            "photographs": (PURPOSE, NOT_OF_COPIES),
        },
    )

"""Pages: ledgers in, pages out, as values that a template prints.

`PAGES_AT` lists what makes the pages of one car, in the order in which they are written, and where
they lie; `FILES_AT` what makes files beside them that are no pages.
"""

from collections.abc import Callable, Sequence
from fnmatch import fnmatchcase
from typing import TypeVar

from journal.pages.component import page_component
from journal.pages.contact import page_contact
from journal.pages.decisions import page_decisions
from journal.pages.departures import page_departures
from journal.pages.evidence import page_evidence
from journal.pages.feed import file_feed
from journal.pages.find import page_find
from journal.pages.front import page_front
from journal.pages.hours import page_hours
from journal.pages.ledger import page_ledger
from journal.pages.measured import page_measured
from journal.pages.money import page_money
from journal.pages.numbers import page_numbers
from journal.pages.outwork import page_outwork
from journal.pages.page import Page, TextFile
from journal.pages.papers import page_papers
from journal.pages.parting import folder_of
from journal.pages.parts import page_parts
from journal.pages.picture import page_picture
from journal.pages.pictures import page_pictures
from journal.pages.progress import page_progress
from journal.pages.proving import page_proving
from journal.pages.rechecks import page_rechecks
from journal.pages.seals import page_seals
from journal.pages.searchdata import files_search
from journal.pages.sheet import page_sheet
from journal.pages.sheets import page_sheets
from journal.pages.snags import page_snags
from journal.pages.statement import page_statement
from journal.pages.subsystem import page_subsystem
from journal.pages.subsystems import page_subsystems
from journal.pages.sums import page_sums
from journal.pages.suppliers import page_suppliers
from journal.pages.view import CarView
from journal.pages.waiting import page_waiting
from journal.pages.workshop import CarFront, front_of, page_fronts, page_workshop

T = TypeVar("T", Page, TextFile)

__all__ = [
    "FILES", "FILES_AT", "MANY", "PAGES", "PAGES_AT", "CarFront", "file_at", "front_of", "page_at",
    "page_fronts", "page_workshop",
]  # fmt: skip

# Where the pages lie that each function makes, within the folder of a car; the further pages of a list lie
# in a folder of its name.
PAGES_AT: tuple[tuple[str, Callable[[CarView], tuple[Page, ...]]], ...] = (
    ("index.html", page_front),
    ("sheets/index.html", page_sheets),
    ("sheets/*.html", page_sheet),
    ("subsystems/index.html", page_subsystems),
    ("subsystems/*.html", page_subsystem),
    ("components/*.html", page_component),
    ("ledger.html", page_ledger),
    ("departures.html", page_departures),
    ("decisions.html", page_decisions),
    ("waiting.html", page_waiting),
    ("progress.html", page_progress),
    ("parts.html", page_parts),
    ("outwork.html", page_outwork),
    ("suppliers.html", page_suppliers),
    ("snags.html", page_snags),
    ("proving.html", page_proving),
    ("rechecks.html", page_rechecks),
    ("hours.html", page_hours),
    ("money.html", page_money),
    ("statements/*.html", page_statement),
    ("measured.html", page_measured),
    ("sums.html", page_sums),
    ("pictures/*.html", page_pictures),
    ("pictures/*.html", page_picture),
    ("pictures/evidence.html", page_evidence),
    ("pictures/contact.html", page_contact),
    ("papers.html", page_papers),
    ("numbers.html", page_numbers),
    ("seals.html", page_seals),
    ("find.html", page_find),
)
PAGES = tuple(make for _, make in PAGES_AT)
# Those that make a page of each thing of their kind.
MANY = frozenset(make for at, make in PAGES_AT if "*" in at)

FILES_AT: tuple[tuple[str, Callable[[CarView], tuple[TextFile, ...]]], ...] = (
    ("feed.xml", file_feed),
    ("find/*.js", files_search),
)
FILES = tuple(make for _, make in FILES_AT)


def page_at(view: CarView, path: str) -> Page | None:
    """The page at a path within the folder of a car, made without the others; None if there is none."""
    return _at(PAGES_AT, view, path)


def file_at(view: CarView, path: str) -> TextFile | None:
    """The file at a path within the folder of a car that is no page, or None."""
    return _at(FILES_AT, view, path)


def _at(
    table: Sequence[tuple[str, Callable[[CarView], tuple[T, ...]]]], view: CarView, path: str
) -> T | None:
    made = (one for at, make in table if _may_lie(path, at) for one in make(view))
    return next((one for one in made if one.path == view.base + path), None)


def _may_lie(path: str, at: str) -> bool:
    """Whether something lies at a path that matches, or is a further page of a list that does."""
    return fnmatchcase(path, at) or fnmatchcase(path, f"{folder_of(at)}*.html")

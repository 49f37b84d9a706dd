"""Pages: ledgers in, pages out, as values that a template prints.

`PAGES` lists what makes the pages of one car, in the order in which they are written.
"""

from collections.abc import Callable

from journal.pages.component import page_component
from journal.pages.departures import page_departures
from journal.pages.front import page_front
from journal.pages.hours import page_hours
from journal.pages.ledger import page_ledger
from journal.pages.measured import page_measured
from journal.pages.page import Page
from journal.pages.papers import page_papers
from journal.pages.parts import page_parts
from journal.pages.picture import page_picture
from journal.pages.pictures import page_pictures
from journal.pages.sheet import page_sheet
from journal.pages.sheets import page_sheets
from journal.pages.snags import page_snags
from journal.pages.subsystem import page_subsystem
from journal.pages.subsystems import page_subsystems
from journal.pages.view import CarView
from journal.pages.workshop import page_workshop

__all__ = ["PAGES", "page_workshop"]

PAGES: tuple[Callable[[CarView], tuple[Page, ...]], ...] = (
    page_front,
    page_sheets,
    page_sheet,
    page_subsystems,
    page_subsystem,
    page_component,
    page_ledger,
    page_departures,
    page_parts,
    page_snags,
    page_hours,
    page_measured,
    page_pictures,
    page_picture,
    page_papers,
)

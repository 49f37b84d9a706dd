"""Pages: ledgers in, pages out, as values that a template prints.

`PAGES` lists what makes the pages of one car, in the order in which they are written; `FILES` what
makes files beside them that are no pages.
"""

from collections.abc import Callable

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
from journal.pages.workshop import page_workshop

__all__ = ["FILES", "PAGES", "page_workshop"]

PAGES: tuple[Callable[[CarView], tuple[Page, ...]], ...] = (
    page_front,
    page_sheets,
    page_sheet,
    page_subsystems,
    page_subsystem,
    page_component,
    page_ledger,
    page_departures,
    page_decisions,
    page_waiting,
    page_progress,
    page_parts,
    page_outwork,
    page_suppliers,
    page_snags,
    page_proving,
    page_rechecks,
    page_hours,
    page_money,
    page_statement,
    page_measured,
    page_sums,
    page_pictures,
    page_picture,
    page_evidence,
    page_contact,
    page_papers,
    page_numbers,
    page_seals,
    page_find,
)

FILES: tuple[Callable[[CarView], tuple[TextFile, ...]], ...] = (file_feed, files_search)

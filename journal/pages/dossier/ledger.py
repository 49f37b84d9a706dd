"""The full originality ledger: figures, origins, and a line for every component."""

from journal.ledgers.originality import Line
from journal.pages.dossier.book import Book, Section
from journal.pages.ledger import disputes, figure_row, origin_rows
from journal.pages.lines import LedgerRow, ledger_row
from journal.pages.links import Ref
from journal.pages.value import Value
from journal.words.vocabulary import EVIDENCE_MEANING, Evidence


class LineTold(Value, frozen=True):
    """A line of the ledger: `place` names it within the document, `works` is what the factory
    fitted, `told` are the sheets of its history."""

    place: str
    row: LedgerRow
    works: str
    told: tuple[Ref, ...]


class LinesOf(Value, frozen=True):
    """The lines of one subsystem."""

    label: str
    lines: tuple[LineTold, ...]


def ledger(book: Book) -> Section:
    """Every component as found and now, with its shares, its evidence and its sheets."""
    view, places = book.view, book.places
    of = view.originality
    numbered = {line.component.key: n for n, line in enumerate(of.lines, 1)}
    return Section(
        "ledger",
        "Originality ledger",
        {
            "standing": book.standing,
            "figures": tuple(figure_row(places.subsystem(n), s) for n, s in of.subsystems),
            "whole": figure_row(Ref("The whole car"), of.whole),
            "origins": origin_rows(of.lines),
            "grades": tuple((g.value, EVIDENCE_MEANING[g]) for g in Evidence),
            "branches": tuple(
                LinesOf(
                    places.subsystem(name).text,
                    tuple(
                        _line(book, line, numbered[line.component.key])
                        for line in of.lines
                        if line.component.subsystem == name
                    ),
                )
                for name, _ in of.subsystems
            ),
            "disputes": disputes(view, places),
        },
    )


def _line(book: Book, line: Line, number: int) -> LineTold:
    sheets = [entry.sheet for entry in line.biography]
    return LineTold(
        f"line-{number}",
        ledger_row(line, book.places),
        line.component.line.works or "",
        book.places.sheet_codes(sheets),
    )

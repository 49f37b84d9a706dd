"""Derived tables: the ledgers as rows, for the terminal, as CSV and as JSON."""

import csv
import io
import json
from collections.abc import Callable, Sequence
from datetime import date
from fractions import Fraction

from journal.ledgers.numbers import fold_numbers
from journal.ledgers.originality import Line
from journal.ledgers.originality.fold import fold_originality
from journal.ledgers.seals import Seals
from journal.outputs.table import Cell, Table
from journal.outputs.tables_decisions import table_decisions
from journal.outputs.tables_departures import table_departures, table_originals
from journal.outputs.tables_gate import table_gate
from journal.outputs.tables_goods import table_outwork, table_parts, table_suppliers
from journal.outputs.tables_measured import table_measured
from journal.outputs.tables_money import table_hours, table_money, table_statement
from journal.outputs.tables_numbers import table_keepers, table_numbers
from journal.outputs.tables_pictures import table_pictures
from journal.outputs.tables_progress import table_progress
from journal.outputs.tables_proving import table_proving
from journal.outputs.tables_rechecks import table_rechecks
from journal.outputs.tables_sheets import table_sheets
from journal.outputs.tables_snags import table_snags
from journal.outputs.tables_sums import table_sums
from journal.outputs.tables_waiting import table_waiting
from journal.records.carfile import CarFile
from journal.words.amounts import Interval, percent, plain_number


def table_ledger(car: CarFile, day: date) -> Table:
    """One row a component: as found, now, shares, evidence, and the way back."""
    ledger = fold_originality(car, disputed=fold_numbers(car).disputed_components)
    columns = (
        "component", "weight", "as found", "now", "own material", "conforms", "position",
        "evidence", "displaced", "decided",
    )  # fmt: skip
    whole = ledger.whole
    total = (
        f"Own material {_interval(whole.found.material)} as found, {_interval(whole.now.material)} now, "
        f"{_interval(whole.recoverable.material)} recoverable. "
        f"Conforms {_interval(whole.found.conformity)} as found, {_interval(whole.now.conformity)} now, "
        f"{_interval(whole.recoverable.conformity)} recoverable."
    )
    return Table(columns, tuple(_ledger_row(line) for line in ledger.lines), total)


def _ledger_row(line: Line) -> tuple[Cell, ...]:
    off = line.displaced[-1] if line.displaced else None
    where = (off.item.kept or (off.item.fate and off.item.fate.value)) if off else None
    return (
        line.component.key, line.weight, line.as_found.origin.value, line.now.origin.value,
        _interval(line.now.material), _interval(line.now.conformity), line.position.value,
        line.evidence.value, where, off.decided.by if off and off.decided else None,
    )  # fmt: skip


def _interval(share: Interval) -> str:
    low, high = percent(share.low), percent(share.high)
    return f"{low} %" if low == high else f"{low} to {high} %"


TABLES: dict[str, Callable[[CarFile, date], Table]] = {
    "ledger": table_ledger,
    "departures": table_departures,
    "originals": table_originals,
    "snags": table_snags,
    "proving": table_proving,
    "rechecks": table_rechecks,
    "hours": table_hours,
    "money": table_money,
    "statement": table_statement,
    "parts": table_parts,
    "outwork": table_outwork,
    "suppliers": table_suppliers,
    "progress": table_progress,
    "waiting": table_waiting,
    "decisions": table_decisions,
    "measured": table_measured,
    "sums": table_sums,
    "numbers": table_numbers,
    "keepers": table_keepers,
    "pictures": table_pictures,
    "sheets": table_sheets,
}

# Tables that hold the car file against its seals besides.
SEALED_TABLES: dict[str, Callable[[CarFile, Seals], Table]] = {"gate": table_gate}

# The tables that tell what the files of photographs say of themselves.
NEED_FACTS = frozenset({"pictures"})


def cell_text(cell: Cell) -> str:
    """A cell as a person reads it; nothing for what is not known."""
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, Fraction):
        return plain_number(cell, 4)
    return cell.isoformat() if isinstance(cell, date) else str(cell)


def as_csv(table: Table) -> str:
    """RFC 4180: a header line, CRLF, quotes where needed.

    A text that a spreadsheet would run as a formula is set off with an apostrophe.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(table.columns)
    writer.writerows([_harmless(cell) for cell in row] for row in table.rows)
    return out.getvalue()


def _harmless(cell: Cell) -> str:
    text = cell_text(cell)
    return f"'{text}" if isinstance(cell, str) and text[:1] in ("=", "+", "-", "@", "\t") else text


def as_json(table: Table) -> str:
    """A list of objects by column name; numbers as texts, so that no digit is lost."""
    rows = [
        {column: _plain(cell) for column, cell in zip(table.columns, row, strict=True)}
        for row in table.rows
    ]
    return json.dumps(rows, indent=2, ensure_ascii=False)


def _plain(cell: Cell) -> str | int | bool | None:
    if cell is None or isinstance(cell, bool | int):
        return cell
    return cell_text(cell)


def shown(rows: Sequence[tuple[Cell, ...]]) -> list[list[str]]:
    """Rows as texts."""
    return [[cell_text(cell) for cell in row] for row in rows]

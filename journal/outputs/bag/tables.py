"""The tables of a bag: what the ledgers say, as CSV that any program reads, each column explained."""

from collections.abc import Iterable, Iterator
from datetime import date
from itertools import chain

from journal.digests.gate import Gate
from journal.ledgers.gallery import fold_gallery
from journal.outputs.bag.columns import COLUMNS, MONEY
from journal.outputs.bag.pictures import Packed
from journal.outputs.pictures import photo_at, scan_at
from journal.outputs.table import Cell, Table
from journal.outputs.tables import TABLES, as_csv
from journal.readers.rules import sight_of
from journal.records.carfile import CarFile
from journal.records.goods import PartLine
from journal.records.workshop import Hand
from journal.words.vocabulary import Reader

PICTURES, RESERVATIONS, ABOUT = "pictures", "reservations", "columns"
# A table of what the work came to, which is between workshop and owner whatever things cost.
_OF_MONEY = "money"


def bag_tables(
    car: CarFile, day: date, packed: Iterable[Packed], gate: Gate, reader: Reader
) -> Iterator[tuple[str, str]]:
    """Every table by its name, as the text of a CSV file (RFC 4180, UTF-8), and `columns` that says
    what they hold. `car` is what the reader may see, with everything under its name in the workshop;
    the files of sheets are those of the sources that the car file names. `gate` is of the whole car."""
    fields = sight_of(reader, car.car).fields if reader is not Reader.WORKSHOP else None
    seen = fields is None or "price" in fields[PartLine]
    all_of_it = fields is None or "rate" in fields[Hand]
    own = {
        PICTURES: table_packed(car, packed),
        RESERVATIONS: table_reservations(car, gate, reader),
    }
    tables = {
        name: own[name] if name in own else TABLES[name](car, day)
        for name in COLUMNS
        if all_of_it or name != _OF_MONEY
    }
    shown = {name: table if seen else _without_money(name, table) for name, table in tables.items()}
    for name, table in shown.items():
        yield name, as_csv(table)
    yield ABOUT, as_csv(_about(shown, car.workshop.currency if seen else ""))


def _without_money(name: str, table: Table) -> Table:
    kept = [n for n, column in enumerate(table.columns) if COLUMNS[name][column][1] != MONEY]
    return Table(
        tuple(table.columns[n] for n in kept),
        tuple(tuple(row[n] for n in kept) for row in table.rows),
    )


def _about(tables: dict[str, Table], currency: str) -> Table:
    rows = (
        (name, column, meaning, currency if unit == MONEY else unit)
        for name, table in tables.items()
        for column in table.columns
        for meaning, unit in [COLUMNS[name][column]]
    )
    return Table(("table", "column", "meaning", "unit"), tuple(rows))


def table_reservations(car: CarFile, gate: Gate, reader: Reader) -> Table:
    """One row for each thing that stands against the handover, in words that the reader may read; a
    sheet is named where the reader has it."""
    sheets = {sheet.name for sheet in car.sheets}
    rows = tuple(
        (
            reason.bar.value, reason.subsystem, reason.since,
            reason.words if reason.is_for(reader) else reason.bare,
            reason.sheet if reason.sheet in sheets else None,
        )
        for reason in gate.reasons
    )  # fmt: skip
    return Table(tuple(COLUMNS[RESERVATIONS]), rows)


def table_packed(car: CarFile, packed: Iterable[Packed]) -> Table:
    """One row a picture in this bag or an earlier one: where it lies, its hash, and the hash of the
    original."""
    by_source = {p.source: p for p in packed}
    photos = (
        (
            "photograph", p.number, p.sheet, p.day, ", ".join(p.of) or None,
            p.stage.value if p.stage else None, p.caption, p.facts.taken_on if p.facts else None,
            *_file(by_source[photo_at(car, p.path)]),
        )
        for p in fold_gallery(car).pictures if photo_at(car, p.path) in by_source
    )  # fmt: skip
    scans = (
        (
            "scan of a paper", None, None, paper.date, name, None, paper.title, None,
            *_file(by_source[scan_at(car, paper.file)]),
        )
        for name, paper in car.papers
        if paper.file and scan_at(car, paper.file) in by_source
    )  # fmt: skip
    return Table(tuple(COLUMNS[PICTURES]), tuple(chain(photos, scans)))


def _file(packed: Packed) -> tuple[Cell, ...]:
    return (
        packed.path, packed.bag, packed.size, packed.sha256, packed.same, packed.source,
        packed.original,
    )  # fmt: skip

"""The table of day sheets."""

from datetime import date
from fractions import Fraction

from journal.ledgers.hours import fold_hours
from journal.outputs.table import Table
from journal.records.carfile import CarFile
from journal.words.amounts import plain_number
from journal.words.text import counted


def table_sheets(car: CarFile, day: date) -> Table:
    """One row a sheet: its day, what it is about, and what it corrects."""
    hours = fold_hours(car)
    by_sheet: dict[str, Fraction] = {}
    for spent in hours.spent:
        by_sheet[spent.sheet] = by_sheet.get(spent.sheet, Fraction(0)) + spent.hours
    columns = (
        "sheet", "day", "title", "subsystems", "hours", "components", "photographs", "corrects", "file",
    )  # fmt: skip
    rows = tuple(
        (
            sheet.name, sheet.date, sheet.title, ", ".join(sheet.front.subsystem),
            by_sheet.get(sheet.name), ", ".join(sheet.front.work.names()) or None,
            len(sheet.front.photos) or None,
            ", ".join(c.sheet for c in sheet.front.corrects) or None, sheet.source.path,
        )
        for sheet in car.sheets
    )  # fmt: skip
    total = f"{counted(len(rows), 'sheet')}, {plain_number(hours.total)} hours, to {day}."
    return Table(columns, rows, total)

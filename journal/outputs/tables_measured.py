"""The table of readings."""

from datetime import date
from decimal import Decimal

from journal.ledgers.measured import Reading, fold_measured
from journal.outputs.table import Table
from journal.records.carfile import CarFile
from journal.words.units import converted, partner_unit


def table_measured(car: CarFile, day: date) -> Table:
    """One row a reading, in both systems of units where there are two."""
    measured = fold_measured(car)
    columns = (
        "day", "dimension", "on", "subsystem", "read", "unit", "least", "most", "inside", "other read",
        "other unit", "other least", "other most", "with", "note", "sheet",
    )  # fmt: skip
    rows = tuple(
        (
            r.day, r.name, r.on, r.subsystem, _list(r.values), r.unit, r.least, r.most, r.inside,
            *_other(r), r.tool, r.note, r.sheet,
        )
        for r in measured.readings
    )  # fmt: skip
    total = (
        f"{len(rows)} readings, {len(measured.outside)} outside their limits when taken, to "
        f"{day.isoformat()}."
    )
    return Table(columns, rows, total)


def _list(values: tuple[Decimal, ...]) -> str:
    return ", ".join(f"{value:f}" for value in values)


def _other(r: Reading) -> tuple[str | None, str | None, Decimal | None, Decimal | None]:
    written = (*r.values, *(end for end in (r.least, r.most) if end is not None))
    unit = partner_unit(r.unit, written)
    if unit is None:
        return None, None, None, None
    values = tuple(converted(v, r.unit, unit, as_fine_as=r.values) for v in r.values)
    least, most = (
        None if end is None else converted(end, r.unit, unit, as_fine_as=written)
        for end in (r.least, r.most)
    )
    return _list(values), unit, least, most

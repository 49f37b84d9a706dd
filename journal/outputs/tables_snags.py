"""The table of snags."""

from datetime import date

from journal.ledgers.snags import fold_snags
from journal.outputs.table import Table
from journal.records.carfile import CarFile


def table_snags(car: CarFile, day: date) -> Table:
    """One row a snag: open ones first, holds before all. Ages are in days."""
    snags = fold_snags(car)
    columns = (
        "snag", "what", "kind", "subsystem", "on", "hold", "raised", "age in days", "asks", "deferred",
        "cleared", "how", "by",
    )  # fmt: skip
    rows = tuple(
        (
            s.name, s.text, s.kind.value, s.subsystem, s.on, s.hold, s.raised, s.age(day), s.asks,
            s.deferred, s.cleared, s.how, s.by,
        )
        for s in (*snags.open, *snags.cleared)
    )  # fmt: skip
    total = f"{len(snags.open)} open, {len(snags.holds)} of them with a hold, on {day.isoformat()}."
    return Table(columns, rows, total)

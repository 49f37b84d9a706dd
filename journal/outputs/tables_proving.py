"""The table of proofs."""

from datetime import date

from journal.ledgers.completeness import fold_completeness
from journal.ledgers.proving import ProofLine, fold_proving
from journal.outputs.table import Cell, Table
from journal.records.carfile import CarFile


def table_proving(car: CarFile, day: date) -> Table:
    """One row a proof that is asked for, with its latest record and how it stands."""
    proving, record = fold_proving(car), fold_completeness(car)
    columns = (
        "proof", "what", "state", "holds", "on", "found", "read", "unit", "by", "checked",
        "left out", "overtaken by", "overtaken on", "sheet",
    )  # fmt: skip
    total = (
        f"{len(proving.lines)} proofs, {len(proving.holds)} of them holding the handover, on "
        f"{day.isoformat()}. {len(record.acts)} safety-critical acts, {len(record.whole)} told in full."
    )
    return Table(columns, tuple(_row(line) for line in proving.lines), total)


def _row(line: ProofLine) -> tuple[Cell, ...]:
    told, over = line.latest, line.overtaken
    if told is None:
        return (line.key, line.label, line.state.value, line.holds, *[None] * 10)
    return (
        line.key, line.label, line.state.value, line.holds, told.day, told.reason or told.found,
        ", ".join(str(value) for value in told.read) or None, told.unit,
        ", ".join(told.by) or None, told.checked, ", ".join(told.lacks) or None,
        over.component if over else None, over.day if over else None, told.sheet,
    )  # fmt: skip

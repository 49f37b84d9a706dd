"""The table of re-checks."""

from datetime import date

from journal.ledgers.keepers import fold_keepers
from journal.ledgers.rechecks import Recheck, RecheckState, fold_rechecks
from journal.outputs.table import Cell, Table
from journal.records.carfile import CarFile
from journal.records.recheck import Wanted
from journal.words.stretch import stretch_words
from journal.words.vocabulary import OdometerUnit

_UNITS = {OdometerUnit.MILE: "miles", OdometerUnit.KM: "km"}


def table_rechecks(car: CarFile, day: date) -> Table:
    """One row a re-check: open ones first, what falls due first before the others."""
    rechecks = fold_rechecks(car, exchanged=fold_keepers(car).exchanged)
    columns = (
        "re-check", "what", "subsystem", "on", "after", "state", "due on", "due at", "counted from",
        "value", "least", "most", "unit", "asked", "done", "found", "by", "done late",
    )  # fmt: skip
    late = len(rechecks.in_state(day, RecheckState.LATE))
    due = len(rechecks.in_state(day, RecheckState.DUE)) + late
    total = (
        f"{len(rechecks.open)} open, {due} of them due ({late} late), {len(rechecks.done)} done, on "
        f"{day.isoformat()}. Readings of the odometer are in "
        f"{_UNITS[rechecks.unit]}."
    )
    rows = tuple(_row(recheck, day) for recheck in (*rechecks.open, *rechecks.done))
    return Table(columns, rows, total)


def _row(recheck: Recheck, day: date) -> tuple[Cell, ...]:
    done, start_at = recheck.done, recheck.start_at
    return (
        recheck.name, recheck.what, recheck.subsystem, ", ".join(recheck.on) or None,
        stretch_words(recheck.after), recheck.state(day).value, recheck.due_on, recheck.due_at,
        start_at.value if start_at else None, *_value(recheck.value), recheck.asked,
        done.day if done else None, done.found if done else None, done.by if done else None,
        recheck.was_late if done else None,
    )  # fmt: skip


def _value(value: Wanted | None) -> tuple[Cell, ...]:
    if value is None:
        return (None, None, None, None)
    limit = value.limit
    return (
        value.says, limit.least if limit else None, limit.most if limit else None, value.unit
    )  # fmt: skip

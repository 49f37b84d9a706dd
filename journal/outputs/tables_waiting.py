"""The table `waiting`: one row for each thing that is waited for, what hurts most first."""

from datetime import date

from journal.digests.waiting import digest_waiting
from journal.ledgers.decisions import fold_decisions
from journal.ledgers.outwork import fold_outwork
from journal.ledgers.parts import fold_parts
from journal.ledgers.snags import fold_snags
from journal.outputs.table import Table
from journal.records.carfile import CarFile


def table_waiting(car: CarFile, day: date) -> Table:
    """Orders, outwork, questions and departures nobody is said to have decided."""
    items = digest_waiting(
        car, parts=fold_parts(car), outwork=fold_outwork(car), decisions=fold_decisions(car),
        snags=fold_snags(car), day=day,
    ).items  # fmt: skip
    columns = (
        "kind", "name", "what", "whom", "count", "since", "age in days", "promised",
        "working days late", "components", "subsystems", "holds",
        "put off",
    )  # fmt: skip
    rows = tuple(
        (
            item.kind.value, item.name, item.what, item.whom, item.count, item.since, item.age,
            item.due, item.late or None, ", ".join(item.components) or None,
            ", ".join(item.subsystems), ", ".join(item.holds) or None,
            item.put_off,
        )
        for item in items
    )  # fmt: skip
    resting, late = sum(bool(i.put_off) for i in items), sum(i.late > 0 for i in items)
    put_off = f", {resting} put off" if resting else ""
    waited = f"{len(items) - resting} waited for, {late} of them late{put_off}"
    return Table(columns, rows, f"{waited}, on {day.isoformat()}.")

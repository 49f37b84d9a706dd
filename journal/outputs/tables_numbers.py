"""The tables of numbers and of keepers, registrations and odometer readings."""

from collections.abc import Iterable, Iterator
from datetime import date

from journal.ledgers.keepers import Keepers, fold_keepers
from journal.ledgers.keepers.chain import Finding
from journal.ledgers.keepers.counts import Count
from journal.ledgers.numbers import NumberLine, Statement, fold_numbers
from journal.outputs.table import Cell, Table
from journal.records.carfile import CarFile


def table_numbers(car: CarFile, day: date) -> Table:
    """One row a number: as recorded, as found, as delivered, and how it is known."""
    lines = fold_numbers(car).lines
    columns = (
        "number", "on", "recorded", "by", "found", "delivered", "read on", "evidence", "disputed",
        "factory record", "remark",
    )  # fmt: skip
    disputed = sum(line.disputed for line in lines)
    total = f"{len(lines)} numbers, {disputed} of them in dispute, on {day.isoformat()}."
    return Table(columns, tuple(map(_number, lines)), total)


def _number(line: NumberLine) -> tuple[Cell, ...]:
    now = line.delivered
    return (
        line.name, line.on, _values(line.recorded), ", ".join(s.ref or "" for s in line.recorded) or None,
        line.found.value if line.found else None, now.value if now else None, now.day if now else None,
        line.evidence.value, line.disputed, line.record.value, line.remark,
    )  # fmt: skip


def _values(statements: Iterable[Statement]) -> str | None:
    return ", ".join(dict.fromkeys(s.value for s in statements)) or None


def table_keepers(car: CarFile, day: date) -> Table:
    """One row a keeper, a registration and an odometer reading, and one for all that does not hold."""
    keepers = fold_keepers(car)
    columns = ("kind", "what", "from", "to", "by", "remark")
    rows = (*_keepers(keepers), *_plates(keepers), *_counts(keepers), *_findings(keepers))
    troubles = len(keepers.findings) + len(keepers.backwards)
    total = (
        f"{len(keepers.stints)} keepers, {len(keepers.counts)} odometer readings in "
        f"{keepers.unit.value}, {troubles} that do not fit, on {day.isoformat()}."
    )
    return Table(columns, rows, total)


def _by(papers: Iterable[str | None]) -> str:
    return ", ".join(paper or "the car file" for paper in papers)


def _keepers(keepers: Keepers) -> Iterator[tuple[Cell, ...]]:
    for stint in keepers.stints:
        yield "keeper", stint.name, stint.from_, stint.to, _by(stint.papers), None


def _plates(keepers: Keepers) -> Iterator[tuple[Cell, ...]]:
    for plate in keepers.plates:
        days = [day for _, day in plate.given if day]
        by = _by(paper for paper, _ in plate.given)
        yield (
            "registration",
            plate.value,
            min(days, default=None),
            max(days, default=None),
            by,
            None,
        )


def _counts(keepers: Keepers) -> Iterator[tuple[Cell, ...]]:
    lower = {now: before for before, now in keepers.backwards}
    for count in keepers.counts:
        before = lower.get(count)
        remark = f"less than {before.value:f} by {_who(before)}" if before else None
        yield "odometer", count.value, count.day, count.day, _who(count), remark


def _who(count: Count) -> str:
    return count.paper or count.sheet or "the car file"


def _findings(keepers: Keepers) -> Iterator[tuple[Cell, ...]]:
    for f in keepers.findings:
        yield "finding", _names(f), f.from_, f.to, _by(f.papers), f.trouble.value


def _names(finding: Finding) -> str:
    return f"{finding.one.name}, {finding.other.name}" if finding.other else finding.one.name

"""The table of bench sums."""

from datetime import date

from journal.bench.base.worked import exact_text
from journal.digests.sums import KeptSum, digest_sums
from journal.outputs.table import Cell, Table
from journal.records.carfile import CarFile
from journal.words.text import counted


def table_sums(car: CarFile, day: date) -> Table:
    """One row for each line of the answer of each sum, with all that was given to it."""
    kept = digest_sums(car).kept
    columns = (
        "day", "name", "sum", "job", "of", "subsystem", "given", "result", "told", "other", "exact", "unit",
        "verdict", "as it should be", "note", "sheet",
    )  # fmt: skip
    rows = tuple(row for each in kept for row in _rows(each))
    return Table(columns, rows, f"{counted(len(kept), 'sum')} kept, to {day.isoformat()}.")


def _rows(kept: KeptSum) -> tuple[tuple[Cell, ...], ...]:
    answer = kept.answer
    given = "; ".join(f"{asked.name} = {told}" for asked, told in answer.inputs())
    return tuple(
        (
            kept.day, kept.name, answer.sum.name, answer.sum.job.value, ", ".join(kept.of) or None,
            kept.subsystem, given, result.meaning, result.words, result.other or None,
            None if result.exact is None else exact_text(result.exact), result.unit or None,
            answer.worked.verdict or None, answer.worked.right, kept.note, kept.sheet,
        )
        for result in answer.worked.results
    )  # fmt: skip

"""A sum worked out from what is written: the answer, or all that is wrong."""

from collections.abc import Iterable

from msgspec import Struct

from journal.bench.base.definition import Input, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.reading import Mistake, read_given
from journal.bench.base.worked import Worked
from journal.words.quantities import Quantity, Span


class Answer(Struct, frozen=True):
    """A sum with what was given to it and what it answers."""

    sum: Sum
    given: Given
    worked: Worked

    def inputs(self) -> tuple[tuple[Input, str], ...]:
        """What was given, defaults too, each in words, in the order asked."""
        return tuple(
            (asked, given_words(asked, self.given.values[asked.name]))
            for asked in self.sum.inputs
            if self.given.has(asked.name)
        )


def work_out(sum_: Sum, written: Iterable[tuple[str, str]]) -> Answer | tuple[Mistake, ...]:
    """The answer of a sum to what is written for its inputs by name, or every mistake in it."""
    given, wrong = read_given(sum_, written)
    if wrong:
        return wrong
    try:
        return Answer(sum_, given, sum_.work(given))
    except NotWorked as fault:
        return (Mistake(fault.key, "no-answer", fault.sentence, fault.help),)


def given_words(asked: Input, value: object) -> str:
    """A value in words, as it was written: `0.22, 0.24 mm`, `0.10 mm x 3; 0.15 mm x 2`."""
    if isinstance(value, str):
        return value
    if isinstance(value, Quantity | Span):
        return value.words
    assert isinstance(value, tuple)
    if asked.takes is Takes.ROWS:
        return _rows_words(asked, value)
    if all(isinstance(entry, Quantity) for entry in value):
        return readings_words(value)
    return ", ".join(value)


def readings_words(readings: Iterable[Quantity]) -> str:
    """Readings with their unit told once where it is one: `0.22, 0.24 mm`."""
    told = tuple(readings)
    if len({quantity.unit for quantity in told}) > 1:
        return ", ".join(quantity.words for quantity in told)
    return (
        f"{', '.join(q.written for q in told[:-1])}, {told[-1].words}"
        if told[1:]
        else told[0].words
    )


def _rows_words(asked: Input, rows: Iterable[Given]) -> str:
    """Rows in words that read back; where all is in one unit, each row tells it once, at its end."""
    told = tuple(rows)
    units = {quantity.unit for row in told for quantity in row.quantities() if quantity.unit}
    return "; ".join(_row_words(asked, row, once=len(units) == 1) for row in told)


def _row_words(asked: Input, row: Given, *, once: bool) -> str:
    held = [column for column in asked.columns if row.has(column.name)]
    told = [given_words(column, row.values[column.name]) for column in held]
    measured = [n for n, column in enumerate(held) if _has_unit(row.values[column.name])]
    for n in measured[:-1] if once and not asked.columns[0].measures else ():
        value = row.values[held[n].name]
        assert isinstance(value, Quantity)
        told[n] = value.written
    # After a column that was left out the others are told by name.
    gap = next((n for n, c in enumerate(asked.columns) if not row.has(c.name)), len(told))
    named = [
        f"{column.name} {words}" if n >= gap else words
        for n, (column, words) in enumerate(zip(held, told, strict=True))
    ]
    if asked.columns[0].measures:
        return " \N{MULTIPLICATION SIGN} ".join(named)
    return f"{named[0]}: {', '.join(named[1:])}"


def _has_unit(value: object) -> bool:
    return isinstance(value, Quantity) and bool(value.unit) and not value.written.endswith("'")

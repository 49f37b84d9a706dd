"""The tables of departures from the works specification, and of the items that came off and are kept."""

from datetime import date

from journal.ledgers.numbers import fold_numbers
from journal.ledgers.originality import Line
from journal.ledgers.originality.fold import fold_originality
from journal.ledgers.originality.items import Displacement
from journal.outputs.table import Cell, Table
from journal.records.carfile import CarFile
from journal.words.text import counted
from journal.words.vocabulary import Origin


def table_departures(car: CarFile, day: date) -> Table:
    """One row a component that departs, with why, who decided, and the way back."""
    lines = [line for line in _lines(car) if line.now.departs]
    columns = (
        "component", "works specification", "as found", "now", "since", "sheet", "why", "decided by",
        "decided on", "advice", "reversible", "way back", "came off", "kept at", "can be put back",
    )  # fmt: skip
    back = sum(bool(line.departure and line.departure.recoverable) for line in lines)
    total = f"{counted(len(lines), 'departure')}, {back} of them with the way back open, on {day}."
    return Table(columns, tuple(map(_departure, lines)), total)


def _departure(line: Line) -> tuple[Cell, ...]:
    head = (
        line.component.key, line.component.line.works, line.as_found.origin.value,
        line.now.origin.value,
    )  # fmt: skip
    off = line.departure
    if off is None:
        return (*head, line.now.since, line.now.sheet, *[None] * 9)
    decided = off.decided
    return (
        *head, off.day, off.sheet, off.why, decided.by if decided else None,
        decided.on if decided else None, decided.advice if decided else None, off.reversible, off.undo,
        off.item.origin.value, _where(off), off.recoverable,
    )  # fmt: skip


def table_originals(car: CarFile, day: date) -> Table:
    """One row an item that came off and stays off, the works' own first."""
    found = [(line, off) for line in _lines(car) for off in line.displaced]
    found.sort(key=lambda pair: (pair[1].item.origin is not Origin.FIRST_FIT, pair[1].item.gone))
    columns = (
        "component", "item", "works' own", "own material", "came off", "sheet", "kept at", "gone",
        "usable", "reversible", "way back",
    )  # fmt: skip
    own = [off for _, off in found if off.item.origin is Origin.FIRST_FIT]
    kept = sum(off.item.kept is not None for off in own)
    total = f"{counted(len(own), 'original')} came off, {kept} of them kept, on {day}."
    return Table(columns, tuple(_original(line, off) for line, off in found), total)


def _original(line: Line, off: Displacement) -> tuple[Cell, ...]:
    item = off.item
    own = item.origin is Origin.FIRST_FIT
    return (
        line.component.key, item.origin.value, own, item.retained.high if own else None, off.day,
        off.sheet, item.kept, item.fate.value if item.fate else None, off.usable, off.reversible,
        off.undo,
    )  # fmt: skip


def _where(off: Displacement) -> str | None:
    return off.item.kept or (off.item.fate.value if off.item.fate else None)


def _lines(car: CarFile) -> tuple[Line, ...]:
    return fold_originality(car, disputed=fold_numbers(car).disputed_components).lines

"""Rows as they are written on one line, and a table's cells as such a line.

Rows stand apart by semicolons, or by commas where their columns stand beside each other with an `x`:

    0.10 mm x 3, 0.15 x 2, 0.50 x 1
    1 inlet: 2.45, 0.30 mm; 1 exhaust: 2.50, 0.22 mm
    1 inlet: fitted 2.45 mm, clearance 0.30 mm
"""

import re
from collections.abc import Mapping, Sequence

from journal.bench.base.definition import TEXT, Input
from journal.words.quantities import (
    NotRead,
    is_only_quantities,
    plain_text,
    refuse_decimal_comma,
)
from journal.words.text import shortened

# More rows than any drawer or list of a car has.
MOST_ROWS = 400

Cells = dict[str, str]


def split_rows(asked: Input, text: str) -> list[Cells]:
    """The cells of each row by their columns, as texts; a cell that was left out is not there.

    Raises NotRead for rows that cannot be told apart.
    """
    plain = plain_text(text).strip("; ")
    refuse_decimal_comma(plain)
    crossed = re.search(r"[^:;,] x |[0-9]x ", plain) is not None
    lines = [line for line in re.split(r"[;,]" if crossed else ";", plain) if line.strip()]
    if len(lines) > MOST_ROWS:
        raise too_many(len(lines))
    _refuse_unnamed(asked, lines)
    return [_cells(asked, line.strip()) for line in lines]


def joined_rows(asked: Input, rows: Sequence[Mapping[str, str]]) -> str:
    """Cells by their columns as rows on one line, of which `split_rows` makes the same cells.

    Raises NotRead for a row without its first cell, and for a cell that could not be told from the
    others there.
    """
    cells = [_filled(asked, row) for row in rows]
    for row in cells:
        _refuse_headless(asked, row)
    text = "; ".join(_joined(asked, row) for row in cells)
    read = split_rows(asked, text)
    if read != cells:
        told = [cell for row in cells for cell in row.values()]
        found = {cell for row in read for cell in row.values()}
        raise _not_told_apart(next((cell for cell in told if cell not in found), text))
    return text


def _refuse_headless(asked: Input, row: Cells) -> None:
    first = asked.columns[0].name
    if first not in row:
        found = shortened(", ".join(row.values()), 60)
        raise NotRead(
            "missing-key", f'has a row without its {first}, found "{found}"',
            f"write {row_form(asked)}",
        )  # fmt: skip


def _not_told_apart(cell: str) -> NotRead:
    return NotRead(
        "wrong-shape", f'has a cell that cannot be told from the others, found "{shortened(cell, 60)}"',
        "write it without comma, colon, semicolon and x",
    )  # fmt: skip


def _filled(asked: Input, row: Mapping[str, str]) -> Cells:
    """The cells of a row that say anything, as they are read."""
    told = {column.name: plain_text(row.get(column.name, "")) for column in asked.columns}
    return {name: text.removeprefix(f"{name} ") for name, text in told.items() if text}


def _joined(asked: Input, row: Cells) -> str:
    first, *others = (column.name for column in asked.columns)
    told: list[str] = []
    gap = False
    for name in others:
        if name in row:
            # After a column that was left out the others are told by name.
            told.append(f"{name} {row[name]}" if gap else row[name])
        gap |= name not in row
    if asked.columns[0].measures:
        return " x ".join([row[first], *told])
    return f"{row[first]}: {', '.join(told)}".rstrip()


def row_form(asked: Input) -> str:
    """How a row is written: `shim: fitted, clearance`, or `thickness x count`."""
    names = [column.name for column in asked.columns]
    if asked.columns[0].measures:
        return " x ".join(names)
    return f"{names[0]}: {', '.join(names[1:])}"


def too_many(number: int) -> NotRead:
    """The refusal of more entries than there can be."""
    return NotRead("too-long", f"must have at most {MOST_ROWS} entries, found {number}")


def _cells(asked: Input, line: str) -> Cells:
    """The cells of a row by their columns: in order, or each after the name of its column."""
    first, *others = asked.columns
    head, colon, rest = line.partition(":")
    parts = re.split(r" ?(?:,| x ) ?", rest if colon else line)
    cells = [head, *parts] if colon else parts
    found = {first.name: cells[0].strip().removeprefix(f"{first.name} ")}
    left = [column.name for column in others]
    for cell in filter(None, (cell.strip() for cell in cells[1:])):
        named = next((name for name in left if cell.startswith(f"{name} ")), None)
        name = named or (left[0] if left else "")
        if not name:
            raise NotRead(
                "wrong-shape", f'has more in a row than is asked for, found "{shortened(line, 60)}"',
                f"write {row_form(asked)}",
            )  # fmt: skip
        left.remove(name)
        found[name] = cell.removeprefix(f"{name} ") if named else cell
    return found


def _refuse_unnamed(asked: Input, lines: list[str]) -> None:
    """Refuse rows with a measurement where the name stands; a plain number names a cylinder."""
    if asked.columns[0].kind != TEXT:
        return
    for line in lines:
        head = line.partition(",")[0].strip()
        if ":" not in line and is_only_quantities(head) and not head.isdigit():
            raise NotRead(
                "wrong-shape", f'has a reading where the name of a row stands, found "{shortened(line.strip(), 60)}"',
                f"write {row_form(asked)}",
            )  # fmt: skip

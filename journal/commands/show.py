"""`journal show`: a derived table in the terminal, as CSV or as JSON."""

from datetime import date
from pathlib import Path

import click
from rich.console import Console
from rich.padding import Padding
from rich.table import Table as Grid

from journal.commands.common import (
    as_of_option,
    car_option,
    folder_argument,
    load,
    one_car,
    refusing,
)
from journal.commands.pictures import cache_option, means_for
from journal.outputs.pictures import looked
from journal.outputs.sealed import seals_of
from journal.outputs.table import Table
from journal.outputs.tables import (
    NEED_FACTS,
    SEALED_TABLES,
    TABLES,
    as_csv,
    as_json,
    shown,
)
from journal.words.wrong import WrongCall


@click.command()
@click.argument("table", type=click.Choice([*TABLES, *SEALED_TABLES]))
@folder_argument
@car_option
@click.option(
    "--as", "form", type=click.Choice(["table", "csv", "json"]), default="table",
    help="Form of the answer.",
)  # fmt: skip
@as_of_option
@cache_option
def show(
    table: str, content: Path, car: str | None, form: str, as_of: date | None, cache: Path | None
) -> None:
    """Print a TABLE derived from CONTENT: a ledger, or what several ledgers say together."""
    read = load(content)
    if table in NEED_FACTS:
        try:
            with means_for(cache) as means:
                read = looked(read, content, means)
        except WrongCall as fault:
            raise refusing(fault) from None
    chosen = one_car(read, car)
    if as_of is not None:
        chosen = chosen.as_of(as_of)
    if table in SEALED_TABLES:
        try:
            seals = seals_of(content, chosen)
        except WrongCall as fault:
            raise refusing(fault) from None
        derived = SEALED_TABLES[table](chosen, seals)
    else:
        last = chosen.sheets[-1].date if chosen.sheets else chosen.car.booked_in
        derived = TABLES[table](chosen, as_of or last)
    if form == "csv":
        click.echo(as_csv(derived), nl=False)
    elif form == "json":
        click.echo(as_json(derived))
    else:
        print_table(derived)


# A column of texts no longer than this is never wrapped; a longer one needs at least this much.
_NARROW = 18
_GAP = 2


def print_table(derived: Table) -> None:
    """A grid without boxes where it fits, else one entry under another; empty columns are left out."""
    rows = shown(derived.rows)
    kept = [n for n, _ in enumerate(derived.columns) if any(row[n] for row in rows)]
    columns = [derived.columns[n] for n in kept]
    cells = [[row[n] for n in kept] for row in rows]
    console = Console(highlight=False, markup=False, emoji=False)
    least = [_least(column, [row[n] for row in cells]) for n, column in enumerate(columns)]
    if sum(least) + _GAP * len(least) <= console.width:
        _grid(console, columns, cells, least)
    else:
        _entries(console, columns, cells)
    console.print(derived.total)


def _least(column: str, texts: list[str]) -> int:
    """The width below which a column cannot be read: whole texts when short, whole words else."""
    longest = max(map(len, [column, *texts]))
    if longest <= _NARROW:
        return longest
    words = [word for text in [column, *texts] for word in text.split()]
    return max(_NARROW, *map(len, words))


def _grid(console: Console, columns: list[str], cells: list[list[str]], least: list[int]) -> None:
    grid = Grid(box=None, header_style="bold", padding=(0, _GAP, 0, 0))
    for column, width in zip(columns, least, strict=True):
        grid.add_column(column, min_width=width)
    for row in cells:
        grid.add_row(*row)
    if cells:
        console.print(grid)


def _entries(console: Console, columns: list[str], cells: list[list[str]]) -> None:
    """One entry a row of the table: its first cell, and under it a line of all that it says."""
    for first, *others in cells:
        told = [f"{c}: {text}" for c, text in zip(columns[1:], others, strict=True) if text]
        console.print(first, style="bold")
        console.print(Padding("; ".join(told), (0, 0, 0, 2)))

"""`journal show`: a derived table in the terminal, as CSV or as JSON."""

from datetime import date
from pathlib import Path

import click
from rich.console import Console
from rich.table import Table as Grid

from journal.commands.common import as_of_option, car_option, folder_argument, load, one_car
from journal.outputs.tables import TABLES, Table, as_csv, as_json, shown


@click.command()
@click.argument("table", type=click.Choice(list(TABLES)))
@folder_argument
@car_option
@click.option(
    "--as", "form", type=click.Choice(["table", "csv", "json"]), default="table",
    help="Form of the answer.",
)  # fmt: skip
@as_of_option
def show(table: str, content: Path, car: str | None, form: str, as_of: date | None) -> None:
    """Print a TABLE (ledger, snags, hours or parts) derived from CONTENT."""
    chosen = one_car(load(content), car)
    if as_of is not None:
        chosen = chosen.as_of(as_of)
    last = chosen.sheets[-1].date if chosen.sheets else chosen.car.booked_in
    derived = TABLES[table](chosen, as_of or last)
    if form == "csv":
        click.echo(as_csv(derived), nl=False)
    elif form == "json":
        click.echo(as_json(derived))
    else:
        _print(derived)


def _print(derived: Table) -> None:
    """A grid without boxes; columns that hold nothing are left out."""
    rows = shown(derived.rows)
    kept = [n for n, _ in enumerate(derived.columns) if any(row[n] for row in rows)]
    grid = Grid(box=None, header_style="bold", padding=(0, 2, 0, 0))
    for n in kept:
        grid.add_column(derived.columns[n], overflow="fold")
    for row in rows:
        grid.add_row(*[row[n] for n in kept])
    console = Console(highlight=False, markup=False, emoji=False)
    if rows:
        console.print(grid)
    console.print(derived.total)

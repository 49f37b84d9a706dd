"""`journal statement`: issue the next statement to the owner."""

from datetime import date
from pathlib import Path

import click

from journal.commands.common import (
    Day,
    car_option,
    folder_argument,
    load,
    one_car,
    refusing,
)
from journal.commands.show import print_table
from journal.outputs.statement import issue_statement
from journal.outputs.tables_money import table_in_short
from journal.words.wrong import WrongCall


@click.command()
@folder_argument
@car_option
@click.option(
    "--to", required=True, type=Day(), metavar="DATE", help="The last day that is stated."
)
@click.option("--issued", type=Day(), metavar="DATE", help="The day of issue; today unless told.")
def statement(content: Path, car: str | None, to: date, issued: date | None) -> None:
    """Write the owner's next statement into CONTENT, from the day after the last one on.

    An issued statement is never changed. What is altered later in sheets that it states shows in
    the next one as an adjustment.
    """
    read = load(content)
    chosen = one_car(read, car)
    try:
        path, stated = issue_statement(content, read, chosen, to=to, issued=issued or date.today())
    except WrongCall as fault:
        raise refusing(fault) from None
    print_table(table_in_short(chosen, stated))
    click.echo(f"wrote {content / path}")

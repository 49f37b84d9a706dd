"""`journal print`: the dossier, a sheet or a statement on paper."""

from datetime import date
from pathlib import Path

import click

from journal.commands.common import (
    Day,
    Refusal,
    as_of_option,
    car_option,
    folder_argument,
    load,
    one_car,
    refusing,
)
from journal.commands.pictures import cache_option, means_for
from journal.outputs.archive import Order
from journal.outputs.printing import (
    Make,
    print_document,
    the_dossier,
    the_sheet,
    the_statement,
)
from journal.outputs.problems import problems_text
from journal.outputs.typeset import Paper
from journal.outputs.withheld import Withheld
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall

PAPERS: dict[str, Paper] = {"a4": "a4", "letter": "us-letter"}


@click.command("print")
@folder_argument
@car_option
@click.option("--dossier", is_flag=True, help="The provenance dossier; a draft until delivery.")
@click.option("--sheet", metavar="NAME", help="One day sheet, by the name of its file.")
@click.option("--statement", type=Day(), metavar="DATE", help="The statement that ends on a day.")
@click.option(
    "--for", "reader", required=True, type=click.Choice([r.value for r in Reader]),
    help="Who reads it: what this reader may not see is left out.",
)  # fmt: skip
@click.option(
    "--to", "target", required=True, type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE", help="The PDF to write; one that is there is never written over.",
)  # fmt: skip
@click.option(
    "--paper", type=click.Choice(list(PAPERS)), default="a4", show_default=True,
    help="The size of the paper.",
)  # fmt: skip
@as_of_option
@cache_option
def print_command(
    content: Path, car: str | None, dossier: bool, sheet: str | None, statement: date | None,
    reader: str, target: Path, paper: str, as_of: date | None, cache: Path | None,
) -> None:  # fmt: skip
    """Print a document of CONTENT as an archival, tagged PDF.

    The dossier shows everything that stands against the handover as a reservation on its first page,
    and says on every page that it is a draft until the car is delivered.
    """
    read = load(content)
    make = _chosen(content, dossier, sheet, statement, PAPERS[paper])
    name = one_car(read, car).name
    try:
        with means_for(cache) as means:
            print_document(read, Order(content, target, Reader(reader), name, as_of, means), make)
    except WrongCall as fault:
        raise refusing(fault) from None
    except Withheld as withheld:
        click.echo(problems_text(withheld.problems), err=True)
        click.echo(f"The document is withheld; {target} was not written.", err=True)
        raise SystemExit(1) from None
    click.echo(f"wrote {target}")


def _chosen(
    content: Path, dossier: bool, sheet: str | None, statement: date | None, paper: Paper
) -> Make:
    """The one document that is asked for."""
    asked = [dossier, sheet is not None, statement is not None]
    if sum(asked) != 1:
        raise Refusal("say what to print: one of --dossier, --sheet NAME and --statement DATE")
    if sheet is not None:
        return the_sheet(sheet, paper)
    if statement is not None:
        return the_statement(statement, paper)
    return the_dossier(content, paper)

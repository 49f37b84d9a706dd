"""`journal publish`: write the archive for one reader."""

from datetime import date
from pathlib import Path

import click

from journal.commands.common import as_of_option, car_option, folder_argument, load, refusing
from journal.commands.pictures import cache_option, means_for
from journal.outputs.archive import Order, publish
from journal.outputs.problems import problems_text
from journal.outputs.withheld import Withheld
from journal.records.problem import Severity
from journal.words.text import counted
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall


@click.command("publish")
@folder_argument
@click.option(
    "--for", "reader", required=True, type=click.Choice([r.value for r in Reader]),
    help="Whose archive it is: what this reader may not see is left out.",
)  # fmt: skip
@click.option(
    "--to", "target", required=True, type=click.Path(path_type=Path),
    help="The folder for the archive.",
)  # fmt: skip
@car_option
@as_of_option
@cache_option
def publish_command(
    content: Path,
    reader: str,
    target: Path,
    car: str | None,
    as_of: date | None,
    cache: Path | None,
) -> None:
    """Write the archive of CONTENT for one reader into a folder.

    What can be read is published even when something is wrong; the problems are told and the exit
    code is 1 when there is an error among them. An archive that would show what its reader may not
    see is withheld: the one before it stays, and the exit code is 1.
    """
    read = load(content)
    try:
        with means_for(cache) as means:
            problems = publish(read, Order(content, target, Reader(reader), car, as_of, means))
    except WrongCall as fault:
        raise refusing(fault) from None
    except Withheld as withheld:
        click.echo(problems_text(withheld.problems), err=True)
        click.echo(f"The archive is withheld; {target} is as it was.", err=True)
        raise SystemExit(1) from None
    if problems:
        click.echo(problems_text(problems), err=True)
    pages = sum(1 for _ in target.rglob("*.html"))
    click.echo(
        f"{counted(pages, 'page')} for the {reader} in {target}. Open {target / 'index.html'}"
    )
    raise SystemExit(1 if any(p.severity is Severity.ERROR for p in problems) else 0)

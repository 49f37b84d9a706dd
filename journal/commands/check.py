"""`journal check`: read everything and say what is wrong."""

from pathlib import Path

import click

from journal.commands.common import folder_argument, load, one_car
from journal.outputs.findings import problems_of
from journal.outputs.problems import problems_json, problems_text


@click.command()
@folder_argument
@click.option("--car", metavar="NAME", help="Only this car.")
@click.option(
    "--as", "form", type=click.Choice(["text", "json"]), default="text", help="Form of the answer."
)
def check(content: Path, car: str | None, form: str) -> None:
    """Read all that is written in CONTENT and say what is wrong, each with its line and a way out."""
    read = load(content)
    problems = problems_of(read)
    if car is not None:
        name = one_car(read, car).name if read.cars else car
        problems = tuple(p for p in problems if p.place.path.startswith(f"{name}/"))
    click.echo(problems_json(problems) if form == "json" else problems_text(problems))
    raise SystemExit(1 if problems else 0)

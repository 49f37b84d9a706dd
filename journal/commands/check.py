"""`journal check`: read everything and say what is wrong."""

from pathlib import Path

import click

from journal.commands.common import Refusal, folder_argument, load, refusing
from journal.commands.pictures import cache_option, means_for
from journal.outputs.findings import problems_of
from journal.outputs.pictures import looked
from journal.outputs.problems import problems_json, problems_text
from journal.reading.content import car_names
from journal.records.codes import CODES
from journal.words.names import nearest
from journal.words.text import listed
from journal.words.wrong import WrongCall


def _explain(ctx: click.Context, _param: click.Parameter, code: str | None) -> None:
    """Tell what a code means and end; no folder is read."""
    if code is None:
        return
    explanation = CODES.get(code)
    if explanation is None:
        meant = nearest(code, CODES)
        way = f"write {meant}" if meant else "take it from between the brackets of a message"
        raise Refusal(f'there is no code "{code}"; {way}')
    click.echo(f"{code}\n\n{explanation.meaning}\n{explanation.why}")
    ctx.exit(0)


@click.command()
@folder_argument
@click.option("--car", metavar="NAME", help="Only this car.")
@click.option(
    "--as", "form", type=click.Choice(["text", "json"]), default="text", help="Form of the answer."
)
@click.option(
    "--explain", metavar="CODE", is_eager=True, expose_value=False, callback=_explain,
    help="Say what the code of a message means, and why it matters.",
)  # fmt: skip
@cache_option
def check(content: Path, car: str | None, form: str, cache: Path | None) -> None:
    """Read all that is written in CONTENT and say what is wrong, each with its line and a way out."""
    try:
        with means_for(cache) as means:
            problems = problems_of(looked(load(content), content, means))
    except WrongCall as fault:
        raise refusing(fault) from None
    if car is not None:
        _known_car(content, car)
        # What is wrong with the workshop's own file is wrong for every car.
        own = (f"{car}/", "workshop.yaml")
        problems = tuple(p for p in problems if p.place.path.startswith(own))
    click.echo(problems_json(problems) if form == "json" else problems_text(problems))
    raise SystemExit(1 if problems else 0)


def _known_car(content: Path, car: str) -> None:
    """Refuse a name that no car has. A car whose file cannot be read is there to be checked."""
    names = car_names(content)
    if car not in names:
        meant = nearest(car, names) or listed(names, "or")
        raise Refusal(f'there is no car "{car}"' + (f"; write {meant}" if meant else ""))

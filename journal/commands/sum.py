"""`journal sum`: a small calculation of the workshop, in the terminal."""

import sys

import click
from rich.console import Console

from journal.bench import SUM_NAMED, SUMS
from journal.bench.base.definition import Input, Sum
from journal.bench.base.form import how_words
from journal.bench.base.reading import Mistake, read_input
from journal.bench.base.working import Answer, work_out
from journal.commands.common import Refusal
from journal.outputs.sums import answer_json, answer_text, explain_text, list_text
from journal.words.names import nearest
from journal.words.quantities import NotRead
from journal.words.text import listed

# Wider lines than this are no easier to read.
_WIDEST = 100


@click.command("sum")
@click.argument("name", required=False)
@click.argument("inputs", nargs=-1, metavar="[KEY=VALUE]...")
@click.option(
    "--as", "form", type=click.Choice(["text", "json"]), default="text", help="Form of the answer."
)
@click.option("--explain", is_flag=True, help="Say what NAME asks for and how it is written.")
def sum_command(name: str | None, inputs: tuple[str, ...], form: str, explain: bool) -> None:
    """Work out the bench sum NAME from what is written for its inputs, such as target='0.42 mm'.

    What is missing is asked for. Without NAME all sums are listed by the job they serve.
    """
    width = min(Console().width, _WIDEST)
    if name is None:
        click.echo(list_text(width))
        return
    sum_ = _named(name)
    if explain:
        click.echo(explain_text(sum_, width))
        return
    written = _written(inputs)
    if _asks():
        written |= _asked(sum_, written)
    answer = work_out(sum_, written.items())
    if not isinstance(answer, Answer):
        raise _refusal(sum_, answer)
    click.echo(answer_json(answer) if form == "json" else answer_text(answer, width))


def _asks() -> bool:
    """Whether a person is there to answer."""
    return sys.stdin.isatty()


def _named(name: str) -> Sum:
    found = SUM_NAMED.get(name)
    if found is None:
        meant = nearest(name, SUM_NAMED)
        way = f"write {meant}" if meant else f"use one of {listed([s.name for s in SUMS], 'or')}"
        raise Refusal(f'there is no bench sum "{name}"; {way}')
    return found


def _written(inputs: tuple[str, ...]) -> dict[str, str]:
    written: dict[str, str] = {}
    for text in inputs:
        key, equals, value = text.partition("=")
        if not equals or not key:
            raise Refusal(f'an input is written key=value, found "{text}"')
        if key in written:
            raise Refusal(f"{key} is given twice")
        written[key] = value
    return written


def _asked(sum_: Sum, written: dict[str, str]) -> dict[str, str]:
    """What a person answers for the inputs that are required and were not written."""
    missing = [asked for asked in sum_.inputs if asked.required and asked.name not in written]
    return {asked.name: _answered(asked) for asked in missing}


def _answered(asked: Input) -> str:
    while True:
        click.echo(f"{asked.meaning}: {how_words(asked)}", err=True)
        text: str = click.prompt(asked.name, err=True)
        try:
            read_input(asked, text)
        except NotRead as fault:
            click.echo(Mistake(asked.name, fault.code, fault.sentence, fault.help).words, err=True)
        else:
            return text


def _refusal(sum_: Sum, mistakes: tuple[Mistake, ...]) -> Refusal:
    """All that is wrong, and where to read what the sum asks for when something is missing."""
    told = [mistake.words for mistake in mistakes]
    if any(mistake.code == "missing-key" for mistake in mistakes):
        told.append(f"journal sum {sum_.name} --explain tells what it asks for")
    return Refusal("\n".join(told))

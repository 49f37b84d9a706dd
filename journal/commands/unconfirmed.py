"""Which sheet's lines are to be confirmed, and whether somebody sits there to do it."""

from collections.abc import Sequence
from pathlib import Path

import click

from journal.commands.common import Refusal, one_car
from journal.commands.confirm import Confirming, confirm, told_words
from journal.commands.hands import hand_of
from journal.commands.onekey import in_terminal
from journal.records.carfile import CarFile, Content
from journal.words.names import nearest
from journal.words.text import counted, listed


def confirm_sheet(root: Path, read: Content, car: str | None, sheet: str, hand: str | None) -> int:
    """Go on with the lines of a sheet of whatever car; the exit code. Raises Refusal when there is none of
    that name, or several."""
    name = Path(sheet).name.removesuffix(".md")
    cars = [one_car(read, car)] if car else [*read.cars]
    found = [(c, s) for c in cars for s in c.sheets if s.name == name]
    if len(found) != 1:
        raise Refusal(_no_sheet(name, cars, len(found)))
    chosen, there = found[0]
    if not there.front.draft:
        click.echo(f"no line waits in {there.source.path}")
        return 0
    return confirm_or_tell(Confirming(root, chosen, there.source.path, hand_of(chosen, hand)))


def _no_sheet(name: str, cars: Sequence[CarFile], found: int) -> str:
    if found:
        return f'several cars have a sheet "{name}"; say which: --car NAME'
    waiting = [s.name for c in cars for s in c.sheets if s.front.draft]
    meant = nearest(name, waiting or [s.name for c in cars for s in c.sheets])
    way = (
        f"write {meant}"
        if meant
        else f"lines wait in {listed(waiting)}"
        if waiting
        else "no line waits"
    )
    return f'there is no sheet "{name}"; {way}'


def confirm_or_tell(going: Confirming) -> int:
    """Go through the lines in a terminal; else say which wait, and how to confirm them."""
    if in_terminal():
        return confirm(going)
    lines = going.lines()
    for line in lines:
        for words in told_words(going, line):
            click.echo(words)
    click.echo(f"{counted(len(lines), 'line')} to confirm, in a terminal, with: {going.go_on}")
    return 0

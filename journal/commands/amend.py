"""`journal amend`: a dated correction of an earlier sheet, which stays as it is."""

from datetime import date
from pathlib import Path
from typing import Any

import click
from msgspec.structs import replace

from journal.commands.common import Refusal, car_option, folder_argument, load, one_car
from journal.commands.filling import Filling, fill
from journal.commands.hands import hand_of
from journal.commands.saying import Said, front_of, saying_options
from journal.commands.write import date_option, edit_option, hand_option
from journal.outputs.sheets.amend import amendment, offers_of_earlier
from journal.outputs.sheets.print import front_told
from journal.outputs.sheets.ready import ready
from journal.records.carfile import CarFile
from journal.records.sheet import Sheet
from journal.words.names import nearest


@click.command()
@folder_argument
@click.argument("sheet")
@car_option
@click.option("--what", metavar="TEXT", help="What was wrong in the earlier sheet.")
@date_option
@hand_option
@saying_options
@edit_option
def amend(
    content: Path, sheet: str, car: str | None, what: str | None, day: date | None,
    hand: str | None, edit: bool | None, **said: Any,
) -> None:  # fmt: skip
    """Write a sheet of today into CONTENT that corrects the earlier SHEET; the earlier one stays.

    What the earlier one says stands in it as lines to tick and put right, from the day it was true.
    """
    told = Said(**said)
    chosen = one_car(load(content), car)
    earlier = _sheet(chosen, sheet)
    on = day or date.today()
    if on > date.today():
        click.echo(f"warning: {on.isoformat()} lies in the future", err=True)
    if on < earlier.date:
        raise Refusal(f"a correction comes after what it corrects, which is of {earlier.date}")
    whose = hand_of(chosen, hand)
    new = amendment(earlier, on, what)
    base = {k: v for k, v in front_told(new.front).items() if k != "date"}
    new = replace(new, front=front_of(told, base, on, whose), body=told.note or "")
    enough = told.enough or what is not None
    editor = not enough if edit is None else edit
    start = ready(new, offers_of_earlier(earlier, whose) if editor else {})
    title = told.title or f"{earlier.title} corrected"
    raise SystemExit(fill(Filling(content, chosen, on, title, start, editor=editor)))


def _sheet(car: CarFile, name: str) -> Sheet:
    """The sheet of a name, which may be given as its file."""
    wanted = Path(name).name.removesuffix(".md")
    found = next((s for s in car.sheets if s.name == wanted), None)
    if found is None:
        meant = nearest(wanted, (s.name for s in car.sheets))
        way = f"write {meant}" if meant else "journal show sheets lists them"
        raise Refusal(f'there is no sheet "{wanted}"; {way}')
    return found

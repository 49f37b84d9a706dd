"""`journal write`: today's sheet, made ready to fill, or said in one line."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any

import click

from journal.commands.common import (
    Day,
    Refusal,
    car_option,
    folder_argument,
    load,
    one_car,
    refusing,
)
from journal.commands.filling import Filling, fill
from journal.commands.fromtalk import Talked, write_talk
from journal.commands.hands import hand_of
from journal.commands.saying import Said, front_of, keys_of, saying_options
from journal.commands.unconfirmed import confirm_sheet
from journal.outputs.sheets.disk import refusal
from journal.outputs.sheets.inbox import (
    Arrived,
    Inbox,
    Taken,
    arrived,
    inbox_folder,
    look_into,
    take_in,
)
from journal.outputs.sheets.print import NewSheet
from journal.outputs.sheets.propose import Proposal, propose
from journal.outputs.sheets.ready import offers_of, ready
from journal.reading.yamltext import Plain
from journal.records.carfile import CarFile
from journal.words.names import nearest
from journal.words.text import counted, listed
from journal.words.wrong import WrongCall

_Named = tuple[Arrived, dict[str, Plain]]

date_option = click.option(
    "--date", "day", type=Day(), metavar="DATE", help="The day of the sheet; today unless told."
)
hand_option = click.option(
    "--hand", metavar="MT", help="Whose day it is; remembered for the next time."
)
edit_option = click.option(
    "--edit/--no-edit", default=None,
    help="Open the editor, or not; it opens when no option says what was done.",
)  # fmt: skip


def talk_options(command: Callable[..., None]) -> Callable[..., None]:
    """The options by which a talk becomes a sheet."""
    for option in (
        click.option(
            "--confirm", "sheet", metavar="SHEET", help="Go on confirming what was heard, in that sheet."
        ),
        click.option(
            "--recording", metavar="FILE", help="The film or sound in which the talk was said."
        ),
        click.option(
            "--from", "talk", type=click.Path(path_type=Path), metavar="FILE",
            help="Make the sheet of a talk: dictated text, or captions (.vtt, .srt).",
        ),
    ):  # fmt: skip
        command = option(command)
    return command


@click.command()
@folder_argument
@car_option
@click.option(
    "--subsystem", multiple=True, metavar="NAME", help="The subsystem; the last one unless told."
)
@date_option
@hand_option
@saying_options
@click.option(
    "--photo", multiple=True, metavar="FILE[=KEYS]",
    help="A picture, by its name in the inbox or by its path, with keys such as alt: a bent pipe.",
)  # fmt: skip
@click.option("--inbox/--no-inbox", default=True, help="Take the pictures of the day in, or not.")
@edit_option
@talk_options
def write(
    content: Path, car: str | None, subsystem: tuple[str, ...], day: date | None, hand: str | None,
    photo: tuple[str, ...], inbox: bool, edit: bool | None, talk: Path | None,
    recording: str | None, sheet: str | None, **said: Any,
) -> None:  # fmt: skip
    """Write a sheet of today into CONTENT: ready to fill in your editor, or in one line by options.

    What is open, awaited and worked on lately stands in it as lines to tick; the day's pictures come
    in from the inbox. Nothing is ever written over: a second sheet of a day gets its own name.

    With --from the sheet is made of a spoken talk, and its lines are confirmed one by one; none of them
    counts before. With --confirm that is gone on with.
    """
    told = Said(**said)
    _refuse_mixed(told, photo, talk, recording, sheet)
    read = load(content)
    if sheet is not None:
        raise SystemExit(confirm_sheet(content, read, car, sheet, hand))
    chosen = one_car(read, car)
    on = day or date.today()
    if on > date.today():
        click.echo(f"warning: {on.isoformat()} lies in the future", err=True)
    if talk is not None:
        _branch(chosen, subsystem)
        talked = Talked(
            content, chosen, on, hand_of(chosen, hand), talk, recording, told.title, subsystem
        )
        raise SystemExit(write_talk(talked))
    editor = not told.enough if edit is None else edit
    try:
        whose = hand_of(chosen, hand)
        proposal = propose(chosen, on, _branch(chosen, subsystem), whose)
        base: dict[str, Plain] = {"subsystem": [*subsystem] or [_known(chosen, proposal)]}
        front_of(told, base, on, whose)
        folder = inbox_folder(content, chosen.workshop)
        named = [_named(folder, word) for word in photo]
        taken = _pictures(
            content, chosen, on, named, look_into(folder) if folder and inbox else Inbox()
        )
        if taken:
            keys = {picture.file: keys for picture, keys in named}
            base["photos"] = _shown(taken, keys, proposal if editor else None)
        new = NewSheet(front_of(told, base, on, whose), told.note or "")
    except WrongCall as fault:
        raise refusing(fault) from None
    start = ready(new, offers_of(chosen, proposal) if editor else {})
    title = told.title or " ".join(new.front.subsystem)
    raise SystemExit(fill(Filling(content, chosen, on, title, start, taken, editor)))


def _refuse_mixed(
    told: Said, photo: tuple[str, ...], talk: Path | None, recording: str | None, sheet: str | None
) -> None:  # fmt: skip
    """Refuse what cannot be asked for together."""
    if talk is not None and sheet is not None:
        raise Refusal("--from makes a sheet and --confirm goes on with one; say one of the two")
    if recording is not None and talk is None:
        raise Refusal("--recording says where a talk was said; say --from with it")
    if (talk or sheet) and (told.enough or photo):
        raise Refusal(
            "what a talk says is confirmed line by line; say the rest in a sheet of its own"
        )


def _branch(car: CarFile, said: tuple[str, ...]) -> str | None:
    """The first subsystem that was said. Raises Refusal for one that there is not."""
    known = car.workshop.all_subsystems()
    for name in said:
        if name not in known:
            meant = nearest(name, known)
            raise Refusal(
                f'there is no subsystem "{name}"; write {meant or listed([*known], "or")}'
            )
    return said[0] if said else None


def _known(car: CarFile, proposal: Proposal) -> str:
    if not proposal.subsystem:
        names = listed([*car.workshop.all_subsystems()], "or")
        raise Refusal(f"the car has no sheet yet; say --subsystem, one of {names}")
    return proposal.subsystem


def _pictures(
    root: Path, car: CarFile, day: date, named: Sequence[_Named], lying: Inbox
) -> tuple[Taken, ...]:
    """Pictures that were named, and those of the day from the inbox, in the order they were taken."""
    files = {picture.file.resolve() for picture, _ in named}
    of_day = [p for p in lying.of(day) if p.file.resolve() not in files]
    every = sorted([*(p for p, _ in named), *of_day], key=lambda p: (p.taken, p.file.name))
    _tell(lying, [p for p in every if not p.by_camera], day)
    if not every:
        return ()
    try:
        return take_in(root, car.name, day, every)
    except OSError as fault:
        raise Refusal(
            f"the pictures cannot be copied: {refusal(fault)}; they are where they were"
        ) from None


def _named(folder: Path | None, word: str) -> _Named:
    """A picture that was named, with the keys that were said of it."""
    whole = _file(folder, word)
    name, keys = (word, "") if whole else word.partition("=")[::2]
    file = whole or _file(folder, name)
    if file is None:
        raise Refusal(f'there is no picture "{name}"')
    found = arrived(file)
    if not isinstance(found, Arrived):
        raise Refusal(f'"{name}" is no picture that can be shown: {found.reason}')
    return found, keys_of("--photo", keys) if keys else {}


def _file(folder: Path | None, name: str) -> Path | None:
    places = [Path(name), *([folder / name] if folder else [])]
    return next((place for place in places if place.is_file()), None)


def _tell(lying: Inbox, by_file: Sequence[Arrived], day: date) -> None:
    """Say what a person would not expect of the inbox."""
    for unusable in lying.unusable:
        click.echo(f"left in the inbox: {unusable.file.name}, {unusable.reason}", err=True)
    other = len(lying.pictures) - len(lying.of(day))
    if other:
        click.echo(f"left in the inbox: {counted(other, 'picture')} of other days", err=True)
    for picture in by_file:
        when = f"{picture.taken:%Y-%m-%d %H:%M}"
        click.echo(f"{picture.file.name}: no camera tells its day; by its file, {when}", err=True)


def _shown(
    taken: Sequence[Taken], keys: Mapping[Path, dict[str, Plain]], proposal: Proposal | None
) -> list[Plain]:
    """Entries for pictures; who fills the sheet in an editor sees what each may show, and puts it right."""
    of: dict[str, Plain] = {"of": proposal.last} if proposal and proposal.last else {}
    return [{"file": t.name, **of, **keys.get(t.came.file, {})} for t in taken]

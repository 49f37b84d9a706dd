"""A new sheet from the command line: saved first, then filled in the editor, then looked at."""

import os
import shlex
import shutil
import subprocess
from collections.abc import Sequence
from datetime import date
from pathlib import Path

import click
from msgspec import Struct
from msgspec.structs import replace
from platformdirs import user_state_path

from journal.commands.common import Refusal
from journal.outputs.findings import problems_of_car
from journal.outputs.problems import problems_text
from journal.outputs.sheets.checked import Checked, check_sheet
from journal.outputs.sheets.disk import refusal
from journal.outputs.sheets.inbox import Taken, give_back, let_go
from journal.outputs.sheets.ready import Ready, tidied
from journal.outputs.sheets.store import NotSaved, hash_of, rename_new, save_new, save_over, stem_of
from journal.records.carfile import CarFile
from journal.records.problem import Severity

# Looked for in this order when neither VISUAL nor EDITOR is set.
_EDITORS = ("sensible-editor", "nano", "vi", "notepad")


def state_folder() -> Path:
    """Where what belongs to this person is remembered, outside of every content folder."""
    return user_state_path("restoration-journal", appauthor=False)


class Filling(Struct, frozen=True):
    """A new sheet on its way: of which car and day, called `title` until it has one of its own, as it
    starts, with which pictures, and whether it is filled in an editor."""

    root: Path
    car: CarFile
    day: date
    title: str
    start: Ready
    taken: tuple[Taken, ...] = ()
    editor: bool = True


def fill(filling: Filling) -> int:
    """Save the sheet, let it be filled, and say what is wrong; the exit code.

    It lies in its place from the start and is opened there, so that what is typed depends on the
    editor alone.
    """
    if not filling.editor and not _is_right(filling):
        return 1
    saved = save_new(
        filling.root, filling.car.name, filling.day, filling.title,
        filling.start.text.encode("utf-8"), rescue=state_folder() / "rescued",
    )  # fmt: skip
    if isinstance(saved, NotSaved):
        click.echo(saved.sentence, err=True)
        return 1
    checked = _filled(filling, saved.path)
    if checked is None:
        return 1
    path = _called(filling, saved.path, checked)
    _empty_inbox(filling.taken)
    click.echo(f"wrote {filling.root / path}")
    return 1 if checked.problems else 0


def _is_right(filling: Filling) -> bool:
    """Whether what was said in one line can stand; else it is told why not, and nothing is written."""
    name = stem_of(filling.day, filling.title)
    path = f"{filling.car.name}/sheets/{filling.day:%Y}/{name}.md"
    raw = filling.start.text.encode("utf-8")
    problems = check_sheet(_with_pictures(filling), path, raw).problems
    wrong = [p for p in problems if p.severity is Severity.ERROR]
    if wrong:
        give_back(filling.taken)
        click.echo(problems_text(wrong))
        click.echo("Nothing is written. Say it anew, or write it in your editor with --edit.")
    return not wrong


def _filled(filling: Filling, path: str) -> Checked | None:
    """The sheet once it is right or kept as it is; None when it was dropped."""
    car = _with_pictures(filling)
    known = frozenset(problems_of_car(filling.car))
    while True:
        if filling.editor:
            _open_editor(filling.root / path)
        raw = _tidy(filling, path)
        if raw is None:
            click.echo(f"{path} is gone; no sheet is written", err=True)
            return None
        checked = check_sheet(car, path, raw, known=known)
        if checked.problems:
            click.echo(problems_text(checked.problems))
        if not filling.editor or not (checked.problems or _untouched(filling, raw)):
            return checked
        if not checked.problems:
            click.echo("Nothing was written into the sheet.")
        chosen = _choice("edit" if checked.problems else "drop")
        if chosen == "keep":
            return checked
        if chosen == "drop":
            _drop(filling, path)
            return None


def _choice(usual: str) -> str:
    """What is to be done with the sheet. Who cannot be asked keeps it."""
    try:
        choice = click.Choice(["edit", "keep", "drop"])
        return str(click.prompt("Go back and edit, keep it so, or drop it", usual, type=choice))
    except click.Abort:
        click.echo()
        return "keep"


def _open_editor(file: Path) -> None:
    """Let a file be edited where it lies."""
    told = os.environ.get("VISUAL") or os.environ.get("EDITOR")
    words = shlex.split(told) if told else [e for e in _EDITORS if shutil.which(e)][:1]
    if not words:
        raise Refusal(
            f"there is no editor; set EDITOR, or open {file} yourself: it is ready to fill"
        )
    try:
        ended = subprocess.run([*words, str(file)], check=False).returncode
    except OSError as fault:
        raise Refusal(
            f'the editor "{words[0]}" cannot be started ({refusal(fault)}); {file} is ready to fill'
        ) from None
    if ended:
        click.echo(
            f'the editor "{words[0]}" ended with {ended}; the sheet is as it left it', err=True
        )


def _tidy(filling: Filling, path: str) -> bytes | None:
    """The sheet without what was offered and not touched, or None when it is gone."""
    file = filling.root / path
    if not file.is_file():
        return None
    raw = file.read_bytes()
    made = tidied(raw, filling.start.offered)
    if made != raw:
        # An editor that still writes wins: what it wrote is read as it is.
        save_over(filling.root, path, made, read=hash_of(raw))
    return file.read_bytes()


def _untouched(filling: Filling, raw: bytes) -> bool:
    return raw == tidied(filling.start.text.encode("utf-8"), filling.start.offered)


def _with_pictures(filling: Filling) -> CarFile:
    """The car file with the pictures that the sheet brings."""
    brought = {f"{taken.file.parent.name}/{taken.name}" for taken in filling.taken}
    return replace(filling.car, photo_files=filling.car.photo_files | brought)


def _called(filling: Filling, path: str, checked: Checked) -> str:
    """The sheet under the title that it was given; a sheet with errors too, so that it is found."""
    if checked.sheet is None or not checked.sheet.front.title:
        return path
    front = checked.sheet.front
    return rename_new(filling.root, path, front.date, front.title or "")


def _drop(filling: Filling, path: str) -> None:
    (filling.root / path).unlink(missing_ok=True)
    give_back(filling.taken)
    pictures = "; its pictures are where they were" if filling.taken else ""
    click.echo(f"The sheet is dropped{pictures}.")


def _empty_inbox(taken: Sequence[Taken]) -> None:
    try:
        let_go(taken)
    except OSError as fault:
        click.echo(f"pictures stay in the inbox as well: {refusal(fault)}", err=True)

"""`journal write --from`: a spoken talk becomes a draft sheet, on the disk before anything is asked."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path, PurePosixPath

import click
from msgspec import Struct

from journal.commands.common import Refusal
from journal.commands.confirm import Confirming
from journal.commands.filling import state_folder
from journal.commands.unconfirmed import confirm_or_tell
from journal.hearing.hear import hear
from journal.hearing.heard import Heard
from journal.hearing.known import known_words
from journal.outputs.problems import problems_text
from journal.outputs.sheets.fromtalk import sheets_from
from journal.outputs.sheets.merging import Told
from journal.outputs.sheets.print import NewSheet, new_text
from journal.outputs.sheets.store import NotSaved, save_new
from journal.reading.talk import read_talk
from journal.records.carfile import CarFile


class Talked(Struct, frozen=True):
    """What is asked for: the sheet of a talk, of which car, day and hand; the film or sound that it was
    said in, where there is one, and what the person says of it besides."""

    root: Path
    car: CarFile
    day: date
    hand: str
    file: Path
    recording: str | None = None
    title: str | None = None
    subsystem: tuple[str, ...] = ()


def write_talk(talked: Talked) -> int:
    """Save the draft of a talk, and go through it where somebody sits there; the exit code.

    Nothing is written of a file that is no talk.
    """
    talk, problems = read_talk(talked.file)
    known, wrong = known_words(talked.root)
    if problems or wrong:
        click.echo(problems_text([*problems, *wrong]))
    if talk is None:
        click.echo("Nothing is written.")
        return 1
    branch = talked.subsystem[0] if talked.subsystem else ""
    heard = hear(talk, talked.car, talked.day, known, talked.hand, branch)
    front = _front(talked, heard)
    saved = _save(talked, sheets_from(heard, front, talked.car))
    if saved is None:
        return 1
    for note in heard.notes:
        click.echo(note)
    return max(_gone_through(talked, path) for path in saved)


def _front(talked: Talked, heard: Heard) -> Told:
    """What is known of the sheet without its lines."""
    branches = [*(talked.subsystem or heard.subsystem)] or [_last(talked.car)]
    told: Told = {"date": talked.day.isoformat(), "subsystem": branches}
    title = talked.title or heard.title
    recording = _recording(talked)
    return (
        told | ({"title": title} if title else {}) | ({"recording": recording} if recording else {})
    )


def _last(car: CarFile) -> str:
    """The subsystem of the last sheet, for a talk that names none."""
    if not car.sheets:
        names = ", ".join(car.workshop.all_subsystems())
        raise Refusal(f"the talk names no subsystem; say --subsystem, one of {names}")
    return car.sheets[-1].front.subsystem[0]


def _recording(talked: Talked) -> str | None:
    """The recording by its path in the car's folder of recordings, or by its bare name; unless it is told,
    the one there that has the name of the talk's file."""
    there = talked.car.recording_files or frozenset()
    if talked.recording is None:
        alike = [f for f in sorted(there) if _is_of(f, talked.file)]
        return alike[0] if len(alike) == 1 else None
    folder = (talked.root / talked.car.name / "recordings").resolve()
    named = Path(talked.recording)
    inside = named.resolve().is_relative_to(folder)
    name = named.resolve().relative_to(folder).as_posix() if inside else named.name
    found = talked.recording if talked.recording in there else name
    if found not in there:
        click.echo(
            f"put {found} into {talked.root / talked.car.name / 'recordings'} to hear it at the desk",
            err=True,
        )
    return found


def _is_of(recording: str, talk: Path) -> bool:
    path = PurePosixPath(recording)
    return path.stem == talk.stem and path.suffix.lower() not in (".vtt", ".srt", ".txt")


def _save(talked: Talked, sheets: Sequence[NewSheet]) -> list[str] | None:
    """Put the sheets on the disk; their paths, or None when it refuses."""
    saved = []
    for sheet in sheets:
        title = sheet.front.title or " ".join(sheet.front.subsystem)
        outcome = save_new(
            talked.root, talked.car.name, talked.day, title, new_text(sheet).encode("utf-8"),
            rescue=state_folder() / "rescued",
        )  # fmt: skip
        if isinstance(outcome, NotSaved):
            click.echo(outcome.sentence, err=True)
            return None
        click.echo(f"wrote {talked.root / outcome.path}, with what was said in it")
        saved.append(outcome.path)
    return saved


def _gone_through(talked: Talked, path: str) -> int:
    going = Confirming(talked.root, talked.car, path, talked.hand)
    return confirm_or_tell(going) if going.lines() else 0

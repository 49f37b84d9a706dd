"""Sheets on the disk: a save is there whole and for good, or not at all; nothing is written over unseen.

Who writes to a car file holds its lock; where a system has no such locks, a new name is still given only
where there is none, and a text is still replaced only while it is the one that was read.
"""

import os
from datetime import date
from hashlib import sha256
from pathlib import Path

from msgspec import Struct

from journal.outputs.sheets.disk import (
    clear_left,
    locked,
    make_folders,
    put_new,
    put_over,
    refusal,
    settle,
    written_to,
)
from journal.reading.files import leads_out
from journal.words.names import slug_of
from journal.words.text import normal
from journal.words.wrong import WrongCall

# A name with its day and ending stays below what a page may be called.
_LONGEST_TITLE = 60


class Saved(Struct, frozen=True):
    """A sheet that is on the disk: its path relative to the content folder, and the hash of its bytes."""

    path: str
    hash: str


class Conflict(Struct, frozen=True):
    """A sheet that is not the one that was read: what was to be written, and what lies there now, or
    None when it is gone. Nothing was written."""

    path: str
    ours: bytes
    theirs: bytes | None


class NotSaved(Struct, frozen=True):
    """A save that the disk refused, and why, as the end of a sentence. `rescued` is where the text lies
    meanwhile; None when it could not be put anywhere but here, in `data`."""

    path: str
    reason: str
    data: bytes
    rescued: Path | None = None

    @property
    def sentence(self) -> str:
        """What a person is told."""
        kept = f"the text is kept in {self.rescued}" if self.rescued else "the text is kept here"
        return f"{self.path} is not saved: {self.reason}; {kept}"


def hash_of(data: bytes) -> str:
    """What tells one text of a sheet from another (SHA-256)."""
    return sha256(data).hexdigest()


def save_new(
    root: Path, car: str, day: date, title: str, data: bytes, *, rescue: Path | None = None
) -> Saved | NotSaved:
    """Write a new sheet of a day under a name of its own, made of its title.

    Nothing is ever written over: where the name is taken in the car file, in whatever folder, the next
    free one of `-2`, `-3` is used. The same bytes saved twice are one sheet, so that a save may be
    tried again. `rescue` is a folder for a text that the disk refuses. Raises WrongCall when there is
    no such car file.
    """
    folder = car_folder(root, car)
    stem = stem_of(day, title)
    place = f"{car}/sheets/{day:%Y}"
    try:
        with locked(folder):
            clear_left(root / place)
            taken = _names(folder / "sheets")
            number = 1
            while True:
                name = stem if number == 1 else f"{stem}-{number}"
                here = taken.get(normal(name).casefold())
                if here is not None and here.read_bytes() == data:
                    return Saved(here.relative_to(root).as_posix(), hash_of(data))
                path = f"{place}/{name}.md"
                if here is None and put_new(root / path, data):
                    return Saved(path, hash_of(data))
                number += 1
    except OSError as fault:
        return _not_saved(f"{place}/{stem}.md", fault, data, rescue)


def stem_of(day: date, title: str) -> str:
    """What a sheet is called by its day and title; by its day alone when no letter of it can be used."""
    return f"{day.isoformat()}-{slug_of(title)[:_LONGEST_TITLE].strip('-')}".rstrip("-")


def rename_new(root: Path, path: str, day: date, title: str) -> str:
    """Call a new sheet by its day and title; its path then, or as before when that name is taken.

    For a sheet that nothing refers to yet. Raises WrongCall as `save_over` does.
    """
    file, name = _sheet_file(root, path), stem_of(day, title)
    car = path.split("/")[0]
    with locked(car_folder(root, car)):
        if normal(name).casefold() in _names(root / car / "sheets"):
            return path
        made = f"{car}/sheets/{day:%Y}/{name}.md"
        make_folders((root / made).parent)
        file.rename(root / made)
        settle((root / made).parent)
        settle(file.parent)
        return made


def save_over(
    root: Path, path: str, data: bytes, *, read: str, rescue: Path | None = None
) -> Saved | Conflict | NotSaved:
    """Write a sheet in place of the one that was read, whose hash `read` is.

    When other bytes lie there by now, nothing is written. Raises WrongCall when the path is none of a
    sheet in the content folder.
    """
    file = _sheet_file(root, path)
    try:
        with locked(car_folder(root, path.split("/")[0])):
            clear_left(file.parent)
            try:
                there = file.read_bytes()
            except FileNotFoundError:
                return Conflict(path, data, None)
            if hash_of(there) != read:
                # What is wanted is there already when a save is tried again.
                same = there == data
                return Saved(path, hash_of(data)) if same else Conflict(path, data, there)
            if there != data:
                put_over(file, data)
            return Saved(path, hash_of(data))
    except OSError as fault:
        return _not_saved(path, fault, data, rescue)


def car_folder(root: Path, car: str) -> Path:
    """The folder of a car file. Raises WrongCall when there is none of that name."""
    if "/" in car or car in ("", ".", "..") or not (root / car / "car.yaml").is_file():
        raise WrongCall(f'there is no car "{car}"')
    return root / car


def _sheet_file(root: Path, path: str) -> Path:
    """The file at the path of a sheet; a link within the content is followed, so that it stays one."""
    parts = path.split("/")
    sheet = len(parts) > 2 and parts[1] == "sheets" and path.endswith(".md")
    if not sheet or {"", ".", ".."} & set(parts) or leads_out(root, path):
        raise WrongCall(f'"{path}" is no sheet of this content folder')
    return Path(os.path.realpath(root / path))


def _names(sheets: Path) -> dict[str, Path]:
    """The sheets there are by name, as systems compare names that do not tell capitals apart."""
    return {normal(file.stem).casefold(): file for file in sorted(sheets.rglob("*.md"))}


def _not_saved(path: str, fault: OSError, data: bytes, rescue: Path | None) -> NotSaved:
    return NotSaved(path, refusal(fault), data, _rescued(path, data, rescue))


def _rescued(path: str, data: bytes, rescue: Path | None) -> Path | None:
    """The text in the folder for such texts, under a name that tells it by its hash."""
    if rescue is None:
        return None
    file = rescue / f"{Path(path).stem}-{hash_of(data)[:8]}.md"
    try:
        rescue.mkdir(parents=True, exist_ok=True)
        written_to(file, data)
    except OSError:
        return None
    return file

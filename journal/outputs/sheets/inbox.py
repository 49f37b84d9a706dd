"""The workshop's inbox: the folder in which pictures arrive, from which a sheet takes those of its day.

A picture is copied to the car file and brought to the disk; it is taken out of the inbox once its sheet
stands, and only while the copy is the same. When that is broken off, the picture lies in both, and the
next time it is known again.
"""

import os
from collections.abc import Iterable, Iterator
from datetime import date, datetime
from pathlib import Path

from msgspec import Struct

from journal.outputs.sheets.disk import locked, make_folders, put_new, settle
from journal.outputs.sheets.store import car_folder
from journal.pictures.decode import facts_of
from journal.pictures.forms import FORMS, Unreadable, misnamed
from journal.records.photofacts import PhotoFacts
from journal.records.workshop import Workshop
from journal.words.names import slug_of
from journal.words.wrong import WrongCall

_ENDINGS = frozenset(ending for _, endings in FORMS.values() for ending in endings)
_LONGEST = 60


class Arrived(Struct, frozen=True):
    """A picture in the inbox and when it was taken: by the camera's clock, else, when `by_camera` is no,
    the time of the file, which a copy may have changed. `called` is what it is named by among the
    photographs of a day where its file's own name says nothing."""

    file: Path
    taken: datetime
    by_camera: bool
    ending: str
    called: str = ""


class Unusable(Struct, frozen=True):
    """A file in the inbox that is no picture, and why not. It stays where it is."""

    file: Path
    reason: str


class Inbox(Struct, frozen=True):
    """What lies in the inbox: pictures in the order in which they were taken, and files that are none."""

    pictures: tuple[Arrived, ...] = ()
    unusable: tuple[Unusable, ...] = ()

    def of(self, day: date) -> tuple[Arrived, ...]:
        """The pictures of a day."""
        return tuple(picture for picture in self.pictures if picture.taken.date() == day)


def inbox_folder(root: Path, workshop: Workshop) -> Path | None:
    """The folder in which pictures arrive, or None when there is none.

    Raises WrongCall when the workshop names a folder that is not there.
    """
    folder = root / (workshop.inbox or "inbox")
    if folder.is_dir():
        return folder
    if workshop.inbox:
        raise WrongCall(
            f'there is no folder "{workshop.inbox}", which workshop.yaml names as the inbox'
        )
    return None


def look_into(folder: Path) -> Inbox:
    """What lies in an inbox, without what is hidden and without folders."""
    pictures: list[Arrived] = []
    unusable: list[Unusable] = []
    for file in sorted(folder.iterdir()):
        if file.name.startswith(".") or file.is_symlink() or not file.is_file():
            continue
        found = arrived(file)
        if isinstance(found, Arrived):
            pictures.append(found)
        else:
            unusable.append(found)
    return Inbox(tuple(sorted(pictures, key=lambda p: (p.taken, p.file.name))), tuple(unusable))


def arrived(file: Path) -> Arrived | Unusable:
    """A file as a picture, with when it was taken."""
    if file.suffix.lower() not in _ENDINGS:
        return Unusable(file, "it has not the ending of a photograph")
    try:
        facts = facts_of(file.read_bytes())
        changed = datetime.fromtimestamp(file.stat().st_mtime)
    except OSError as fault:
        return Unusable(file, (fault.strerror or "it cannot be opened").lower())
    if isinstance(facts, Unreadable):
        return Unusable(file, facts.reason)
    ending = misnamed(facts, file.name) or file.suffix.lower()
    return Arrived(file, _taken(facts) or changed, _taken(facts) is not None, ending)


def _taken(facts: PhotoFacts) -> datetime | None:
    if facts.taken_on is None or facts.taken_at is None:
        return None
    return datetime.combine(facts.taken_on, facts.taken_at)


class Taken(Struct, frozen=True):
    """A picture among the photographs of a day: its `name` there, and where it came from. `made` tells
    that it was not there before."""

    name: str
    file: Path
    came: Arrived
    made: bool


def take_in(root: Path, car: str, day: date, pictures: Iterable[Arrived]) -> tuple[Taken, ...]:
    """Copy pictures into the car file, to the photographs of a day.

    A name is made of the one in the inbox, safe on every system, and is that of no other picture.
    Raises WrongCall when there is no such car file, and OSError when the disk refuses.
    """
    with locked(car_folder(root, car)):
        folder = root / car / "photos" / day.isoformat()
        make_folders(folder)
        return tuple(_take_in(folder, picture) for picture in pictures)


def _take_in(folder: Path, picture: Arrived) -> Taken:
    if picture.file.parent.resolve() == folder.resolve():
        return Taken(picture.file.name, picture.file, picture, made=False)
    data = picture.file.read_bytes()
    there = set(os.listdir(folder))
    name = next(name for name in _places(folder, picture) if _is_in(folder / name, data))
    return Taken(name, folder / name, picture, made=name not in there)


def let_go(taken: Iterable[Taken]) -> None:
    """Take pictures out of the inbox, each after its copy has been read and found the same.

    Raises OSError when one is not, or the disk refuses.
    """
    for picture in taken:
        came = picture.came.file
        if came.samefile(picture.file):
            continue
        if came.read_bytes() != picture.file.read_bytes():
            raise OSError(0, f"{picture.name} is not what was copied; it stays in the inbox")
        came.unlink()
        settle(came.parent)


def give_back(taken: Iterable[Taken]) -> None:
    """Take copies away again whose sheet was dropped; a picture that left the inbox stays."""
    for picture in taken:
        if picture.made and picture.came.file.is_file():
            picture.file.unlink(missing_ok=True)


def _is_in(file: Path, data: bytes) -> bool:
    """Put data into a file, or find it there already; whether either could be done."""
    if os.path.lexists(file):
        return file.is_file() and file.stat().st_size == len(data) and file.read_bytes() == data
    return put_new(file, data)


def _places(folder: Path, picture: Arrived) -> Iterator[str]:
    """The names that a picture may have, in order. Some systems do not tell capitals apart."""
    stem = slug_of(picture.called or picture.file.stem)[:_LONGEST].strip("-") or "picture"
    there = {file.name.casefold(): file.name for file in folder.iterdir()}
    number = 1
    while True:
        name = f"{stem}{picture.ending}" if number == 1 else f"{stem}-{number}{picture.ending}"
        yield there.get(name.casefold(), name)
        number += 1

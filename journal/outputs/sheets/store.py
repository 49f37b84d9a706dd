"""Sheets on the disk: a save is there whole and for good, or not at all; nothing is written over unseen.

A text is written beside its place under a hidden name, brought to the disk, and then given its name in
one step. Who writes to a car file holds its lock; where a system has no such locks, a new name is still
given only where there is none, and a text is still replaced only while it is the one that was read.
"""

import errno
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from pathlib import Path
from threading import get_ident

from journal.reading.files import leads_out
from journal.words.names import slug_of
from journal.words.text import normal
from journal.words.wrong import WrongCall

try:
    import fcntl
except ImportError:  # a system without these locks
    fcntl = None  # type: ignore[assignment]

# A file that starts with this is being written, or was when the power went.
_WRITING = ".writing-"
# A name with its day and ending stays below what a page may be called.
_LONGEST_TITLE = 60


@dataclass(frozen=True)
class Saved:
    """A sheet that is on the disk: its path relative to the content folder, and the hash of its bytes."""

    path: str
    hash: str


@dataclass(frozen=True)
class Conflict:
    """A sheet that is not the one that was read: what was to be written, and what lies there now, or
    None when it is gone. Nothing was written."""

    path: str
    ours: bytes
    theirs: bytes | None


@dataclass(frozen=True)
class NotSaved:
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
    folder = _car_folder(root, car)
    stem = f"{day.isoformat()}-{slug_of(title)[:_LONGEST_TITLE].strip('-')}".rstrip("-")
    place = f"{car}/sheets/{day:%Y}"
    try:
        with locked(folder):
            taken = _names(folder / "sheets")
            number = 1
            while True:
                name = stem if number == 1 else f"{stem}-{number}"
                here = taken.get(normal(name).casefold())
                if here is not None and here.read_bytes() == data:
                    return Saved(here.relative_to(root).as_posix(), hash_of(data))
                path = f"{place}/{name}.md"
                if here is None and _put_new(root / path, data):
                    return Saved(path, hash_of(data))
                number += 1
    except OSError as fault:
        return _not_saved(f"{place}/{stem}.md", fault, data, rescue)


def save_over(
    root: Path, path: str, data: bytes, *, read: str, rescue: Path | None = None
) -> Saved | Conflict | NotSaved:
    """Write a sheet in place of the one that was read, whose hash `read` is.

    When other bytes lie there by now, nothing is written. Raises WrongCall when the path is none of a
    sheet in the content folder.
    """
    file = _sheet_file(root, path)
    try:
        with locked(_car_folder(root, path.split("/")[0])):
            try:
                there = file.read_bytes()
            except FileNotFoundError:
                return Conflict(path, data, None)
            if hash_of(there) != read:
                # What is wanted is there already when a save is tried again.
                same = there == data
                return Saved(path, hash_of(data)) if same else Conflict(path, data, there)
            if there != data:
                _put_over(file, data)
            return Saved(path, hash_of(data))
    except OSError as fault:
        return _not_saved(path, fault, data, rescue)


@contextmanager
def locked(folder: Path) -> Iterator[None]:
    """The lock of a folder, waited for; it is free again when the process that holds it ends, however."""
    if fcntl is None:
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def _car_folder(root: Path, car: str) -> Path:
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


def _put_new(file: Path, data: bytes) -> bool:
    """Write a file that must not be there; whether it was not."""
    _make_folders(file.parent)
    writing = _written(file.parent, data)
    try:
        os.link(writing, file)
    except FileExistsError:
        return False
    except OSError as fault:
        if fault.errno not in (errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS):
            raise
        # A memory stick knows no second names; under the lock nobody else gives this one.
        if file.exists():
            return False
        writing.rename(file)
    finally:
        writing.unlink(missing_ok=True)
    _settle(file.parent)
    return True


def _put_over(file: Path, data: bytes) -> None:
    writing = _written(file.parent, data)
    try:
        shutil.copymode(file, writing)
        writing.replace(file)
    finally:
        writing.unlink(missing_ok=True)
    _settle(file.parent)


def _written(folder: Path, data: bytes) -> Path:
    """Data under a hidden name, brought to the disk. What an earlier writer left goes away."""
    if fcntl is not None:
        for left in folder.glob(f"{_WRITING}*"):
            left.unlink(missing_ok=True)
    writing = folder / f"{_WRITING}{os.getpid()}-{get_ident()}"
    try:
        with writing.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
    except OSError:
        with suppress(OSError):
            writing.unlink(missing_ok=True)
        raise
    return writing


def _make_folders(folder: Path) -> None:
    """Make a folder and those above it, each brought to the disk."""
    if folder.is_dir():
        return
    _make_folders(folder.parent)
    folder.mkdir(exist_ok=True)
    _settle(folder.parent)


def _settle(folder: Path) -> None:
    """Bring the names in a folder to the disk, where the system can."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except PermissionError:  # folders cannot be opened on every system
        return
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


_REASONS = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "no more room is granted on the disk",
    errno.EROFS: "the disk can only be read",
    errno.EACCES: "the folder may not be written to",
    errno.EPERM: "the folder may not be written to",
    errno.EIO: "the disk does not answer",
}


def _not_saved(path: str, fault: OSError, data: bytes, rescue: Path | None) -> NotSaved:
    reason = _REASONS.get(fault.errno or 0) or (fault.strerror or "the disk refused it").lower()
    return NotSaved(path, reason, data, _rescued(path, data, rescue))


def _rescued(path: str, data: bytes, rescue: Path | None) -> Path | None:
    """The text in the folder for such texts, under a name that tells it by its hash."""
    if rescue is None:
        return None
    file = rescue / f"{Path(path).stem}-{hash_of(data)[:8]}.md"
    try:
        rescue.mkdir(parents=True, exist_ok=True)
        with file.open("wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
    except OSError:
        return None
    return file

"""A folder of things that are kept for the next time, under names. It is never believed blindly.

Every entry carries the version of the program that wrote it and a sum over its bytes. One that is of
another version, or is not what was written, is as if it were not there; so is all of it when the folder
belongs to somebody else. What goes wrong is said in one sentence and costs time alone.
"""

import os
import shutil
from hashlib import sha256
from pathlib import Path

from journal.words.text import listed

_MARK = b"kept by journal, form 1\n"
_SUM = 32
# What was kept for archives that are not published any more.
_MOST = 48


class Store:
    """What is kept in `folder` by this `version` of the program; without a folder, nothing is."""

    def __init__(self, folder: Path | None, version: str) -> None:
        self.folder = folder
        self.version = version
        self._wrong: dict[str, None] = {}
        if folder is not None and (whose := _foreign(folder)):
            self._wrong[whose] = None
            self.folder = None

    @property
    def _version(self) -> bytes:
        return f"{self.version}\n".encode()

    def clear(self, *names: str) -> None:
        """Keep nothing any longer of what lies below these names."""
        if self.folder is not None:
            for name in names:
                shutil.rmtree(self.folder / name, ignore_errors=True)

    def get(self, name: str) -> bytes | None:
        """What was kept under a name, or None."""
        if self.folder is None:
            return None
        try:
            with open(self.folder / name, "rb", buffering=0) as opened:
                # What is kept may be large, and no copy is made of it.
                mark, told_sum = opened.read(len(_MARK)), opened.read(_SUM)
                version, data = opened.read(len(self._version)), opened.readall()
        except (FileNotFoundError, NotADirectoryError):
            return None
        except OSError as fault:
            self._say(f"cannot be read ({_reason(fault)})")
            return None
        held = sha256(version)
        held.update(data)
        if mark != _MARK or held.digest() != told_sum:
            self._say("was damaged")
            return None
        if version != self._version:
            self._say("is of another version of the program")
            return None
        return data

    def put(self, name: str, data: bytes) -> None:
        """Keep something under a name; it appears whole or not at all."""
        if self.folder is None:
            return
        held = sha256(self._version)
        held.update(data)
        file = self.folder / name
        part = file.with_name(f"{file.name}.{os.getpid()}.part")
        try:
            _make(file.parent)
            with part.open("wb") as opened:
                opened.writelines((_MARK, held.digest(), self._version, data))
            part.replace(file)
        except OSError as fault:
            self._wrong[
                f"Nothing can be kept for the next publishing in {self.folder}: {_reason(fault)}."
            ] = None
            _dropped(part)

    def drop(self, name: str) -> None:
        """Keep what lies under a name no longer."""
        if self.folder is not None:
            _dropped(self.folder / name)

    def clear_old(self) -> None:
        """Of the folders in it, keep those that were used last, and nothing that a killed run began."""
        if self.folder is None:
            return
        try:
            there = sorted(self.folder.iterdir(), key=lambda one: -one.stat().st_mtime_ns)
        except OSError:
            return
        for old in there[_MOST:]:
            shutil.rmtree(old, ignore_errors=True)
        for part in self.folder.rglob("*.part"):
            if not _is_alive(part.name.split(".")[-2]):
                _dropped(part)

    def hear(self, said: "list[str] | tuple[str, ...]") -> None:
        """Take over what another one had to say of the same folder."""
        self._wrong |= dict.fromkeys(said)

    @property
    def wrong(self) -> tuple[str, ...]:
        """What went wrong, a reason each."""
        return tuple(self._wrong)

    def words(self) -> str:
        """What went wrong as one sentence or two; empty when nothing did."""
        whole = [said for said in self._wrong if said[0].isupper()]
        partly = [said for said in self._wrong if not said[0].isupper()]
        if partly:
            what = f"What was kept of earlier publishing {listed(partly)} and is made again."
            whole.insert(0, what)
        return " ".join(whole)

    def _say(self, what: str) -> None:
        self._wrong[what] = None


def _make(folder: Path) -> None:
    """Make folders that are this person's alone."""
    if not folder.is_dir():
        _make(folder.parent)
        folder.mkdir(mode=0o700, exist_ok=True)


def _foreign(folder: Path) -> str:
    """Why a folder is not to be used: what others can write there may be anything."""
    if not hasattr(os, "getuid"):
        return ""
    try:
        found = folder.stat()
    except OSError:
        return ""
    if found.st_uid != os.getuid() or found.st_mode & 0o022:
        return f"Nothing is kept for the next publishing: others can write to {folder}."
    return ""


def _is_alive(process: str) -> bool:
    """Whether a process of that number may still be at work."""
    try:
        os.kill(int(process), 0)
    except (ValueError, OverflowError, ProcessLookupError):
        return False
    except OSError:
        return True
    return True


def _dropped(file: Path) -> None:
    try:
        file.unlink(missing_ok=True)
    except OSError:
        # It is not read again: its name is no entry's, or its sum says that it is not whole.
        return


def _reason(fault: OSError) -> str:
    return (fault.strerror or "the disk refused it").lower()

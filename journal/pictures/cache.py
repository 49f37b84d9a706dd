"""What was made of pictures before, found again by their content.

A cache is a folder that may be deleted at any time. Renditions lie in it under the hash of the
photograph, so that a photograph that was renamed or moved is not made again. A database beside them
knows what each file hashed to when it was last read, and what every rendition hashed to when it was
written. What does not answer to its hash is made again.
"""

import os
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from hashlib import sha256
from pathlib import Path
from typing import Any

import msgspec
from msgspec import Struct

from journal.pictures.forms import Unreadable
from journal.pictures.sizes import Encoded
from journal.reading.prints import TICK_NS
from journal.records.photofacts import PhotoFacts
from journal.words.wrong import WrongCall

_SCHEMA = """
create table if not exists pictures (recipe text, sha256 text, told text, primary key (recipe, sha256));
create table if not exists looked
  (path text primary key, size integer, changed integer, moved integer, node integer, sha256 text);
drop table if exists seen;
drop table if exists files;
"""
# So many names stand in one question; older databases take less than a thousand.
_AT_ONCE = 500
# A database holds whole numbers of 63 bits and a sign.
_SIGNED = (1 << 63) - 1


class Stat(Struct, frozen=True):
    """By what a file that has not changed is known: its size, when it was changed and when the file
    system last noted anything about it, in ns, and its number there (as in `reading/prints`)."""

    size: int
    changed: int
    moved: int
    node: int

    @classmethod
    def of(cls, file: Path | str) -> "Stat":
        """The present one of a file."""
        now = os.stat(file)
        return cls(now.st_size, now.st_mtime_ns, now.st_ctime_ns, now.st_ino & _SIGNED)


class Kept(Struct, frozen=True):
    """A rendition in the cache: the name of its file, its size in pixels, and the hash of its bytes."""

    name: str
    width: int
    height: int
    sha256: str


class Entry(Struct, frozen=True):
    """What is known of one content: its facts and renditions, or why there are none.

    `files` is empty while only the facts were asked for.
    """

    sha256: str
    told: PhotoFacts | Unreadable
    files: tuple[Kept, ...] = ()

    @property
    def finished(self) -> bool:
        """Whether nothing is left to be made."""
        return bool(self.files) or isinstance(self.told, Unreadable)


class _Told(Struct, omit_defaults=True):
    """An entry as it is written, under its hash."""

    unreadable: str | None = None
    facts: PhotoFacts | None = None
    files: tuple[Kept, ...] = ()


class PictureCache:
    """The cache in a folder for one recipe. `damaged` counts what had to be thrown away."""

    def __init__(self, folder: Path, recipe: str) -> None:
        self.folder = folder
        self.damaged = 0
        self.recipe = recipe
        self._entries: dict[str, Entry] = {}
        self._seen: dict[str, tuple[Stat, str]] = {}
        try:
            folder.mkdir(parents=True, exist_ok=True)
            self._base = self._opened()
        except (OSError, sqlite3.OperationalError) as fault:
            raise WrongCall(
                f"the cache {folder} cannot be written; choose another folder with --cache"
            ) from fault

    def _opened(self) -> sqlite3.Connection:
        try:
            return self._new()
        except sqlite3.OperationalError:
            raise
        except sqlite3.DatabaseError:
            return self._cleared()

    def _new(self) -> sqlite3.Connection:
        base = sqlite3.connect(self.folder / "pictures.sqlite3", timeout=60)
        base.executescript(_SCHEMA)
        return base

    def _cleared(self) -> sqlite3.Connection:
        """A new database in place of one that is not what we wrote: all in it can be made again."""
        self.damaged += 1
        for file in self.folder.glob("pictures.sqlite3*"):
            file.unlink()
        return self._new()

    def _ask(self, question: str, *told: object) -> list[tuple[Any, ...]]:
        try:
            return self._base.execute(question, told).fetchall()
        except sqlite3.OperationalError:
            raise
        except sqlite3.DatabaseError:
            self._base.close()
            self._base = self._cleared()
            return self._base.execute(question, told).fetchall()

    def entries(self, files: Iterable[str]) -> dict[str, Entry]:
        """What is known of each file, by its path, that has not changed since it was last read."""
        shas = self._hashes(files)
        missing = [sha for sha in dict.fromkeys(shas.values()) if sha not in self._entries]
        for some in _batches(missing):
            question = (
                f"select sha256, told from pictures where recipe = ? and sha256 in {_marks(some)}"
            )
            for sha, text in self._ask(question, self.recipe, *some):
                self._read(sha, text)
        return {file: self._entries[sha] for file, sha in shas.items() if sha in self._entries}

    def _hashes(self, files: Iterable[str]) -> dict[str, str]:
        """What each file hashed to, if it has not changed since it was last read."""
        names = tuple(files)
        for some in _batches([name for name in names if name not in self._seen]):
            spelt = {_spelt(name): name for name in some}
            question = (
                "select path, size, changed, moved, node, sha256 from looked "
                f"where path in {_marks([*spelt])}"
            )
            for name, *stat, sha in self._ask(question, *spelt):
                self._seen[spelt[name]] = (Stat(*stat), sha)
        found = {}
        for name in names:
            before, sha = self._seen.get(name, (None, ""))
            try:
                if before is not None and before == Stat.of(name):
                    found[name] = sha
            except OSError:
                # It is gone, and nothing is known of it.
                continue
        return found

    def entry(self, sha: str) -> Entry | None:
        """What is known of a content by its hash."""
        if sha not in self._entries:
            question = "select told from pictures where recipe = ? and sha256 = ?"
            for (text,) in self._ask(question, self.recipe, sha):
                self._read(sha, text)
        return self._entries.get(sha)

    def _read(self, sha: str, text: str) -> None:
        try:
            self._entries[sha] = _entry(sha, text)
        except (ValueError, TypeError):
            # It is not what we wrote, and can be made again.
            self.damaged += 1
            self._ask("delete from pictures where sha256 = ?", sha)

    def keep(self, entry: Entry) -> None:
        """Remember what is known of a content."""
        self._entries[entry.sha256] = entry
        told = msgspec.json.encode(_told(entry)).decode()
        self._ask(
            "insert or replace into pictures values (?, ?, ?)", self.recipe, entry.sha256, told
        )

    def keep_hash(self, file: str, stat: Stat, sha: str) -> None:
        """Remember what a file hashed to, under the path by which it will be asked for."""
        self._seen[file] = (stat, sha)
        self._ask(
            "insert or replace into looked values (?, ?, ?, ?, ?, ?)",
            _spelt(file), stat.size, stat.changed, stat.moved, stat.node, sha,
        )  # fmt: skip

    def forget(self, entry: Entry) -> None:
        """Throw away what was found to be damaged."""
        self.damaged += 1
        self._entries.pop(entry.sha256, None)
        self._ask("delete from pictures where sha256 = ?", entry.sha256)
        for kept in entry.files:
            (self.folder / kept.name).unlink(missing_ok=True)

    def close(self) -> None:
        """Write what was remembered, except what may still be changing unseen."""
        if self._base.total_changes == 0:
            self.leave()
            return
        clock = self.folder / "clock"
        clock.write_bytes(b"")
        now = clock.stat().st_mtime_ns
        self._ask("delete from looked where changed > ?", now - TICK_NS)
        self._base.commit()
        self._base.close()

    def leave(self) -> None:
        """Write nothing; for those who only asked."""
        self._base.close()


def put_renditions(
    folder: Path, recipe: str, sha: str, renditions: Iterable[Encoded]
) -> tuple[Kept, ...]:
    """Write renditions of the photograph with this hash into a cache. Each file appears whole or not
    at all."""
    kept = []
    for made in renditions:
        name = f"{recipe}/{sha[:2]}/{sha}-{made.width}.{made.form}"
        file = folder / name
        file.parent.mkdir(parents=True, exist_ok=True)
        part = file.with_suffix(".part")
        part.write_bytes(made.data)
        part.replace(file)
        kept.append(Kept(name, made.width, made.height, sha256(made.data).hexdigest()))
    return tuple(kept)


def copied(folder: Path, kept: Iterable[tuple[Kept, Path]]) -> bool:
    """Copy renditions out of a cache; False when one is missing or is not what was written."""
    for one, target in kept:
        data = kept_bytes(folder, one)
        if data is None:
            return False
        target.write_bytes(data)
    return True


def kept_bytes(folder: Path, kept: Kept) -> bytes | None:
    """A rendition out of a cache; None when it is missing or is not what was written."""
    try:
        data = (folder / kept.name).read_bytes()
    except FileNotFoundError:
        return None
    return data if sha256(data).hexdigest() == kept.sha256 else None


def _batches(names: Sequence[str]) -> Iterator[Sequence[str]]:
    return (names[n : n + _AT_ONCE] for n in range(0, len(names), _AT_ONCE))


def _spelt(name: str) -> str:
    """A path as the database takes it: a folder above the photographs may be called what is no text."""
    return name.encode("utf-8", "backslashreplace").decode("utf-8")


def _marks(names: Sequence[str]) -> str:
    return f"({','.join('?' * len(names))})"


def _told(entry: Entry) -> _Told:
    if isinstance(entry.told, Unreadable):
        return _Told(unreadable=entry.told.reason)
    return _Told(facts=entry.told, files=entry.files)


def _entry(sha: str, text: str) -> Entry:
    """An entry as it was written; anything else raises ValueError, or TypeError where it is no text,
    and is a sign of damage."""
    told = msgspec.json.decode(text, type=_Told)
    if told.unreadable is not None:
        return Entry(sha, Unreadable(told.unreadable))
    if told.facts is None:
        raise ValueError("nothing is told")
    return Entry(sha, told.facts, told.files)

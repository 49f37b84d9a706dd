"""What the files of one car said when they were last read, so that only what has changed is read again.

Most days one sheet of hundreds is written. What was read later than the rest is kept beside it, until it is
much: to keep all anew takes longer than to read a sheet.
"""

from collections.abc import Callable
from hashlib import sha256
from os import lstat
from pathlib import Path
from stat import S_ISREG
from typing import Any

from msgspec import Struct

from journal.outputs.kept.pack import packed, unpacked
from journal.outputs.kept.store import Store
from journal.reading.car import R, Ways, yaml_file_of
from journal.reading.files import leads_out
from journal.reading.prints import Print, is_fresh
from journal.reading.sheet import sheet_of
from journal.reading.text import FILE_BYTES, SHEET_BYTES, read_bytes
from journal.records.place import Source
from journal.records.problem import Problem
from journal.records.sheet import Sheet

# Of so many files one may be kept beside the rest.
_MANY = 4


class Said(Struct, frozen=True):
    """What a file said: its print and the hash of its bytes when it was read, `at` a moment in ns, what
    was made of it, and what is wrong in it."""

    print: Print
    at: int
    sha: bytes
    answer: Any
    problems: tuple[Problem, ...]


class Reads:
    """Reading with a memory under a name in a store. `at` is a moment before any of it is read."""

    def __init__(self, store: Store, name: str, at: int) -> None:
        self._store, self._name, self._at = store, name, at
        self._most = _said_in(store, name)
        # Where the two do not belong together, each of them still tells of which file it was made.
        self._before = {**self._most, **_said_in(store, self._later)}
        self._now: dict[str, Said] = {}
        self._inside: dict[str, bool] = {}
        self.ways = Ways(self._yaml, self._sheet)

    @property
    def _later(self) -> str:
        return f"{self._name}.later"

    def close(self) -> None:
        """Keep what was read, if it is not what was kept already."""
        same = self._now.keys() == self._before.keys()
        if same and all(self._before[path] is said for path, said in self._now.items()):
            return
        later = {path: s for path, s in self._now.items() if self._most.get(path) is not s}
        if same and len(later) * _MANY <= len(self._now):
            self._store.put(self._later, packed(later))
        else:
            self._store.put(self._name, packed(self._now))
            self._store.drop(self._later)

    def _sheet(self, root: Path, path: str) -> tuple[Sheet | None, list[Problem]]:
        return self._known(root, path, SHEET_BYTES, lambda raw: sheet_of(raw, path), None)

    def _yaml(
        self, root: Path, path: str, shape: type[R], /
    ) -> tuple[R | None, Source, list[Problem]]:
        def made(raw: bytes) -> tuple[tuple[R | None, Source], list[Problem]]:
            record, source, problems = yaml_file_of(raw, path, shape)
            return (record, source), problems

        (record, source), problems = self._known(root, path, FILE_BYTES, made, (None, Source(path)))
        return record, source, problems

    def _known(
        self, root: Path, path: str, most: int,
        make: Callable[[bytes], tuple[Any, list[Problem]]], nothing: Any,
    ) -> tuple[Any, list[Problem]]:  # fmt: skip
        """What a file says, or said before when it is the same; `nothing` when it cannot be read."""
        print_, before = _print_of(root / path), self._before.get(path)
        same = before is not None and before.print == print_ and self._lies_in(root, path)
        if before is None or not same or is_fresh(before.print.changed, before.at):
            raw, fault = read_bytes(root, path, most)
            if fault is not None:
                return nothing, [fault]
            before = self._said(raw, print_, before, make)
        if print_ is not None:
            self._now[path] = before
        return before.answer, list(before.problems)

    def _lies_in(self, root: Path, path: str) -> bool:
        """Whether no folder on the way leads out of the content: a file in one that does is the same, and
        is not read all the same."""
        folder = path.rpartition("/")[0]
        if folder not in self._inside:
            self._inside[folder] = leads_out(root, folder) is None
        return self._inside[folder]

    def _said(
        self, raw: bytes, print_: Print | None, before: Said | None,
        make: Callable[[bytes], tuple[Any, list[Problem]]],
    ) -> Said:  # fmt: skip
        sha = sha256(raw).digest()
        known = print_ or Print(0, 0, 0, 0, 0)
        if before is not None and before.sha == sha:
            return Said(known, self._at, sha, before.answer, before.problems)
        answer, problems = make(raw)
        return Said(known, self._at, sha, answer, tuple(problems))


def _said_in(store: Store, name: str) -> dict[str, Said]:
    kept = unpacked(store.get(name))
    return kept if isinstance(kept, dict) else {}


def _print_of(file: Path) -> Print | None:
    """The print of a plain file; a link is read each time, since where it leads decides what it says."""
    try:
        found = lstat(file)
    except OSError:
        return None
    return Print.of(found) if S_ISREG(found.st_mode) else None

"""A content folder that is read again and again: what has not changed is not read twice.

A file is known by its size and the time it was changed; one changed a moment ago may change again
within one tick of that clock, and is known by its content.
"""

import os
import time
from collections.abc import Callable, Iterable, Sequence
from hashlib import sha256
from pathlib import Path
from typing import Generic, TypeVar, cast

from msgspec import Struct
from msgspec.structs import replace

from journal.reading.car import R, Ways, read_car, read_yaml_file
from journal.reading.content import TERMS, read_workshop
from journal.reading.files import car_folders
from journal.reading.prints import Print, is_fresh
from journal.reading.sheet import read_sheet
from journal.reading.text import FILE_BYTES, SHEET_BYTES, read_bytes
from journal.records.carfile import CarFile
from journal.records.place import Source
from journal.records.problem import Problem, Severity
from journal.records.sheet import Sheet
from journal.records.workshop import Workshop

A = TypeVar("A")

Prints = dict[str, Print]


class _Told(Struct, Generic[A], frozen=True):
    """What a file says since it was read at `at`, with its problems; whether the answer is `right`,
    be it now or before somebody made a mistake in it."""

    print: Print
    at: int
    sha: bytes
    answer: A
    problems: Sequence[Problem]
    right: bool = False


class Car(Struct, frozen=True):
    """A car as it was last read: its file, what is wrong in it, and what lay in its folder."""

    file: CarFile | None
    problems: tuple[Problem, ...]
    prints: Prints
    at: int


class Read(Struct, frozen=True):
    """A content folder as it is now. Cars that have not changed are the same objects as before.

    A file in which something is wrong that was right before still says what it said then; what is
    wrong stands in the problems.
    """

    workshop: Workshop | None
    cars: dict[str, Car]
    problems: tuple[Problem, ...]


class Memory:
    """What has been read of one content folder."""

    def __init__(self, root: Path) -> None:
        self._root = root
        self._told: dict[str, _Told[object]] = {}
        self._cars: dict[str, Car] = {}
        # What lies in the folder that is being read, as it was seen at that moment.
        self._prints: Prints = {}
        self._seen = 0
        self._ways = Ways(self._yaml, self._sheet)

    def read(self, where: Iterable[str] | None = None) -> Read:
        """The folder as it is now; cars in which none of the paths `where` lies are taken as they were.
        A path that lies in no car may have changed any of them."""
        self._seen, self._prints = time.time_ns(), {}
        workshop, source, problems = read_workshop(self._root, self._ways)
        if workshop is None:
            return Read(None, {}, tuple(problems))
        names, wrong = car_folders(self._root)
        touched = self._touched(where)
        self._cars = {
            name: self._car(name, workshop, source)
            if touched is None or name in touched or name not in self._cars
            else self._cars[name]
            for name in names
        }
        self._forget()
        return Read(workshop, self._cars, (*problems, *wrong))

    def _touched(self, where: Iterable[str] | None) -> set[str] | None:
        """The cars in which all of the paths lie; None when they may be any."""
        names = {self._car_at(path) for path in where} if where is not None else {None}
        return None if None in names else {name for name in names if name}

    def _car_at(self, path: str) -> str | None:
        for top in (self._root, self._root.resolve()):
            if Path(path).is_relative_to(top):
                name, *below = Path(path).relative_to(top).parts or ("",)
                return name if below and name in self._cars else None
        return None

    def _car(self, name: str, workshop: Workshop, source: Source) -> Car:
        before, at = self._cars.get(name), time.time_ns()
        prints = prints_below(self._root, name, "workshop.yaml")
        if before is not None and before.prints == prints and self._still(prints, before.at):
            return before
        self._seen, self._prints = at, prints
        file, wrong = read_car(self._root, name, workshop, source, self._ways)
        return Car(file, tuple(wrong), prints, at)

    def _still(self, prints: Prints, since: int) -> bool:
        """Whether files whose prints are those of `since` say what they said then."""
        fresh = (path for path, told in prints.items() if is_fresh(told.changed, since))
        return all(path in self._told and self._told[path].sha == self._sha(path) for path in fresh)

    def _sha(self, path: str) -> bytes:
        raw, _ = read_bytes(self._root, path, FILE_BYTES)
        return sha256(raw).digest()

    def _forget(self) -> None:
        """Nothing is kept of cars and files that are gone."""
        there = {path for car in self._cars.values() for path in car.prints} | {
            "workshop.yaml",
            TERMS,
        }
        self._told = {path: told for path, told in self._told.items() if path in there}

    def _sheet(self, root: Path, path: str) -> tuple[Sheet | None, list[Problem]]:
        return self._known(path, SHEET_BYTES, lambda: read_sheet(root, path))

    def _yaml(
        self, root: Path, path: str, shape: type[R], /
    ) -> tuple[R | None, Source, list[Problem]]:
        def read() -> tuple[tuple[R | None, Source], list[Problem]]:
            record, source, problems = read_yaml_file(root, path, shape)
            return (record, source), problems

        (record, source), problems = self._known(path, FILE_BYTES, read)
        return record, source, problems

    def _known(
        self, path: str, most: int, read: Callable[[], tuple[A, list[Problem]]]
    ) -> tuple[A, list[Problem]]:
        """What a file says, out of memory where it can be."""
        now, at = self._prints.get(path) or _print_of(self._root / path), self._seen
        before = cast("_Told[A] | None", self._told.get(path))
        if before and before.print == now and not is_fresh(now.changed, before.at):
            return before.answer, list(before.problems)
        raw, fault = read_bytes(self._root, path, most)
        if now is None or fault is not None:
            return read()
        sha = sha256(raw).digest()
        if before and before.sha == sha:
            told = replace(before, print=now, at=at)
        else:
            told = _told(_Told(now, at, sha, *read()), before)
        self._told[path] = cast("_Told[object]", told)
        return told.answer, list(told.problems)


def _told(now: _Told[A], before: _Told[A] | None) -> _Told[A]:
    """What a file says: what it said when it was last right, if it is not."""
    right = not any(problem.severity is Severity.ERROR for problem in now.problems)
    if right or before is None or not before.right:
        return replace(now, right=right)
    return replace(now, answer=before.answer, right=True)


def prints_below(root: Path, folder: str, *more: str) -> Prints:
    """Every file below a folder and some more by its path relative to `root`, hidden ones aside."""
    found = {path: told for path in more if (told := _print_of(root / path))}
    waiting = [folder]
    while waiting:
        here = waiting.pop()
        try:
            entries = list(os.scandir(root / here))
        except OSError:
            # It is gone, or cannot be read; reading says which.
            continue
        for entry in entries:
            if entry.name[0] == ".":
                continue
            path = f"{here}/{entry.name}"
            if entry.is_dir(follow_symlinks=False):
                waiting.append(path)
            elif told := _print_of(entry):
                found[path] = told
    return found


def _print_of(file: "Path | os.DirEntry[str]") -> Print | None:
    try:
        found = file.stat()
    except OSError:
        return None
    return Print.of(found)

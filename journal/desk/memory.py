"""A content folder that is read again and again: what has not changed is not read twice.

A file is known by its size and the time it was changed; one changed a moment ago may change again
within one tick of that clock, and is known by its content. Where the system told what changed, only
the folders in which that lies are looked into.
"""

import os
import stat
import time
from collections.abc import Callable, Collection, Iterable, Sequence
from hashlib import sha256
from pathlib import Path
from typing import Generic, NamedTuple, TypeVar, cast

from msgspec import Struct
from msgspec.structs import replace

from journal.outputs.sheets.disk import is_begun
from journal.reading.car import R, Ways, read_car, read_yaml_file
from journal.reading.content import read_workshop
from journal.reading.files import Files, car_folders, files_below
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
    """A car as it was last read: its file, what is wrong in it, and what lay in its folder, looked at
    no earlier than `at`."""

    file: CarFile | None
    problems: tuple[Problem, ...]
    prints: Prints
    at: int


class Below(NamedTuple):
    """What lies below a folder: the prints of its files, hidden ones aside, and in which folders
    somebody is writing, or was when it ended."""

    prints: Prints
    begun: set[str]


class Read(Struct, frozen=True):
    """A content folder as it is now. Cars that have not changed are the same objects as before.

    A file in which something is wrong that was right before still says what it said then; what is
    wrong stands in the problems. In the folders that are `begun` somebody is writing, or was when it ended.
    """

    workshop: Workshop | None
    cars: dict[str, Car]
    problems: tuple[Problem, ...]
    begun: frozenset[str] = frozenset()


class Memory:
    """What has been read of one content folder."""

    def __init__(self, root: Path) -> None:
        self._root = root
        self._told: dict[str, _Told[object]] = {}
        self._listed: dict[str, Files] = {}
        self._cars: dict[str, Car] = {}
        # When each car was looked at as a whole, and was as it was known or has been read since.
        self._looked: dict[str, int] = {}
        # What lies in the folder that is being read, as it was seen at that moment.
        self._prints: Prints = {}
        self._begun: set[str] = set()
        self._seen = 0
        self._ways = Ways(self._yaml, self._sheet, self._files)

    def read(self, where: Iterable[str] | None = None) -> Read:
        """The folder as it is now; folders of cars in which none of the paths `where` lies are taken as
        they were. A path that lies in no car may have changed any of them."""
        self._seen, self._prints, self._begun = time.time_ns(), {}, set()
        workshop, source, problems = read_workshop(self._root, self._ways)
        if workshop is None:
            return Read(None, {}, tuple(problems))
        names, wrong = car_folders(self._root)
        touched = self._touched(where) if where is not None else None
        for gone in self._cars.keys() - {*names}:
            self._forget(self._cars[gone].prints)
            self._unlist({gone})
        self._cars = {
            name: self._cars[name]
            if touched is not None and name not in touched and name in self._cars
            else self._car(name, workshop, source, touched.get(name) if touched else None)
            for name in names
        }
        return Read(workshop, self._cars, (*problems, *wrong), frozenset(self._begun))

    def _touched(self, where: Iterable[str]) -> dict[str, set[str]] | None:
        """The folders to look into by the car in which they lie; None when they may lie in any car."""
        found: dict[str, set[str]] = {}
        for path in where:
            name, *below = self._parts(path) or ("",)
            if not below or name not in self._cars:
                return None
            folders = found.setdefault(name, set())
            if not any(part[0] == "." for part in below):
                folders.add(_folder_of(self._root, "/".join((name, *below))))
        return found

    def _parts(self, path: str) -> tuple[str, ...]:
        """The parts of a path below the content folder; none for a path that does not lie in it."""
        for top in (self._root, self._root.resolve()):
            if Path(path).is_relative_to(top):
                return Path(path).relative_to(top).parts
        return ()

    def _car(
        self, name: str, workshop: Workshop, source: Source, folders: Collection[str] | None
    ) -> Car:
        """A car as it is now, looking into these folders of it, or into all of it when none are told."""
        before, at = self._cars.get(name), time.time_ns()
        since = self._looked.get(name, at)
        if before is None or folders is None or name in folders:
            folders, self._looked[name] = {name}, at
            prints = self._prints_below(name)
        else:
            prints = self._prints_again(before.prints, folders)
        if before is not None and before.prints == prints and self._still(prints, since):
            return before
        if before is not None:
            self._forget(before.prints.keys() - prints.keys())
        self._unlist(folders)
        self._seen, self._prints = at, prints
        file, wrong = read_car(self._root, name, workshop, source, self._ways)
        return Car(file, tuple(wrong), prints, self._looked[name])

    def _prints_again(self, before: Prints, folders: Collection[str]) -> Prints:
        """The prints of a car, looking into these folders alone."""
        # What has no print, like a link that leads nowhere, is to be seen all the same.
        self._unlist(folders)
        within = tuple(f"{folder}/" for folder in folders)
        found = {
            path: told
            for path, told in before.items()
            if not path.startswith(within) and path not in folders
        }
        for folder in folders:
            found |= self._prints_below(folder)
        return found

    def _prints_below(self, folder: str) -> Prints:
        below = look_below(self._root, folder, "workshop.yaml")
        self._begun |= below.begun
        return below.prints

    def _still(self, prints: Prints, since: int) -> bool:
        """Whether files whose prints are those of `since` say what they said then."""
        fresh = (path for path, told in prints.items() if is_fresh(told.changed, since))
        return all(path in self._told and self._told[path].sha == self._sha(path) for path in fresh)

    def _sha(self, path: str) -> bytes:
        raw, _ = read_bytes(self._root, path, FILE_BYTES)
        return sha256(raw).digest()

    def _forget(self, paths: Iterable[str]) -> None:
        """Nothing is kept of files that are gone."""
        for path in paths:
            if path != "workshop.yaml":
                self._told.pop(path, None)

    def _unlist(self, folders: Iterable[str]) -> None:
        """What lies below these folders is to be listed anew."""
        for listed in [*self._listed]:
            if any(_lies_in(listed, one) or _lies_in(one, listed) for one in folders):
                del self._listed[listed]

    def _files(self, root: Path, folder: str) -> Files:
        if folder not in self._listed:
            self._listed[folder] = files_below(root, folder)
        known = self._listed[folder]
        return Files(known.paths, list(known.problems))

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


def _lies_in(path: str, folder: str) -> bool:
    return path == folder or path.startswith(f"{folder}/")


def _folder_of(root: Path, path: str) -> str:
    """The folder to look into when something changed at a path: that itself, or what holds it."""
    try:
        is_folder = stat.S_ISDIR(os.lstat(root / path).st_mode)
    except OSError:
        is_folder = False
    return path if is_folder else path.rpartition("/")[0]


def look_below(root: Path, folder: str, *more: str) -> Below:
    """What lies below a folder, and the prints of some more files, by paths relative to `root`."""
    found = {path: told for path in more if (told := _print_of(root / path))}
    waiting, begun = [folder], set()
    while waiting:
        here = waiting.pop()
        try:
            entries = list(os.scandir(root / here))
        except OSError:
            # It is gone, or cannot be read; reading says which.
            continue
        for entry in entries:
            if entry.name[0] == ".":
                if is_begun(entry.name):
                    begun.add(here)
                continue
            path = f"{here}/{entry.name}"
            if entry.is_dir(follow_symlinks=False):
                waiting.append(path)
            elif told := _print_of(entry):
                found[path] = told
    return Below(found, begun)


def _print_of(file: "Path | os.DirEntry[str]") -> Print | None:
    try:
        found = file.stat()
    except OSError:
        return None
    return Print.of(found)

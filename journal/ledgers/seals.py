"""Seals: is what was sealed still what it was?

Hears the seals of a car and the hashes of the files that are there now. Every file is one of: sealed
and unchanged, amended (changed and sealed again, both open to see), added (sealed by a later seal than
the one that closed its day, open to see too), changed since, removed since, late (of a closed day and in
no seal), or open (of days after the last seal).
"""

from collections.abc import Collection, Mapping
from datetime import date
from enum import Enum

from msgspec import Struct
from msgspec.structs import replace

from journal.records.seal import Entry, Seal, Statement
from journal.words.merkle import EMPTY, root_of


class Standing(Enum):
    """How a file stands to the seals."""

    SEALED = "sealed"
    AMENDED = "amended"
    ADDED = "added"
    CHANGED = "changed"
    REMOVED = "removed"
    LATE = "late"
    OPEN = "open"


class Sealing(Struct, frozen=True):
    """One time that a file was sealed: by which seal, on which day, with which hash."""

    seal: int
    on: date
    sha256: str


class SealedFile(Struct, frozen=True):
    """A file and its history: `now` is its hash as it is, absent when the file is gone; `day` is the
    day that it tells of, where it tells of one.

    Of a file that a reader may not see only the standing is told; then `path` is empty.
    """

    path: str
    standing: Standing
    sealings: tuple[Sealing, ...]
    now: str | None
    day: date | None = None


class Fault(Struct, frozen=True):
    """Something wrong with a seal itself: a sentence, and what should be there and is."""

    seal: str
    what: str
    expected: str = ""
    found: str = ""


class Seals(Struct, frozen=True):
    """All seals that hold, every file, and what is wrong with the seals.

    `statements` are those whose place in the chain, root and signature are right, in order.
    """

    statements: tuple[Statement, ...] = ()
    files: tuple[SealedFile, ...] = ()
    faults: tuple[Fault, ...] = ()

    @property
    def last(self) -> Statement | None:
        """The newest seal that holds, or None."""
        return self.statements[-1] if self.statements else None

    @property
    def intact(self) -> bool:
        """Whether every seal holds, nothing that was sealed is changed or gone, and nothing of a closed
        day came without being sealed."""
        broken = (Standing.CHANGED, Standing.REMOVED, Standing.LATE)
        return not self.faults and not any(f.standing in broken for f in self.files)

    @property
    def by_path(self) -> dict[str, SealedFile]:
        """Every file that is told of by name, by its path relative to the car's folder."""
        return {file.path: file for file in self.files if file.path}

    def count(self, *standings: Standing) -> int:
        """How many files stand in one of some ways, whether or not they are told by name."""
        return sum(file.standing in standings for file in self.files)

    def as_of(self, day: date) -> "Seals":
        """The seals that were made up to a day, and the files that were there by then.

        What was sealed later was still open; what was openly sealed again later stays amended,
        since its words are those of the later version.
        """
        made = tuple(stated for stated in self.statements if stated.sealed_on <= day)
        files = (_file_as_of(file, day) for file in self.files) if made else ()
        return Seals(made, tuple(file for file in files if file is not None), self.faults)

    def of(self, path: str) -> SealedFile | None:
        """The file at a path relative to the car's folder, or None for one that no seal knows."""
        return next((f for f in self.files if f.path == path), None)


UNSEALED = Seals()


def fold_seals(
    seals: tuple[Seal, ...], present: Mapping[str, str], days: Mapping[str, date]
) -> Seals:
    """Hold the files against the seals.

    `present` are the hashes of the files that are there; `days` the days that they tell of, for
    those that tell of one.
    """
    statements, entries, faults = _chain(seals)
    files = _files(statements, entries, present, days) if statements else ()
    return Seals(statements, files, faults)


def _chain(
    seals: tuple[Seal, ...],
) -> tuple[tuple[Statement, ...], tuple[tuple[int, Entry], ...], tuple[Fault, ...]]:
    """Follow the seals one after another. What follows a seal that does not hold rests on nothing."""
    good: list[Statement] = []
    entries: list[tuple[int, Entry]] = []
    faults: list[Fault] = []
    for seal in seals:
        known = [entry for _, entry in entries]
        fault = _fault(seal, good[-1] if good else None, known, len(good) + 1)
        if fault is not None:
            faults.append(fault)
            continue
        assert seal.statement is not None
        assert seal.entries is not None
        good.append(seal.statement)
        entries += [(seal.statement.seal, entry) for entry in seal.entries]
    return tuple(good), tuple(entries), tuple(faults)


def _fault(seal: Seal, before: Statement | None, known: list[Entry], number: int) -> Fault | None:
    """The first thing that is wrong with a seal, or None."""
    stated, added = seal.statement, seal.entries
    if stated is None:
        return Fault(seal.name, "the statement is not one of a seal")
    if added is None:
        return Fault(seal.name, "the list of entries cannot be read")
    if not seal.signed:
        return Fault(seal.name, "the signature is not that of the key that it names")
    leaves = [entry.leaf for entry in (*known, *added)]
    wanted = (
        ("it is not the next in the row", str(number), str(stated.seal)),
        ("it does not follow the seal before it", str(len(known)), str(stated.entries_before)),
        (
            "the root of the seal before it is another one",
            before.root if before else EMPTY.hex(), stated.root_before,
        ),
        ("it is signed with another key", before.key if before else stated.key, stated.key),
        ("it counts other entries than its list", str(len(leaves)), str(stated.entries)),
        ("its root is not that of its list", root_of(leaves).hex(), stated.root),
    )  # fmt: skip
    for what, expected, found in wanted:
        if expected != found:
            return Fault(seal.name, what, expected, found)
    if before is not None and stated.up_to < before.up_to:
        return Fault(seal.name, "it closes an earlier day than the seal before it",
                     f"{before.up_to} or later", str(stated.up_to))  # fmt: skip
    return None


def _files(
    statements: tuple[Statement, ...],
    entries: tuple[tuple[int, Entry], ...],
    present: Mapping[str, str],
    days: Mapping[str, date],
) -> tuple[SealedFile, ...]:
    on = {stated.seal: stated.sealed_on for stated in statements}
    history: dict[str, list[Sealing]] = {}
    for number, entry in entries:
        if entry.path:
            history.setdefault(entry.path, []).append(Sealing(number, on[number], entry.sha256))
    files = []
    for path in sorted({*history, *present}):
        day = days.get(path)
        closed_by = next((s.seal for s in statements if day is not None and day <= s.up_to), None)
        sealings = tuple(history.get(path, ()))
        now = present.get(path)
        files.append(SealedFile(path, _standing(sealings, now, closed_by), sealings, now, day))
    return tuple(files)


def _standing(sealings: tuple[Sealing, ...], now: str | None, closed_by: int | None) -> Standing:
    if not sealings:
        return Standing.LATE if closed_by is not None else Standing.OPEN
    if now is None:
        return Standing.REMOVED
    if now != sealings[-1].sha256:
        return Standing.CHANGED
    if len({s.sha256 for s in sealings}) > 1:
        return Standing.AMENDED
    late = closed_by is not None and sealings[0].seal > closed_by
    return Standing.ADDED if late else Standing.SEALED


def _file_as_of(file: SealedFile, day: date) -> SealedFile | None:
    """A file as it stood to the seals up to a day, or None when it was not there yet."""
    sealings = tuple(sealing for sealing in file.sealings if sealing.on <= day)
    if not sealings and (file.now is None or (file.day is not None and file.day > day)):
        return None
    not_yet = not sealings and file.standing is Standing.SEALED
    return replace(file, sealings=sealings, standing=Standing.OPEN if not_yet else file.standing)


def shown_seals(seals: Seals, told: Collection[str]) -> Seals:
    """The seals as a reader may see them, who is told of some files by name.

    All other files are counted by how they stand, so that the verdict is the same for every reader.
    What is wrong with a seal is told by its number, and without what it names.
    """
    files = tuple(
        file if file.path in told else SealedFile("", file.standing, (), None)
        for file in seals.files
    )
    faults = tuple(Fault(_number(fault.seal), fault.what) for fault in seals.faults)
    return Seals(seals.statements, files, faults)


def _number(name: str) -> str:
    """The name of a seal's folder when it is a number as we write it; anyone may make other folders."""
    return name if name.isascii() and name.isdigit() else ""

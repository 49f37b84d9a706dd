"""Since: what has changed since a bag was handed over.

Holds the seals and the tables as they stand against what the bag says of itself. What came later is
what later seals have: new, added to days that were closed by then, or amended. What changed of the
ledger, of the proofs and of the reservations shows in the tables of both, row by row.
"""

from collections.abc import Collection, Mapping
from datetime import date
from enum import StrEnum
from typing import NamedTuple

from msgspec import Struct

from journal.ledgers.seals import SealedFile, Seals
from journal.records.seal import Statement

Row = Mapping[str, str]
# The name of a re-check and the day on which it was asked for, as the table writes it.
Asked = tuple[str, str]


class How(StrEnum):
    """How a file came into the record after the bag was closed."""

    NEW = "new"
    ADDED = "added"
    AMENDED = "amended"


class Told(Struct, frozen=True):
    """How a car stands by its tables, a row as the texts of its columns: of the ledger by component, of
    proofs by their names, of re-checks by name and the day on which they were asked for, and every
    reservation."""

    ledger: Mapping[str, Row]
    proving: Mapping[str, Row]
    rechecks: Mapping[Asked, Row]
    reservations: tuple[Row, ...]


class Bag(Struct, frozen=True):
    """A bag that was handed over: which one of the car's it is, counted from 1, its name, the day it
    bears, the seal that closed the record in it, and how the car stood."""

    number: int
    name: str
    day: date
    seal: Statement
    told: Told


class Change(NamedTuple):
    """A row that is not what it was: its name, the row before and after, of which one may be absent,
    and the columns that differ."""

    name: str
    before: Row | None
    now: Row | None
    columns: tuple[str, ...]


class Since(Struct, frozen=True):
    """What has changed since a bag.

    `files` are those that the reader is told of by name, by path relative to the car's folder;
    `untold` is how many more were sealed since. `asked` are the re-checks that the bag does not know,
    `done` those that were not done by then. `raised` are the places of new reservations among those of
    now, `cleared` the rows of those that no longer stand.
    """

    bag: Bag
    files: Mapping[str, How]
    untold: int
    ledger: tuple[Change, ...]
    proving: tuple[Change, ...]
    asked: frozenset[Asked]
    done: frozenset[Asked]
    raised: tuple[int, ...]
    cleared: tuple[Row, ...]


def digest_since(bag: Bag, *, seals: Seals, told: Collection[str], now: Told) -> Since:
    """What has changed since `bag`, for a reader who is `told` of these files by name."""
    later = [f for f in seals.files if f.sealings and f.sealings[-1].seal > bag.seal.seal]
    shown = {f.path: _how(f, bag.seal) for f in later if f.path in told}
    before = bag.told
    return Since(
        bag,
        shown,
        len(later) - len(shown),
        _changes(before.ledger, now.ledger),
        _changes(before.proving, now.proving),
        frozenset(now.rechecks.keys() - before.rechecks.keys()),
        frozenset(_done(now) - _done(before)),
        tuple(n for n, row in enumerate(now.reservations) if row not in before.reservations),
        tuple(row for row in before.reservations if row not in now.reservations),
    )


def _how(file: SealedFile, closed: Statement) -> How:
    if file.sealings[0].seal <= closed.seal:
        return How.AMENDED
    of_closed_day = file.day is not None and file.day <= closed.up_to
    return How.ADDED if of_closed_day else How.NEW


def _done(told: Told) -> frozenset[Asked]:
    return frozenset(asked for asked, row in told.rechecks.items() if row["done"])


def _changes(before: Mapping[str, Row], now: Mapping[str, Row]) -> tuple[Change, ...]:
    """Rows that differ, in the order of now; those that are gone stand last."""
    names = (*now, *(name for name in before if name not in now))
    changes = (_change(name, before.get(name), now.get(name)) for name in names)
    return tuple(change for change in changes if change.columns)


def _change(name: str, before: Row | None, now: Row | None) -> Change:
    """A column that one of two rows does not have is not compared: it was not told of then."""
    if before is None or now is None:
        there = before or now or {}
        return Change(name, before, now, tuple(c for c, text in there.items() if text))
    differ = tuple(c for c, text in now.items() if c in before and text != before[c])
    return Change(name, before, now, differ)

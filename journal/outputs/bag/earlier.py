"""A bag that was handed over before, as a supplement needs to know it: what it is of, which seal closed
it, how the car stood by its tables, and where its pictures lie."""

import csv
import io
from collections.abc import Mapping
from datetime import date
from pathlib import Path

from msgspec import Struct

from journal.digests.gate import Gate
from journal.digests.since import Bag, Row, Since, Told
from journal.ledgers.seals import Seals
from journal.outputs.bag.identity import car_urn
from journal.outputs.bag.layout import INFO, PAYLOAD, info_in, is_safe
from journal.outputs.bag.pictures import Packed
from journal.outputs.bag.tables import PICTURES, RESERVATIONS, table_reservations
from journal.outputs.bag.verify import Finding, verify_bag
from journal.outputs.tables import TABLES, as_csv
from journal.pages.view import CarView
from journal.records.carfile import CarFile
from journal.records.seal import Statement
from journal.words.text import counted
from journal.words.wrong import WrongCall

_TABLES = f"{PAYLOAD}/tables"
_LEDGER, _PROVING, _RECHECKS = "ledger", "proving", "rechecks"
# The tables in which what changed shows.
_COMPARED = (_LEDGER, _PROVING, _RECHECKS, RESERVATIONS)


class Earlier(Struct, frozen=True):
    """A bag of the same car, and every picture that lies in it or in one before it."""

    bag: Bag
    pictures: tuple[Packed, ...]


class Following(Struct, frozen=True):
    """What a supplement follows: the bag before it, and what has changed since."""

    earlier: Earlier
    since: Since

    @property
    def number(self) -> int:
        """Which bag of the car the supplement is, counted from 1."""
        return self.earlier.bag.number + 1


def read_earlier(folder: Path, named: str, car: CarFile, seals: Seals) -> Earlier:
    """What a bag says that a supplement of a car is to follow; `named` is what messages call it.

    `car` holds only what its reader may see; `seals` are its seals as they stand. Raises WrongCall when
    the bag does not hold, is of another car, when its last seal is none of this record, and when nothing
    was sealed since.
    """
    verified = verify_bag(folder)
    if not verified.good:
        raise WrongCall(
            f"{named} does not hold ({_first(verified.findings)}); name a copy of it that does"
        )
    info = info_in((folder / INFO).read_text(encoding="utf-8"))
    if info.get("bag-group-identifier") != car_urn(car):
        raise WrongCall(
            f"{named} is of another car; name the bag that was handed over with {car.name}"
        )
    bag = Bag(
        int(info["bag-count"].partition(" ")[0]),
        info["external-identifier"],
        date.fromisoformat(info["bagging-date"]),
        _same_seal(verified.seals.last, seals, named),
        _told({name: _rows(folder, named, name) for name in _COMPARED}),
    )
    return Earlier(bag, tuple(map(_picture, _rows(folder, named, PICTURES))))


def _told(tables: Mapping[str, tuple[Row, ...]]) -> Told:
    return Told(
        {row["component"]: row for row in tables[_LEDGER]},
        {row["proof"]: row for row in tables[_PROVING]},
        {(row["re-check"], row["asked"]): row for row in tables[_RECHECKS]},
        tables[RESERVATIONS],
    )


def told_now(view: CarView, gate: Gate) -> Told:
    """How a car stands, by the same tables as they would lie in a bag for its reader."""
    tables = {name: TABLES[name](view.car, view.until) for name in (_LEDGER, _PROVING, _RECHECKS)}
    tables[RESERVATIONS] = table_reservations(view.car, gate, view.reader)
    return _told({name: _rows_in(as_csv(table)) for name, table in tables.items()})


def _first(findings: tuple[Finding, ...]) -> str:
    first, others = findings[0], len(findings) - 1
    more = f", and {counted(others, 'other thing')}" if others else ""
    return f"{first.kind.value}: {first.path}{more}"


def _same_seal(last: Statement | None, seals: Seals, named: str) -> Statement:
    """The last seal of the bag, which must be one of this record and not the last of it."""
    if last is None:
        raise WrongCall(
            f"{named} holds no seal that a supplement could follow; hand over a whole bag"
        )
    if last not in seals.statements:
        raise WrongCall(
            f"seal {last.seal} of {named} is none of this record; name a bag that was made of it"
        )
    if last == seals.last:
        raise WrongCall(
            f"nothing was sealed since {named}, which holds the record up to {last.up_to}; write what "
            "was done since and close it with journal seal"
        )
    return last


def _rows(folder: Path, named: str, table: str) -> tuple[Row, ...]:
    file = folder / _TABLES / f"{table}.csv"
    if not file.is_file():
        raise WrongCall(
            f"{named} has no table {file.relative_to(folder).as_posix()}, by which a supplement tells what "
            "changed; hand over a whole bag"
        )
    return _rows_in(file.read_bytes().decode("utf-8"))


def _rows_in(text: str) -> tuple[Row, ...]:
    return tuple(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def _picture(row: Row) -> Packed:
    if not is_safe(row["file"]):
        raise WrongCall(f'the table of pictures is not safe to follow: it names "{row["file"]}"')
    return Packed(
        row["original file"], row["file"], row["original sha-256"], row["sha-256"], int(row["bytes"]),
        row["pixels as taken"] == "yes", int(row["bag"]),
    )  # fmt: skip

"""Sealing: the next seal of a car, written once and never over another."""

import shutil
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from msgspec import Struct

from journal.ledgers.seals import Seals, fold_seals
from journal.outputs.keys import public_pem
from journal.outputs.refused import reading, writing
from journal.outputs.sheets.disk import locked, make_folders, settle, written_to
from journal.reading.hashes import Files, files_of
from journal.reading.seals import FOLDER, read_seals
from journal.reading.signatures import key_hash
from journal.records.carfile import CarFile
from journal.records.seal import ENTRIES, PUBLIC_KEY, SIGNATURE, STATEMENT, Entry, Statement
from journal.words.merkle import EMPTY, root_of
from journal.words.wrong import WrongCall


class NewSeal(Struct, frozen=True):
    """A seal that was written: its statement, what it added, and the files relative to the content."""

    statement: Statement
    added: tuple[Entry, ...]
    files: tuple[str, ...]


def write_seal(
    root: Path, car: CarFile, key: Ed25519PrivateKey, *, up_to: date, sealed_on: date
) -> NewSeal:
    """Close the record of a car up to a day: everything written until then that is not sealed as it is.

    Raises WrongCall when the day is to come, when a sheet cannot be read or holds lines of a draft, when
    an earlier seal does not hold or is by another key, when there is nothing new, and when a file cannot be
    read or the disk refuses the seal.
    """
    _refuse_days(car, up_to, sealed_on)
    _refuse_drafts(car, up_to)
    with reading(root):
        files = files_of(root, car)
    with _of_one(root, car):
        return _sealed(root, car, files, key, up_to, sealed_on)


@contextmanager
def _of_one(root: Path, car: CarFile) -> Iterator[None]:
    """Two seals at once would bear one number; so the second waits for the lock of the car file, which
    is free again at once."""
    with writing("the seal", lambda: "nothing is sealed"), locked(root / car.name):
        yield


def _sealed(
    root: Path, car: CarFile, files: Files, key: Ed25519PrivateKey, up_to: date, sealed_on: date
) -> NewSeal:
    folder = root / car.name / FOLDER
    before = fold_seals(read_seals(folder), files.hashes, files.days)
    _refuse_broken(before, folder, key, up_to)
    sealed = {f.path: f.sealings[-1].sha256 for f in before.files if f.sealings}
    added = tuple(_new_entries(files.hashes, files.days, sealed, up_to))
    if not added:
        raise WrongCall(f"there is nothing new to seal up to {up_to}")
    statement = _statement(car, before, folder, added, key, up_to, sealed_on)
    return NewSeal(statement, added, _written(root, car.name, statement, added, key))


def _refuse_days(car: CarFile, up_to: date, sealed_on: date) -> None:
    if up_to > sealed_on:
        raise WrongCall(f"{up_to} is still to come; a seal closes days that are over")
    if car.unread or car.partly:
        names = ", ".join(sorted(car.unread | car.partly))
        raise WrongCall(f"not all that is written can be read ({names}); journal check says why")


def _refuse_drafts(car: CarFile, up_to: date) -> None:
    """What nobody has confirmed is not closed: to confirm it would be a change of what was sealed."""
    waiting = [sheet.name for sheet in car.sheets if sheet.front.draft and sheet.date <= up_to]
    if waiting:
        raise WrongCall(
            f"lines that were heard are not confirmed yet ({', '.join(waiting)}); confirm them first, "
            f"with journal write CONTENT --confirm {waiting[0]}"
        )


def _refuse_broken(before: Seals, folder: Path, key: Ed25519PrivateKey, up_to: date) -> None:
    if before.faults:
        first = before.faults[0]
        raise WrongCall(
            f"the seal {first.seal} does not hold: {first.what}; journal verify says more"
        )
    if before.last is None:
        return
    if up_to < before.last.up_to:
        raise WrongCall(
            f"days up to {before.last.up_to} are closed already; name that day or a later one"
        )
    if key_hash(key.public_key()) != before.last.key:
        raise WrongCall("this is not the key that the earlier seals are signed with")


def _new_entries(
    hashes: Mapping[str, str], days: Mapping[str, date], sealed: Mapping[str, str], up_to: date
) -> Iterable[Entry]:
    """Files of days up to the last one, and those that tell of no day, when not sealed as they are."""
    for path, sha in sorted(hashes.items()):
        if any(character in path for character in "\n\r\\"):
            raise WrongCall(f"a list of hashes cannot hold the name {path!r}; rename the file")
        if days.get(path, up_to) <= up_to and sealed.get(path) != sha:
            yield Entry.of(path, sha)


def _statement(
    car: CarFile, before: Seals, folder: Path, added: tuple[Entry, ...], key: Ed25519PrivateKey,
    up_to: date, sealed_on: date,
) -> Statement:  # fmt: skip
    entries = tuple(e for seal in read_seals(folder) for e in seal.entries or ())
    last = before.last
    return Statement(
        car=car.name,
        workshop=car.workshop.name,
        seal=len(before.statements) + 1,
        up_to=up_to,
        sealed_on=sealed_on,
        entries=len(entries) + len(added),
        root=root_of([e.leaf for e in (*entries, *added)]).hex(),
        entries_before=len(entries),
        root_before=last.root if last else EMPTY.hex(),
        key=key_hash(key.public_key()),
    )


def _written(
    root: Path, name: str, statement: Statement, added: tuple[Entry, ...], key: Ed25519PrivateKey
) -> tuple[str, ...]:
    """The four files of a seal. Their folder appears whole or not at all."""
    stated = statement.text().encode()
    wanted = {
        STATEMENT: stated,
        SIGNATURE: key.sign(stated),
        PUBLIC_KEY: public_pem(key),
        ENTRIES: "".join(f"{entry.line}\n" for entry in added).encode(),
    }
    folder = root / name / FOLDER
    part = folder / f".{statement.seal:04}.part"
    shutil.rmtree(part, ignore_errors=True)
    try:
        make_folders(part)
        for file, data in wanted.items():
            written_to(part / file, data)
        settle(part)
        part.rename(folder / f"{statement.seal:04}")
    finally:
        shutil.rmtree(part, ignore_errors=True)
    settle(folder)
    return tuple(f"{name}/{FOLDER}/{statement.seal:04}/{file}" for file in wanted)

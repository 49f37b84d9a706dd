"""The seals in a bag: the very statements and signatures, and lists that name what the reader may see."""

from collections.abc import Iterator
from pathlib import Path

from journal.ledgers.seals import fold_seals
from journal.readers.files import files_told
from journal.reading.seals import read_seals
from journal.records.carfile import CarFile
from journal.records.seal import ENTRIES, PUBLIC_KEY, SIGNATURE, STATEMENT, Entry
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall


def seals_for(reader: Reader, car: CarFile, folder: Path) -> Iterator[tuple[str, bytes]]:
    """The files of all seals in a folder, by path relative to it, for a car that holds only what the
    reader may see.

    Of every entry that the reader may not see only the hash of its leaf is told, so that the root can
    still be reckoned and held against the signed statement. Raises WrongCall when a seal does not hold.
    """
    seals = read_seals(folder)
    faults = fold_seals(seals, {}, {}).faults
    if faults:
        first = faults[0]
        raise WrongCall(
            f"the seal {first.seal} does not hold: {first.what}; journal verify says more"
        )
    paths = (entry.path for seal in seals for entry in seal.entries or ())
    told = files_told(reader, car, paths)
    for seal in seals:
        for name in (STATEMENT, SIGNATURE, PUBLIC_KEY):
            yield f"{seal.name}/{name}", (folder / seal.name / name).read_bytes()
        entries = (_for_reader(entry, told) for entry in seal.entries or ())
        yield f"{seal.name}/{ENTRIES}", "".join(f"{e.line}\n" for e in entries).encode()


def _for_reader(entry: Entry, told: frozenset[str]) -> Entry:
    return entry if entry.path in told else entry.hidden

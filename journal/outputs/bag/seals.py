"""The seals in a bag: the very statements and signatures, and lists that name what the reader may see."""

from collections.abc import Iterator
from pathlib import Path

from journal.ledgers.seals import fold_seals
from journal.reading.seals import read_seals
from journal.records.carfile import CarFile
from journal.records.seal import ENTRIES, PUBLIC_KEY, SIGNATURE, STATEMENT, Entry
from journal.words.wrong import WrongCall

# These are in every car file; their names tell nothing.
_ALWAYS = frozenset({"car.yaml", "register.yaml", "papers/papers.yaml"})


def seals_for(car: CarFile, folder: Path) -> Iterator[tuple[str, bytes]]:
    """The files of all seals in a folder, by path relative to it, for a car that holds only what its
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
    told = _told(car)
    for seal in seals:
        for name in (STATEMENT, SIGNATURE, PUBLIC_KEY):
            yield f"{seal.name}/{name}", (folder / seal.name / name).read_bytes()
        entries = (_for_reader(entry, told) for entry in seal.entries or ())
        yield f"{seal.name}/{ENTRIES}", "".join(f"{e.line}\n" for e in entries).encode()


def _for_reader(entry: Entry, told: frozenset[str]) -> Entry:
    return entry if entry.path in told else entry.hidden


def _told(car: CarFile) -> frozenset[str]:
    """The files whose names the reader knows: sheets and statements, photographs and scans that are
    told of. What lies elsewhere is not among them."""
    sources = (*(s.source for s in car.sheets), *(s.source for s in car.statements))
    paths = {source.path.removeprefix(f"{car.name}/") for source in sources}
    photos = {f"photos/{path}" for path in car.photo_files}
    scans = {f"papers/{path}" for path in car.paper_files}
    return frozenset(paths | photos | scans | _ALWAYS)

"""What lies in a bag: everything that is handed over, written below one folder in one call."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from journal.digests.gate import Gate
from journal.digests.since import Since
from journal.ledgers.seals import fold_seals
from journal.outputs.bag.earlier import Following
from journal.outputs.bag.identity import car_urn
from journal.outputs.bag.jsonld import vehicle_jsonld
from journal.outputs.bag.layout import PAYLOAD, READ_ME, RECORD
from journal.outputs.bag.pictures import FIRST, Packed, Shelf, pack_pictures
from journal.outputs.bag.prov import prov_json
from journal.outputs.bag.readme import read_me
from journal.outputs.bag.renamed import renamed
from journal.outputs.bag.seals import seals_for
from journal.outputs.bag.sheets import record_files, sheet_paths
from journal.outputs.bag.tables import bag_tables
from journal.outputs.bag.untouched import AS_SEALED, as_sealed, last_sealed, whole_sheets
from journal.outputs.pictures import Means
from journal.outputs.staging import put
from journal.pages.view import CarView
from journal.reading.seals import FOLDER, read_seals
from journal.records.carfile import CarFile
from journal.records.place import Source
from journal.records.problem import Problem
from journal.words.text import counted
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall

DOSSIER, ARCHIVE, TABLES = f"{PAYLOAD}/dossier.pdf", f"{PAYLOAD}/archive", f"{PAYLOAD}/tables"
PROVENANCE, VEHICLE = f"{PAYLOAD}/provenance.json", f"{PAYLOAD}/vehicle.jsonld"
SEALS = f"{PAYLOAD}/{FOLDER}"


class Cargo(Struct, frozen=True):
    """What a bag is made from besides the view: the content folder, the pages of the dossier, what
    writes the archive into a folder that is not there yet, the name of the key that will sign, with what
    pictures are worked on, and what stands against the handover.

    A supplement has no archive, and says what it is `following`.
    """

    root: Path
    dossier: bytes
    archive: Callable[[Path], None] | None
    key: str
    means: Means
    gate: Gate
    following: Following | None = None


class Filled(Struct, frozen=True):
    """What was put into a bag that the caller has to tell: the pictures, and what is wrong with some."""

    pictures: tuple[Packed, ...]
    problems: tuple[Problem, ...]


def fill_bag(folder: Path, view: CarView, cargo: Cargo) -> Filled:
    """Write the payload of a bag and the page that explains it; `close_bag` makes it a bag.

    Raises WrongCall for the public, to whom nothing is handed over, and when a seal does not hold.
    """
    if view.reader is Reader.PUBLIC:
        raise WrongCall("a bag is handed to the owner of the car, not to the public")
    car = view.car
    seals = cargo.root / car.name / FOLDER
    for path, data in seals_for(view.reader, car, seals):
        put(folder, f"{SEALS}/{path}", data)
    following = cargo.following
    later = _later(car, following) if following else None
    beside = _beside(following, later) if following and later is not None else FIRST
    packed, problems = pack_pictures(car, cargo.root, folder / RECORD, cargo.means, beside)
    called = renamed(car, packed)
    whole = dict(whole_sheets(cargo.root, called))
    for path, text in record_files(called, later):
        put(folder, f"{RECORD}/{path}", whole.get(path, text.encode()))
    listed = as_sealed(folder, f"{RECORD}/{car.name}", last_sealed(folder / SEALS))
    put(folder, f"{SEALS}/{AS_SEALED}", listed.encode())
    for name, text in bag_tables(_in_the_bag(car), view.until, packed, cargo.gate, view.reader):
        put(folder, f"{TABLES}/{name}.csv", text.encode())
    put(folder, PROVENANCE, prov_json(view).encode())
    put(folder, VEHICLE, vehicle_jsonld(view).encode())
    put(folder, DOSSIER, cargo.dossier)
    if cargo.archive is not None:
        cargo.archive(folder / ARCHIVE)
    statements = fold_seals(read_seals(folder / SEALS), {}, {}).statements
    page = read_me(view, cargo.key, statements, listed.count("\n"), following)
    put(folder, READ_ME, page.encode())
    return Filled(packed, problems)


def _later(car: CarFile, following: Following) -> frozenset[str]:
    """What came after the earlier bag, by path relative to the content folder."""
    return frozenset(f"{car.name}/{path}" for path in following.since.files)


def _beside(following: Following, later: frozenset[str]) -> Shelf:
    return Shelf(following.number, following.earlier.pictures, later)


def _in_the_bag(car: CarFile) -> CarFile:
    """The car file with its sheets where they lie in the record of the bag."""
    paths = sheet_paths(car)
    return replace(
        car,
        sheets=tuple(replace(s, source=Source(f"{car.name}/{paths[s.name]}")) for s in car.sheets),
    )


def bag_info(
    view: CarView, number: int = 1, since: Since | None = None
) -> tuple[tuple[str, str], ...]:
    """The labels of a bag (RFC 8493, section 2.2.2), but for its size, which is counted when it is closed.

    The first bag of a car is dated by its delivery, a supplement by the last day that it tells of.
    """
    car, workshop = view.car.car, view.car.workshop
    delivered = car.delivered if number == 1 and car.delivered else view.until
    hands = [hand.name for _, hand in workshop.hands if hand.name]
    labels = (
        ("Source-Organization", workshop.name),
        ("Organization-Address", workshop.address or ""),
        ("Contact-Name", hands[0] if len(hands) == 1 else ""),
        ("External-Description", f"{car.name}, {car.body}, {car.year}: {_holds(view, since)}"),
        ("Bagging-Date", min(delivered, view.until).isoformat()),
        ("External-Identifier", bag_name(view.car, view.until, number)),
        ("Bag-Group-Identifier", car_urn(view.car)),
        ("Bag-Count", f"{number} of ?"),
    )
    return tuple((label, value) for label, value in labels if value)


def bag_name(car: CarFile, until: date, number: int = 1) -> str:
    """What a bag of a car is called, and its folder: by the last day that it tells of."""
    supplement = f"-supplement-{number - 1}" if number > 1 else ""
    return f"{car.name}-{until}{supplement}"


def _holds(view: CarView, since: Since | None) -> str:
    if since is not None:
        return (
            f"supplement to the bag {since.bag.name}, for the {view.reader.value}: what was sealed after "
            f"seal {since.bag.seal.seal}, up to {view.until}"
        )
    return (
        f"record of the work on the car for the {view.reader.value}, "
        f"{counted(len(view.car.sheets), 'day sheet')} and "
        f"{counted(len(view.gallery.pictures), 'photograph')}, up to {view.until}"
    )

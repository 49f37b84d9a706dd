"""What lies in a bag: everything that is handed over, written below one folder in one call."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from journal.ledgers.seals import fold_seals
from journal.outputs.bag.identity import car_urn
from journal.outputs.bag.jsonld import vehicle_jsonld
from journal.outputs.bag.layout import PAYLOAD, READ_ME
from journal.outputs.bag.pictures import Packed, pack_pictures
from journal.outputs.bag.prov import prov_json
from journal.outputs.bag.readme import RECORD, read_me
from journal.outputs.bag.renamed import renamed
from journal.outputs.bag.seals import seals_for
from journal.outputs.bag.sheets import record_files, sheet_paths
from journal.outputs.bag.tables import bag_tables
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


@dataclass(frozen=True)
class Cargo:
    """What a bag is made from besides the view: the content folder, the pages of the dossier, what
    writes the archive into a folder that is not there yet, the name of the key that will sign, and
    with what pictures are worked on."""

    root: Path
    dossier: bytes
    archive: Callable[[Path], None]
    key: str
    means: Means


@dataclass(frozen=True)
class Filled:
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
    packed, problems = pack_pictures(car, cargo.root, folder / RECORD, cargo.means)
    for path, text in record_files(renamed(car, packed)):
        put(folder, f"{RECORD}/{path}", text.encode())
    for name, text in bag_tables(_in_the_bag(car), view.until, packed, view.reader):
        put(folder, f"{TABLES}/{name}.csv", text.encode())
    put(folder, PROVENANCE, prov_json(view).encode())
    put(folder, VEHICLE, vehicle_jsonld(view).encode())
    put(folder, DOSSIER, cargo.dossier)
    cargo.archive(folder / ARCHIVE)
    statements = fold_seals(read_seals(folder / SEALS), {}, {}).statements
    put(folder, READ_ME, read_me(view, cargo.key, statements).encode())
    return Filled(packed, problems)


def _in_the_bag(car: CarFile) -> CarFile:
    """The car file with its sheets where they lie in the record of the bag."""
    paths = sheet_paths(car)
    return replace(
        car,
        sheets=tuple(replace(s, source=Source(f"{car.name}/{paths[s.name]}")) for s in car.sheets),
    )


def bag_info(view: CarView, number: int = 1) -> tuple[tuple[str, str], ...]:
    """The labels of a bag (RFC 8493, section 2.2.2), but for its size, which is counted when it is closed.

    The first bag of a car is dated by its delivery, a supplement by the last day that it tells of.
    """
    car, workshop = view.car.car, view.car.workshop
    told = (
        f"{car.name}, {car.body}, {car.year}: record of the work on the car for the {view.reader.value}, "
        f"{counted(len(view.car.sheets), 'day sheet')} and "
        f"{counted(len(view.gallery.pictures), 'photograph')}, up to {view.until}"
    )
    delivered = car.delivered if number == 1 and car.delivered else view.until
    hands = [hand.name for _, hand in workshop.hands if hand.name]
    labels = (
        ("Source-Organization", workshop.name),
        ("Organization-Address", workshop.address or ""),
        ("Contact-Name", hands[0] if len(hands) == 1 else ""),
        ("External-Description", told),
        ("Bagging-Date", min(delivered, view.until).isoformat()),
        ("External-Identifier", f"{view.car.name}-{view.until}"),
        ("Bag-Group-Identifier", car_urn(view.car)),
        ("Bag-Count", f"{number} of ?"),
    )
    return tuple((label, value) for label, value in labels if value)

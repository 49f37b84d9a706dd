"""The handover: dossier, archive, record and seals in one signed bag, as a folder and as a zip file.

Everything is made in a staging folder and swapped in at the end: there is a whole bag or none.
"""

from collections.abc import Sequence
from contextlib import AbstractContextManager
from functools import partial
from pathlib import Path

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from msgspec import Struct

from journal.digests.gate import Gate
from journal.ledgers.seals import Seals, Standing
from journal.outputs import dossier as documents
from journal.outputs.archive import Order, chosen, write_archive
from journal.outputs.bag.close import close_bag
from journal.outputs.bag.contents import Cargo, bag_info, bag_name, fill_bag
from journal.outputs.bag.layout import PAYLOAD
from journal.outputs.bag.verify import Verified, verify_bag
from journal.outputs.bag.zip import write_zip
from journal.outputs.pictures import Means
from journal.outputs.printing import refuse_leaking
from journal.outputs.sealed import seals_of
from journal.outputs.staging import bag_mark, staged
from journal.outputs.tables_gate import gate_of
from journal.outputs.typeset import Paper
from journal.outputs.withheld import refuse_leaks
from journal.pages.view import CarView
from journal.reading.signatures import key_hash
from journal.records.carfile import CarFile, Content
from journal.records.problem import Problem
from journal.words.text import counted
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall


class Handover(Struct, frozen=True):
    """What is asked for: from where, to where, which car, signed with which key, on which paper.

    Only `with_reservations` is a car handed over against which something stands.
    """

    root: Path
    target: Path
    key: Ed25519PrivateKey
    means: Means
    car: str | None = None
    paper: Paper = "a4"
    with_reservations: bool = False


class HandedOver(Struct, frozen=True):
    """What was written: the bag, the zip file of it, how many files it holds; what stood against it,
    and every problem found on the way."""

    bag: Path
    zip: Path
    files: int
    gate: Gate
    problems: tuple[Problem, ...]


class Barred(Exception):
    """A handover against which something stands; `gate` has all the reasons."""

    def __init__(self, gate: Gate) -> None:
        reasons = counted(len(gate.reasons), "reason stands", "reasons stand")
        super().__init__(f"{reasons} against the handover")
        self.gate = gate


class Ready(Struct, frozen=True):
    """A car whose record is closed to its end: the whole of it, the other cars of the workshop, and its
    seals."""

    car: CarFile
    others: tuple[CarFile, ...]
    seals: Seals


def hand_over(content: Content, order: Handover) -> HandedOver:
    """Write the bag of a car for its next keeper, and a zip file of it.

    Raises WrongCall when the record is not closed by a seal of this key or there is nowhere to write,
    Barred when something stands against it, and Withheld when the bag would show what the next keeper
    may not see. What was in the target before then stays.
    """
    ready = ready_car(content, order)
    gate = passed_gate(ready, order)
    car, others = ready.car, ready.others
    with staging_for(order, car) as staging:
        pages = staging / "archive"
        pages.mkdir()
        archive = write_archive(content, keepers_order(order, car), pages)
        (view,) = archive.views
        document = documents.dossier(view, gate, ready.seals, paper=order.paper)
        refuse_leaking(document, staging / "told", car, view.car, others, Reader.KEEPER)
        cargo = Cargo(
            order.root, document.pdf(pages, apart=True), partial(_moved, pages),
            key_hash(order.key.public_key()), order.means, gate,
        )  # fmt: skip
        name = bag_name(car, view.until)
        filled = fill_bag(staging / name, view, cargo)
        verified = closed_bag(staging / name, bag_info(view), view, ready, order.key)
    problems = tuple(dict.fromkeys((*archive.problems, *filled.problems)))
    return handed(order, name, verified, gate, problems)


def staging_for(order: Handover, car: CarFile) -> AbstractContextManager[Path]:
    """The staging folder of a bag, as `staged` has it."""
    notice = order.means.notice
    return staged(order.target, bag_mark(car.name), keep_out_of=order.root, notice=notice)


def ready_car(content: Content, order: Handover) -> Ready:
    """The car that is to be handed over. Raises WrongCall unless its whole record is closed by a seal of
    the key that signs the bag."""
    (car,) = chosen(content.cars, order.car, Reader.KEEPER)
    seals = seals_of(order.root, car)
    _refuse_open(car, seals, order.key)
    return Ready(car, tuple(other for other in content.cars if other.name != car.name), seals)


def passed_gate(ready: Ready, order: Handover) -> Gate:
    """What stands against the handover. Raises Barred when it is not to go with reservations."""
    gate = gate_of(ready.car, ready.seals)
    if not gate.open and not order.with_reservations:
        raise Barred(gate)
    return gate


def keepers_order(order: Handover, car: CarFile) -> Order:
    """What is asked for of pages and pictures."""
    return Order(order.root, order.target, Reader.KEEPER, car.name, means=order.means)


def closed_bag(
    bag: Path,
    info: Sequence[tuple[str, str]],
    view: CarView,
    ready: Ready,
    key: Ed25519PrivateKey,
) -> Verified:
    """Search a filled bag for what its reader may not see, close it, look at it as whoever gets it would,
    and write the zip file beside it."""
    refuse_leaks(bag / PAYLOAD, ready.car, view.car, ready.others, view.reader)
    close_bag(bag, info, key)
    verified = verify_bag(bag)
    if not verified.good:
        raise RuntimeError(f"the bag that was made does not hold: {verified.findings}")
    write_zip(bag, bag.with_name(f"{bag.name}.zip"), view.until)
    return verified


def handed(
    order: Handover, name: str, verified: Verified, gate: Gate, problems: tuple[Problem, ...]
) -> HandedOver:
    """What was written, once it is in its place."""
    bag, packed = order.target / name, order.target / f"{name}.zip"
    return HandedOver(bag, packed, verified.files, gate, problems)


def _moved(made: Path, folder: Path) -> None:
    folder.parent.mkdir(parents=True, exist_ok=True)
    made.rename(folder)


def _refuse_open(car: CarFile, seals: Seals, key: Ed25519PrivateKey) -> None:
    """Proof is handed over, so the whole record must be closed, by the key that signs the bag."""
    if car.unread or car.partly:
        names = ", ".join(sorted(car.unread | car.partly))
        raise WrongCall(f"not all that is written can be read ({names}); journal check says why")
    if seals.last is None and not seals.faults:
        raise WrongCall("nothing is sealed; close the record first, with journal seal")
    still = [f.path for f in seals.files if f.standing is Standing.OPEN]
    if seals.last is not None and still:
        others = f" and {counted(len(still) - 1, 'other file')}" if len(still) > 1 else ""
        raise WrongCall(
            f"the record is sealed up to {seals.last.up_to}, without {still[0]}{others}; "
            "close the rest first, with journal seal"
        )
    if seals.last is not None and seals.last.key != key_hash(key.public_key()):
        raise WrongCall("this is not the key that the seals are signed with")

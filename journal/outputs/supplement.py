"""The supplement: what came after a bag was handed over, in a signed bag of its own that follows it.

Made in a staging folder and swapped in at the end, as a handover is.
"""

from pathlib import Path

from journal.digests.gate import Gate
from journal.digests.since import Since, digest_since
from journal.ledgers.seals import Seals
from journal.outputs import dossier as documents
from journal.outputs.archive import pictured
from journal.outputs.bag.contents import Cargo, bag_info, bag_name, fill_bag
from journal.outputs.bag.earlier import Earlier, Following, read_earlier, told_now
from journal.outputs.bag.zip import opened_bag
from journal.outputs.handover import (
    HandedOver,
    Handover,
    closed_bag,
    handed,
    keepers_order,
    passed_gate,
    ready_car,
    staging_for,
)
from journal.outputs.held import held_for_a_while
from journal.outputs.printing import refuse_leaking
from journal.pages.view import CarView
from journal.readers import car_for, files_told
from journal.reading.signatures import key_hash
from journal.records.carfile import Content
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall


def hand_supplement(content: Content, order: Handover, bag: Path) -> HandedOver:
    """Write what came after a bag that was handed over, itself a supplement or not, as a bag that
    follows it, and a zip file of that. `bag` is its folder or zip file.

    Raises WrongCall when the record is not closed by a seal of this key, when the bag does not hold, is
    of another car or record, or nothing was sealed since, and when there is nowhere to write; Barred
    when something stands against the handover, and Withheld when the supplement would show what the next
    keeper may not see. What was in the target before then stays.
    """
    ready = ready_car(content, order)
    car, seals, others = ready.car, ready.seals, ready.others
    _refuse_taking_the_place(order.target, bag)
    with opened_bag(bag) as folder:
        earlier = read_earlier(folder, bag.name, car_for(Reader.KEEPER, car, others), seals)
    gate = passed_gate(ready, order)
    number = earlier.bag.number + 1
    with staging_for(order, car) as staging, held_for_a_while() as held:
        pages = held / "archive"
        pages.mkdir()
        looked = pictured(content, car, keepers_order(order, car), pages)
        (view,) = looked.views
        since = _since(view, gate, seals, earlier)
        name = bag_name(car, view.until, number)
        document = documents.supplement(view, gate, seals, since, name, paper=order.paper)
        refuse_leaking(document, held / "told", car, view.car, others, Reader.KEEPER)
        cargo = Cargo(
            order.root, document.pdf(pages, apart=True), None, key_hash(order.key.public_key()),
            order.means, gate, Following(earlier, since),
        )  # fmt: skip
        filled = fill_bag(staging / name, view, cargo)
        info = bag_info(view, number, since)
        verified = closed_bag(staging / name, info, view, ready, order.key)
    problems = tuple(dict.fromkeys((*looked.problems, *filled.problems)))
    return handed(order, name, verified, gate, problems)


def _since(view: CarView, gate: Gate, seals: Seals, earlier: Earlier) -> Since:
    told = files_told(view.reader, view.car, (file.path for file in seals.files))
    return digest_since(earlier.bag, seals=seals, told=told, now=told_now(view, gate))


def _refuse_taking_the_place(target: Path, bag: Path) -> None:
    """What is written takes the place of all that lies in the target, and the bag must stay."""
    if bag.resolve().is_relative_to(target.resolve()):
        raise WrongCall(
            f"{bag.name} lies in {target.name}, whose place the supplement would take; choose another folder"
        )

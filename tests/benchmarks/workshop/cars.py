"""The files of a car besides its sheets: what it is, its register, its papers; and the workshop's own."""

from collections.abc import Mapping
from datetime import date, timedelta
from random import Random
from typing import NamedTuple

from journal.words.names import slug_of
from tests.benchmarks.workshop.flow import block, flow
from tests.benchmarks.workshop.things import THINGS, Thing

WORKSHOP = """\
name: Saltmarsh Lane Workshop
address: Units 2 and 3, Saltmarsh Lane, Ebbing Staithe
hands:
  MT: {name: Miriam Tallow, rate: {2010-01-01: 46.00, 2018-01-01: 54.00}}
  JB: {name: Jonah Birkett, rate: {2010-01-01: 41.00, 2018-01-01: 48.00}}
  EP: {name: Edith Penn, rate: 38.00}
  CW: {name: Corin Wade, rate: 38.00}
currency: GBP
tax: 20
suppliers:
  northgate: {name: Northgate Panels, does: panels}
  castlebank: {name: Castlebank Motor Spares, does: engine and chassis parts}
  hollowfield: {name: Hollowfield Hydraulics, does: brake parts}
  elmscar: {name: Elmscar Electrical, does: dynamos and looms}
  orlescombe: {name: Orlescombe Autojumble, does: used and old-stock parts}
  pellgate: {name: Pellgate Leather, does: hides and cloth}
  harrowmere: {name: Harrowmere Machine Company, does: "grinding, boring, testing"}
  ravensdyke: {name: Ravensdyke Platers, does: "zinc, nickel, chromium"}
  whinfold: {name: Whinfold Cloth, does: "trim, hoods, carpets"}
  stanbeck: {name: Stanbeck Radiators, does: cores and tanks}
  cawdray: {name: Cawdray Friction, does: linings}
"""

_MARQUES = (
    "Aldermoor", "Pellmarsh", "Corvane", "Hathersett", "Ludgrave", "Marlowe Cross", "Ostrey", "Quennell",
    "Rushworth", "Selwick", "Thornbeck", "Wexcombe",
)  # fmt: skip
_MODELS = (
    "Tern", "Lapwing", "Dunlin", "Curlew", "Godwit", "Plover", "Sandling", "Wagtail", "Avocet", "Teal", "Heron",
)  # fmt: skip
_OWNERS = (
    "Mrs Ruth Ansdale", "Mr Daniel Quayle", "Miss Ida Fenwold", "Dr Tobias Marsh-Lyle", "Mr Owen Hathaway",
    "Mrs Clara Pennifold", "Mr Edmund Starling-Rowe", "Ms Judith Ollerby", "Mr Piers Wainscott",
)  # fmt: skip


class CarKind(NamedTuple):
    """Who a car is: its folder, name, year of building, owner and numbers."""

    folder: str
    name: str
    year: int
    owner: str
    chassis: str
    engine: str
    mileage: int


def car_kind(number: int, chance: Random) -> CarKind:
    """The car of a number; no two of one workshop have the same name."""
    marque, model = _MARQUES[number % len(_MARQUES)], _MODELS[number % len(_MODELS)]
    again = number // (len(_MARQUES) * len(_MODELS))
    name = f"{marque} {model}" + (f" {again + 1}" if again else "")
    letters = "".join(word[0] for word in name.split()[:2])
    return CarKind(
        slug_of(name), name, chance.randint(1931, 1971), chance.choice(_OWNERS),
        f"{letters} {chance.randint(10, 99)}/{number:03}{chance.randint(10, 99)}",
        f"{letters}E {chance.randint(10, 99)}/{number:03}{chance.randint(10, 99)}",
        chance.randint(21_000, 98_000),
    )  # fmt: skip


def car_yaml(kind: CarKind, booked_in: date, sheets: int, cover: str | None, chance: Random) -> str:
    """`car.yaml`: estimate and payments keep pace with the number of sheets."""
    subsystems = dict.fromkeys(thing.subsystem for thing in THINGS)
    hours = {name: round(sheets * chance.uniform(0.1, 0.5)) + 4 for name in subsystems}
    paid = [
        {"on": booked_in + timedelta(91 * n), "amount": 4000, "what": f"Stage {n + 1}"}
        for n in range(min(1 + sheets // 60, 20))
    ]
    numbers = {
        "chassis": {"found": kind.chassis, "note": "Read from the plate on the bulkhead"},
        "engine": {"found": kind.engine, "on": "engine/number-boss"},
    }
    return "".join(
        (
            f"name: {flow(kind.name)}\nyear: {flow(str(kind.year))}\nbody: Drophead coupé, two doors\n",
            f'booked-in: {booked_in}\nmileage: "{kind.mileage:,}"\n',
            f"target: {booked_in + timedelta(700)}\n",
            "brief: Sound road use as the works delivered it, keeping every part of its own that can be kept.\n",
            f"owner: {flow({'name': kind.owner, 'address': 'Pound House, Little Ebbing'})}\n",
            block("numbers", numbers),
            block("estimate", hours),
            "payments:\n" + "".join(f"  - {flow(line)}\n" for line in paid),
            f"cover: {cover}\n" if cover else "",
            "public: yes\n",
        )
    )


def register_yaml(found: Mapping[str, str], chance: Random) -> str:
    """`register.yaml`: every component, as it was found."""
    branches: dict[str, list[Thing]] = {}
    for thing in THINGS:
        branches.setdefault(thing.subsystem, []).append(thing)
    return "components:\n" + "".join(
        f"  {name}:\n"
        + "".join(f"    {_line(thing, found[thing.key], chance)}\n" for thing in things)
        for name, things in branches.items()
    )


def _line(thing: Thing, found: str, chance: Random) -> str:
    line = {
        "name": thing.label[:1].upper() + thing.label[1:], "as-found": found,
        "weight": chance.choice((0.5, 1, 1, 1.5, 2)),
        "works": f"As the parts list has it, plate {chance.randint(1, 60)}",
    }  # fmt: skip
    if thing.way == "perished":
        line["life"] = 10
    if thing.safety:
        line["safety"] = True
    if thing.key == "engine/number-boss":
        line |= {"identity": True, "paper": "build-card"}
    return f"{thing.slug}: {flow(line)}"


def papers_yaml(kind: CarKind, booked_in: date, scan: str | None) -> str:
    """`papers.yaml`: a build card, the chain of keepers and an old invoice; all agree."""
    sold = date(kind.year + 18, 5, 4)
    first = {
        "name": "Mr Albert Rowntree-Hale",
        "from": date(kind.year, 6, 11),
        "to": sold,
        "place": "Stennet",
    }
    owner = {"name": kind.owner, "from": sold, "place": "Little Ebbing"}
    card = {
        "title": "Copy of the works build card", "kind": "factory record", "date": date(kind.year, 5, 20),
        "source": "the register of the marque", "says": "Built in May; engine and chassis as numbered.",
        "numbers": {"chassis": kind.chassis, "engine": kind.engine},
    }  # fmt: skip
    if scan:
        card |= {"file": scan, "alt": "A typed card with a table and a stamp"}
    papers = {
        "build-card": card,
        "registration-book": {
            "title": "Registration book", "kind": "registration book", "date": sold, "source": "the owner",
            "says": "Two keepers from new.", "keepers": [first, owner],
        },
        "service-invoice": {
            "title": "Invoice for a service", "kind": "invoice", "date": booked_in - timedelta(900),
            "source": "glove-box", "says": "Oil, plugs and points.", "odometer": kind.mileage - 800,
        },
    }  # fmt: skip
    return block("papers", papers)

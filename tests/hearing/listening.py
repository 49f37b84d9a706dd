"""What is heard in a sentence, for tests: a car with a few components, a talk, and what it comes to."""

from datetime import date
from pathlib import Path
from typing import Any

from journal.hearing.hear import hear
from journal.hearing.heard import Heard, Kind, Line
from journal.hearing.known import known_words
from journal.records.talk import Talk
from tests.writing import a_car

DAY = "2024-03-05"
_COMPONENTS: dict[str, Any] = {
    "engine": {
        "block": {"name": "Cylinder block"}, "pistons": {"name": "Pistons and rings"},
        "sump": {"name": "Sump"},
        "mounts": {"name": "Engine mounts"}, "rocker-gear": {"name": "Rocker gear and pushrods"},
    },
    "gearbox": {
        "laygear": {"name": "Laygear and layshaft"}, "casing": {"name": "Gearbox casing and covers"},
        "synchromesh": {"name": "Synchromesh rings and hubs"},
    },
    "brakes": {
        "front-near-side": {"name": "Front brake assembly, near side"},
        "front-off-side": {"name": "Front brake assembly, off side"},
        "drums-front": {"name": "Front drums"}, "drums-rear": {"name": "Rear drums"},
        "wheel-cylinders": {"name": "Wheel cylinders"}, "linings": {"name": "Brake linings"},
        "pipes": {"name": "Brake pipes"},
    },
    "steering": {"box": {"name": "Steering box"}, "idler": {"name": "Idler"}},
    "exhaust": {"silencer": {"name": "Silencer"}},
    "body": {
        "front-wing-near-side": {"name": "Front wing, near side"},
        "front-wing-off-side": {"name": "Front wing, off side"},
        "bonnet": {"name": "Bonnet"}, "sill-near-side": {"name": "Sill, near side"},
    },
    "hood": {"covering": {"name": "Hood covering"}},
    "brightwork": {"grille": {"name": "Grille"}},
}  # fmt: skip


REGISTER = {
    f"{branch}/{name}": line for branch, of in _COMPONENTS.items() for name, line in of.items()
}


def listen(text: str, **car: Any) -> Heard:
    """What is heard in a text."""
    known, _ = known_words(Path("nowhere"))
    return hear(Talk(text), a_car(REGISTER, **car), date.fromisoformat(DAY), known)


def acts(text: str, **car: Any) -> set[tuple[str, str]]:
    """The acts that are claimed, without those that are asked."""
    return {
        (key, did)
        for line in listen(text, **car).lines
        if line.kind is Kind.ACT and not line.ask
        for key, entry in line.told["work"].items()  # type: ignore[union-attr]
        for did in entry["did"]  # type: ignore[index, call-overload]
    }


def lines(text: str, *kinds: Kind, **car: Any) -> list[Line]:
    """The lines of some kinds."""
    return [line for line in listen(text, **car).lines if line.kind in kinds]

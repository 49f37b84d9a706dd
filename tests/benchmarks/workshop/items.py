"""What is in the place of a component while its life is told."""

from dataclasses import dataclass
from random import Random
from typing import Any

from tests.benchmarks.workshop.deeds import Deed
from tests.benchmarks.workshop.things import Thing

HANDS = ("MT", "JB", "EP", "CW")
MAKERS = ("northgate", "castlebank", "hollowfield", "elmscar", "orlescombe", "pellgate")
TRADES = {
    "sent": "harrowmere", "recored": "stanbeck", "plated": "ravensdyke", "retrimmed": "whinfold", "relined": "cawdray",
}  # fmt: skip
FINISHES = {
    "sent": "tested and tagged", "recored": "new core, old tanks", "plated": "zinc, passivated", "retrimmed": "to the old seams",
    "relined": "bonded and ground",
}  # fmt: skip


@dataclass
class Item:
    """What is in the place of a component while its life is told.

    `own` says whether it is the works' item, `share` how much of that is left; `parts` and `snags`
    count what was ordered and raised, so that each has a name of its own.
    """

    thing: Thing
    chance: Random
    found: str
    share: float = 1.0
    parts: int = 0
    lots: int = 0
    snags: int = 0
    open: str | None = None
    again: str | None = None
    proved: int = 0

    def __post_init__(self) -> None:
        self.own = self.found == "first-fit"
        self.there = self.found != "absent"

    def often(self, share: float) -> bool:
        """Whether it happens this time, which it does so often."""
        return self.chance.random() < share

    def one_of(self, words: tuple[str, ...]) -> str:
        """One of several words."""
        return self.chance.choice(words)

    def deed(self, title: str, says: tuple[str, ...] = (), **more: Any) -> Deed:
        """A deed on this component, told with one of its sentences."""
        thing = self.thing
        words = self.chance.sample(says, min(len(says), self.chance.randint(1, 2)))
        told = tuple(line.format(it=thing.label, n=self.chance.randint(2, 60)) for line in words)
        more["work"] = {k: v for k, v in more.get("work", {}).items() if v not in (None, "")}
        return Deed(thing.key, thing.label, title.format(it=thing.label), says=told, **more)

    def signed(self) -> dict[str, Any]:
        """Who did it, and who looked."""
        by, checked = self.chance.sample(HANDS, 2)
        return {"by": by, "checked": checked}

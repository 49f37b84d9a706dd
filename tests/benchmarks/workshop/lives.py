"""The life of a component: taken off, put right, fitted and proved, then looked after for good.

Deeds follow each other as they can: what is out for work comes back before it is fitted, a snag is raised
before it is cleared, what was scrapped is not cleaned, and original metal only grows less.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from random import Random
from typing import Any

from journal.words.proving import PROVING
from tests.benchmarks.workshop import phrases
from tests.benchmarks.workshop.deeds import Deed, Later
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


def life(thing: Thing, found: str, chance: Random) -> Iterator[Deed]:
    """Every deed on a component that was `found` of some origin, without end."""
    item = Item(thing, chance, found)
    yield from _brought_back(item)
    while True:
        yield from _looked_after(item)


def _brought_back(item: Item) -> Iterator[Deed]:
    if not item.there:
        yield from _bought(item, "period-used")
        yield _fitted(item)
    elif item.thing.way in _IN_PLACE:
        yield _looked_at(item)
        yield from WAYS[item.thing.way](item)
    else:
        yield from _overhauled(item)


def _overhauled(item: Item) -> Iterator[Deed]:
    yield _removed(item)
    yield from WAYS[item.thing.way](item)
    if item.thing.gauge and item.often(0.5):
        yield _measured(item)
    if item.often(0.15):
        yield item.deed("{it} tried in place", phrases.TRIED, work={"did": "trial-fitted"}, wait=2)
    yield _fitted(item)
    if item.thing.safety or item.often(0.4):
        yield _proved(item)


def _looked_after(item: Item) -> Iterator[Deed]:
    """The years after: mostly a look, sometimes a setting, now and then all of it again."""
    turn = item.chance.random()
    if item.open and turn < 0.5:
        yield _cleared(item)
    elif item.thing.way == "adjusted" and turn > 0.9:
        yield _removed(item)
        yield item.deed("{it} put by", phrases.MEASURED, work={"did": "stored"}, wait=30)
        yield _fitted(item)
    elif turn < 0.45 or item.thing.way in _IN_PLACE:
        yield _looked_at(item)
    elif turn < 0.75:
        yield _set(item)
        if item.thing.safety:
            yield _proved(item)
    elif item.thing.way == "perished":
        yield _removed(item)
        yield from WAYS["perished"](item)
        yield _fitted(item)
        yield _proved(item)
    else:
        yield from _overhauled(item)


def _looked_at(item: Item) -> Deed:
    raised = _raised(item) if item.open is None and item.often(0.25) else {}
    done, item.again = item.again, None
    again = {done: {"done": "Tight, and as it was left", "by": item.one_of(HANDS)}} if done else {}
    return item.deed(
        "A look at the {it}", phrases.LOOKED, stage="as-found", snags=raised, rechecks=again,
        wait=item.chance.randint(3, 12),
        work={"did": "inspected", "found": item.one_of(phrases.FOUND), "verdict": "watch"},
    )  # fmt: skip


def _raised(item: Item) -> dict[str, Any]:
    item.snags += 1
    item.open = f"{item.thing.key.replace('/', '-')}-{item.snags}"
    what = item.one_of(phrases.SNAGS).format(it=item.thing.label)
    line: dict[str, Any] = {"raise": what, "on": item.thing.key}
    if item.thing.safety and item.often(0.4):
        line["hold"] = True
    if item.often(0.15):
        line["ask"] = "owner"
    return {item.open: line}


def _snag_cleared(item: Item) -> dict[str, Any]:
    if item.open is None:
        return {}
    name, item.open = item.open, None
    return {name: {"clear": item.one_of(phrases.CLEARED), "by": item.one_of(HANDS)}}


def _cleared(item: Item) -> Deed:
    return item.deed(
        "An old snag on the {it}", phrases.SET, work={"did": "inspected", **item.signed()},
        snags=_snag_cleared(item), wait=5,
    )  # fmt: skip


def _set(item: Item) -> Deed:
    return item.deed(
        "{it} set again", phrases.SET, work={"did": ["inspected", "adjusted"], **item.signed()},
        measured=_readings(item), snags=_snag_cleared(item), wait=item.chance.randint(4, 15),
    )  # fmt: skip


def _removed(item: Item) -> Deed:
    """Off it comes; the works' own item is told where it is kept."""
    place = item.one_of(phrases.PLACES).format(n=item.chance.randint(1, 12))
    learned = (
        {"was": "service", "why": "the maker's mark is a later one"}
        if item.found == "unknown"
        else {}
    )
    item.found = "service" if learned else item.found
    goes = item.thing.way in ("renewed", "perished")
    raised = _raised(item) if item.open is None and item.often(0.3) else {}
    return item.deed(
        "{it} out", phrases.REMOVED, stage="as-found", snags=raised, wait=item.chance.randint(1, 4),
        work={
            "did": ["removed", "stripped"] if item.often(0.2) else "removed",
            "found": item.one_of(phrases.FOUND),
            "verdict": "replace" if goes else "repair", **learned,
            ("original" if item.own else "came-off"): place,
        },
    )  # fmt: skip


def _readings(item: Item) -> dict[str, Any]:
    gauge = item.thing.gauge
    if gauge is None:
        return {}
    span = gauge.most - gauge.least
    digits = 2 if span < 1 else 1
    # Some one in eight lies outside.
    reads = [round(gauge.least + span * item.chance.uniform(0.02, 1.06), digits) for _ in range(2)]
    return {
        f"{gauge.what} of the {item.thing.label}": {
            "on": item.thing.key, "read": reads, "unit": gauge.unit,
            "limit": [gauge.least, gauge.most], "with": item.one_of(phrases.GAUGES),
            "note": "Near side, off side",
        }
    }  # fmt: skip


def _measured(item: Item) -> Deed:
    gauge = item.thing.gauge
    sums: dict[str, Any] = {}
    if gauge and gauge.what == "end float":
        reads = ", ".join(f"0.{item.chance.randint(20, 30)}" for _ in range(3))
        name = f"{item.thing.slug}-float"
        sums[name] = {
            "sum": "end-float", "of": item.thing.key, "float": f"{reads} mm", "limit": "0.05..0.15 mm",
            "fitted": "2.31 mm", "sizes": "0.06, 0.12, 0.25 mm",
        }  # fmt: skip
    return item.deed(
        "{it} measured", phrases.MEASURED, work={"did": "measured"}, measured=_readings(item),
        sums=sums,
    )  # fmt: skip


def _fitted(item: Item) -> Deed:
    locking = item.one_of(("split-pin", "tab-washer", "lock-washer", "locking-nut", "compound"))
    how = {"degreased": True} if locking == "compound" else {"new": True}
    return item.deed(
        "{it} back", phrases.FITTED, stage="as-finished", wait=item.chance.randint(1, 8),
        work={"did": "fitted", **item.signed(), "locking": {"by": locking, **how}},
        snags=_snag_cleared(item) if item.often(0.7) else {},
    )  # fmt: skip


def _proved(item: Item) -> Deed:
    thing = item.thing
    asked = PROVING.get(thing.subsystem, ())
    proving: dict[str, Any] = {}
    if asked:
        proof = asked[item.chance.randrange(len(asked))]
        line = {"found": item.one_of(phrases.PROOFS), **item.signed()}
        if proof.reads and thing.gauge:
            line |= {"read": thing.gauge.least, "unit": thing.gauge.unit}
        proving[f"{thing.subsystem}/{proof.name}"] = line
    item.proved += 1
    again: dict[str, Any] = {}
    if item.proved == 1 and item.often(0.3):
        item.again = f"{thing.key.replace('/', '-')}-again"
        what = f"Look at the {thing.label} again"
        again[item.again] = {"what": what, "on": thing.key, "after": "500 miles or 6 weeks"}
    return item.deed(
        "{it} proved", phrases.PROVED, stage="evidence", proving=proving, rechecks=again,
        work={"did": "proved", **item.signed()}, wait=item.chance.randint(20, 60),
    )  # fmt: skip


def _cleaned(item: Item) -> Iterator[Deed]:
    yield item.deed(
        "{it} cleaned", phrases.CLEANED, work={"did": ["cleaned", "inspected"], "verdict": "reuse"}
    )


def _lost(item: Item, least: float) -> str | None:
    """The share of the works' metal that is left after some of it went."""
    if not item.own:
        return None
    item.share = round(item.share * item.chance.uniform(least, 1), 2)
    return f"{item.share:.2f}" if item.share < 1 else None


def _worked(act: str, says: tuple[str, ...], least: float) -> Callable[[Item], Iterator[Deed]]:
    """A way in which our own hands put a thing right, keeping at least so much of its metal."""

    def way(item: Item) -> Iterator[Deed]:
        if item.often(0.6):
            yield from _cleaned(item)
        left = _lost(item, least)
        found = item.one_of(phrases.FOUND)
        work = {"did": act, "found": found, "retained": float(left) if left else None}
        yield item.deed(f"{{it}} {act}", says, work=work, wait=item.chance.randint(1, 5))

    return way


def _sent(item: Item) -> Iterator[Deed]:
    """To one of the trades and back, counted both ways."""
    way = item.thing.way
    item.lots += 1
    name = f"{item.thing.key.replace('/', '-')}-out-{item.lots}"
    count, cost = item.chance.randint(1, 8), item.chance.randint(30, 480)
    away = item.chance.randint(8, 25)
    yield item.deed(
        "{it} sent away", phrases.SENT, work={"did": "inspected"}, wait=away,
        outwork={
            name: {"what": f"The {item.thing.label}, {FINISHES[way]}", "to": TRADES[way], "of": item.thing.key,
                   "sent": count, "due": Later(item.chance.randint(10, 40)), "cost": cost}
        },
    )  # fmt: skip
    act = "rebuilt" if way == "sent" else way
    short = count > 2 and item.often(0.2)
    yield item.deed(
        "{it} back from outwork", phrases.CAME_BACK, work={"did": act, "found": FINISHES[way]}, wait=5,
        outwork={name: {"back": count - 1 if short else count, "finish": FINISHES[way]}},
    )  # fmt: skip
    if short:
        yield item.deed(
            "The last of the {it}", phrases.CAME_BACK, work={"did": "inspected"},
            outwork={name: {"back": 1, "note": "The one that was missing"}},
        )  # fmt: skip


def _renewed(item: Item) -> Iterator[Deed]:
    yield from _bought(item, item.one_of(("pattern", "pattern", "old-stock", "period-used")))


def _perished(item: Item) -> Iterator[Deed]:
    yield from _bought(item, "pattern", dated=Later(0, year=True))


def _bought(item: Item, origin: str, **more: Any) -> Iterator[Deed]:
    """Ordered, received, sent back where it is wrong, and in its place."""
    item.parts += 1
    name = f"{item.thing.key.replace('/', '-')}-part-{item.parts}"
    number = f"{item.thing.slug[:2].upper()}-{item.chance.randint(1000, 9999)}"
    maker, qty, price = item.one_of(MAKERS), item.chance.randint(1, 6), item.chance.randint(8, 390)
    due = item.chance.randint(5, 20)
    ordered = {
        "what": f"{item.thing.label.capitalize()}, {origin}", "number": number, "from": maker,
        "of": item.thing.key, "qty": qty, "price": f"{price}.50", "ordered": "today", "promised": Later(due),
    }  # fmt: skip
    late = due + (item.chance.randint(5, 30) if item.often(0.25) else 0)
    yield item.deed(
        "{it} ordered", phrases.ORDERED, work={"did": "inspected"}, parts={name: ordered}, wait=late
    )
    if item.often(0.12):
        yield _misfit(item, name)
    come = {"received": "today", "outcome": "reworked" if item.often(0.1) else "accepted"}
    first = (
        {"original" if item.own else "came-off": "scrapped"}
        if item.there and item.often(0.3)
        else {}
    )
    item.there, item.own = True, False
    yield item.deed(
        "{it} come and tried", phrases.CAME, parts={name: come},
        work={"did": "trial-fitted", "now": origin, "part": name, **first, **more},
    )  # fmt: skip


def _misfit(item: Item, name: str) -> Deed:
    why = item.one_of(phrases.MISFITS)
    return item.deed(
        "The wrong {it}", phrases.WRONG, work={"did": "inspected"}, rework=name,
        wait=item.chance.randint(6, 20),
        parts={name: {"received": "today", "outcome": "rejected", "why": why, "returned": "today"}},
    )  # fmt: skip


def _upgraded(item: Item) -> Iterator[Deed]:
    """A departure that the owner decides, once; after that it is looked after like the rest."""
    if not item.own:
        yield from _cleaned(item)
        return
    item.own = False
    words = item.one_of(phrases.UPGRADES).format(it=item.thing.label)
    decided = {"by": "owner", "on": "today", "advice": item.one_of(phrases.ADVICE)}
    extra = f"{item.thing.key.replace('/', '-')}-extra"
    yield item.deed(
        "{it}: the owner decides", phrases.DECIDED, work={"did": "inspected", "verdict": "ask"},
        extras={extra: {"what": words, "of": item.thing.key, "price": item.chance.randint(60, 600),
                        "decided": decided}},
        wait=5,
    )  # fmt: skip
    yield item.deed(
        "{it}, the new ones made", phrases.WORKED, wait=3,
        work={"did": "made", "now": "upgrade", "why": words, "decided": {"by": "owner"}, "reversible": True,
              "undo": "Unbolt it and put the boxed ones back, nothing was drilled."},
    )  # fmt: skip


WAYS: dict[str, Callable[[Item], Iterator[Deed]]] = {
    "adjusted": _worked("adjusted", phrases.SET, 1),
    "cleaned": _cleaned,
    "conserved": _worked("conserved", phrases.WORKED, 1),
    "machined": _worked("machined", phrases.WORKED, 0.97),
    "painted": _worked("painted", phrases.WORKED, 0.97),
    "perished": _perished,
    "plated": _sent,
    "rebuilt": _worked("rebuilt", phrases.WORKED, 0.95),
    "recored": _sent,
    "refinished": _worked("refinished", phrases.WORKED, 1),
    "relined": _sent,
    "repaired": _worked("repaired", phrases.WORKED, 0.95),
    "renewed": _renewed,
    "retrimmed": _sent,
    "sent": _sent,
    "upgraded": _upgraded,
    "welded": _worked("welded", phrases.WORKED, 0.9),
}
# Ways that are gone on the car.
_IN_PLACE = frozenset({"conserved", "painted", "welded"})

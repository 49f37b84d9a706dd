"""The life of a component: taken off, put right, fitted and proved, then looked after for good.

Deeds follow each other as they can: what is out for work comes back before it is fitted, a snag is raised
before it is cleared, what was scrapped is not cleaned, and original metal only grows less.
"""

from collections.abc import Iterator
from random import Random
from typing import Any

from journal.words.proving import PROVING
from tests.benchmarks.workshop import phrases
from tests.benchmarks.workshop.deeds import Deed
from tests.benchmarks.workshop.items import HANDS, Item
from tests.benchmarks.workshop.things import Thing
from tests.benchmarks.workshop.ways import WAYS, _bought


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


# Ways that are gone on the car.
_IN_PLACE = frozenset({"conserved", "painted", "welded"})

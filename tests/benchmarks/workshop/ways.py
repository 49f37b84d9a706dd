"""How a component is put right: by our own hands, by one of the trades, or by another one that is bought."""

from collections.abc import Callable, Iterator
from typing import Any

from tests.benchmarks.workshop import phrases
from tests.benchmarks.workshop.deeds import Deed, Later
from tests.benchmarks.workshop.items import FINISHES, MAKERS, TRADES, Item


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

"""Which days are worked on a car, and which deeds each sheet tells of."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from random import Random

from tests.benchmarks.workshop.deeds import Deed
from tests.benchmarks.workshop.lives import life
from tests.benchmarks.workshop.things import THINGS, Thing

# As many days of work as lie in the years of the longest record; more sheets come several to a day.
_LONGEST = 2600
_MOST = 7


@dataclass
class _Waiting:
    """A component whose next deed is due on a working day by its number."""

    deeds: Iterator[Deed]
    next: Deed
    due: int = 0
    begun: bool = False


def working_days(first: date, sheets: int, chance: Random) -> Iterator[date]:
    """The days of so many sheets, in order, Saturdays and Sundays left out."""
    a_day = -(-sheets // _LONGEST)
    widest = 4 if sheets <= 400 else 1
    day, told = first, 0
    while told < sheets:
        for _ in range(min(a_day, sheets - told)):
            yield day
            told += 1
        for _ in range(chance.randint(1, widest)):
            day = _next(day)


def _next(day: date) -> date:
    return day + timedelta(3 if day.weekday() == 4 else 1)


def found_of(chance: Random) -> dict[str, str]:
    """How each component was found, by its full name."""
    kinds, often = ("first-fit", "unknown", "service", "absent"), (80, 10, 7, 3)
    return {
        thing.key: "first-fit" if thing.key == "engine/number-boss" else chance.choices(kinds, often)[0]
        for thing in THINGS
    }  # fmt: skip


def deeds_by_sheet(
    days: Sequence[date], found: dict[str, str], chance: Random
) -> Iterator[tuple[date, tuple[Deed, ...]]]:
    """The deeds that each sheet tells of; all of a sheet are of one subsystem.

    Time is counted in working days of this car, so that what is away stays away while others are at work.
    """
    waiting = {thing.key: _begun(thing, found[thing.key], chance) for thing in THINGS}
    branches = _branches()
    number = 0
    for place, day in enumerate(days):
        number += place > 0 and day != days[place - 1]
        keys = branches[_chosen(branches, waiting, number, chance)]
        yield (
            day,
            tuple(_done(waiting[key], number) for key in _ready(keys, waiting, number, chance)),
        )


def _begun(thing: Thing, found: str, chance: Random) -> _Waiting:
    deeds = life(thing, found, Random(chance.random()))
    return _Waiting(deeds, next(deeds))


def _branches() -> list[tuple[str, ...]]:
    names = dict.fromkeys(thing.subsystem for thing in THINGS)
    return [tuple(t.key for t in THINGS if t.subsystem == name) for name in names]


def _chosen(
    branches: list[tuple[str, ...]], waiting: dict[str, _Waiting], day: int, chance: Random
) -> int:
    """A branch where something is due; one that is begun is finished sooner than another started."""
    weights = [
        sum(1 + 4 * waiting[key].begun for key in keys if waiting[key].due <= day)
        for keys in branches
    ]
    if not any(weights):
        return min(range(len(branches)), key=lambda n: min(waiting[k].due for k in branches[n]))
    return chance.choices(range(len(branches)), weights)[0]


def _ready(
    keys: Sequence[str], waiting: dict[str, _Waiting], day: int, chance: Random
) -> list[str]:
    """Some of what is due, what is begun first; at least what is due next."""
    due = sorted((k for k in keys if waiting[k].due <= day), key=lambda k: not waiting[k].begun)
    return due[: chance.randint(1, _MOST)] or [min(keys, key=lambda k: waiting[k].due)]


def _done(waiting: _Waiting, day: int) -> Deed:
    deed = waiting.next
    waiting.due, waiting.begun = day + deed.wait, True
    waiting.next = next(waiting.deeds)
    return deed

"""Coolant: how strong it is, how cold it may get, and what to drain and pour in to make it what is wanted."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import ceil, log

from msgspec import Struct

from journal.bench.base.definition import WORD, Input, Job, Sum
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Curve, CurveLine, Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number

_VOLUMES = (("l", 2), ("pint", 1))
_COLD = (("C", 0), ("F", 0))
WANTED = Output("wanted-strength", "strength wanted", (("%", 0),))
SAFE = Output("safe", "does not freeze down to", _COLD)
NOW = Output("now-strength", "strength as it is", (("%", 0),))
NOW_SAFE = Output("now-safe", "as it is, does not freeze down to", _COLD)
DRAIN = Output("drain", "drain, in all", _VOLUMES, "x")
FRESH = Output("fresh-volume", "pour in of what is fresh, in all", _VOLUMES)
WATER = Output("water", "pour in of water, in all", _VOLUMES)
ROUNDS = Output("rounds", "rounds, run warm in between", (("", 0),), "r")
LAST = Output("last", "drain in the last round", _VOLUMES)

# Glycol by volume in % and the temperature in C at which ice begins: ASHRAE Handbook, Fundamentals,
# physical properties of secondary coolants, from memory; held against CoolProp in the tests.
FREEZING: dict[str, tuple[tuple[str, str], ...]] = {
    "ethylene": (
        ("0", "0"), ("4.4", "-1.4"), ("8.9", "-3.2"), ("13.6", "-5.4"), ("18.1", "-7.8"), ("22.9", "-10.7"), ("27.7", "-14.1"),
        ("32.6", "-17.9"), ("37.5", "-22.3"), ("42.5", "-27.5"), ("47.6", "-33.8"), ("52.7", "-41.1"), ("57.8", "-48.3"),
    ),
    "propylene": (
        ("0", "0"), ("4.8", "-1.6"), ("9.6", "-3.3"), ("14.5", "-5.1"), ("19.4", "-7.1"), ("24.4", "-9.6"), ("29.4", "-12.7"),
        ("34.4", "-16.4"), ("39.6", "-21.1"), ("44.7", "-26.7"), ("49.9", "-33.5"), ("55", "-41.6"), ("60", "-51.1"),
    ),
}  # fmt: skip
# Weaker than this it does not keep rust away, stronger it carries heat badly and freezes no lower: what
# makers of cars and coolants say (lemon.leoquadpod.com, 2002, 30 and 60 %; 25 is the British habit).
WEAKEST, STRONGEST = 25, 60


class Table(Struct, frozen=True):
    """Strengths in % and where they freeze in C, read by straight lines in between."""

    points: tuple[tuple[Fraction, Fraction], ...]

    def freezes(self, strength: Fraction) -> Fraction:
        """Where a strength freezes; no lower than the last point."""
        return _between(self.points, strength)

    def strength(self, cold: Fraction) -> Fraction:
        """The strength that freezes at a temperature. Raises ValueError below the table."""
        turned = tuple((-y, x) for x, y in self.points)
        if -cold > turned[-1][0]:
            raise ValueError(cold)
        return _between(turned, -cold)


def table_of(kind: str) -> Table:
    """The table of a glycol, `ethylene` or `propylene`."""
    return Table(tuple((Fraction(x), Fraction(y)) for x, y in FREEZING[kind]))


def _between(points: tuple[tuple[Fraction, Fraction], ...], at: Fraction) -> Fraction:
    """The value at a place, straight between two points, that of the end beyond them."""
    if at <= points[0][0]:
        return points[0][1]
    for (x, y), (right, up) in pairwise(points):
        if at <= right:
            return y + (up - y) * (at - x) / (right - x)
    return points[-1][1]


class Plan(Struct, frozen=True):
    """What is done: strengths in % and volumes in ml.

    `drain` is what is to be changed at once; where no more than `drains` runs out, that is done in
    `rounds`, in the last of which only `last` is drained.
    """

    capacity: Fraction
    now: Fraction | None
    wanted: Fraction
    fresh: Fraction
    drain: Fraction
    rounds: int = 1
    last: Fraction = Fraction(0)

    drains: Fraction = Fraction(0)

    @property
    def changed(self) -> Fraction:
        """All that is drained and poured in, in all rounds together."""
        return self.drains * (self.rounds - 1) + self.last if self.rounds > 1 else self.drain

    @property
    def stronger(self) -> bool:
        """Whether it is to become stronger; a system that is empty is."""
        return self.now is None or self.wanted >= self.now


def _work(given: Given) -> Worked:
    table = table_of(given.word("glycol"))
    plan = _plan(given, table)
    litres = Teller((("l", 2, 2), ("pint", 1, 1)), given)
    degrees = Teller((("C", 0, 0), ("F", 0, 0)), given)
    return Worked(
        tuple(_results(given, plan, table)),
        tuple(_steps(given, plan, litres)),
        _verdict(plan, table, litres, degrees),
        None if plan.now is None else plan.now >= plan.wanted and plan.now <= STRONGEST,
        tuple(_warnings(given, plan)),
        (),
        (_curve(table, plan),),
    )


def _plan(given: Given, table: Table) -> Plan:
    capacity, fresh = given.one("capacity").to("ml"), given.one("fresh").to("%")
    wanted, now = _wanted(given, table), _now(given, table)
    if fresh < wanted:
        raise NotWorked(
            "fresh", f"is weaker than the {fixed_number(wanted, 0)} % that is wanted", "use concentrate, or want less"
        )  # fmt: skip
    if now is None:
        return Plan(capacity, None, wanted, fresh, Fraction(0))
    poured = fresh if wanted >= now else Fraction(0)
    if poured == now:
        return Plan(capacity, now, wanted, fresh, Fraction(0))
    drain = capacity * (wanted - now) / (poured - now)
    if not given.has("drains"):
        return Plan(capacity, now, wanted, fresh, drain)
    drains = given.one("drains").to("ml")
    if drains > capacity:
        raise NotWorked("drains", "must be no more than capacity", "it is what runs out of the tap")
    rounds = _rounds(drain / capacity, drains / capacity)
    then = poured - (poured - now) * (1 - drains / capacity) ** (rounds - 1)
    last = capacity * (wanted - then) / (poured - then)
    return Plan(capacity, now, wanted, fresh, drain, rounds, last, drains)


def _wanted(given: Given, table: Table) -> Fraction:
    if given.has("wanted") == given.has("coldest"):
        told = "is missing" if not given.has("wanted") else "cannot be given together with coldest"
        raise NotWorked("wanted", told, "give the strength wanted, such as 33 %, or how cold it gets")  # fmt: skip
    if given.has("wanted"):
        return given.one("wanted").to("%")
    try:
        return table.strength(given.one("coldest").to("C"))
    except ValueError:
        raise NotWorked("coldest", "is colder than any strength here bears", "ask the maker of the coolant") from None  # fmt: skip


def _now(given: Given, table: Table) -> Fraction | None:
    """The strength as it is, or None where the system is empty."""
    if given.has("now") and given.has("freezes"):
        raise NotWorked("freezes", "is one reading too many beside now", "give one of them")
    if given.has("now"):
        return given.one("now").to("%")
    if not given.has("freezes"):
        return None
    try:
        return table.strength(given.one("freezes").to("C"))
    except ValueError:
        raise NotWorked("freezes", "is colder than the table goes", "give the strength as now") from None  # fmt: skip


def _rounds(needed: Fraction, at_once: Fraction) -> int:
    """How often a part of the system must be changed so that as much is changed as is needed."""
    if needed <= at_once:
        return 1
    if needed >= 1:
        raise NotWorked("drains", "cannot change all of it", "flush the system and fill it empty")
    return ceil(log(float(1 - needed)) / log(float(1 - at_once)) - 1e-9)


def _results(given: Given, plan: Plan, table: Table) -> Iterator[Result]:
    yield answered(WANTED, plan.wanted, given)
    yield answered(SAFE, table.freezes(plan.wanted), given)
    if plan.now is None:
        fresh = plan.capacity * plan.wanted / plan.fresh
        yield answered(FRESH, fresh, given, unit="ml")
        yield answered(WATER, plan.capacity - fresh, given, unit="ml")
        return
    yield answered(NOW, plan.now, given)
    yield answered(NOW_SAFE, table.freezes(plan.now), given)
    yield answered(DRAIN, plan.changed, given, unit="ml")
    yield answered(FRESH if plan.stronger else WATER, plan.changed, given, unit="ml")
    if plan.rounds > 1:
        yield answered(ROUNDS, Fraction(plan.rounds), given)
        yield answered(LAST, plan.last, given, unit="ml")


def _steps(given: Given, plan: Plan, litres: Teller) -> Iterator[str]:
    percent = f"{fixed_number(plan.wanted, 1)} %"
    if given.has("coldest"):
        yield f"strength that freezes at {given.one('coldest').words}: {percent}"
    if given.has("freezes") and plan.now is not None:
        yield f"strength as it is, from freezing at {given.one('freezes').words}: {fixed_number(plan.now, 1)} %"
    capacity = plan.capacity / 1000
    if plan.now is None:
        yield (
            f"empty: {litres(capacity)} \N{MULTIPLICATION SIGN} {fixed_number(plan.wanted, 1)} / {fixed_number(plan.fresh, 0)} = "
            f"{litres(capacity * plan.wanted / plan.fresh)} of what is fresh, the rest water"
        )
        return
    poured = plan.fresh if plan.stronger else Fraction(0)
    what = "what is fresh" if plan.stronger else "water"
    yield (
        f"to change for {what}: {litres(capacity)} \N{MULTIPLICATION SIGN} ({fixed_number(plan.wanted, 1)} \N{MINUS SIGN} {fixed_number(plan.now, 1)}) / "
        f"({fixed_number(poured, 0)} \N{MINUS SIGN} {fixed_number(plan.now, 1)}) = {litres(plan.drain / 1000)}"
    )
    if plan.rounds > 1:
        yield (
            f"the tap lets out {given.one('drains').words} of {given.one('capacity').words}: {plan.rounds} rounds change as much, "
            f"with {litres(plan.last / 1000)} in the last"
        )


def _verdict(plan: Plan, table: Table, litres: Teller, degrees: Teller) -> str:
    wanted = f"{fixed_number(plan.wanted, 0)} %"
    safe = degrees(table.freezes(plan.wanted))
    if plan.now is None:
        fresh = plan.capacity * plan.wanted / plan.fresh
        water = plan.capacity - fresh
        rest = f" and {litres(water / 1000)} of water" if water else ""
        return (
            f"Pour in {litres(fresh / 1000)} of what is fresh{rest}: {wanted}, good down to {safe}."
        )
    now = f"{fixed_number(plan.now, 0)} %"
    if not plan.drain:
        return f"It is {now} strong as wanted, good down to {safe}."
    what = "what is fresh" if plan.stronger else "water"
    if plan.rounds > 1:
        before = "once" if plan.rounds == 2 else f"{plan.rounds - 1} times"
        return (
            f"It is {now} strong. Drain what runs out, fill with {what} and run it warm, {before}; then change {litres(plan.last / 1000)}: "
            f"{wanted}, good down to {safe}."
        )
    return f"It is {now} strong. Drain {litres(plan.drain / 1000)} and pour in as much of {what}: {wanted}, good down to {safe}."


def _warnings(given: Given, plan: Plan) -> Iterator[str]:
    if plan.wanted < WEAKEST:
        yield f"Below {WEAKEST} % there is too little inhibitor against rust, whatever the frost."
    if plan.wanted > STRONGEST:
        yield f"Above {STRONGEST} % it carries heat badly and freezes no lower for it."
    if plan.now is not None and plan.now > STRONGEST:
        yield f"It is above {STRONGEST} % as it is: an engine runs hot with that."
    if given.has("coldest"):
        yield "It begins to freeze at the temperature given: keep 5 degrees in hand."


def _curve(table: Table, plan: Plan) -> Curve:
    lines = [CurveLine("ice begins", table.points)]
    for label, strength in (("as it is", plan.now), ("wanted", plan.wanted)):
        if strength is not None:
            at, cold = _tenths(strength), _tenths(table.freezes(strength))
            lines.append(CurveLine(label, ((at, Fraction(0)), (at, cold))))
    return Curve("Where it freezes", "antifreeze by volume, %", "ice begins, C", tuple(lines))


def _tenths(value: Fraction) -> Fraction:
    return Fraction(round(value * 10), 10)


COOLANT_STRENGTH = Sum(
    name="coolant-strength",
    title="Coolant strength",
    job=Job.PAINT,
    asks="How strong must the coolant be, and how much is drained and poured in to make it so?",
    inputs=(
        Input("capacity", "what the whole system holds, heater too", "volume", symbol="C", least="0.5 l", most="60 l"),
        Input("glycol", "what the antifreeze is", WORD, default="ethylene", choices=(("ethylene", "ethylene glycol, the usual one"), ("propylene", "propylene glycol, sold as less poisonous"))),
        Input("wanted", "strength wanted by volume", "share", symbol="w", optional=True, least="1 %", most="70 %"),
        Input("coldest", "temperature down to which it must not freeze, instead of a strength", "temperature", optional=True, least="-50 C", most="0 C"),
        Input("now", "strength as it is, left out where the system is empty", "share", symbol="s", optional=True, least="0 %", most="100 %"),
        Input("freezes", "temperature at which it would freeze as it is, as the tester reads, instead of a strength", "temperature", optional=True, least="-60 C", most="0 C"),
        Input("fresh", "strength of what is poured in", "share", symbol="f", default="100 %", least="20 %", most="100 %"),
        Input("drains", "what runs out at the tap, where that is not all", "volume", optional=True, least="0.1 l", most="60 l"),
    ),
    outputs=(WANTED, SAFE, NOW, NOW_SAFE, DRAIN, FRESH, WATER, ROUNDS, LAST),
    in_words=(
        "What is drained takes its antifreeze with it, what is poured in brings its own: the share of the system to change is the rise wanted over the rise that "
        "changing all of it would bring. Where the block keeps a part back, it is done in rounds. Freezing points are read from a table of glycol and water."
    ),
    formula=(
        "x = C (w \N{MINUS SIGN} s) / (f \N{MINUS SIGN} s), with f = 0 for water",
        "empty: fresh = C w / f",
        "r = log(1 \N{MINUS SIGN} x / C) / log(1 \N{MINUS SIGN} drains / C), rounded up",
    ),
    limits=(
        "Concentrate counts as 100 %, most of what is sold ready mixed is 50 %.",
        "The table is for pure glycol and water by volume; what is sold has a few parts in a hundred of water and additives, so the maker's own table goes before it.",
        "A hydrometer for ethylene glycol misreads propylene glycol; a refractometer has a scale for each.",
        "Kinds of inhibitor are not told apart here: those for old brass, solder and cast iron are not those for modern engines, and they do not mix.",
    ),
    caution=(
        "Never open a hot system: it boils out at once. Ethylene glycol is sweet and kills people, dogs and cats: catch and label it. Kind and strength are "
        "those of the maker's manual."
    ),
    sources=(
        "ASHRAE Handbook, Fundamentals: freezing of ethylene and propylene glycol by volume, from memory, held against CoolProp 8.0.0.",
        "Limits of strength: makers' manuals of cars, 30 to 60 %; 25 % is an old British habit, common practice.",
    ),
    example=(("capacity", "9 l"), ("glycol", "ethylene"), ("wanted", "33 %"), ("freezes", "-8 C"), ("fresh", "100 %"), ("drains", "5 l")),
    work=_work,
)  # fmt: skip

"""Fuel for a car that stands: how full, how much stabiliser, room to grow, and the ethanol in it."""

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import Input, Job, Sum
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number

_VOLUMES = (("l", 1), ("gallon", 2))
_SMALL = (("ml", 0), ("fl oz", 1))
ADD = Output("add", "fuel to add", _VOLUMES)
LEVEL = Output("level", "fuel in the tank then", _VOLUMES, "V")
STABILISER = Output("stabiliser", "stabiliser for all of it", _SMALL)
ETHANOL = Output("ethanol", "ethanol in it then", (("%", 1),), "e")
GROWS = Output("grows", "it grows by, at its hottest", (("l", 2), ("pint", 1)), "g")
ROOM = Output("room", "room left at its hottest", (("l", 2), ("pint", 1)))
BRIM = Output("brim", "spilt at its hottest if filled to the brim", (("l", 2), ("pint", 1)))
HOLDS = Output("holds", "water that it holds before they part", _SMALL)

# Growth of petrol and of a steel tank for a degree C: OpenStax, University Physics, table 1.2, from memory;
# 950 and 36 in a million at qammunity.org/11334679.
PETROL, STEEL = Fraction(950, 10**6), Fraction(35, 10**6)
# Water that petrol with a tenth of ethanol holds at 60 F, as a share: D. Korotney, Water phase separation
# in oxygenated gasoline, US Environmental Protection Agency; taken in proportion for less ethanol.
WATER_PER_ETHANOL = Fraction(5, 1000) / Fraction(1, 10)


class Fill(Struct, frozen=True):
    """A tank as it is left: volumes in ml, ethanol as a share, the rise of temperature in C."""

    capacity: Fraction
    held: Fraction
    level: Fraction
    ethanol: Fraction
    rise: Fraction

    @property
    def grows(self) -> Fraction:
        """How much more the fuel grows than the tank does."""
        return self.level * PETROL * self.rise - self.capacity * STEEL * self.rise

    @property
    def room(self) -> Fraction:
        """The room left at the hottest; below nothing it is spilt."""
        return self.capacity - self.level - self.grows

    @property
    def brim(self) -> Fraction:
        """What a tank that is filled to the brim spills."""
        return self.capacity * (PETROL - STEEL) * self.rise


def _work(given: Given) -> Worked:
    fill = _fill(given)
    litres = Teller((("l", 1, 2), ("gallon", 2, 2)), given)
    kept = _kept(given)
    return Worked(
        tuple(_results(given, fill)),
        tuple(_steps(given, fill, litres)),
        _verdict(given, fill, litres, kept),
        fill.room >= 0 and kept is not False,
        tuple(_warnings(given, fill)),
    )


def _fill(given: Given) -> Fill:
    capacity, held = given.one("capacity").to("ml"), given.one("held").to("ml")
    if held > capacity:
        raise NotWorked("held", "must be no more than capacity", "read the gauge again")
    level = max(capacity * given.one("fill").to("%") / 100, held)
    rise = given.one("hottest").to("C") - given.one("filled-at").to("C")
    if rise < 0:
        raise NotWorked("hottest", "must be no colder than filled-at", "give the warmest that it will get as it stands")  # fmt: skip
    ethanol = [given.one(name).to("%") / 100 for name in ("held-ethanol", "fresh-ethanol")]
    added = level - held
    share = (held * ethanol[0] + added * ethanol[1]) / level if level else Fraction(0)
    return Fill(capacity, held, level, share, rise)


def _kept(given: Given) -> bool | None:
    """Whether it keeps as long as it stands, where that was asked."""
    if not given.has("months"):
        return None
    return given.number("months") <= given.number("keeps")


def _results(given: Given, fill: Fill) -> Iterator[Result]:
    yield answered(ADD, fill.level - fill.held, given, unit="ml")
    yield answered(LEVEL, fill.level, given, unit="ml")
    if given.has("dose"):
        yield answered(STABILISER, fill.level * given.number("dose"), given, unit="ml")
    yield answered(ETHANOL, 100 * fill.ethanol, given)
    yield answered(GROWS, fill.grows, given, unit="ml")
    yield answered(ROOM, fill.room, given, unit="ml")
    yield answered(BRIM, fill.brim, given, unit="ml")
    if fill.ethanol:
        yield answered(HOLDS, fill.level * fill.ethanol * WATER_PER_ETHANOL, given, unit="ml")


def _steps(given: Given, fill: Fill, litres: Teller) -> Iterator[str]:
    level, held, capacity = (v / 1000 for v in (fill.level, fill.held, fill.capacity))
    yield f"filled to: {given.one('fill').words} of {litres(capacity)} = {litres(level)}, {litres(level - held)} to add"
    if given.has("dose"):
        yield f"stabiliser: {given.one('dose').words} of {litres(level)} = {fixed_number(fill.level * given.number('dose'), 0)} ml"
    yield (
        f"ethanol: ({litres.number(held)} \N{MULTIPLICATION SIGN} {given.one('held-ethanol').words} + {litres.number(level - held)} "
        f"\N{MULTIPLICATION SIGN} {given.one('fresh-ethanol').words}) / {litres.number(level)} = {fixed_number(100 * fill.ethanol, 1)} %"
    )
    yield (
        f"warmer by {fixed_number(fill.rise, 0)} C: petrol grows by 0.00095 of itself for each, a steel tank by 0.000035; "
        f"{litres(fill.grows / 1000)} more, {litres(fill.room / 1000)} left"
    )


def _verdict(given: Given, fill: Fill, litres: Teller, kept: bool | None) -> str:
    if fill.room < 0:
        return f"Too full: {litres(-fill.room / 1000)} would be spilt at {given.one('hottest').words}. Fill it less."
    told = f"Fill to {litres(fill.level / 1000)}"
    if given.has("dose"):
        told += f" with {fixed_number(fill.level * given.number('dose'), 0)} ml of stabiliser, and run the engine until that has reached the carburettor"
    if kept is False:
        return f"{told}. It keeps for {given.one('keeps').written} months and is to stand for {given.one('months').written}: drain and renew it before the first start."
    return f"{told}; there is room for it to grow."


def _warnings(given: Given, fill: Fill) -> Iterator[str]:
    if fill.ethanol > Fraction(5, 100):
        yield "More than 5 % of ethanol: it swells old hoses and cork floats and loosens varnish in the tank. Lay up with fuel that has none, or as little as can be had."
    if fill.level < fill.capacity * Fraction(9, 10):
        yield "A tank that is not full breathes: damp air comes in each night, and a steel tank rusts above the fuel."
    if not given.has("dose"):
        yield "No stabiliser is given: petrol without it goes stale within months."


FUEL_STORAGE = Sum(
    name="fuel-storage",
    title="Fuel for a car that stands",
    job=Job.PAINT,
    asks="How full is the tank left, with how much stabiliser, and is there room for the fuel to grow?",
    inputs=(
        Input("capacity", "what the tank holds to the brim", "volume", symbol="C", least="0.5 l", most="500 l"),
        Input("held", "fuel that is in it", "volume", default="0 l", least="0 l", most="500 l"),
        Input("fill", "share of the tank to leave it at", "share", default="95 %", least="1 %", most="100 %"),
        Input("dose", "stabiliser to fuel by volume, as on its bottle, such as 1 : 400", "ratio", optional=True, least="0.0001", most="0.1"),
        Input("held-ethanol", "ethanol in the fuel that is in it", "share", default="5 %", least="0 %", most="100 %"),
        Input("fresh-ethanol", "ethanol in the fuel that is added", "share", default="5 %", least="0 %", most="100 %"),
        Input("filled-at", "temperature of the fuel as it is filled; from an underground tank about 10 C", "temperature", default="10 C", least="-40 C", most="50 C"),
        Input("hottest", "the warmest that it will get as the car stands", "temperature", default="30 C", least="-40 C", most="70 C"),
        Input("months", "months that it is to stand", "number", optional=True, least="0", most="240"),
        Input("keeps", "months that the fuel keeps, by the maker of fuel or stabiliser", "number", default="6", least="0", most="120"),
    ),
    outputs=(ADD, LEVEL, STABILISER, ETHANOL, GROWS, ROOM, BRIM, HOLDS),
    in_words=(
        "The tank is left nearly full so that it breathes little, with room for the fuel to grow: petrol grows by 0.00095 of itself for a degree, the tank by a "
        "little. Ethanol of what is there and what is added is the mean by volume. Stabiliser is dosed for all of it."
    ),
    formula=(
        "V = fill \N{MULTIPLICATION SIGN} C",
        "g = V \N{MULTIPLICATION SIGN} 0.00095 \N{MULTIPLICATION SIGN} rise \N{MINUS SIGN} C \N{MULTIPLICATION SIGN} 0.000035 \N{MULTIPLICATION SIGN} rise",
        "e = (held \N{MULTIPLICATION SIGN} its ethanol + added \N{MULTIPLICATION SIGN} its ethanol) / V",
    ),
    limits=(
        "Growth is for petrol in a steel tank; one of aluminium grows a little more and one of plastic much more.",
        "The water that it holds is for about 15 C and for ethanol up to a tenth; colder it holds less, and what it held then drops out.",
        "Months are what its maker says: heat, light and an open vent shorten them. Stale fuel smells of varnish.",
        "For more than a season many empty tank, lines and carburettor instead, and oil the tank; which is better depends on the tank.",
    ),
    caution=(
        "Petrol vapour is heavier than air and runs to pits and drains: no flame, spark or heater, no draining over a pit, fuel in marked cans and no more of it "
        "than local rules allow. Hoses and seals for ethanol are as the maker's manual or the supplier says."
    ),
    sources=(
        "Growth of petrol and steel: OpenStax, University Physics, thermal expansion, from memory.",
        "95 % full against breathing and loss: airsportuk.com, Information regarding the storage of mogas.",
        "D. Korotney, Water phase separation in oxygenated gasoline, US Environmental Protection Agency, 1995: half a part of water in a hundred.",
        "Health and Safety Executive, Safe use of petrol in garages (HSG261).",
    ),
    example=(
        ("capacity", "55 l"), ("held", "20 l"), ("fill", "95 %"), ("dose", "1 : 400"), ("held-ethanol", "10 %"), ("fresh-ethanol", "0 %"),
        ("filled-at", "10 C"), ("hottest", "30 C"), ("months", "5"), ("keeps", "12"),
    ),
    work=_work,
)  # fmt: skip

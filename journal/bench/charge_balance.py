"""Whether dynamo or alternator keeps up with what is switched on, by day and night, on the road and in traffic."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import TEXT, WORD, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Result, Worked, answered, said
from journal.words.amounts import fixed_number
from journal.words.text import listed

_AMPS = (("A", 1),)
HEAVIEST = Output("heaviest", "heaviest load")
LOAD = Output("load", "current of that load", _AMPS, "I")
SPARE = Output("spare", "left for the battery on the road", _AMPS, "b")
TRAFFIC = Output("traffic", "left in the mean, idling counted in", _AMPS)
WANTED = Output("wanted", "output wanted, with the margin", _AMPS, "W")
LASTS = Output("lasts", "till the battery is half flat", (("h", 1),), "t")
ENGINE_OFF = Output("engine-off", "the same with the engine off", (("h", 1),))

# What is on when, by the word of a row: always, by night, in the wet, or now and then. What is on now and
# then counts a tenth: factor for intermittent loads, what-when-how.com, Vehicle electrical loads, 14.4.
_NOW_AND_THEN = Fraction(1, 10)
_WHEN = (
    ("always", "whenever the engine runs: ignition, pump"),
    ("night", "by night: lamps"),
    ("wet", "in the wet and cold: wipers, heater"),
    ("brief", "now and then: horn, flashers, stop lamps; counts a tenth"),
)
_TIMES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("dry day", ()),
    ("wet day", ("wet",)),
    ("dry night", ("night",)),
    ("wet night", ("night", "wet")),
)
# Of a battery, the share that may go before it may no longer start the engine (common practice).
_USABLE = Fraction(1, 2)


class Consumer(Struct, frozen=True):
    """Something that takes current: what it is called, when it is on, and its amperes."""

    name: str
    when: str
    amps: Fraction

    def takes(self, on: tuple[str, ...]) -> Fraction:
        """What it takes in the mean at a time for which these words hold."""
        if self.when == "brief":
            return self.amps * _NOW_AND_THEN
        return self.amps if self.when == "always" or self.when in on else Fraction(0)


def _work(given: Given) -> Worked:
    consumers = tuple(_consumers(given))
    output, idle = given.one("output").to("A"), given.one("idle").to("A")
    if idle > output:
        raise NotWorked("idle", "must be no more than output", "give what it makes at tick-over")
    idling = given.one("idling").to("%") / 100
    mean = output * (1 - idling) + idle * idling
    loads = {time: sum((c.takes(on) for c in consumers), Fraction(0)) for time, on in _TIMES}
    heaviest = max(loads, key=lambda time: loads[time])
    load = loads[heaviest]
    wanted = load * (1 + given.one("margin").to("%") / 100)
    return Worked(
        tuple(_results(given, heaviest, load, output, mean, wanted)),
        tuple(_steps(given, consumers, loads, mean, wanted, heaviest)),
        _verdict(given, loads, output, mean, wanted, heaviest),
        output >= wanted and mean >= load,
        tuple(_warnings(given, loads["wet night"])),
        (_grid(loads, output, idle, mean), _consumer_grid(consumers)),
    )


def _consumers(given: Given) -> Iterator[Consumer]:
    volts = given.one("voltage").to("V")
    for row in given.rows("loads"):
        name = row.word("load")
        if row.has("power") == row.has("current"):
            raise NotWorked(
                "loads",
                f'needs power or current for "{name}", one of them',
                "write it like headlamps: night, 45 W, 2 or ignition: always, current 3 A",
            )
        number = row.number("number") if row.has("number") else 1
        each = row.one("power").to("W") / volts if row.has("power") else row.one("current").to("A")
        yield Consumer(name, row.word("when"), each * number)


def _results(
    given: Given, heaviest: str, load: Fraction, output: Fraction, mean: Fraction, wanted: Fraction
) -> Iterator[Result]:
    yield said(HEAVIEST, heaviest)
    yield answered(LOAD, load, given)
    yield answered(SPARE, output - load, given)
    yield answered(TRAFFIC, mean - load, given)
    yield answered(WANTED, wanted, given)
    if given.has("battery"):
        usable = given.one("battery").to("Ah") * _USABLE
        if mean < load:
            yield answered(LASTS, 3600 * usable / (load - mean), given, unit="s")
        if load:
            yield answered(ENGINE_OFF, 3600 * usable / load, given, unit="s")


def _amps(value: Fraction) -> str:
    return f"{fixed_number(value, 1)} A"


def _steps(
    given: Given,
    consumers: Sequence[Consumer],
    loads: dict[str, Fraction],
    mean: Fraction,
    wanted: Fraction,
    heaviest: str,
) -> Iterator[str]:
    on = dict(_TIMES)[heaviest]
    terms = [f"{c.name} {fixed_number(c.takes(on), 1)}" for c in consumers if c.takes(on)]
    yield f"{heaviest}: {' + '.join(terms)} = {_amps(loads[heaviest])}"
    yield (
        f"output with {given.one('idling').words} idling: {given.one('output').words} and {given.one('idle').words} idling, "
        f"{_amps(mean)} in the mean"
    )
    yield f"wanted: {_amps(loads[heaviest])} and {given.one('margin').words} more = {_amps(wanted)}"
    if given.has("battery") and mean < loads[heaviest]:
        lack = loads[heaviest] - mean
        half = given.one("battery").to("Ah") * _USABLE
        yield f"half the battery: {float(half):g} Ah / {_amps(lack)} = {fixed_number(half / lack, 1)} h"


def _verdict(
    given: Given,
    loads: dict[str, Fraction],
    output: Fraction,
    mean: Fraction,
    wanted: Fraction,
    heaviest: str,
) -> str:
    machine = given.word("machine")
    load = loads[heaviest]
    if output < load:
        short = listed([time for time, amps in loads.items() if amps > output])
        return f"The {machine} does not keep up even on the road ({short}): the battery lacks up to {_amps(load - output)}."
    if mean < load:
        short = listed([time for time, amps in loads.items() if amps > mean])
        return f"The {machine} keeps up on the road and not in traffic ({short}): there the battery lacks {_amps(load - mean)}."
    if output < wanted:
        return f"The {machine} keeps up, with less than the margin of {given.one('margin').words}: the battery is slow to charge on a {heaviest}."
    return f"The {machine} keeps up at all times and has {_amps(output - load)} to spare for the battery on a {heaviest}."


def _warnings(given: Given, wet_night: Fraction) -> Iterator[str]:
    output = given.one("output").to("A")
    if given.word("machine") == "dynamo" and wet_night > output:
        yield "A dynamo that is asked for more than it is rated for burns its armature out: the regulator must be set to its rating."
    if given.word("machine") == "dynamo" and given.one("idle").to("A"):
        yield "Few dynamos charge at tick-over: measure the idle output with a clamp before relying on it."


def _grid(loads: dict[str, Fraction], output: Fraction, idle: Fraction, mean: Fraction) -> Grid:
    rows = tuple(
        (
            time[0].upper() + time[1:],
            _amps(load),
            _amps(output - load),
            _amps(idle - load),
            _amps(mean - load),
        )
        for time, load in loads.items()
    )
    return Grid("What is left for the battery", ("When", "Load", "On the road", "Idling", "In the mean"), rows)  # fmt: skip


def _consumer_grid(consumers: Sequence[Consumer]) -> Grid:
    rows = tuple((c.name, dict(_WHEN)[c.when].split(":")[0], _amps(c.amps)) for c in consumers)
    return Grid("What takes current", ("Load", "When", "Current"), rows)


CHARGE_BALANCE = Sum(
    name="charge-balance",
    title="Dynamo or alternator balance",
    job=Job.ELECTRICAL,
    asks="Does the dynamo or alternator keep up with what is switched on, or does the battery go flat?",
    inputs=(
        Input(
            "loads", "everything that takes current, with when it is on", "text", Takes.ROWS,
            columns=(
                Input("load", "what it is", TEXT),
                Input("when", "when it is on", WORD, choices=_WHEN),
                Input("power", "its power, as stamped on the bulb", "power", optional=True, least="0 W", most="5 kW"),
                Input("number", "how many there are of it, where there is more than one", "count", optional=True, least="1", most="100"),
                Input("current", "its current, where that is known and not the power", "current", optional=True, least="0 A", most="500 A"),
            ),
        ),
        Input("voltage", "voltage for which the powers hold", "potential", symbol="U", default="12 V", least="4 V", most="60 V"),
        Input("machine", "what charges", WORD, default="dynamo", choices=(("dynamo", "a dynamo"), ("alternator", "an alternator"))),
        Input("output", "what it makes on the road, hot, as rated or measured", "current", symbol="O", least="0 A", most="500 A"),
        Input("idle", "what it makes at tick-over; a dynamo usually nothing", "current", default="0 A", least="0 A", most="500 A"),
        Input("idling", "share of the time at tick-over: 10 % on the road, 40 % in town", "share", default="20 %", least="0 %", most="100 %"),
        Input("margin", "margin that it should have above the heaviest load", "share", default="20 %", least="0 %", most="200 %"),
        Input("battery", "capacity of the battery", "charge", optional=True, least="1 Ah", most="500 Ah"),
    ),
    outputs=(HEAVIEST, LOAD, SPARE, TRAFFIC, WANTED, LASTS, ENGINE_OFF),
    in_words=(
        "Currents of what is on together are added, for dry and wet days and nights; what is on now and then counts a tenth. What the machine makes, less the "
        "load, goes into the battery or comes out of it. Half of the battery's capacity, over what is lacking, is how long it lasts."
    ),
    formula=("I = sum of P / U", "b = O \N{MINUS SIGN} I", "W = I (1 + margin)", "t = (capacity / 2) / lack"),
    limits=(
        "Lamps are reckoned at their stamped power and the voltage given; at charging voltage they take a little more and the battery gives a little less.",
        "Half the battery is taken to be usable: below that it may not start the engine, and an old or cold one gives less than its label.",
        "A hot alternator makes a tenth to a fifth less than its label; give what is measured with a clamp.",
        "An alternator in place of a dynamo needs thicker cable to the battery, and an ammeter that carries its current.",
    ),
    caution=(
        "A charging battery gives off hydrogen that explodes: no spark or flame near it. Never run an alternator with the battery off, and set "
        "regulators to the maker's manual; main cables without a fuse set cars on fire."
    ),
    sources=(
        "Adding up of loads and a tenth for intermittent ones: what-when-how.com, Vehicle electrical loads, section 14.4.",
        "A margin of 20 to 25 % above the heaviest load: battery answers at alshain.a-centauri.com/batteryfaq/carfaq5.htm.",
        "Common practice, no source: half of the battery usable, shares of idling.",
    ),
    example=(
        (
            "loads",
            "ignition: always, current 3 A; petrol pump: always, current 1.5 A; dipped headlamps: night, 45 W, 2; side and tail lamps: night, 5 W, 5; "
            "wiper: wet, current 3 A; heater: wet, current 4 A; stop lamps: brief, 21 W, 2; flashers: brief, 21 W, 2",
        ),
        ("voltage", "12 V"), ("machine", "dynamo"), ("output", "22 A"), ("idle", "0 A"), ("idling", "20 %"), ("margin", "20 %"), ("battery", "57 Ah"),
    ),
    work=_work,
)  # fmt: skip

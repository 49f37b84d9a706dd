"""Positive or negative earth: what must be done, item by item, when a car is changed over.

Nothing is calculated here but counted: the check list is made of what the car has.
"""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from fractions import Fraction
from typing import NamedTuple

from journal.bench.base.definition import WORD, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Worked, answered
from journal.words.text import counted

SWAPPED = Output("swapped", "items to connect the other way round", (("", 0),))
CHANGED = Output("changed", "items to convert, replace or find out about", (("", 0),))
LEFT = Output("left", "items that do not mind", (("", 0),))


class Deed(StrEnum):
    """What an item needs; they are done in this order."""

    OFF = "take off or convert"
    ASK = "find out first"
    SWAP = "swap the leads"
    LEAVE = "leave"
    LAST = "at the end"


class Item(NamedTuple):
    """Something that a car has: its word, what it is, what it needs, and how that is done and tried."""

    word: str
    what: str
    deed: Deed
    how: str


# What converts a car is common practice; each line agrees with at least one of mg-cars.org.uk (Midget
# register), mossmotorshelp.freshdesk.com 44002389976, classicmotorsports.com, `Going negative`.
ITEMS: tuple[Item, ...] = (
    Item("alternator", "alternator", Deed.OFF, "its diodes are destroyed at once by the wrong earth: fit one for the new earth before the battery is connected"),
    Item("electronic-ignition", "electronic ignition", Deed.OFF, "destroyed by the wrong earth: take the lead off, and fit the kit for the new earth"),
    Item("electronic-regulator", "electronic regulator or box", Deed.OFF, "destroyed by the wrong earth: take it off, and fit one for the new earth"),
    Item("radio", "radio or player", Deed.OFF, "destroyed by the wrong earth unless it can be set: take its feed off, and set, isolate or replace it"),
    Item("rev-counter", "electric rev-counter", Deed.OFF, "reads nothing or is destroyed: take the feed off, and have its inside converted, the loop of the coil lead turned round with it"),
    Item("clock", "electric clock", Deed.ASK, "one with a transistor is destroyed, one with points alone does not mind: look inside or ask its repairer"),
    Item("fuel-pump", "electric petrol pump", Deed.ASK, "one with a diode or capacitor across its points burns them out: change that for the new earth; plain points with a resistor do not mind"),
    Item("flasher", "flasher unit", Deed.ASK, "a thermal one does not mind; an electronic one must be replaced"),
    Item("stabiliser", "voltage stabiliser of the gauges", Deed.ASK, "a bimetal one does not mind; an electronic one must be replaced"),
    Item("led-lamps", "lamps with diodes", Deed.ASK, "most do not light or are destroyed: fit those for the new earth"),
    Item("relay", "relays with a diode inside", Deed.ASK, "a diode across the coil shorts it: swap the coil leads, or fit plain relays"),
    Item("coil", "ignition coil", Deed.SWAP, "the terminal that goes to the contact breaker is to have the sign of the earth, so that the spark leaves the plug's centre: swap the two thin leads"),
    Item("ammeter", "ammeter", Deed.SWAP, "swap its two leads, or it shows discharge for charge: try with the headlamps on, engine off, it must show discharge"),
    Item("voltmeter", "voltmeter", Deed.SWAP, "a moving-coil one swings the wrong way: swap its two leads"),
    Item("wiper-motor", "wiper motor", Deed.SWAP, "one with a permanent magnet runs backwards and parks wrongly: swap the leads at its brushes; one with a field winding does not mind"),
    Item("heater-motor", "heater motor", Deed.SWAP, "one with a permanent magnet blows backwards: swap its leads; feel the draught"),
    Item("fan-motor", "electric cooling fan", Deed.SWAP, "runs backwards: swap its leads, and see that it draws the way the maker meant"),
    Item("washer-pump", "electric washer pump", Deed.SWAP, "runs backwards and does not pump: swap its leads"),
    Item("power-socket", "socket for a telephone or a charger", Deed.SWAP, "its centre must be positive for all that is sold: swap its leads, and insulate its shell where the earth is positive"),
    Item("cut-off-switch", "battery cut-off switch", Deed.SWAP, "belongs in the earth lead of the battery: see that it still is there"),
    Item("starter", "starter motor", Deed.LEAVE, "turns the same way with either earth"),
    Item("lamps", "lamps with filaments", Deed.LEAVE, "do not mind"),
    Item("horn", "horns", Deed.LEAVE, "do not mind"),
    Item("gauges", "bimetal and moving-iron gauges", Deed.LEAVE, "do not mind"),
    Item("regulator", "regulator with points, or cut-out", Deed.LEAVE, "does not mind; look at its contacts"),
    Item("overdrive", "overdrive solenoid", Deed.LEAVE, "does not mind, unless a diode is across it"),
    Item("dynamo", "dynamo", Deed.LAST, "polarise it once the battery is connected and before the engine runs: take the thin lead off F, touch F for an instant from the live battery post, put the lead back"),
)  # fmt: skip
_BY_WORD = {item.word: item for item in ITEMS}
_ORDER = list(Deed)


def _work(given: Given) -> Worked:
    now, then = given.word("now"), given.word("wanted")
    if now == then:
        raise NotWorked(
            "wanted", f"is what it has now, {now} earth", "write the other one, or leave it be"
        )
    fitted = _fitted(given)
    if {"dynamo", "alternator"} <= {item.word for item in fitted}:
        raise NotWorked("fitted", "cannot be both dynamo and alternator", "write the one that charges the car as it will run")  # fmt: skip
    swapped = [item for item in fitted if item.deed in (Deed.SWAP, Deed.LAST)]
    changed = [item for item in fitted if item.deed in (Deed.OFF, Deed.ASK)]
    left = [item for item in fitted if item.deed is Deed.LEAVE]
    return Worked(
        tuple(
            answered(output, Fraction(len(items)), given)
            for output, items in ((SWAPPED, swapped), (CHANGED, changed), (LEFT, left))
        ),
        (
            f"{counted(len(fitted), 'item')}: {len(swapped)} to turn round, {len(changed)} to convert or find out about, {len(left)} to leave",
        ),
        _verdict(then, changed),
        None,
        tuple(_warnings(given, fitted)),
        (_grid(now, then, fitted),),
    )


def _fitted(given: Given) -> list[Item]:
    words = given.values["fitted"]
    assert isinstance(words, tuple)
    for word in words:
        if words.count(word) > 1:
            raise NotWorked("fitted", f'has "{word}" twice', "write each once")
    return sorted(
        (_BY_WORD[word] for word in words),
        key=lambda item: (_ORDER.index(item.deed), ITEMS.index(item)),
    )


def _verdict(then: str, changed: Sequence[Item]) -> str:
    open_ = [item for item in changed if item.deed is Deed.OFF]
    if open_:
        return (
            f"{counted(len(open_), 'item')} would be destroyed by {then} earth: nothing is connected before "
            f"{'it is' if len(open_) == 1 else 'they are'} off or converted."
        )
    if changed:
        return f"{counted(len(changed), 'item')} to find out about first; the rest is leads to turn round."
    return (
        f"Leads to turn round and nothing to replace: {then} earth can be had with what is there."
    )


def _warnings(given: Given, fitted: Sequence[Item]) -> Iterator[str]:
    words = {item.word for item in fitted}
    if not words & {"dynamo", "alternator"}:
        yield "Neither dynamo nor alternator is in the list: what charges this car?"
    if "coil" not in words:
        yield "The ignition coil is not in the list; every car with one needs its leads turned round."
    if given.word("wanted") == "positive":
        yield "Most of what is sold today wants negative earth: a car that is put back to positive earth can take none of it without being isolated."


def _grid(now: str, then: str, fitted: Sequence[Item]) -> Grid:
    rows = [
        ("battery", "first", "disconnect it, the earth lead first; nothing below is done with it connected"),
        *((item.what, item.deed.value, item.how) for item in fitted if item.deed is not Deed.LAST),
        ("battery", "turn round", f"{then} post to the body, the other to the starter lead; the posts are of two sizes, so new clamps are needed"),
        *((item.what, item.deed.value, item.how) for item in fitted if item.deed is Deed.LAST),
        ("first start", "at the end", "headlamps on, engine off: ammeter to discharge; engine above tick-over: to charge, and the warning lamp out"),
        ("label", "at the end", f"a label at the battery and in the papers: {then} earth, changed from {now}, with the date"),
    ]  # fmt: skip
    return Grid(f"Check list, {now} to {then} earth", ("Item", "What to do", "How"), tuple(rows))


EARTH_POLARITY = Sum(
    name="earth-polarity",
    title="Positive and negative earth check list",
    job=Job.ELECTRICAL,
    asks="What must be turned round, converted or left alone when a car changes its earth?",
    inputs=(
        Input("now", "which post of the battery goes to the body as it stands", WORD, default="positive", choices=(("positive", "positive earth"), ("negative", "negative earth"))),
        Input("wanted", "which is to go to the body", WORD, default="negative", choices=(("positive", "positive earth"), ("negative", "negative earth"))),
        Input("fitted", "what the car has", WORD, Takes.READINGS, choices=tuple((item.word, item.what) for item in ITEMS)),
    ),
    outputs=(SWAPPED, CHANGED, LEFT),
    in_words="Every item that the car has is put into the order of work: off or converted first, found out about, turned round, left, and the dynamo polarised at the end.",
    formula=("number of items = to turn round + to convert or find out about + to leave",),
    limits=(
        "A list of what is usual: an item of this very car may be of another make inside. What is not known is found out before the battery is connected.",
        "It is a departure from what the works fitted: write it down with how to go back, and leave the label.",
        "Two batteries in series count as one; both are turned round.",
    ),
    caution=(
        "A battery gives hundreds of amperes into a spanner and gas that explodes: earth lead off first and on last, rings off, eye protection. The maker's "
        "papers of electronic parts go before this list, and an auto-electrician should look it over before the first start."
    ),
    sources=(
        "mg-cars.org.uk, Midget register, Converting from positive earth to negative earth: battery, coil, dynamo.",
        "mossmotorshelp.freshdesk.com, Converting to negative ground: motors that may run in reverse, and the starter that does not.",
        "classicmotorsports.com, Going negative: lamps, horns and starter that do not mind, petrol pumps that do. The rest is common practice.",
    ),
    example=(("now", "positive"), ("wanted", "negative"), ("fitted", "dynamo, regulator, coil, ammeter, fuel-pump, wiper-motor, heater-motor, radio, starter, lamps, horn, gauges")),
    work=_work,
)  # fmt: skip

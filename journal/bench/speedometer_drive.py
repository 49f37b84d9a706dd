"""The drive of a speedometer: turns of the cable for a mile, against what the dial was made for."""

from collections.abc import Iterator
from fractions import Fraction

from journal.bench.base.definition import WORD, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.speedlaw import LIMIT, SOURCE, Dial, always_kept, error_words
from journal.bench.base.tyres import given_turn, turn_words, tyre_inputs
from journal.bench.base.worked import Grid, Output, Teller, Worked, answered
from journal.words.amounts import fixed_number

TURNS = Output("turns", "turns of the cable in that distance", (("", 0),), "N")
SHOWS = Output("shows", "the speedometer shows of the true speed", (("%", 1),), "s")
CORRECTION = Output("correction", "wanted of the cable, times as fast", (("", 3),), "k")
PINION = Output("pinion", "teeth that the pinion ought to have", (("", 1),))
_UNITS = {"mile": (Fraction(1_609_344), "mph"), "km": (Fraction(1_000_000), "km/h")}


def _work(given: Given) -> Worked:
    distance, unit = _UNITS[given.word("per")]
    turn = given_turn(given)
    if turn is None:
        raise NotWorked("tyre", "is not told, and no rolling either", "write rolling as measured, or tyre, such as 165 R 15")  # fmt: skip
    each, how = _cable(given)
    turns = each * distance / turn
    marked = given.number("marked")
    ratio = turns / marked
    results = [
        answered(TURNS, turns, given),
        answered(SHOWS, 100 * ratio, given),
        answered(CORRECTION, 1 / ratio, given),
    ]
    steps = list(_steps(given, turn, turns, how))
    grids = [Dial(unit).grid((true, ratio * true) for true in Dial(unit).told_speeds())]
    if given.has("driven"):
        ideal = given.number("driven") * ratio
        results.append(answered(PINION, ideal, given))
        steps.append(
            f"pinion: {fixed_number(given.number('driven'), 0)} teeth \N{MULTIPLICATION SIGN} {fixed_number(ratio, 4)} = {fixed_number(ideal, 1)} teeth"
        )
        grids.append(_pinions(given, ratio))
    return Worked(
        tuple(results), tuple(steps), _verdict(given, ratio), always_kept(ratio),
        tuple(_warnings(given, ratio)), tuple(grids),
    )  # fmt: skip


def _cable(given: Given) -> tuple[Fraction, str]:
    """Turns of the cable for one turn of the road wheels, and how that comes about."""
    counted, worked = given.has("cable"), given.has("final")
    if counted and worked:
        raise NotWorked("cable", "was counted, and final is told too", "write one of them")
    times, over = " \N{MULTIPLICATION SIGN} ", " / "
    if counted:
        half = 2 if given.word("turned") == "one" else 1
        cable, wheel = given.number("cable"), given.number("wheel")
        told = f"{_plain(cable)}{over}{_plain(wheel)}" + (f"{times}2 for the differential" if half == 2 else "")  # fmt: skip
        return half * cable / wheel, told
    if not worked:
        raise NotWorked("cable", "is not told, and no final either", "count its turns for 6 turns of the wheels, or write final, driver and driven")  # fmt: skip
    for name in ("driver", "driven"):
        if not given.has(name):
            raise NotWorked(name, "is not told", "count its teeth, or count the turns of the cable")
    final, driver, driven = (given.number(name) for name in ("final", "driver", "driven"))
    return final * driver / driven, f"{_plain(final)}{times}{_plain(driver)}{over}{_plain(driven)}"


def _plain(number: Fraction) -> str:
    return fixed_number(number, 3).rstrip("0").rstrip(".")


def _steps(given: Given, turn: Fraction, turns: Fraction, how: str) -> Iterator[str]:
    mm = Teller((("mm", 0, 0), ("in", 2, 2)), given)
    distance, _ = _UNITS[given.word("per")]
    per, marked = given.word("per"), given.number("marked")
    times = "\N{MULTIPLICATION SIGN}"
    yield f"one turn of the wheels: {mm(turn)}, {turn_words(given)}"
    yield f"cable for one turn of the wheels: {how} = {fixed_number(_cable(given)[0], 4)}"
    yield f"wheels in a {per}: {fixed_number(distance / turn, 1)} turns; cable: {times} {fixed_number(_cable(given)[0], 4)} = {fixed_number(turns, 0)} turns"
    yield f"shown / true: {fixed_number(turns, 0)} / {_plain(marked)} on the dial = {fixed_number(turns / marked, 4)}"
    yield f"correction: 1 / {fixed_number(turns / marked, 4)} = {fixed_number(marked / turns, 3)}"


def _verdict(given: Given, ratio: Fraction) -> str:
    told = f"Driven like this the speedometer reads {error_words(ratio)}"
    best = _best(given, ratio)
    if always_kept(ratio):
        return f"{told}, which is within what is allowed today.{best}"
    why = "it shows less than is driven, which is not allowed today" if ratio < 1 else "more than is allowed today"  # fmt: skip
    return f"{told}: {why}. The cable must turn {fixed_number(1 / ratio, 3)} times as fast.{best}"


def _best(given: Given, ratio: Fraction) -> str:
    """The pinion that comes closest without showing too little, where there is a choice."""
    if not given.has("pinions") or not given.has("driven"):
        return ""
    with_it = {
        teeth.amount: ratio * given.number("driven") / teeth.amount
        for teeth in given.readings("pinions")
    }
    allowed = {teeth: shows for teeth, shows in with_it.items() if always_kept(shows)}
    if not allowed:
        return " None of the pinions that can be had puts it right."
    teeth, shows = min(allowed.items(), key=lambda entry: (entry[1], entry[0]))
    return f" Of the pinions that can be had, that of {fixed_number(teeth, 0)} teeth suits best: it reads {error_words(shows)}."


def _warnings(given: Given, ratio: Fraction) -> Iterator[str]:
    for twice in (Fraction(2), Fraction(1, 2)):
        if abs(ratio * twice - 1) < Fraction(1, 10) and given.has("cable"):
            yield "That is out by a factor of two: with one wheel jacked up the differential halves what the cable turns; write turned one for that, and both for a car that was rolled."
            return
    if abs(ratio - 1) > Fraction(1, 2):
        yield "So far out, the dial's figure may be for the other unit, or the instrument for another axle."


def _pinions(given: Given, ratio: Fraction) -> Grid:
    """What each pinion that can be had would show."""
    driven = given.number("driven")
    ideal = driven * ratio
    had = [teeth.amount for teeth in given.readings("pinions")] if given.has("pinions") else [Fraction(n) for n in range(max(int(ideal) - 1, 1), int(ideal) + 3)]  # fmt: skip
    rows = []
    for teeth in sorted(set(had)):
        with_it = ratio * driven / teeth
        rows.append((f"{fixed_number(teeth, 0)} teeth", error_words(with_it), "allowed" if always_kept(with_it) else "not allowed"))  # fmt: skip
    return Grid("Pinions", ("Pinion", "The speedometer reads", "Today"), tuple(rows))


SPEEDOMETER_DRIVE = Sum(
    name="speedometer-drive",
    title="Speedometer drive: cable, pinion and dial",
    job=Job.GEARING,
    asks="Does this drive suit this dial, and if not, which pinion or box in the cable does?",
    inputs=(
        Input("marked", "turns for a mile, or for a kilometre, that the dial is marked with", "number", symbol="M", least="200", most="4000"),
        Input("per", "what that figure is for", WORD, default="mile", choices=(("mile", "a dial in miles an hour"), ("km", "a dial in kilometres an hour"))),
        *tyre_inputs(optional=True),
        Input("cable", "turns of the cable that were counted", "number", symbol="c", optional=True, least="0.5", most="200"),
        Input("wheel", "for so many turns of the road wheels", "number", symbol="w", default="6", least="1", most="100"),
        Input("turned", "how the wheels were turned", WORD, default="both", choices=(("both", "the car was rolled, or both wheels turned"), ("one", "one wheel was jacked up and turned"))),
        Input("final", "final drive, where the cable is not counted", "number", symbol="f", optional=True, least="1.5", most="12"),
        Input("driver", "teeth or starts of the gear on the gearbox shaft", "count", symbol="a", optional=True, least="1", most="60"),
        Input("driven", "teeth of the pinion that turns the cable", "count", symbol="b", optional=True, least="2", most="60"),
        Input("pinions", "teeth of the pinions that can be had", "count", Takes.READINGS, optional=True, least="2", most="60"),
    ),
    outputs=(TURNS, SHOWS, CORRECTION, PINION),
    in_words=(
        "The turns of the wheels in a mile times the turns of the cable for one of them are the turns of the cable in a mile. "
        "Over the figure on the dial they are what is shown of the true speed."
    ),
    formula=(
        "N = mile / U \N{MULTIPLICATION SIGN} c / w",
        "N = mile / U \N{MULTIPLICATION SIGN} f a / b",
        "s = N / M",
        "k = 1 / s",
    ),
    limits=(
        "The dial shows what is marked on it for its turns: an instrument that was opened may not.",
        "Roll the car on its own tyres at their pressure, with its weight on them; count to a quarter of a turn.",
        LIMIT,
    ),
    caution=(
        "Chock the car and keep hands and clothing from turning wheels and shafts; a car on a jack stands on axle stands too. "
        "Prove the speedometer over a measured distance before handover; the maker's manual and local rules have the last word."
    ),
    sources=(
        "Shop rule of instrument repairers (britcycle.com, Calibrating Odometers and Speedometers): 1680 N / R turns in a mile, N turns of the cable for 6 of the wheel, R its radius in inches.",
        SOURCE,
    ),
    example=(
        ("marked", "1000"), ("rolling", "77.4 in"), ("final", "4.1"), ("driver", "3"), ("driven", "9"), ("pinions", "8, 9, 10, 11"),
    ),
    work=_work,
)  # fmt: skip

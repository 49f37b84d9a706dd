"""Gearing: road speed for the turns of the engine, in every gear, and what another axle or tyre does."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from journal.bench.base.definition import Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.tyres import given_turn, turn_words, tyre_inputs
from journal.bench.base.worked import Grid, Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number

_SPEEDS = (("km/h", 1), ("mph", 1))
PER_1000 = Output("per-1000", "speed in top for 1000 rpm", _SPEEDS, "v")
OVERDRIVE = Output("per-1000-overdrive", "speed in overdrive for 1000 rpm", _SPEEDS)
TURNING = Output("turning", "engine in the highest gear at that speed", (("rpm", 0),), "n")
PER_1000_AFTER = Output("per-1000-after", "speed in top for 1000 rpm, after", _SPEEDS)
OVERDRIVE_AFTER = Output("per-1000-overdrive-after", "speed in overdrive for 1000 rpm, after", _SPEEDS)  # fmt: skip
TURNING_AFTER = Output("turning-after", "engine in the highest gear at that speed, after", (("rpm", 0),))  # fmt: skip
TURN = Output("turn", "way of one turn of the wheels", (("mm", 0), ("in", 2)), "U")


class _Drive(Struct, frozen=True):
    """A way of one turn in mm, a final drive, and the gears with their names and ratios."""

    turn: Fraction
    final: Fraction
    gears: tuple[tuple[str, Fraction], ...]

    def speed(self, ratio: Fraction, turning: Fraction) -> Fraction:
        """The speed in km/h in a gear at an engine speed in rpm."""
        return self.turn * turning * 60 / (ratio * self.final) / 1_000_000

    def turning(self, ratio: Fraction, speed: Fraction) -> Fraction:
        """The engine speed in rpm in a gear at a speed in km/h."""
        return speed / self.speed(ratio, Fraction(1))


def _work(given: Given) -> Worked:
    now = _Drive(_turn(given), given.number("final"), _gears(given))
    changed = any(given.has(f"{name}-after") for name in ("final", "tyre", "diameter", "rolling"))
    after = _after(given, now) if changed else None
    speed = given.one("speed").to("km/h")
    top = [ratio for name, ratio in now.gears if name != "overdrive"][-1]
    results = [answered(TURN, now.turn, given)]
    for drive, outputs in ((now, (PER_1000, OVERDRIVE, TURNING)), (after, (PER_1000_AFTER, OVERDRIVE_AFTER, TURNING_AFTER))):  # fmt: skip
        if drive is not None:
            results += _results(drive, top, speed, outputs, given)
    return Worked(
        tuple(results),
        tuple(_steps(given, now, after, top, speed)),
        _verdict(given, now, after, speed),
        None,
        tuple(_warnings(given, now, after, speed)),
        (_grid(given, now, after, speed),),
    )


def _turn(given: Given) -> Fraction:
    turn = given_turn(given)
    if turn is None:
        raise NotWorked("tyre", "is not told, and no rolling either", "write tyre, such as 165 R 15, or rolling as measured")  # fmt: skip
    return turn


def _gears(given: Given) -> tuple[tuple[str, Fraction], ...]:
    ratios = [ratio.amount for ratio in given.readings("gears")]
    if any(higher >= lower for lower, higher in pairwise(ratios)):
        raise NotWorked("gears", "must fall from first gear to top", "write first gear first, and no reverse")  # fmt: skip
    names = [f"gear {n}" for n in range(1, len(ratios))] + ["top"]
    gears = list(zip(names, ratios, strict=True))
    if given.has("overdrive"):
        gears.append(("overdrive", ratios[-1] * given.number("overdrive")))
    return tuple(gears)


def _after(given: Given, now: _Drive) -> _Drive:
    turn = given_turn(given, "-after")
    final = given.number("final-after") if given.has("final-after") else now.final
    return _Drive(now.turn if turn is None else turn, final, now.gears)


def _results(drive: _Drive, top: Fraction, speed: Fraction, outputs: tuple[Output, Output, Output], given: Given) -> Iterator[Result]:  # fmt: skip
    per_1000, overdrive, turning = outputs
    yield answered(per_1000, drive.speed(top, Fraction(1000)), given)
    name, highest = drive.gears[-1]
    if name == "overdrive":
        yield answered(overdrive, drive.speed(highest, Fraction(1000)), given)
    yield answered(turning, drive.turning(highest, speed), given)


def _tellers(given: Given) -> tuple[Teller, Teller]:
    return Teller((("km/h", 1, 1), ("mph", 1, 1)), given), Teller((("mm", 0, 0), ("in", 2, 2)), given)  # fmt: skip


def _steps(given: Given, now: _Drive, after: _Drive | None, top: Fraction, speed: Fraction) -> Iterator[str]:  # fmt: skip
    kph, mm = _tellers(given)
    for drive, suffix, when in ((now, "", ""), (after, "-after", ", after")):
        if drive is None:
            continue
        source = turn_words(given, suffix) if given_turn(given, suffix) is not None else "as before"
        yield f"one turn{when}: {mm(drive.turn)}, {source}"
        yield (
            f"top{when}: {mm(drive.turn)} \N{MULTIPLICATION SIGN} 1000 \N{MULTIPLICATION SIGN} 60 / ({_ratio(top)} \N{MULTIPLICATION SIGN} "
            f"{_ratio(drive.final)}) = {kph(drive.speed(top, Fraction(1000)))} for 1000 rpm"
        )
        name, highest = drive.gears[-1]
        per = drive.speed(highest, Fraction(1000))
        yield f"in {name}{when}: {kph(speed)} / {kph(per)} \N{MULTIPLICATION SIGN} 1000 = {_rpm(drive.turning(highest, speed))}"


def _ratio(ratio: Fraction) -> str:
    return fixed_number(ratio, 3)


def _rpm(turning: Fraction) -> str:
    return f"{fixed_number(turning, 0)} rpm"


def _verdict(given: Given, now: _Drive, after: _Drive | None, speed: Fraction) -> str:
    kph, _ = _tellers(given)
    name, highest = now.gears[-1]
    told = f"In {name} the engine turns at {_rpm(now.turning(highest, speed))} at {kph(speed)}"
    if after is None:
        return f"{told}."
    then = after.turning(highest, speed)
    share = 100 * (then / now.turning(highest, speed) - 1)
    if abs(share) < Fraction(1, 20):
        return f"{told}, and as fast after the change."
    return f"{told}, and after the change at {_rpm(then)}, {fixed_number(abs(share), 1)} % {'faster' if share > 0 else 'slower'}."


def _warnings(given: Given, now: _Drive, after: _Drive | None, speed: Fraction) -> Iterator[str]:
    if given.has("most"):
        most = given.one("most").to("rpm")
        for drive, when in ((now, ""), (after, ", after the change")):
            if drive is not None and drive.turning(drive.gears[-1][1], speed) > most:
                yield f"At that speed the engine turns faster than it may{when}, even in the highest gear."
    if after is not None and after.turn / after.final != now.turn / now.final:
        yield "A speedometer that is driven from the gearbox is wrong after the change; work out speedometer-change."


def _grid(given: Given, now: _Drive, after: _Drive | None, speed: Fraction) -> Grid:
    kph, _ = _tellers(given)
    most = given.one("most").to("rpm") if given.has("most") else None
    heads = ["Gear", "Overall", "For 1000 rpm", f"At {kph(speed)}"]
    heads += [] if most is None else [f"At {_rpm(most)}"]
    rows = []
    for drive, when in ((now, ""), (after, ", after")):
        for name, ratio in () if drive is None else drive.gears:
            assert drive is not None
            turning = drive.turning(ratio, speed)
            told = _rpm(turning) if most is None or turning <= most else "too fast"
            row = [
                f"{name}{when}",
                _ratio(ratio * drive.final),
                kph(drive.speed(ratio, Fraction(1000))),
                told,
            ]
            rows.append((*row, *(() if most is None else (kph(drive.speed(ratio, most)),))))
    return Grid("Every gear", tuple(heads), tuple(rows))


GEARING = Sum(
    name="gearing",
    title="Gearing: speed for the turns of the engine",
    job=Job.GEARING,
    asks="How fast does the car go for 1000 rpm, and what does another axle or tyre change?",
    inputs=(
        Input("speed", "a road speed at which the engine's turns are wanted", "speed", default="100 km/h", least="5 km/h", most="400 km/h"),
        *tyre_inputs(optional=True),
        Input("final", "final drive: turns of the propeller shaft for one of the wheels", "number", symbol="f", least="1.5", most="12"),
        Input("gears", "ratios of the gearbox from first gear to top", "number", Takes.READINGS, symbol="g", default="1", least="0.4", most="12"),
        Input("overdrive", "ratio of the overdrive, where there is one", "number", optional=True, least="0.5", most="1"),
        Input("most", "fastest that the engine may turn", "turning", optional=True, least="500 rpm", most="15000 rpm"),
        Input("final-after", "final drive after a change", "number", optional=True, least="1.5", most="12"),
        *tyre_inputs("-after", optional=True, when=" after a change"),
    ),
    outputs=(TURN, PER_1000, OVERDRIVE, TURNING, PER_1000_AFTER, OVERDRIVE_AFTER, TURNING_AFTER),
    in_words=(
        "The engine's turns divided by the ratios of gearbox and final drive are the turns of the wheels; these times the way of one turn are the speed."
    ),
    formula=(
        "v = 60 \N{MULTIPLICATION SIGN} 1000 \N{MULTIPLICATION SIGN} U / (g f)",
        "n = 1000 \N{MULTIPLICATION SIGN} speed / v",
    ),
    limits=(
        "No slip of tyres, clutch or fluid drive.",
        "Ratios are best counted in teeth: printed ones are often rounded, and axles have been changed before.",
        "Without a measured turn the tyre goes 3.05 times its diameter over all.",
    ),
    caution=(
        "Taller gearing makes nothing else stronger: the maker's manual for the limit of the engine, the marks on the tyres for theirs. "
        "Have the speedometer put right after a change, as local rules demand."
    ),
    sources=(
        "Elementary: way of a wheel times its turns. The shop rule mph = rpm \N{MULTIPLICATION SIGN} diameter in inches / (336 \N{MULTIPLICATION SIGN} ratio) is the same for a free circle.",
        "ETRTO practice, from memory: one turn at 60 km/h is 3.05 times the diameter over all.",
    ),
    example=(
        ("speed", "70 mph"), ("tyre", "165 R 15"), ("final", "4.1"), ("gears", "3.41, 2.17, 1.38, 1"), ("overdrive", "0.8"),
        ("most", "5500 rpm"), ("final-after", "3.9"), ("tyre-after", "185/65 R 15"),
    ),
    work=_work,
)  # fmt: skip

"""A speedometer as it reads on the road: against a timed distance or a true speed, and against the rule."""

from collections.abc import Iterator
from fractions import Fraction

from journal.bench.base.definition import Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.speedlaw import DIAL, LIMIT, SOURCE, Dial, error_words, keeps_law
from journal.bench.base.worked import Output, Worked, answered
from journal.words.amounts import fixed_number

_SHARE = (("%", 1),)
ERROR = Output("error", "in the mean it reads fast by", _SHARE)
WORST = Output("worst", "furthest off at any speed", _SHARE)
SPREAD = Output("spread", "the error differs between the speeds by", _SHARE)

# Errors that differ by less than this from speed to speed have one cause in what drives the cable.
# Common practice, no source.
_ALIKE = Fraction(3)


def _work(given: Given) -> Worked:
    dial = Dial(given.word("dial"))
    readings = sorted(_readings(given))
    errors = [100 * (shown / true - 1) for true, shown in readings]
    mean = sum(errors, Fraction(0)) / len(errors)
    spread = max(errors) - min(errors)
    allowed = [keeps_law(shown, true) for true, shown in readings]
    return Worked(
        (
            answered(ERROR, mean, given),
            answered(WORST, max(errors, key=abs), given),
            answered(SPREAD, spread, given),
        ),
        tuple(_steps(given, dial, readings, errors)),
        _verdict(dial, readings, allowed, mean, spread),
        all(allowed),
        tuple(_warnings(readings)),
        (dial.grid(readings),),
    )


def _readings(given: Given) -> Iterator[tuple[Fraction, Fraction]]:
    """Each reading as the true speed and what was shown, in km/h."""
    distance = given.one("distance").to("km")
    for row in given.rows("readings"):
        shown = row.one("shown")
        if row.has("true") == row.has("time"):
            raise NotWorked(
                "readings", f"must have a true speed or a time beside {shown.words}, and one of them",
                "write 30 mph: 28.4 mph, or 30 mph: time 127 s",
            )  # fmt: skip
        true = row.one("true").to("km/h") if row.has("true") else distance / row.one("time").to("h")
        yield true, shown.to("km/h")


def _steps(given: Given, dial: Dial, readings: list[tuple[Fraction, Fraction]], errors: list[Fraction]) -> Iterator[str]:  # fmt: skip
    if any(row.has("time") for row in given.rows("readings")):
        for row in given.rows("readings"):
            if row.has("time"):
                true = given.one("distance").to("km") / row.one("time").to("h")
                yield f"true speed at {row.one('shown').words}: {given.one('distance').words} / {row.one('time').words} = {dial(true)}"
    for (true, shown), error in zip(readings, errors, strict=True):
        yield f"error at {dial(shown)}: {dial.number(shown)} / {dial.number(true)} \N{MINUS SIGN} 1 = {fixed_number(error, 1)} %"


def _verdict(dial: Dial, readings: list[tuple[Fraction, Fraction]], allowed: list[bool], mean: Fraction, spread: Fraction) -> str:  # fmt: skip
    told = f"In the mean it reads {error_words(1 + mean / 100)}"
    if all(allowed):
        return f"{told}; every reading is within what is allowed today."
    low = [dial(true) for true, shown in readings if shown < true]
    why = f"at a true {low[0]} it shows less than is driven" if low else "it shows more than is allowed today"  # fmt: skip
    if len(readings) < 2:
        return f"{told}: {why}. Read it at more speeds to find the cause."
    if spread <= _ALIKE:
        return f"{told}, much the same at every speed: {why}. The gearing of its drive is the cause; it must turn the cable {fixed_number(1 / (1 + mean / 100), 3)} times as fast."
    return f"{told}, not the same at every speed: {why}. The instrument itself wants attention: its magnet, its hairspring, or a needle that was moved on its shaft."


def _warnings(readings: list[tuple[Fraction, Fraction]]) -> Iterator[str]:
    if any(abs(shown / true - 1) > Fraction(1, 3) for true, shown in readings):
        yield "So far off, a time, a distance or the unit of the dial may be written wrong."
    if len(readings) < 3:
        yield "Read at three speeds or more, low, middling and fast, each twice and in both directions."


SPEEDOMETER_CHECK = Sum(
    name="speedometer-check",
    title="Speedometer as it reads on the road",
    job=Job.GEARING,
    asks="Does the speedometer show what is allowed, and if not, is it the instrument or its drive?",
    inputs=(
        Input(
            "readings", "what was shown, with the true speed or the time over the distance", takes=Takes.ROWS,
            columns=(
                Input("shown", "speed that was shown and held", "speed", symbol="V1", least="5 km/h", most="400 km/h"),
                Input("true", "true speed at that moment, of a calibrated instrument", "speed", symbol="V2", optional=True, least="5 km/h", most="400 km/h"),
                Input("time", "time for the distance", "time", symbol="t", optional=True, least="1 s", most="2 h"),
            ),
        ),
        Input("distance", "the measured distance, where times were taken", "length", symbol="L", default="1 mile", least="50 m", most="50 km"),
        DIAL,
    ),
    outputs=(ERROR, WORST, SPREAD),
    in_words=(
        "The true speed is the measured distance over the time. What is shown over what is true, less one, is the error. "
        "An error that is much the same at all speeds comes from the gearing, one that is not from the instrument."
    ),
    formula=("V2 = L / t", "error = V1 / V2 \N{MINUS SIGN} 1", "V2 \N{LESS-THAN OR EQUAL TO} V1 \N{LESS-THAN OR EQUAL TO} 1.1 V2 + 4 km/h"),
    limits=(
        "The speed is held steady over the whole distance, on the level, in both directions, on tyres at their pressure.",
        LIMIT,
    ),
    caution=(
        "Have a passenger read and time; the driver drives. Do it where the speed is lawful and the road is empty, or on a roller bench. "
        "The maker's manual and local rules have the last word on what the instrument must show."
    ),
    sources=(SOURCE, "Time over a measured mile: 3600 / seconds is the speed in miles an hour."),
    example=(("readings", "30 mph: time 124 s; 50 mph: time 75.0 s; 60 mph: time 62.7 s"), ("distance", "1 mile")),
    work=_work,
)  # fmt: skip

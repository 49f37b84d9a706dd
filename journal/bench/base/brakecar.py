"""What is told of a car's brakes, before and after a change, as systems and loads.

What is not told of the car after the change stays as it was.
"""

from journal.bench.base.braking import (
    DISC,
    DUPLEX,
    GRAVITY,
    SERVO,
    SIMPLEX,
    Brake,
    Controls,
    Load,
    System,
    brake_factor,
)
from journal.bench.base.definition import TEXT, WORD, Input, Takes
from journal.bench.base.given import Given, NotWorked

STATES = ("before", "after")

# The coefficient of a lining of usual make. Common practice, no source.
USUAL_LINING = 0.38

_BRAKES = (
    (DISC, "a disc; count the pistons of one side of it"),
    (SIMPLEX, "a drum with one shoe that leads and one that trails"),
    (DUPLEX, "a drum with two shoes that lead, a cylinder each"),
    (SERVO, "a drum whose shoes push each other"),
)


def systems_of(given: Given) -> dict[str, System]:
    """The brakes before, and after where a change is told. Raises NotWorked."""
    rows = {name: _by_state(given, name) for name in ("pedal", "front", "rear", "servo", "valve")}
    named = {state for states in rows.values() for state in states}
    states = STATES if "after" in named else STATES[:1]
    return {state: _system(given, rows, state) for state in states}


def _by_state(given: Given, name: str) -> dict[str, Given]:
    rows: dict[str, Given] = {}
    for row in given.rows(name):
        state = row.word("state")
        if state in rows:
            raise NotWorked(name, f'has two rows "{state}"', "write each state once")
        rows[state] = row
    if name in ("pedal", "front", "rear") and "before" not in rows:
        raise NotWorked(name, "must be told as it is before the change", "begin a row with before:")
    return rows


# What a change of the first leaves nothing of: another kind of brake is another brake altogether, and
# another lining has another factor.
_UNDONE = {
    "brake": ("bore", "radius", "pistons", "lining", "factor"),
    "lining": ("factor",),
}


def _row(rows: dict[str, dict[str, Given]], name: str, state: str) -> Given:
    """What holds in a state: what is told of it, and of the rest what held before."""
    held = rows[name]
    values = dict(held["before"].values) if "before" in held else {}
    if state == "after" and state in held:
        told = held[state].values
        for column in told:
            if told[column] != values.get(column):
                for undone in _UNDONE.get(column, ()):
                    values.pop(undone, None)
        values |= told
    return Given(values)


def _mm(row: Given, column: str) -> float:
    return float(row.one(column).to("mm"))


def _system(given: Given, rows: dict[str, dict[str, Given]], state: str) -> System:
    pedal, servo, valve = (_row(rows, name, state) for name in ("pedal", "servo", "valve"))
    for column in ("ratio", "bore"):
        if not pedal.has(column):
            raise NotWorked("pedal", f"must have a {column} before the change", "write before: ratio, bore")  # fmt: skip
    bore = _mm(pedal, "bore")
    if pedal.has("bar") and not pedal.has("rear-bore"):
        raise NotWorked("pedal", "has a balance bar and one cylinder", "write the rear-bore too")
    more: dict[str, float] = {}
    if servo.has("gain"):
        more["gain"] = float(servo.number("gain"))
    if servo.has("limit"):
        more["limit"] = float(servo.one("limit").to("kPa")) / 1000
    if valve.has("from"):
        more["knee"] = float(valve.one("from").to("kPa")) / 1000
        more["slope"] = float(valve.one("passes").to("%")) / 100 if valve.has("passes") else 0.0
    bar = float(pedal.one("bar").to("%")) / 100 if pedal.has("bar") else None
    rear_bore = _mm(pedal, "rear-bore") if pedal.has("rear-bore") else bore
    controls = Controls(float(pedal.number("ratio")), bore, rear_bore, bar, **more)
    front, rear = (
        _brake(given, _row(rows, name, state), name, state) for name in ("front", "rear")
    )
    return System(controls, front, rear)


def _brake(given: Given, row: Given, name: str, state: str) -> Brake:
    for column in ("brake", "bore", "radius"):
        if not row.has(column):
            raise NotWorked(name, f"must have a {column} {state} the change", f"write {state}: brake, bore, radius")  # fmt: skip
    lining = float(row.number("lining")) if row.has("lining") else USUAL_LINING
    factor = float(row.number("factor")) if row.has("factor") else brake_factor(row.word("brake"), lining)  # fmt: skip
    tyre = _mm(row, "tyre") if row.has("tyre") else float(given.one("tyre").to("mm"))
    if _mm(row, "radius") >= tyre:
        raise NotWorked(name, "has a rubbing radius that is not within the tyre", "measure it again, or write the radius and not the diameter")  # fmt: skip
    pistons = int(row.number("pistons")) if row.has("pistons") else 1
    return Brake(factor, _mm(row, "bore"), pistons, _mm(row, "radius"), tyre)


def loads_of(given: Given) -> dict[str, Load]:
    """How the car stands on its axles, by the names of its loads. Raises NotWorked."""
    wheelbase = float(given.one("wheelbase").to("mm"))
    loads: dict[str, Load] = {}
    for row in given.rows("weights"):
        front, rear = (float(row.one(axle).to("kg")) * GRAVITY for axle in ("front", "rear"))
        height = _mm(row, "height")
        if height >= wheelbase:
            raise NotWorked("weights", "has a centre of gravity higher than the wheelbase is long", "measure both again")  # fmt: skip
        if row.word("load") in loads:
            raise NotWorked(
                "weights", f'has two rows "{row.word("load")}"', "call each load something else"
            )
        loads[row.word("load")] = Load(front, rear, wheelbase, height)
    return loads


def _state() -> Input:
    return Input("state", "before the change or after it", WORD, choices=(("before", "as it is"), ("after", "as it would be")))  # fmt: skip


def _axle(name: str) -> Input:
    # The letters of the formula stand for either axle and are explained once.
    d, r, n, c, factor = ("d", "r", "n", "c", "C") if name == "front" else ("", "", "", "", "")
    return Input(
        name, f"the {name} brakes, before and after; after the change, only what differs", takes=Takes.ROWS,
        columns=(
            _state(),
            Input("brake", "the kind of brake", WORD, optional=True, choices=_BRAKES),
            Input("bore", "bore of the wheel cylinder or of one piston of the caliper", "length", symbol=d, optional=True, least="8 mm", most="120 mm"),
            Input("radius", "radius at which the lining rubs: half the drum, or to the middle of the pads", "length", symbol=r, optional=True, least="40 mm", most="400 mm"),
            Input("pistons", "pistons that press one pad or one shoe; 1 unless told", "count", symbol=n, optional=True, least="1", most="6"),
            Input("lining", f"coefficient of friction of the lining; {USUAL_LINING} unless told", "number", symbol=c, optional=True, least="0.1", most="0.6"),
            Input("factor", "brake factor by the maker; else worked out from kind and lining", "number", symbol=factor, optional=True, least="0.1", most="12"),
            Input("tyre", "radius of this axle's wheels on the road, where it differs", "length", optional=True, least="100 mm", most="600 mm"),
        ),
    )  # fmt: skip


CAR_INPUTS: tuple[Input, ...] = (
    Input("wheelbase", "from the middle of the front wheels to that of the rear ones", "length", symbol="L", least="1000 mm", most="6000 mm"),
    Input(
        "weights", "what each axle weighs, and how high the centre of gravity lies, for each load that is to be judged", takes=Takes.ROWS,
        columns=(
            Input("load", "what the load is called", TEXT),
            Input("front", "weight on the front axle", "mass", least="50 kg", most="5000 kg"),
            Input("rear", "weight on the rear axle", "mass", least="50 kg", most="5000 kg"),
            Input("height", "height of the centre of gravity above the road", "length", symbol="h", least="150 mm", most="2000 mm"),
        ),
    ),
    Input("tyre", "radius of the wheels on the road, from the middle of the hub down", "length", symbol="R", least="100 mm", most="600 mm"),
    Input(
        "pedal", "pedal and master cylinder, before and after; after the change, only what differs", takes=Takes.ROWS,
        columns=(
            _state(),
            Input("ratio", "pedal ratio: travel of the pad against travel of the push rod", "number", symbol="i", optional=True, least="1", most="12"),
            Input("bore", "bore of the master cylinder, or of that for the front", "length", symbol="D", optional=True, least="8 mm", most="60 mm"),
            Input("rear-bore", "bore of the cylinder or step that serves the rear, where it is another", "length", optional=True, least="8 mm", most="60 mm"),
            Input("bar", "share of the push that a balance bar gives to the front cylinder", "share", symbol="b", optional=True, least="10 %", most="90 %"),
        ),
    ),
    Input(
        "servo", "the servo, where there is one, before and after", takes=Takes.ROWS, optional=True,
        columns=(
            _state(),
            Input("gain", "how many times it multiplies the push; 1 is none", "number", symbol="g", optional=True, least="1", most="10"),
            Input("limit", "front line pressure at which it gives all that it can", "pressure", optional=True, least="5 bar", most="200 bar"),
        ),
    ),
    Input(
        "valve", "the valve in the rear line, where there is one, before and after", takes=Takes.ROWS, optional=True,
        columns=(
            _state(),
            Input("from", "rear line pressure from which it acts", "pressure", optional=True, least="1 bar", most="300 bar"),
            Input("passes", "what it passes on of the rise above that; 0 % unless told", "share", optional=True, least="0 %", most="100 %"),
        ),
    ),
    _axle("front"),
    _axle("rear"),
)  # fmt: skip

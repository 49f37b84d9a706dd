"""Brake balance before and after a change: what the pedal does at each axle, and what the axle can take.

A car of which only one state is told is judged as it stands.
"""

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from journal.bench.base.brakecar import CAR_INPUTS, USUAL_LINING, loads_of, systems_of
from journal.bench.base.braking import DISC, HARDEST, JUDGED, Brake, Controls, Load, System
from journal.bench.base.definition import Input, Job, Sum
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import (
    Curve,
    CurveLine,
    Grid,
    Output,
    Result,
    Teller,
    Worked,
    answered,
    said,
)
from journal.words.amounts import fixed_number
from journal.words.units import convert

_SHARE = (("%", 1),)
_PRESSURES, _FORCES = (("bar", 1), ("psi", 0)), (("N", 0), ("lbf", 0))
IDEAL = Output("ideal-share", "front's share of the weight in that stop", _SHARE)


def _pair(name: str, meaning: str, units: tuple[tuple[str, int], ...] = ()) -> dict[str, Output]:
    return {
        "before": Output(name, f"{meaning}, before", units),
        "after": Output(f"{name}-after", f"{meaning}, after", units),
    }


SHARE = _pair("front-share", "front's share of the braking", _SHARE)
LOCKS = _pair("locks-first", "which wheels lock first")
EFFORT = _pair("effort-needed", "pedal effort for that stop", _FORCES)
REACHED = _pair("reached", "stop that the effort would bring, in g", (("", 2),))
PRESSURE = _pair("pressure", "pressure at the front brakes", _PRESSURES)
_PAIRS = (SHARE, LOCKS, EFFORT, REACHED, PRESSURE)

# The pressure above which older pipes and hoses are asked for more than they
# were made for (both common practice, no source); the greatest pedal effort of Directive 71/320/EEC (from memory).
MOST_PRESSURE, MOST_EFFORT = 10.0, 500.0
# How far linings may be from what is told of them before the balance is called close. Common practice.
_DOUBT = 0.10
_GRIPS = (0.3, 0.5, 0.8)


class _Car(Struct, frozen=True):
    """All that is worked with: the states, the loads by name, the effort and the deceleration."""

    states: dict[str, System]
    loads: dict[str, Load]
    effort: float
    hard: float

    @property
    def first(self) -> tuple[str, Load]:
        return next(iter(self.loads.items()))

    @property
    def last(self) -> tuple[str, System]:
        return tuple(self.states.items())[-1]


def _work(given: Given) -> Worked:
    car = _Car(systems_of(given), loads_of(given), float(given.one("effort").to("N")), float(given.number("deceleration")))  # fmt: skip
    for name, load in car.loads.items():
        if load.lift <= car.hard:
            raise NotWorked(
                "weights", f"would lift the rear wheels at {_g(load.lift)} with {name}",
                "read heights, wheelbase and weights again, or write a smaller deceleration",
            )  # fmt: skip
    verdict, right = _verdict(car)
    return Worked(
        tuple(_results(car, given)),
        tuple(_steps(car, given)),
        verdict,
        right,
        tuple(_warnings(car, given)),
        (_force_grid(car, given), _lock_grid(car)),
        (_share_curve(car), _effort_curve(car, given)),
    )


# What is answered.


def _g(deceleration: float) -> str:
    return f"{fixed_number(deceleration, 2)} g"


def _percent(share: float) -> str:
    return f"{fixed_number(100 * share, 1)} %"


def _state(car: _Car, state: str) -> str:
    """What a state is called: before and after where there are both."""
    return state if len(car.states) > 1 else "as it stands"


def _called(car: _Car, result: Result) -> Result:
    if len(car.states) > 1:
        return result
    return replace(result, meaning=result.meaning.removesuffix(", before"))


def _results(car: _Car, given: Given) -> Iterator[Result]:
    for result in _answered(car, given):
        yield _called(car, result)


def _answered(car: _Car, given: Given) -> Iterator[Result]:
    load = car.first[1]
    yield answered(IDEAL, 100 * load.front_share(car.hard), given)
    for state, system in car.states.items():
        yield answered(SHARE[state], 100 * system.front_share(load, car.hard), given)
        yield said(LOCKS[state], _locks_words(car, state))
        yield answered(EFFORT[state], system.effort_for(car.hard * load.weight), given)
        yield answered(REACHED[state], sum(system.forces(car.effort)) / load.weight, given)
        pressure = system.controls.pressures(car.effort)[0]
        yield answered(PRESSURE[state], 1000 * pressure, given, unit="kPa")


def _worst(system: System, loads: dict[str, Load]) -> tuple[str, float] | None:
    """The load with which the rear wheels lock before the front ones earliest, and from when."""
    found = [(at, name) for name, load in loads.items() if (at := system.rear_locks_from(load)) is not None]  # fmt: skip
    return (min(found)[1], min(found)[0]) if found else None


def _locks_words(car: _Car, state: str) -> str:
    worst = _worst(car.states[state], car.loads)
    if worst is None:
        return f"the front ones, up to {_g(HARDEST)}"
    from_ = f"the rear ones, from {_g(worst[1])}{_with(car, worst[0])}"
    return from_ if worst[1] <= JUDGED else f"the front ones; {from_.removeprefix('the ')}"


def _with(car: _Car, load: str) -> str:
    return f" ({load})" if len(car.loads) > 1 else ""


def _verdict(car: _Car) -> tuple[str, bool]:
    load = car.first[1]
    told = " and ".join(
        f"{_percent(system.front_share(load, car.hard))}{' of the braking' if n == 0 else ''} {state}"
        for n, (state, system) in enumerate(car.states.items())
    )
    told = (
        f"In a stop of {_g(car.hard)} the front axle carries {_percent(load.front_share(car.hard))} of the weight; "
        f"it does {told if len(car.states) > 1 else told.removesuffix(' before')}."
    )
    state, system = car.last
    worst = _worst(system, car.loads)
    when = "After the change" if state == "after" else "As it stands"
    if worst is None or worst[1] > JUDGED:
        beyond = (
            ""
            if worst is None
            else f", and the rear ones only from {_g(worst[1])}{_with(car, worst[0])}"
        )
        return f"{told} {when} the front wheels lock first in every stop up to {_g(JUDGED)}{beyond}.", True  # fmt: skip
    from_ = "in every stop" if worst[1] < 0.02 else f"from {_g(worst[1])}"
    return f"{told} {when} the rear wheels lock first {from_}{_with(car, worst[0])}: the car can spin. It is not to be driven so.", False  # fmt: skip


def _steps(car: _Car, given: Given) -> Iterator[str]:
    force, mm = Teller((("N", 0, 0), ("lbf", 0, 0)), given), Teller((("mm", 0, 2), ("in", 0, 3)), given)  # fmt: skip
    bar, torque = Teller((("bar", 1, 1), ("psi", 0, 0)), given), Teller((("Nm", 0, 0), ("lbf ft", 0, 0)), given)  # fmt: skip
    for state, system in car.states.items():
        at = f"{state}, " if len(car.states) > 1 else ""
        controls = system.controls
        push = controls.push(car.effort)
        yield f"{at}push on the master cylinder: {force(car.effort)} \N{MULTIPLICATION SIGN} {fixed_number(controls.ratio, 2)}{_servo_words(controls, car.effort)} = {force(push)}"
        for axle, brake, pressure, bore, part in zip(
            ("front", "rear"), (system.front, system.rear), controls.pressures(car.effort),
            (controls.front_bore, controls.rear_bore), controls.parts, strict=True,
        ):  # fmt: skip
            told = f"{force(push)}" + (
                f" \N{MULTIPLICATION SIGN} {_percent(part)}" if part < 1 else ""
            )
            valve = " behind the valve" if axle == "rear" and pressure > controls.knee else ""
            yield f"{at}{axle} pressure: {told} on a bore of {mm(bore)} = {bar(pressure * 10)}{valve}"
            yield (
                f"{at}{axle} torque: 2 wheels \N{MULTIPLICATION SIGN} brake factor {fixed_number(brake.factor, 2)} "
                f"\N{MULTIPLICATION SIGN} {force(pressure * brake.area)} on each pad or shoe \N{MULTIPLICATION SIGN} {mm(brake.radius)} = {torque(2 * brake.torque(pressure))}"
            )
        front, rear = system.forces(car.effort)
        yield (
            f"{at}at the road: {force(front)} in front and {force(rear)} behind, "
            f"({force.number(front)} + {force.number(rear)}) / {force(car.first[1].weight)} = {_g((front + rear) / car.first[1].weight)}"
        )
    for name, load in car.loads.items():
        yield (
            f"ideal at {_g(car.hard)}, {name}: {_percent(load.front / load.weight)} + {fixed_number(car.hard, 2)} "
            f"\N{MULTIPLICATION SIGN} {mm(load.height)} / {mm(load.wheelbase)} = {_percent(load.front_share(car.hard))}"
        )
    if "after" in car.states:
        ratio = car.states["after"].travel / car.states["before"].travel
        yield f"pedal travel for the same movement of pads and shoes: {fixed_number(ratio, 2)} times that before"


def _servo_words(controls: Controls, effort: float) -> str:
    if controls.gain <= 1:
        return ""
    full = controls.push(effort) < effort * controls.ratio * controls.gain * (1 - 1e-9)
    return f", servo {fixed_number(controls.gain, 2)} to 1" + (" at its limit" if full else "")


def _warnings(car: _Car, given: Given) -> Iterator[str]:
    state, system = car.last
    told = Teller((("N", 0, 0), ("lbf", 0, 0)), given)
    worst = _worst(system, car.loads)
    if worst is None or worst[1] > JUDGED:
        doubtful = System(
            system.controls, _graded(system.front, 1 - _DOUBT), _graded(system.rear, 1 + _DOUBT)
        )
        close = _worst(doubtful, car.loads)
        if close is not None and close[1] <= JUDGED:
            yield (
                f"It is close: were the front linings {round(100 * _DOUBT)} % weaker and the rear ones {round(100 * _DOUBT)} % stronger than told, "
                f"the rear wheels would lock first from {_g(close[1])}{_with(car, close[0])}."
            )
    yield from _weak_rear(car)
    efforts = [system.effort_for(car.hard * load.weight) for load in car.loads.values()]
    if max(efforts) > MOST_EFFORT:
        yield f"A stop of {_g(car.hard)} takes {told(max(efforts))} on the pedal; type approval allows {told(MOST_EFFORT)}."
    if max(system.controls.pressures(max(efforts))) > MOST_PRESSURE:
        yield "A stop as hard as that takes more than 100 bar (1,450 psi) in the lines: prove old pipes, hoses and seals, or renew them."
    if state == "after":
        ratio = system.travel / car.states["before"].travel
        if ratio > 1.2:
            yield f"The pedal travels {fixed_number(ratio, 2)} times as far as before for the same movement of pads and shoes: see that it does not reach the floor, with one circuit failed too."
    yield from _guesses(given)


def _guesses(given: Given) -> Iterator[str]:
    """What was not told of the brakes and taken at its usual value."""
    rows = [row for name in ("front", "rear") for row in given.rows(name) if row.has("brake")]
    if any(not row.has("factor") and not row.has("lining") for row in rows):
        yield f"Linings of which nothing is told are taken at a coefficient of {USUAL_LINING}; real ones lie between 0.25 and 0.5, and another make at one end shifts the balance."
    if any(not row.has("factor") and row.word("brake") != DISC for row in rows):
        yield "The factor of a drum brake is worked out from its kind and the lining alone and may be a fifth out; write the maker's factor where there is one."


def _graded(brake: Brake, by: float) -> Brake:
    return Brake(brake.factor * by, brake.bore, brake.pistons, brake.radius, brake.tyre)


def _weak_rear(car: _Car) -> Iterator[str]:
    """Where the front locks so early that grip is wasted, by the line of Directive 71/320/EEC."""
    system = car.last[1]
    for name, load in car.loads.items():
        for grip in (n / 10 for n in range(3, 9)):
            at = system.first_lock(load, grip)[1]
            if at < 0.1 + 0.85 * (grip - 0.2):
                yield (
                    f"The rear brakes do little: on a road with a grip of {fixed_number(grip, 1)} a wheel locks at {_g(at)}{_with(car, name)}, "
                    f"where type approval asks for {_g(0.1 + 0.85 * (grip - 0.2))}."
                )
                return


def _force_grid(car: _Car, given: Given) -> Grid:
    force, bar = (
        Teller((("N", 0, 0), ("lbf", 0, 0)), given),
        Teller((("bar", 1, 1), ("psi", 0, 0)), given),
    )
    torque = Teller((("Nm", 0, 0), ("lbf ft", 0, 0)), given)
    rows: dict[str, list[str]] = {}
    for system in car.states.values():
        for axle, brake, pressure in zip(
            ("front", "rear"), (system.front, system.rear), system.controls.pressures(car.effort), strict=True
        ):  # fmt: skip
            for what, told in (
                ("pressure", bar(pressure * 10)),
                ("force on each pad or shoe", force(pressure * brake.area)),
                ("torque of the axle", torque(2 * brake.torque(pressure))),
                ("force of the axle on the road", force(brake.force(pressure))),
            ):
                rows.setdefault(f"{axle}, {what}", []).append(told)
    heads = (
        f"With {given.one('effort').words} on the pedal",
        *(_state(car, state).capitalize() for state in car.states),
    )
    return Grid(
        "Pressures, forces and torques", heads, tuple((what, *told) for what, told in rows.items())
    )


def _lock_grid(car: _Car) -> Grid:
    heads = ("Grip of the road", *(_state(car, state).capitalize() for state in car.states))
    rows = []
    for name, load in car.loads.items():
        for grip, road in zip(_GRIPS, ("wet leaves or packed snow", "wet", "dry"), strict=True):
            first = [system.first_lock(load, grip) for system in car.states.values()]
            rows.append((f"{fixed_number(grip, 1)}, {road}{_with(car, name)}", *(f"{axle}, at {_g(at)}" for axle, at in first)))  # fmt: skip
    return Grid("Which wheels lock first, and when", heads, tuple(rows))


def _share_curve(car: _Car) -> Curve:
    across = [n / 20 for n in range(1, 21)]
    lines = [
        CurveLine(f"ideal{_with(car, name)}", tuple((z, 100 * load.front_share(z)) for z in across))
        for name, load in car.loads.items()
    ]
    load = car.first[1]
    lines += [
        CurveLine(_state(car, state), tuple((z, 100 * system.front_share(load, z)) for z in across))
        for state, system in car.states.items()
    ]
    return Curve("The front's share of the braking; below the ideal the rear wheels lock first", "deceleration, g", "share, %", tuple(lines))  # fmt: skip


def _effort_curve(car: _Car, given: Given) -> Curve:
    load = car.first[1]
    across = [n / 20 for n in range(21)]
    unit = "lbf" if given.imperial else "N"
    one = float(convert(1, unit, "N"))
    lines = tuple(
        CurveLine(
            _state(car, state), tuple((z, system.effort_for(z * load.weight) / one) for z in across)
        )
        for state, system in car.states.items()
    )
    return Curve("Pedal effort for a deceleration", "deceleration, g", f"effort, {unit}", lines)


BRAKE_BALANCE = Sum(
    name="brake-balance",
    title="Brake balance before and after a change",
    job=Job.BRAKES,
    asks="Which wheels lock first, before and after the brakes are changed, and what does the pedal ask for?",
    inputs=(
        *CAR_INPUTS,
        Input("effort", "force on the pedal for which pressures and torques are told", "force", symbol="F", default="300 N", least="10 N", most="1500 N"),
        Input("deceleration", "how hard a stop is looked at, in multiples of gravity", "number", symbol="z", default="0.8", least="0.05", most="1"),
    ),
    outputs=(IDEAL, *(pair[state] for pair in _PAIRS for state in ("before", "after"))),
    in_words=(
        "The pedal multiplies the foot, the servo multiplies that, and the push divided by the area of the master cylinder is the pressure. Pressure "
        "times the area of the pistons presses pads and shoes; that times the brake factor and the radius is the torque, and torque divided by the radius "
        "of the wheel brakes the car. A stop moves weight to the front axle: the share of the weight that lies there is the share of the braking that it "
        "ought to do. Where the front does less than that, the rear wheels lock first."
    ),
    formula=(
        "p = F i g / (\N{GREEK SMALL LETTER PI} D\N{SUPERSCRIPT TWO} / 4)",
        "T = 2 C p n (\N{GREEK SMALL LETTER PI} d\N{SUPERSCRIPT TWO} / 4) r for each axle",
        "B = T / R",
        "C = 2 c for a disc",
        "C = 1.6 c / (0.8 \N{MINUS SIGN} c) + 1.6 c / (0.8 + c) for a leading and a trailing shoe",
        "share = B front / (B front + B rear)",
        "ideal = (front weight + z h / L \N{MULTIPLICATION SIGN} weight) / weight",
    ),
    limits=(
        "A straight stop on a level road, wheels and linings alike on both sides, fluid, hoses and levers without give.",
        "Linings are as told at every speed and heat; fade, water, glaze and bedding change them, those of drums most of all.",
        "The springs that pull shoes off, seal friction and the drag of the engine are left out; they count in gentle stops.",
        "The weights are those with the people and the load that are really carried; the balance is judged with each of them.",
        f"Judged up to {JUDGED} g, as type approval of cars has it; that rule is a yardstick here and does not bind an older car.",
    ),
    caution=(
        "This is a sum and no approval. To change brakes can kill: wheels that lock behind before those in front spin the car. Fit what the maker "
        "approved, ask the maker or a licensed brake engineer before anything else is driven, and tell the insurer and the authority where local rules ask for it. "
        "A qualified person must prove it on rollers, then on a closed and empty road from low speed upwards, wet and dry, "
        "alone and laden, with the parking brake and with each circuit alone. Old linings may hold asbestos: never blow them out."
    ),
    sources=(
        "Council Directive 71/320/EEC, annex II, appendix, 3.1.1 (as UN Regulation 13): in cars the front axle is first to lock from 0.15 to 0.8 g. Cited from memory: z at least 0.1 + 0.85 (k \N{MINUS SIGN} 0.2), pedal effort at most 500 N. Its leave for an inversion from 0.3 to 0.45 g is not used here.",
        "R. Limpert, Brake Design and Safety, SAE 1992, for load transfer and brake factors (cited from memory).",
        "The Tribology Handbook, section B8: brake factors of 0.70 for a disc and 4.0 for a drum whose shoes push each other, at a coefficient of 0.35.",
        "Common practice, no source: shoe pivot and cylinder each 0.8 drum radii from the middle.",
    ),
    example=(
        ("wheelbase", "2300 mm"),
        ("weights", "driver alone: 470 kg, 430 kg, 500 mm; two and luggage: 490 kg, 560 kg, 530 mm"),
        ("tyre", "290 mm"),
        ("pedal", "before: 5, 19.05 mm"),
        ("servo", "after: 1.9, 60 bar"),
        ("front", "before: twin-leading, 22.2 mm, 114 mm; after: disc, 54 mm, 105 mm"),
        ("rear", "before: leading-trailing, 19.05 mm, 102 mm"),
        ("effort", "250 N"),
        ("deceleration", "0.7"),
    ),
    work=_work,
)  # fmt: skip

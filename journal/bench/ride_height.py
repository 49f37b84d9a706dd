"""Ride height: what the car stands at with another spring, packer or load, and how it then rides.

Springs act on the wheel through a lever: the motion ratio is how far the spring moves for each mm of the
wheel, so the rate at the wheel is the spring's times its square.
"""

from collections.abc import Iterator
from math import cos, pi, radians, sqrt

from msgspec import Struct

from journal.bench.base.braking import GRAVITY
from journal.bench.base.definition import Input, Job, Sum
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number

_LENGTHS, _RATES, _FORCES = (("mm", 1), ("in", 2)), (("N/mm", 1), ("lbf/in", 0)), (("N", 0), ("lbf", 0))  # fmt: skip


def _pair(name: str, meaning: str, units: tuple[tuple[str, int], ...], symbol: str = "") -> tuple[Output, Output]:  # fmt: skip
    return Output(name, meaning, units, symbol), Output(f"{name}-after", f"{meaning}, after", units)  # fmt: skip


WHEEL = _pair("wheel-rate", "rate at the wheel", _RATES, "kw")
CARRIES = _pair("carries", "load on the spring", _FORCES, "F")
GIVES = _pair("gives", "spring pressed together by", _LENGTHS)
LENGTH = _pair("length", "spring in the car, length", _LENGTHS)
BOUNCE = _pair("bounce", "bounces a second, undamped", (("", 2),), "f")
RISE = Output("rise", "the car rises there by, sinks with a minus", _LENGTHS)
PACKER = Output("packer-wanted", "packer for the height that is wanted", _LENGTHS)  # fmt: skip
CUT = Output("free-wanted", "free length for the height that is wanted", _LENGTHS)

# Bounces a second that road cars are made for. Common practice, no source.
_SOFT, _HARD = 0.8, 2.2


class _Corner(Struct, frozen=True):
    """One wheel: rates in N/mm, lengths in mm, what it carries above the spring in kg. The free length is
    nothing where it was not told; then only differences count."""

    rate: float
    lever: float
    mass: float
    free: float
    packer: float

    @property
    def wheel_rate(self) -> float:
        """The rate at the wheel."""
        return self.rate * self.lever**2

    @property
    def load(self) -> float:
        """The load on the spring in N."""
        return self.mass * GRAVITY / self.lever

    @property
    def gives(self) -> float:
        """How far the load presses the spring together."""
        return self.load / self.rate

    @property
    def stands(self) -> float:
        """The height of the spring and its packer as the car stands."""
        return self.free + self.packer - self.gives

    @property
    def bounce(self) -> float:
        """Bounces a second."""
        return sqrt(self.wheel_rate * 1000 / self.mass) / (2 * pi)


def _work(given: Given) -> Worked:
    now = _corner(given)
    after = _after(given, now)
    changed = after != now
    results = list(_results(given, now, 0))
    rise = (after.stands - now.stands) / now.lever
    if changed:
        results += [*_results(given, after, 1), answered(RISE, rise, given)]
    if given.has("wanted"):
        short = (float(given.one("wanted").to("mm")) - rise) * now.lever
        results.append(answered(PACKER, after.packer + short, given))
        if given.has("free"):
            results.append(answered(CUT, after.free + short, given))
    return Worked(
        tuple(results),
        tuple(_steps(given, now, after)),
        _verdict(given, now, after, rise),
        None,
        tuple(_warnings(given, now, after)),
        (_grid(given, after),),
    )


def _corner(given: Given) -> _Corner:
    load, unsprung = (float(given.one(name).to("kg")) for name in ("weight", "unsprung"))
    if unsprung >= load:
        raise NotWorked("unsprung", "must be less than the weight on the wheel", "write wheel, tyre, brake, hub and half of the arms")  # fmt: skip
    lever = float(given.number("ratio")) * cos(radians(float(given.one("lean").to("deg"))))
    free = float(given.one("free").to("mm")) if given.has("free") else 0.0
    corner = _Corner(float(given.one("rate").to("N/mm")), lever, load - unsprung, free, float(given.one("packer").to("mm")))  # fmt: skip
    if free and corner.gives >= free:
        raise NotWorked("rate", "is so soft that the spring would be pressed flat", "see the unit of the rate, the weight and the motion ratio")  # fmt: skip
    return corner


def _after(given: Given, now: _Corner) -> _Corner:
    def told(name: str, unit: str, before: float) -> float:
        return float(given.one(name).to(unit)) if given.has(name) else before

    if given.has("free-after") and not given.has("free"):
        raise NotWorked("free", "is not told for before the change", "write free too, or leave free-after out for springs of one length")  # fmt: skip
    weight = float(given.one("weight").to("kg"))
    unsprung = float(given.one("unsprung").to("kg"))
    mass = told("weight-after", "kg", weight) - told("unsprung-after", "kg", unsprung)
    if mass <= 0:
        raise NotWorked("weight-after", "must be more than what is unsprung", "read both again")
    return _Corner(
        told("rate-after", "N/mm", now.rate), now.lever, mass, told("free-after", "mm", now.free), told("packer-after", "mm", now.packer)
    )  # fmt: skip


def _results(given: Given, corner: _Corner, which: int) -> Iterator[Result]:
    yield answered(WHEEL[which], corner.wheel_rate, given)
    yield answered(CARRIES[which], corner.load, given)
    yield answered(GIVES[which], corner.gives, given)
    if corner.free:
        yield answered(LENGTH[which], corner.free - corner.gives, given)
    yield answered(BOUNCE[which], corner.bounce, given)


def _tellers(given: Given) -> tuple[Teller, Teller, Teller, Teller]:
    return (
        Teller((("mm", 0, 1), ("in", 2, 2)), given),
        Teller((("N", 0, 0), ("lbf", 0, 0)), given),
        Teller((("N/mm", 1, 1), ("lbf/in", 0, 0)), given),
        Teller((("kg", 0, 1), ("lb", 0, 0)), given),
    )


def _steps(given: Given, now: _Corner, after: _Corner) -> Iterator[str]:
    mm, force, rate, mass = _tellers(given)
    times, minus = " \N{MULTIPLICATION SIGN} ", " \N{MINUS SIGN} "
    lean = given.one("lean")
    lever = fixed_number(now.lever, 3)
    if lean.amount:
        yield f"motion ratio along the wheel: {given.one('ratio').words}{times}cos {lean.words} = {lever}"
    for corner, when in ((now, ""), (after, ", after")):
        if when and after == now:
            continue
        yield f"carried by the spring{when}: {mass(corner.mass)} / {lever} = {force(corner.load)}"
        yield f"rate at the wheel{when}: {rate(corner.rate)}{times}{lever}\N{SUPERSCRIPT TWO} = {rate(corner.wheel_rate)}"
        yield f"pressed together{when}: {force(corner.load)} / {rate(corner.rate)} = {mm(corner.gives)}"
        if corner.free:
            yield f"length in the car{when}: {mm.number(corner.free)}{minus}{mm.number(corner.gives)} = {mm(corner.free - corner.gives)}"
        yield f"bounce{when}: \N{SQUARE ROOT}({fixed_number(corner.wheel_rate * 1000, 0)} N/m / {fixed_number(corner.mass, 0)} kg) / 2\N{GREEK SMALL LETTER PI} = {fixed_number(corner.bounce, 2)} a second"
    if after != now:
        yield f"ride height: ({mm.number(after.stands)}{minus}{_bracket(mm.number(now.stands))}) / {lever} = {mm((after.stands - now.stands) / now.lever)}"


def _bracket(number: str) -> str:
    return f"({number})" if number.startswith("\N{MINUS SIGN}") else number


def _verdict(given: Given, now: _Corner, after: _Corner, rise: float) -> str:
    mm, _, rate, _ = _tellers(given)
    if after == now:
        return f"At the wheel the spring has a rate of {rate(now.wheel_rate)}, and the car bounces {fixed_number(now.bounce, 2)} times a second."
    moved = "stands as high as before" if abs(rise) < 0.05 else f"{'rises' if rise > 0 else 'sinks'} {mm(abs(rise))} at that wheel"  # fmt: skip
    share = 100 * (after.wheel_rate / now.wheel_rate - 1)
    stiff = "" if abs(share) < 0.5 else f" and is {fixed_number(abs(share), 0)} % {'stiffer' if share > 0 else 'softer'}"  # fmt: skip
    return f"After the change the car {moved}{stiff}: {rate(after.wheel_rate)} at the wheel, {fixed_number(after.bounce, 2)} bounces a second."


def _warnings(given: Given, now: _Corner, after: _Corner) -> Iterator[str]:
    if not _SOFT <= after.bounce <= _HARD:
        yield f"Road cars bounce {_SOFT} to {_HARD} times a second; see the rate, its unit and the motion ratio."
    if given.has("free") and after.gives >= after.free:
        yield "After the change the spring would be pressed flat."
    rise = (after.stands - now.stands) / now.lever
    if abs(rise) > 25:
        yield "That moves the wheel far from where it was: see camber, drive shaft angles, bump and rebound travel, brake hoses and head lamps."
    if given.has("rate-after") and not given.has("free"):
        yield "Without free lengths both springs are taken to be as long off the car; softer or stiffer springs seldom are."


def _grid(given: Given, corner: _Corner) -> Grid:
    """How the car stands as it is loaded."""
    mm, _, _, _ = _tellers(given)
    load = Teller((("kg", 0, 0), ("lb", 0, 0)), given)
    rows = []
    for extra in (25, 50, 100):
        sinks = extra * GRAVITY / corner.wheel_rate
        rows.append((load(extra), mm(sinks)))
    return Grid("With more load on that wheel", ("More", "Sinks by"), tuple(rows))


RIDE_HEIGHT = Sum(
    name="ride-height",
    title="Ride height and rate at the wheel",
    job=Job.SPRINGS,
    asks="How high does the car stand with another spring, packer or load, and how hard is it then?",
    inputs=(
        Input("rate", "rate of the spring", "rate", symbol="k", least="1 N/mm", most="1000 N/mm"),
        Input("weight", "weight on that wheel", "mass", least="20 kg", most="2500 kg"),
        Input("unsprung", "of that what the spring does not carry: wheel, brake, hub, half of the arms", "mass", default="0 kg", least="0 kg", most="500 kg"),
        Input("ratio", "motion ratio: how far the end of the spring moves for each mm of the wheel; 1 for a leaf on the axle", "number", symbol="m", default="1", least="0.2", most="1.5"),
        Input("lean", "how far the spring leans from the way that its end moves; 0 where the ratio was measured along it", "angle", default="0 deg", least="0 deg", most="60 deg"),
        Input("free", "length of the spring off the car, or camber of a leaf spring", "length", optional=True, least="20 mm", most="1000 mm"),
        Input("packer", "packers at the spring", "length", default="0 mm", least="0 mm", most="100 mm"),
        Input("rate-after", "rate after the change", "rate", optional=True, least="1 N/mm", most="1000 N/mm"),
        Input("free-after", "length off the car after the change", "length", optional=True, least="20 mm", most="1000 mm"),
        Input("packer-after", "packers after the change", "length", optional=True, least="0 mm", most="100 mm"),
        Input("weight-after", "weight on that wheel after the change", "mass", optional=True, least="20 kg", most="2500 kg"),
        Input("unsprung-after", "of that unsprung, after the change", "mass", optional=True, least="0 kg", most="500 kg"),
        Input("wanted", "how much higher than before the car shall stand; lower with a minus", "length", optional=True, least="-200 mm", most="200 mm"),
    ),
    outputs=(WHEEL[0], CARRIES[0], GIVES[0], LENGTH[0], BOUNCE[0], WHEEL[1], CARRIES[1], GIVES[1], LENGTH[1], BOUNCE[1], RISE, PACKER, CUT),
    in_words=(
        "The spring carries the sprung weight divided by the motion ratio, and is pressed together by that over its rate. What it is then longer or "
        "shorter than before, packers counted, lifts or lowers the car by that much over the motion ratio. The rate at the wheel is the spring's times the motion ratio squared."
    ),
    formula=(
        "m = ratio \N{MULTIPLICATION SIGN} cos lean",
        "F = sprung weight / m",
        "kw = k m\N{SUPERSCRIPT TWO}",
        "rise = ((free + packer \N{MINUS SIGN} F / k) after \N{MINUS SIGN} (free + packer \N{MINUS SIGN} F / k) before) / m",
        "f = \N{SQUARE ROOT}(kw / sprung mass) / 2\N{GREEK SMALL LETTER PI}",
    ),
    limits=(
        "Small movements: the motion ratio changes with travel. Measure it: lift the wheel 20 mm and see what the spring does.",
        "Rubber bushes that were tightened with the wheels hanging, an anti-roll bar under strain, and dry leaves hold a car up or down.",
        "Read the height from hub to arch, after rolling the car to and fro and bouncing it, level, fuelled, tyres at their pressure.",
    ),
    caution=(
        "A loaded road spring stores enough force to kill: use the maker's compressor or method and keep out of its path. Never heat or cut a spring that is "
        "to be used. A car that was raised or lowered is to be checked by a qualified person to the maker's manual and local rules: steering, travel, brakes and lamps."
    ),
    sources=(
        "Suspension wheel rate, worked example (machinecalcs.com): kw = k (m cos lean)\N{SUPERSCRIPT TWO}, f = \N{SQUARE ROOT}(k / m) / 2\N{GREEK SMALL LETTER PI}.",
        "Automotive Chassis Engineering, section 3.9, spring rate and wheel rate (fliphtml5.com, page 190).",
        "Common practice, no source: bounces a second of road cars.",
    ),
    example=(
        ("rate", "37.4 N/mm"), ("weight", "250 kg"), ("unsprung", "32 kg"), ("ratio", "0.55"), ("lean", "8 deg"), ("free", "330 mm"),
        ("rate-after", "42 N/mm"), ("free-after", "318 mm"), ("wanted", "-10 mm"),
    ),
    work=_work,
)  # fmt: skip

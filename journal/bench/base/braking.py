"""How hard each axle of a car brakes, from the pedal to the road, and how hard each one could.

Lengths are in mm, forces in N, pressures in N/mm2; a deceleration is a multiple of gravity. Roots and
circles are in it, so all is worked in floating point and rounded where it is told.
"""

from bisect import bisect_left
from collections.abc import Callable, Iterator
from itertools import pairwise
from math import inf, pi

from msgspec import Struct

GRAVITY = 9.80665
# The hardest stop that a road car's tyres allow, and that to which balance is judged.
HARDEST, JUDGED = 1.0, 0.8

DISC, SIMPLEX, DUPLEX, SERVO = "disc", "leading-trailing", "twin-leading", "servo-shoes"

# Proportions of a shoe in drum radii: where it pivots and where it is pushed, from the middle of the
# drum. Common practice, no source.
_PIVOT, _PUSHED = 0.8, 0.8


def brake_factor(kind: str, lining: float) -> float:
    """Drag at the rubbing radius for each unit of force on one pad or one shoe.

    A disc has two faces: twice the coefficient. A shoe is a lever about its pivot, with pressure and
    drag taken at the middle of the lining: c (a + h) / (a - c) for one that leads, with a + c below
    the line for one that trails. Of two shoes that push each other both lead, and the second is pushed
    by what the first one passes on.
    """
    if kind == DISC:
        return 2 * lining
    lead = lining * (_PIVOT + _PUSHED) / (_PIVOT - lining)
    if kind == SIMPLEX:
        return lead + lining * (_PIVOT + _PUSHED) / (_PIVOT + lining)
    if kind == DUPLEX:
        return 2 * lead
    passed_on = lead / lining - 1
    return lead + passed_on * lead


class Brake(Struct, frozen=True):
    """The brake of one wheel. `pistons` of one `bore` press one pad, or one shoe; `radius` is where it
    rubs, `tyre` the radius of the wheel on the road."""

    factor: float
    bore: float
    pistons: int
    radius: float
    tyre: float

    @property
    def area(self) -> float:
        """The area that presses one pad or one shoe."""
        return self.pistons * pi / 4 * self.bore**2

    def torque(self, pressure: float) -> float:
        """The torque of one wheel in Nm."""
        return self.factor * pressure * self.area * self.radius / 1000

    def force(self, pressure: float) -> float:
        """The force at the road of both wheels of the axle."""
        return 2 * self.torque(pressure) * 1000 / self.tyre


class Controls(Struct, frozen=True):
    """From the pedal to the lines.

    `gain` is what a servo makes of the push until the front line has `limit`; `bar` is the front's
    share of the push where the rear has a master cylinder of its own. A valve passes on `slope` of what
    the rear line has above `knee`.
    """

    ratio: float
    front_bore: float
    rear_bore: float
    bar: float | None = None
    gain: float = 1.0
    limit: float = inf
    knee: float = inf
    slope: float = 1.0

    @property
    def parts(self) -> tuple[float, float]:
        """The shares of the push that press the front and the rear cylinder."""
        return (1.0, 1.0) if self.bar is None else (self.bar, 1 - self.bar)

    @property
    def per_push(self) -> tuple[float, float]:
        """What each line gains in pressure for each unit of push, before any valve."""
        front, rear = self.parts
        return front * 4 / (pi * self.front_bore**2), rear * 4 / (pi * self.rear_bore**2)

    def push(self, effort: float) -> float:
        """The push on the master cylinder, servo included."""
        plain = effort * self.ratio
        full = self.limit / self.per_push[0]
        return min(plain * self.gain, plain + full * (1 - 1 / self.gain))

    def pressures(self, effort: float) -> tuple[float, float]:
        """The pressures at the front and at the rear brakes."""
        front, rear = (each * self.push(effort) for each in self.per_push)
        return front, rear if rear <= self.knee else self.knee + self.slope * (rear - self.knee)

    def bends(self) -> Iterator[float]:
        """The efforts at which a line of pressure against effort bends."""
        full = self.limit / self.per_push[0]
        if full < inf:
            yield full / self.gain / self.ratio
        if self.knee < inf:
            push = self.knee / self.per_push[1]
            helped = push / self.gain
            yield (helped if push <= full else push - full * (1 - 1 / self.gain)) / self.ratio


class Load(Struct, frozen=True):
    """How a car stands on its axles: weights in N, wheelbase and height of its centre of gravity."""

    front: float
    rear: float
    wheelbase: float
    height: float

    @property
    def weight(self) -> float:
        """The weight of the whole car."""
        return self.front + self.rear

    def axles(self, deceleration: float) -> tuple[float, float]:
        """What each axle presses on the road while the car brakes."""
        moved = self.weight * deceleration * self.height / self.wheelbase
        return self.front + moved, self.rear - moved

    def front_share(self, deceleration: float) -> float:
        """The share of the weight on the front axle: the ideal share of its brakes."""
        return self.axles(deceleration)[0] / self.weight

    @property
    def lift(self) -> float:
        """The deceleration at which the rear wheels would leave the road."""
        return self.rear * self.wheelbase / (self.weight * self.height)


class System(Struct, frozen=True):
    """All the brakes of a car, as they are or as they would be."""

    controls: Controls
    front: Brake
    rear: Brake

    def forces(self, effort: float) -> tuple[float, float]:
        """The braking forces of the front and the rear axle."""
        front, rear = self.controls.pressures(effort)
        return self.front.force(front), self.rear.force(rear)

    def effort_for(self, force: float) -> float:
        """The pedal effort at which both axles together brake with a force."""
        marks = [0.0, *sorted(self.controls.bends())]
        marks.append(marks[-1] + 1.0)
        totals = [sum(self.forces(mark)) for mark in marks]
        n = min(max(bisect_left(totals, force), 1), len(marks) - 1)
        low, high = marks[n - 1], marks[n]
        return low + (force - totals[n - 1]) * (high - low) / (totals[n] - totals[n - 1])

    def front_share(self, load: Load, deceleration: float) -> float:
        """The front axle's share of the braking at a deceleration."""
        front, rear = self.forces(self.effort_for(deceleration * load.weight))
        return front / (front + rear)

    def rear_locks_from(self, load: Load) -> float | None:
        """The deceleration from which the rear wheels lock before the front ones; None where they do
        not up to the hardest stop."""

        def margin(deceleration: float) -> float:
            return self.front_share(load, deceleration) - load.front_share(deceleration)

        steps = [n / 50 for n in range(1, 51)]
        for low, high in pairwise(steps):
            if margin(low) < 0:
                return low
            if margin(high) < 0:
                return _crossing(margin, low, high)
        return None

    def first_lock(self, load: Load, grip: float) -> tuple[str, float]:
        """The axle that locks first on a road of a grip, and the deceleration at which it does."""

        def needed(deceleration: float) -> tuple[float, float]:
            share = self.front_share(load, deceleration)
            front, rear = load.axles(deceleration)
            braked = deceleration * load.weight
            return braked * share / front, braked * (1 - share) / rear if rear > 0 else inf

        at = _crossing(lambda z: grip - max(needed(z)), grip / 1000, grip)
        front, rear = needed(at)
        return ("rear" if rear > front else "front"), at

    @property
    def travel(self) -> float:
        """Pedal travel for each unit of movement of the pads and shoes."""
        front, rear = (4 * brake.area for brake in (self.front, self.rear))
        areas = (pi / 4 * self.controls.front_bore**2, pi / 4 * self.controls.rear_bore**2)
        bar = self.controls.bar
        if bar is None:
            return self.controls.ratio * (front / areas[0] + rear / areas[1])
        return self.controls.ratio * (bar * front / areas[0] + (1 - bar) * rear / areas[1])


def _crossing(falls: Callable[[float], float], low: float, high: float) -> float:
    """Where something that is above nothing at `low` falls to nothing, by halving."""
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if falls(middle) > 0 else (low, middle)
    return low

"""What happens when a screw of one thread is turned into a hole of another.

A screw whose pitch is out acts like one with a larger effective diameter, by the error over the length
in the hole times cot(angle / 2): 1.732 of it at 60 degrees, 1.921 at 55. A flank that leans by a degree
takes up 0.0105 p (Whitworth) or 0.0115 p (60 degrees) on each side. That is how screw gauges have been
reckoned since the National Physical Laboratory's Notes on Screw Gauges. Here it tells how many turns a
screw goes before it binds.
"""

from enum import StrEnum

from msgspec import Struct

from journal.bench.base.threads import Thread

# Of the depth of thread in the hole, the least that holds: the usual advice for tapped holes is 50 to 60
# (common practice). Turns that count as a start.
LEAST_HOLD, A_START = 0.60, 1.0
# What catches so little rocks, is felt at once and tempts nobody.
_ROCKS = 0.30


class Outcome(StrEnum):
    """What happens, in the words of the bench."""

    BELONGS = "belongs there"
    PASSES = "goes in as if it belonged"
    STRIPS = "goes in and strips"
    JAMS = "starts and jams"
    BLOCKED = "does not start"
    FALLS = "falls through"


# It starts, and is wrong: the worst first.
WRONG = (Outcome.PASSES, Outcome.STRIPS, Outcome.JAMS)


class Fit(Struct, frozen=True):
    """How a screw goes into a hole.

    `overlap` is how much of the hole's depth of thread the screw reaches, `slack` the play on the
    effective diameter in mm that a loose pair of ordinary fit has, `tight` that of a close pair; below
    nothing the one would have to cut its way into the other. `turns` are those before a loose pair
    binds, absent where the pitch is the same.
    """

    screw: Thread
    hole: Thread
    overlap: float
    slack: float
    tight: float
    turns: float | None

    @property
    def drift(self) -> float:
        """By how much the pitches part in each turn, in mm."""
        return abs(float(self.screw.pitch - self.hole.pitch))

    def outcome(self, turns: float) -> Outcome:
        """What happens when it is to go in by so many turns."""
        if self.screw.same_as(self.hole):
            return Outcome.BELONGS
        if self.overlap <= 0:
            return Outcome.FALLS
        if self.slack <= 0 or (self.turns is not None and self.turns < A_START):
            return Outcome.BLOCKED
        if self.overlap < LEAST_HOLD:
            return Outcome.STRIPS
        if self.turns is not None and self.turns < turns:
            return Outcome.JAMS
        return Outcome.PASSES


def fit_of(screw: Thread, hole: Thread) -> Fit:
    """How a screw of ordinary fit goes into a hole of ordinary fit."""
    apart = float(hole.effective - screw.effective) - _flanks(screw, hole)
    tight = apart + screw.allowance
    slack = tight + screw.screw_tolerance + hole.hole_tolerance
    overlap = float((screw.diameter - hole.minor) / (hole.form.minor * hole.pitch))
    drift = abs(float(screw.pitch - hole.pitch))
    spread = (screw.form.spread + hole.form.spread) / 2
    turns = max(slack, 0.0) / (drift * spread) if drift else None
    return Fit(screw, hole, min(overlap, 1.0), slack, tight, turns)


def _flanks(screw: Thread, hole: Thread) -> float:
    """What flanks that lean differently take up of the play."""
    lean = abs(float(screw.form.angle - hole.form.angle)) / 2
    return 2 * lean * 0.011 * float(min(screw.pitch, hole.pitch))


def tempting(thread: Thread, others: tuple[Thread, ...]) -> tuple[Fit, ...]:
    """Among the others, what starts in a hole of a thread or takes a screw of it, and is wrong there.

    Turns are reckoned for a full nut. What is felt at once is left out; what is felt least comes first,
    and among the like what is nearest in size.
    """
    found: list[tuple[int, float, Fit]] = []
    for n, other in enumerate(others):
        if any(other.same_as(before) for before in others[:n]):
            continue
        for fit in (fit_of(other, thread), fit_of(thread, other)):
            outcome = fit.outcome(nut_turns(fit.hole))
            if outcome in WRONG and fit.overlap >= _ROCKS:
                found.append((WRONG.index(outcome), _apart(fit), fit))
    return tuple(fit for _, _, fit in sorted(found, key=lambda each: each[:2]))


def _apart(fit: Fit) -> float:
    """How far two threads are from each other, diameter and pitch together, as shares."""
    diameter = abs(float(fit.screw.diameter / fit.hole.diameter) - 1)
    return diameter + fit.drift / float(fit.hole.pitch)


def nut_turns(hole: Thread) -> float:
    """Turns in an ordinary full nut, 0.8 of the diameter high (common practice)."""
    return 0.8 * float(hole.diameter / hole.pitch)

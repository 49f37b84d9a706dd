"""A torque wrench with an extension or a crowfoot on its square: what it is set to.

The hand pulls square to the wrench. The fastener feels that pull at the whole arm, the wrench only at its
own length. Along the handle the adapter reaches by the cosine of its angle; square to it, by nothing.
"""

import math
from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from journal.bench.base.definition import Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Teller, Worked, answered

_TORQUES, _LENGTHS = (("Nm", 1), ("lbf ft", 1)), (("mm", 0), ("in", 2))
SETTING = Output("setting", "set the wrench to", _TORQUES, "S")
ARM = Output("arm", "arm from the hand to the fastener, along the wrench", _LENGTHS, "A")
UNSET = Output("unset", "at the fastener, were the wrench set to the torque itself", _TORQUES)
HAND = Output(
    "hand", "error at the fastener with the hand 25 mm, an inch, nearer the head", (("%", 1),)
)

# The other figures in which a torque is told, by the unit in which it was written.
_IN_UNIT = {
    "lbf in": (("Nm", 1), ("lbf in", 0)),
    "kgf m": (("kgf m", 2), ("Nm", 1)),
}
_COSINES = {
    Fraction(0): Fraction(1),
    Fraction(60): Fraction(1, 2),
    Fraction(90): Fraction(0),
    Fraction(120): Fraction(-1, 2),
    Fraction(180): Fraction(-1),
}
_TIMES = "\N{MULTIPLICATION SIGN}"
# How far the hand is moved, to tell what it does, in mm.
_NEARER = 25
# Angles of the table: how much it matters where the crowfoot points.
_ANGLES = (0, 30, 45, 60, 90, 120, 135, 150, 180)


class _Wrench(Struct, frozen=True):
    """Torque wanted in Nm, lengths in mm."""

    torque: Fraction
    length: Fraction
    adapter: Fraction

    def arm(self, angle: Fraction) -> Fraction:
        return self.length + self.adapter * _cosine(angle)

    def setting(self, angle: Fraction) -> Fraction:
        return self.torque * self.length / self.arm(angle)


def _cosine(degrees: Fraction) -> Fraction:
    """The cosine, exact where it is a simple fraction."""
    known = _COSINES.get(degrees)
    return Fraction(math.cos(math.radians(degrees))) if known is None else known


def _work(given: Given) -> Worked:
    wrench = _Wrench(
        given.one("torque").to("Nm"), given.one("length").to("mm"), given.one("adapter").to("mm")
    )
    angle = given.one("angle").to("deg")
    arm = wrench.arm(angle)
    if arm <= 0:
        raise NotWorked(
            "adapter", f"reaches back to the hand or beyond it, found {given.one('adapter').words}", "use a shorter one, or point it forward or square",
        )  # fmt: skip
    setting = wrench.setting(angle)
    right = _in_reach(given, setting)
    results = (
        answered(_told(SETTING, given), setting, given, unit="Nm"),
        answered(ARM, arm, given),
        answered(_told(UNSET, given), wrench.torque * arm / wrench.length, given, unit="Nm"),
        answered(HAND, 100 * _hand(wrench, arm), given),
    )
    return Worked(
        results,
        tuple(_steps(given, wrench, angle)),
        _verdict(given, setting, right),
        right,
        tuple(_warnings(given, wrench, arm, setting)),
        (_grid(given, wrench),),
    )


def _torques(given: Given) -> tuple[tuple[str, int], ...]:
    return _IN_UNIT.get(given.one("torque").unit, _TORQUES)


def _told(output: Output, given: Given) -> Output:
    return replace(output, units=_torques(given))


def _teller(given: Given, more: int = 0) -> Teller:
    """Tells torques that come in Nm; `more` decimals than the trade rounds to."""
    units = _torques(given)
    if units[0][0] == "Nm":
        return Teller(tuple((unit, places, places + more) for unit, places in units), given)
    return Teller((("Nm", 1, 1 + more),), given)


def _words(given: Given, torque: Fraction, more: int = 0) -> str:
    """A torque in words, in the unit in which the one wanted was written."""
    if given.one("torque").unit == "kgf m":
        return f"{Teller((('kgf m', 2, 2 + more),), given)(torque / Fraction('9.80665'))}"
    return _teller(given, more)(torque)


def _in_reach(given: Given, setting: Fraction) -> bool | None:
    if not given.has("wrench"):
        return None
    scale = given.span("wrench")
    return scale.low.to("Nm") <= setting <= scale.high.to("Nm")


def _hand(wrench: _Wrench, arm: Fraction) -> Fraction:
    """By what share the fastener gets more when the hand stands nearer the head than measured."""
    length = max(wrench.length - _NEARER, Fraction(1))
    reach = arm - wrench.length
    return (length + reach) / length * wrench.length / arm - 1


def _steps(given: Given, wrench: _Wrench, angle: Fraction) -> Iterator[str]:
    length = Teller((("mm", 0, 1), ("in", 0, 3)), given)
    told = given.one("angle").words.replace(" deg", "\N{DEGREE SIGN}")
    by = f" {_TIMES} cos {told}" if angle else ""
    back = _cosine(angle) < 0
    yield (
        f"arm: {length.number(wrench.length)} + {length.number(wrench.adapter)}{by} = {length(wrench.arm(angle))}"
        + (", since it points back" if back else "")
    )
    yield (
        f"set to: {given.one('torque').words} {_TIMES} {length.number(wrench.length)} / {length.number(wrench.arm(angle))} = "
        f"{_words(given, wrench.setting(angle), 2)}"
    )


def _verdict(given: Given, setting: Fraction, right: bool | None) -> str:
    told = f"Set the wrench to {_words(given, setting)} for {given.one('torque').words} at the fastener"
    if right is False:
        return f"{told}; its scale of {given.span('wrench').words} does not reach that: take another wrench, or the adapter at another angle."
    return f"{told}."


def _warnings(given: Given, wrench: _Wrench, arm: Fraction, setting: Fraction) -> Iterator[str]:
    if arm == wrench.length and wrench.adapter:
        yield "Square to the wrench the setting is the torque itself, but only there: the table tells how much an angle that is not square is out."
    if 2 * arm < wrench.length:
        yield "The adapter points so far back that a little more or less of it changes the torque a good deal: find another way in if there is one."
    if given.has("wrench") and _in_reach(given, setting):
        top = given.span("wrench").high.to("Nm")
        if 5 * setting < top:
            yield "That is below a fifth of the scale, where a wrench is least true (common practice): take a smaller one."


def _grid(given: Given, wrench: _Wrench) -> Grid:
    rows = []
    for degrees in _ANGLES:
        angle = Fraction(degrees)
        told = (
            (_words(given, wrench.setting(angle)), _words(given, wrench.torque * wrench.arm(angle) / wrench.length))
            if wrench.arm(angle) > 0
            else ("not that way", "none")
        )  # fmt: skip
        rows.append((f"{degrees}\N{DEGREE SIGN}", *told))
    return Grid(
        "Where the adapter points",
        (
            "Angle to straight ahead",
            "Set the wrench to",
            "Fastener gets, were it set to the torque itself",
        ),
        tuple(rows),
    )


TORQUE_ADAPTER = Sum(
    name="torque-adapter",
    title="Torque wrench with an extension or crowfoot",
    job=Job.FASTENERS,
    asks="What is the wrench set to, so that the fastener gets its torque through an adapter?",
    inputs=(
        Input("torque", "torque that the fastener is to get", "torque", symbol="T", least="0.1 Nm", most="3000 Nm"),
        Input("length", "length of the wrench from its square to the middle of the hand", "length", symbol="L", least="50 mm", most="2 m"),
        Input("adapter", "from the square of the wrench to the middle of the fastener", "length", symbol="E", least="0 mm", most="1 m"),
        Input("angle", "where the adapter points: 0 deg straight ahead, 90 deg square to the wrench, 180 deg back over the handle", "angle", symbol="a", default="0 deg", least="0 deg", most="180 deg"),
        Input("wrench", "scale of the wrench", "torque", Takes.RANGE, optional=True, least="0.1 Nm", most="5000 Nm"),
    ),
    outputs=(SETTING, ARM, UNSET, HAND),
    in_words=(
        "The wrench is set to the torque wanted, times its own length, over the arm to the fastener. The arm is its length and what the "
        "adapter reaches along it: all of it straight ahead, none of it at a right angle, and less than nothing when it points back."
    ),
    formula=("A = L + E cos a", "S = T L / A"),
    limits=(
        "The hand pulls in the middle of its grip and square to the wrench; with an adapter the place of the hand counts.",
        "An extension along the axis of the fastener, such as a socket bar, needs no correction.",
        "The handle of the wrench is never lengthened, and an adapter that bends or slips tells nothing.",
        "Friction drag of a self-locking nut is measured and added, where the maker says so.",
    ),
    caution=(
        "Brakes, steering, wheels and what holds an engine together are tightened by the maker's manual, with the threads as it has them, dry "
        "or oiled, and checked by a qualified person; where the manual gives a figure for its own adapter that one holds."
    ),
    sources=(
        "US Army TM 1-1500-204-23-9, torque wrench extension; TM 9-254, figures 45 and 46.",
        "US Navy NAVEDTRA 14315, figure 3-45.",
        "FAA AC 43.13-1B, paragraph 7-40: an extension is to be reckoned with.",
    ),
    example=(
        ("torque", "45 lbf ft"), ("length", "16 in"), ("adapter", "2 in"), ("angle", "45 deg"), ("wrench", "10..80 lbf ft"),
    ),
    work=_work,
)  # fmt: skip

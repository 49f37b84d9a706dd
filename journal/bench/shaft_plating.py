"""Plating of shafts and bores: the size before it, and the size as it leaves the bath where it is ground after.

On a diameter plating counts twice. What is plated to size must come right by plating alone, thin or thick;
what is ground afterwards comes right by the wheel, and must keep its plating between two thicknesses.
"""

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import WORD, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Output, Result, Teller, Worked, answered

_SIZES, _THIN = (("mm", 3), ("in", 4)), (("mm", 3), ("thou", 1))
BEFORE_LEAST = Output("before-least", "diameter before plating, smallest", _SIZES)
BEFORE_MOST = Output("before-most", "diameter before plating, largest", _SIZES)
BATH = Output("bath", "diameter in the bath that leaves enough for grinding", _SIZES)
LAYER = Output("layer", "thickest that the layer then is, on each side", _THIN)
NEEDED = Output("needed", "plating that the worst place of these parts needs, on each side", _THIN)

_MINUS, _TIMES = "\N{MINUS SIGN}", "\N{MULTIPLICATION SIGN}"


class _Coat(Struct, frozen=True):
    """Limits of the finished diameter and of the plating left on each side, in mm.

    A bore is reckoned as a shaft of a diameter below nothing, so that one rule holds for both.
    """

    low: Fraction
    high: Fraction
    least: Fraction
    most: Fraction
    grind: Fraction
    bore: bool

    @property
    def _ends(self) -> tuple[Fraction, Fraction]:
        return (-self.high, -self.low) if self.bore else (self.low, self.high)

    @property
    def before(self) -> tuple[Fraction, Fraction]:
        """The limits before plating; the first is larger than the second where nothing can do it."""
        low, high = self._ends
        if self.grind:
            ends = (high - 2 * self.most, low - 2 * self.least)
        else:
            ends = (low - 2 * self.least, high - 2 * self.most)
        return (-ends[1], -ends[0]) if self.bore else ends

    @property
    def bath(self) -> Fraction:
        """The diameter in the bath that leaves the wheel its share all round."""
        bath = self._ends[1] + 2 * self.grind
        return -bath if self.bore else bath

    def needed(self, diameter: Fraction) -> Fraction:
        """What must be left on each side of a part of this diameter, at the most."""
        worn = -diameter if self.bore else diameter
        return (self._ends[1] - worn) / 2


def _work(given: Given) -> Worked:
    coat = _coat(given)
    low, high = coat.before
    if min(low, high) <= 0:
        raise NotWorked("thickness", "is more than the diameter can hold", "read both again")
    possible = low <= high
    results: list[Result] = []
    if possible:
        results += [answered(BEFORE_LEAST, low, given), answered(BEFORE_MOST, high, given)]
    if coat.grind and possible:
        results.append(answered(BATH, coat.bath, given))
        thickest = abs(coat.bath - (high if coat.bore else low)) / 2
        results.append(answered(LAYER, thickest, given))
    remedy, right = _remedy(given, coat)
    if given.has("now"):
        results.append(answered(NEEDED, coat.needed(_worst(given, coat)), given))
    return Worked(
        tuple(results),
        tuple(_steps(given, coat)),
        f"{remedy[:1].upper()}{remedy[1:]}.",
        right,
        tuple(_warnings(given, coat)),
    )


def _coat(given: Given) -> _Coat:
    finished, thickness = given.span("finished"), given.span("thickness")
    return _Coat(
        finished.low.to("mm"), finished.high.to("mm"), thickness.low.to("mm"), thickness.high.to("mm"),
        given.one("grind").to("mm"), given.word("part") == "bore",
    )  # fmt: skip


def _worst(given: Given, coat: _Coat) -> Fraction:
    """The reading that is worn most."""
    read = [reading.to("mm") for reading in given.readings("now")]
    return max(read) if coat.bore else min(read)


def _proud(given: Given, coat: _Coat) -> Fraction:
    """The reading that is worn least."""
    read = [reading.to("mm") for reading in given.readings("now")]
    return min(read) if coat.bore else max(read)


def _size(given: Given) -> Teller:
    return Teller((("mm", 3, 4), ("in", 4, 5)), given)


def _thin(given: Given) -> Teller:
    return Teller((("mm", 2, 4), ("thou", 0, 2)), given)


def _remedy(given: Given, coat: _Coat) -> tuple[str, bool | None]:
    """What to do in words, and whether the parts that were measured can be plated so."""
    low, high = coat.before
    size = _size(given)
    if low > high:
        return (
            "the limits are too close for plating that differs so much: have it plated over size and ground",
            False,
        )
    span = f"to {size(low)}" if low == high else f"to between {size.number(low)} and {size(high)}"
    ground = f"plate to {size(coat.bath)} at least, and grind to size"
    if not given.has("now"):
        return f"machine {span} before plating" + (f"; {ground}" if coat.grind else ""), None
    worst, proud = _worst(given, coat), _proud(given, coat)
    if (worst > high) if coat.bore else (worst < low):
        return (
            f"worn too far: the worst place is {size(worst)}, beyond {size(high if coat.bore else low)}; sleeve it, build it up "
            "otherwise or renew it",
            False,
        )
    if (proud < low) if coat.bore else (proud > high):
        verb = "bore or hone" if coat.bore else "grind"
        return f"{verb} it true first, {span}; {ground if coat.grind else 'then plate'}", True
    return ground if coat.grind else "plate it as it is", True


def _steps(given: Given, coat: _Coat) -> Iterator[str]:
    size, thin = _size(given), _thin(given)
    low, high = coat.before
    sign = "+" if coat.bore else _MINUS
    ends = [(coat.low, coat.least), (coat.high, coat.most)]
    if coat.grind:
        ends = [(coat.high, coat.most), (coat.low, coat.least)]
    if coat.bore:
        # Each end of a bore comes from the other thickness than that of a shaft.
        ends = (
            [(coat.high, coat.least), (coat.low, coat.most)]
            if coat.grind
            else [(coat.low, coat.most), (coat.high, coat.least)]
        )
    for word, (end, thickness), found in zip(
        ("smallest", "largest"), ends, (low, high), strict=True
    ):
        yield f"before plating, {word}: {size.number(end)} {sign} 2 {_TIMES} {size.number(thickness)} = {size(found)}"
    if coat.grind:
        way = _MINUS if coat.bore else "+"
        yield f"in the bath: {size.number(coat.low if coat.bore else coat.high)} {way} 2 {_TIMES} {size.number(coat.grind)} = {size(coat.bath)}"
    if given.has("now"):
        worst = _worst(given, coat)
        first, last = (worst, coat.low) if coat.bore else (coat.high, worst)
        yield f"worst place: ({size.number(first)} {_MINUS} {size.number(last)}) / 2 = {thin(coat.needed(worst))}"


def _warnings(given: Given, coat: _Coat) -> Iterator[str]:
    thin = _thin(given)
    if coat.most > Fraction("0.25"):
        yield (
            f"A layer of {thin(coat.most)} is thick for hard chrome, which is brittle; platers build worn parts up with nickel under the "
            "chrome (common practice): ask yours."
        )
    if not coat.grind:
        yield "Plated to size: edges and ends come out thicker than the middle, so say where it must be right, and what is to be masked."


SHAFT_PLATING = Sum(
    name="shaft-plating",
    title="Plating allowance of shafts and bores",
    job=Job.PLATING,
    asks="To what size is a shaft or a bore machined before it is plated, and can a worn one be brought back?",
    inputs=(
        Input("finished", "diameter when all is done, smallest and largest", "length", Takes.RANGE, "D", least="1 mm", most="500 mm"),
        Input("thickness", "plating that is to be left on each side, least to most", "length", Takes.RANGE, "t", least="0.1 micron", most="2 mm"),
        Input("part", "what is plated", WORD, default="shaft", choices=(("shaft", "an outside diameter, which grows"), ("bore", "an inside diameter, which closes"))),
        Input("grind", "how much more is plated on each side to be ground off again", "length", symbol="g", default="0 mm", least="0 mm", most="1 mm"),
        Input("now", "diameter of the part as it is, best at several places", "length", Takes.READINGS, "d", optional=True, least="1 mm", most="500 mm"),
    ),
    outputs=(BEFORE_LEAST, BEFORE_MOST, BATH, LAYER, NEEDED),
    in_words=(
        "Plating counts twice on a diameter. Plated to size, a shaft is made smaller than its smallest limit by twice the least plating, and "
        "than its largest by twice the most, so that it comes right with either. Ground after plating it may be smaller than its largest "
        "limit by twice the most, and must be smaller than its smallest by twice the least. A bore is the other way round."
    ),
    formula=(
        "plated to size: smallest D \N{MINUS SIGN} 2 least t, to largest D \N{MINUS SIGN} 2 most t",
        "ground after: largest D \N{MINUS SIGN} 2 most t, to smallest D \N{MINUS SIGN} 2 least t; in the bath largest D + 2 g",
        "worst place: (largest D \N{MINUS SIGN} smallest d) / 2",
    ),
    limits=(
        "Thickness is that on each side; a drawing may mean the diameter: ask which.",
        "Plating copies what is under it: scores, rust pits and an oval stay, and are ground out first.",
        "Corners, grooves, keyways and the ends of threads get too much or nothing; they are rounded or masked.",
        "Seals and bearings want the surface finish that their maker gives, after plating.",
    ),
    caution=(
        "Grinding cracks and the bath can weaken a shaft that carries load: steering, suspension, brake and axle parts are plated only where the "
        "maker allows it, crack tested before and baked after, by a qualified plater."
    ),
    sources=(
        "STERC, ask the expert, October 2008: 0.004 in on the diameter is 0.002 in on each side; over-plated 0.001 to 0.003 in a side and ground.",
        "finishing.com, topic 401/36: 166.5 to 168 mm by 0.75 mm on each side.",
        "Geometry: two sides make a diameter.",
    ),
    example=(
        ("finished", "24.987..25.000 mm"), ("thickness", "0.05..0.15 mm"), ("grind", "0.05 mm"), ("now", "24.93, 24.86, 24.94 mm"),
    ),
    work=_work,
)  # fmt: skip

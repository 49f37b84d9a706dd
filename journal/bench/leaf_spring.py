"""A leaf spring by its measurements: rate, stress, camber, and how thick a leaf must be for another rate.

Leaves of full length work as beams of one width, the graduated ones as one beam that tapers to a point.
"""

from collections.abc import Iterator
from fractions import Fraction
from math import cbrt

from msgspec import Struct

from journal.bench.base.definition import WORD, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number

_LENGTHS, _RATES, _FORCES = (("mm", 1), ("in", 2)), (("N/mm", 1), ("lbf/in", 0)), (("N", 0), ("lbf", 0))  # fmt: skip
_THICK = (("mm", 2), ("in", 3))
RATE = Output("rate", "rate of the spring", _RATES, "k")
BENDS = Output("bends", "it gives way under the load by", _LENGTHS)
CAMBER = Output("camber", "camber left under the load", _LENGTHS)
STRESS = Output("stress", "greatest stress in a leaf", (("MPa", 0), ("psi", 0)))
EACH = Output("each", "every leaf for the rate wanted", _THICK, "t")
MORE = Output("more", "one more leaf for the rate wanted", _THICK)

# Young's modulus of spring steel in MPa (textbooks use 200,000 to 210,000), and the stress at which
# old road springs settle (common practice, no source).
_STEEL, _MUCH = 206_000, 700
# How much of the length between the U-bolts is stiff: all under a band, two thirds under U-bolts
# (Khurmi and Gupta, from memory).
_STIFF = {"band": Fraction(1), "bolts": Fraction(2, 3)}


class _Spring(Struct, frozen=True):
    """Leaves in mm, those of full length first; `arm` is half the length that works."""

    full: tuple[Fraction, ...]
    graduated: tuple[Fraction, ...]
    width: Fraction
    arm: Fraction
    modulus: Fraction

    @property
    def unit(self) -> Fraction:
        """The rate for each mm3 of thickness cubed that counts."""
        return self.modulus * self.width / (6 * self.arm**3)

    @property
    def rate(self) -> Fraction:
        """The load at the middle for each mm."""
        return self.unit * (3 * _cubes(self.full) + 2 * _cubes(self.graduated))

    def stress(self, bends: Fraction) -> Fraction:
        """The greatest stress of any leaf when the spring has given way by so much."""
        parts = [Fraction(3, 2) * leaf for leaf in self.full] + list(self.graduated)
        return self.modulus * bends * max(parts) / self.arm**2

    def each_for(self, rate: Fraction) -> float:
        """The thickness of all leaves, alike, for a rate."""
        return cbrt(rate / self.unit / (3 * len(self.full) + 2 * len(self.graduated)))

    def more_for(self, rate: Fraction) -> float:
        """The thickness of one more graduated leaf for a rate, or nothing where none is needed."""
        return cbrt(max(rate - self.rate, Fraction(0)) / self.unit / 2)


def _cubes(leaves: tuple[Fraction, ...]) -> Fraction:
    return sum((leaf**3 for leaf in leaves), Fraction(0))


def _work(given: Given) -> Worked:
    spring = _spring(given)
    load = given.one("load").to("N") if given.has("load") else None
    return Worked(
        tuple(_results(given, spring, load)),
        tuple(_steps(given, spring, load)),
        _verdict(given, spring, load),
        None,
        tuple(_warnings(given, spring, load)),
    )


def _spring(given: Given) -> _Spring:
    thick = [leaf.to("mm") for leaf in given.readings("thickness")]
    count, full = int(given.number("leaves")), int(given.number("full"))
    if len(thick) not in (1, count):
        raise NotWorked("thickness", f"must be one for all, or one for each of {count} leaves, found {len(thick)}", "write them from the main leaf down")  # fmt: skip
    if full > count:
        raise NotWorked("full", f"must be no more than all {count} leaves", "count those that reach both eyes")  # fmt: skip
    leaves = tuple(thick * count if len(thick) == 1 else thick)
    works = given.one("length").to("mm") - _STIFF[given.word("clamp")] * given.one("clamped").to("mm")  # fmt: skip
    if works <= given.one("length").to("mm") / 2:
        raise NotWorked("clamped", "leaves less than half of the length to work", "measure between the U-bolts only")  # fmt: skip
    modulus = given.one("modulus").to("MPa")
    return _Spring(leaves[:full], leaves[full:], given.one("width").to("mm"), works / 2, modulus)


def _results(given: Given, spring: _Spring, load: Fraction | None) -> Iterator[Result]:
    yield answered(RATE, spring.rate, given)
    if load is not None:
        yield answered(BENDS, load / spring.rate, given)
        yield answered(STRESS, spring.stress(load / spring.rate), given)
        if given.has("camber"):
            yield answered(CAMBER, given.one("camber").to("mm") - load / spring.rate, given)
    if given.has("wanted"):
        wanted = given.one("wanted").to("N/mm")
        yield answered(EACH, spring.each_for(wanted), given)
        if wanted > spring.rate:
            yield answered(MORE, spring.more_for(wanted), given)


def _tellers(given: Given) -> tuple[Teller, Teller, Teller]:
    return (
        Teller((("mm", 0, 2), ("in", 2, 3)), given),
        Teller((("N", 0, 0), ("lbf", 0, 0)), given),
        Teller((("N/mm", 1, 1), ("lbf/in", 0, 0)), given),
    )


def _steps(given: Given, spring: _Spring, load: Fraction | None) -> Iterator[str]:
    mm, force, rate = _tellers(given)
    minus, times, cubed = " \N{MINUS SIGN} ", " \N{MULTIPLICATION SIGN} ", "\N{SUPERSCRIPT THREE}"
    clamped = given.one("clamped").to("mm")
    part = "" if given.word("clamp") == "band" else f"2/3{times}"
    stiff = f"{minus}{part}{mm.number(clamped)}" if clamped else ""
    yield f"arm: ({mm.number(given.one('length').to('mm'))}{stiff}) / 2 = {mm(spring.arm)}"
    yield f"leaves: 3{times}{_plain(_cubes(spring.full))} + 2{times}{_plain(_cubes(spring.graduated))} mm{cubed}, thickness cubed of {len(spring.full)} full and {len(spring.graduated)} graduated"
    yield (
        f"rate: {fixed_number(spring.modulus, 0)} MPa{times}{_plain(spring.width)}{times}{_plain(3 * _cubes(spring.full) + 2 * _cubes(spring.graduated))} "
        f"/ (6{times}{_plain(spring.arm)}{cubed}) = {rate(spring.rate)}"
    )
    if load is not None:
        yield f"under the load: {force(load)} / {rate(spring.rate)} = {mm(load / spring.rate)}"
    if given.has("wanted") and given.one("wanted").to("N/mm") > spring.rate:
        wanted = given.one("wanted").to("N/mm")
        yield f"one more leaf: from {rate(spring.rate)} to {rate(wanted)} by 2 t{cubed} = {_plain((wanted - spring.rate) / spring.unit)} mm{cubed}, t = {mm(spring.more_for(wanted))}"


def _plain(number: Fraction) -> str:
    return fixed_number(number, 1).removesuffix(".0")


def _verdict(given: Given, spring: _Spring, load: Fraction | None) -> str:
    mm, force, rate = (
        Teller((("mm", 0, 1), ("in", 2, 2)), given),
        Teller((("N", 0, 0), ("lbf", 0, 0)), given),
        Teller((("N/mm", 1, 1), ("lbf/in", 0, 0)), given),
    )
    told = f"The spring has a rate of {rate(spring.rate)}"
    if load is not None:
        told += f" and gives way {mm(load / spring.rate)} under {force(load)}"
    if not given.has("wanted"):
        return f"{told}."
    wanted = given.one("wanted").to("N/mm")
    thick = Teller((("mm", 2, 2), ("in", 3, 3)), given)
    if wanted > spring.rate:
        return f"{told}. For {rate(wanted)} one more graduated leaf of {thick(spring.more_for(wanted))} does it, or every leaf of {thick(spring.each_for(wanted))}."
    return f"{told}. For {rate(wanted)} every leaf is {thick(spring.each_for(wanted))}, or a leaf comes out."


def _warnings(given: Given, spring: _Spring, load: Fraction | None) -> Iterator[str]:
    if load is not None and spring.stress(load / spring.rate) > _MUCH:
        yield f"The stress at that load is more than {_MUCH} MPa, at which road springs settle: ask the maker of the spring."
    if load is not None and given.has("camber") and given.one("camber").to("mm") < load / spring.rate:  # fmt: skip
        yield "Under that load the spring stands hollow: it has settled, or it was made for less."


LEAF_SPRING = Sum(
    name="leaf-spring",
    title="Leaf spring: rate, stress and thickness of leaves",
    job=Job.SPRINGS,
    asks="What is the rate of this leaf spring, and how thick must a leaf be for another?",
    inputs=(
        Input("length", "from eye to eye along the main leaf, laid flat", "length", symbol="2L", least="200 mm", most="2500 mm"),
        Input("width", "width of the leaves", "length", symbol="b", least="20 mm", most="150 mm"),
        Input("leaves", "number of leaves", "count", least="1", most="25"),
        Input("full", "of these, those that reach both eyes; 0 takes all as graduated", "count", default="1", least="0", most="10"),
        Input("thickness", "thickness of all leaves, or of each from the main leaf down", "length", Takes.READINGS, symbol="t", least="2 mm", most="25 mm"),
        Input("clamped", "length between the U-bolts", "length", default="0 mm", least="0 mm", most="400 mm"),
        Input("clamp", "what holds the middle", WORD, default="bolts", choices=(("bolts", "U-bolts: two thirds of that length are stiff"), ("band", "a band or plate: all of it is stiff"))),
        Input("load", "load on the spring at its middle", "force", symbol="F", optional=True, least="1 N", most="50000 N"),
        Input("camber", "height of the arch without load", "length", optional=True, least="0 mm", most="500 mm"),
        Input("wanted", "rate that is wanted instead", "rate", optional=True, least="1 N/mm", most="500 N/mm"),
        Input("modulus", "Young's modulus of the steel", "pressure", symbol="E", default=f"{_STEEL} MPa", least="150000 MPa", most="230000 MPa"),
    ),
    outputs=(RATE, BENDS, STRESS, CAMBER, EACH, MORE),
    in_words=(
        "Each leaf counts by its thickness cubed: a leaf of full length three times, a graduated one twice. Their sum times modulus and width, over six times "
        "the arm cubed, is the rate. A tenth more of thickness is a third more of rate."
    ),
    formula=(
        "k = E b (3 \N{N-ARY SUMMATION} t\N{SUPERSCRIPT THREE} full + 2 \N{N-ARY SUMMATION} t\N{SUPERSCRIPT THREE} graduated) / (6 L\N{SUPERSCRIPT THREE})",
        "bends = F / k",
        "stress = E t bends / L\N{SUPERSCRIPT TWO} in a graduated leaf, 1.5 times that in a full one",
    ),
    limits=(
        "Arms of equal length, leaves that lie together and slide; friction of dry leaves stiffens small movements a good deal.",
        "Nip, the different arch of leaves before they are drawn together, shifts stress from the main leaf to the others; it is left out.",
        "Measure thickness on clean metal away from the wear at the tips; a spring press tells the true rate (spring-test).",
    ),
    caution=(
        "A leaf pack under tension flies apart when its centre bolt is drawn: hold it with clamps, the maker's method, and stand clear. Re-arching and heat "
        "treatment are for a spring maker. A suspension that was altered is to be checked by a qualified person to the maker's manual before the car is used."
    ),
    sources=(
        "R. S. Khurmi and J. K. Gupta, Machine Design, leaf springs: \N{GREEK SMALL LETTER DELTA} = 12 W L\N{SUPERSCRIPT THREE} / (E b t\N{SUPERSCRIPT THREE} (2 n G + 3 n F)), stress 18 W L / (b t\N{SUPERSCRIPT TWO} (2 n G + 3 n F)) (cited from memory).",
        "Leaf spring stiffness, semi-elliptic laminated (piping-designer.com): k = 8 E n w t\N{SUPERSCRIPT THREE} / (3 l\N{SUPERSCRIPT THREE}), for graduated leaves alone.",
        "SAE HS-788, Manual on Design and Application of Leaf Springs, for what is left out here.",
    ),
    example=(
        ("length", "1120 mm"), ("width", "45 mm"), ("leaves", "7"), ("full", "1"), ("thickness", "6 mm"), ("clamped", "90 mm"),
        ("load", "2600 N"), ("camber", "130 mm"), ("wanted", "26 N/mm"),
    ),
    work=_work,
)  # fmt: skip

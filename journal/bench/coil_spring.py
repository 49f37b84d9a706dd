"""A coil spring by its measurements: its rate, and what it does at its load."""

from collections.abc import Iterator
from fractions import Fraction
from math import pi

from journal.bench.base.definition import WORD, Input, Job, Sum
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number

_LENGTHS, _RATES, _FORCES = (("mm", 1), ("in", 2)), (("N/mm", 1), ("lbf/in", 0)), (("N", 0), ("lbf", 0))  # fmt: skip
RATE = Output("rate", "rate of the spring", _RATES, "k")
MEAN = Output("mean", "diameter to the middle of the wire", _LENGTHS, "D")
INDEX = Output("index", "that diameter over the wire", (("", 1),), "C")
SOLID = Output("solid", "length with every coil closed", _LENGTHS)
LOAD = Output("load", "load at the fitted length", _FORCES, "F")
FITTED = Output("loaded", "length under the load", _LENGTHS)
LEFT = Output("left", "travel left before the coils close", _LENGTHS)
STRESS = Output("stress", "greatest stress in the wire", (("MPa", 0), ("psi", 0)))

# Shear moduli in MPa of EN 13906-1 (hot-rolled spring steel, cold-drawn wire), from memory; a maker
# of springs prints the first one (atspere.lv).
_MODULI = {"hot-coiled": 78500, "cold-drawn": 81500}
# Coils at the ends that do not work (EN 13906-1 and Shigley, from memory).
_DEAD = {"closed": Fraction(2), "one-closed": Fraction(1), "open": Fraction(0)}
# Stress at which old suspension springs settle. Common practice, no source.
_MUCH = 700


def _work(given: Given) -> Worked:
    wire, outside = given.one("wire").to("mm"), given.one("outside").to("mm")
    mean = outside - wire
    if mean < 3 * wire:
        raise NotWorked("wire", "is too thick for such a spring", "write the diameter over the coils as outside, and that of the wire as wire")  # fmt: skip
    coils = given.number("coils") - _DEAD[given.word("ends")]
    if coils <= 0:
        raise NotWorked("coils", "must be more than those of the ends that do not work", "count all coils from end to end")  # fmt: skip
    modulus = given.one("modulus").to("MPa") if given.has("modulus") else Fraction(_MODULI[given.word("wound")])  # fmt: skip
    rate = modulus * wire**4 / (8 * mean**3 * coils)
    solid = _solid(given, wire)
    load, fitted = _loaded(given, rate)
    results = [answered(RATE, rate, given), answered(MEAN, mean, given), answered(INDEX, mean / wire, given), answered(SOLID, solid, given)]  # fmt: skip
    results += _under_load(given, load, fitted, solid, wire, mean)
    return Worked(
        tuple(results),
        tuple(_steps(given, wire, mean, coils, modulus, rate, load, fitted)),
        _verdict(given, rate, load, fitted, solid),
        None if fitted is None else fitted > solid,
        tuple(_warnings(given, load, fitted, solid, wire, mean)),
    )


def _solid(given: Given, wire: Fraction) -> Fraction:
    """Ends that are ground take half a wire each from the height of the coils."""
    return (given.number("coils") + (0 if given.word("ground") == "yes" else 1)) * wire


def _loaded(given: Given, rate: Fraction) -> tuple[Fraction | None, Fraction | None]:
    """The load in N and the length under it in mm, as far as they follow from what is given."""
    if given.has("fitted") and given.has("load"):
        raise NotWorked("fitted", "is told and load too", "write one of them; the other follows")
    if not given.has("free"):
        if given.has("fitted"):
            raise NotWorked("free", "is not told", "measure the spring off the car, or leave fitted out")  # fmt: skip
        return (given.one("load").to("N") if given.has("load") else None), None
    free = given.one("free").to("mm")
    if given.has("fitted"):
        fitted = given.one("fitted").to("mm")
        if fitted >= free:
            raise NotWorked("fitted", "must be shorter than free", "measure both again")
        return rate * (free - fitted), fitted
    if given.has("load"):
        load = given.one("load").to("N")
        return load, free - load / rate
    return None, None


def _stress(load: Fraction, wire: Fraction, mean: Fraction) -> float:
    """Shear stress at the inside of the coil, by Wahl."""
    index = float(mean / wire)
    factor = (4 * index - 1) / (4 * index - 4) + 0.615 / index
    return factor * 8 * float(load * mean) / (pi * float(wire) ** 3)


def _under_load(given: Given, load: Fraction | None, fitted: Fraction | None, solid: Fraction, wire: Fraction, mean: Fraction) -> Iterator[Result]:  # fmt: skip
    if load is not None:
        yield answered(LOAD, load, given)
        yield answered(STRESS, _stress(load, wire, mean), given)
    if fitted is not None:
        yield answered(FITTED, fitted, given)
        yield answered(LEFT, fitted - solid, given)


def _steps(given: Given, wire: Fraction, mean: Fraction, coils: Fraction, modulus: Fraction, rate: Fraction, load: Fraction | None, fitted: Fraction | None) -> Iterator[str]:  # fmt: skip
    mm, force, told = (
        Teller((("mm", 0, 2), ("in", 2, 3)), given),
        Teller((("N", 0, 0), ("lbf", 0, 0)), given),
        Teller((("N/mm", 1, 2), ("lbf/in", 0, 1)), given),
    )
    minus, times = " \N{MINUS SIGN} ", " \N{MULTIPLICATION SIGN} "
    yield f"mean diameter: {mm.number(given.one('outside').to('mm'))}{minus}{mm.number(wire)} = {mm(mean)}"
    yield f"coils that work: {given.one('coils').words}{minus}{fixed_number(_DEAD[given.word('ends')], 0)} = {fixed_number(coils, 2)}"
    yield (
        f"rate: {fixed_number(modulus, 0)} MPa{times}{_mm(wire)}\N{SUPERSCRIPT FOUR} / (8{times}{_mm(mean)}\N{SUPERSCRIPT THREE}{times}{fixed_number(coils, 2)}) "
        f"= {fixed_number(rate, 2)} N/mm"
        + ("" if told(rate).endswith("N/mm") else f" = {told(rate)}")
    )
    if load is not None and fitted is not None:
        yield f"at the load: {mm(given.one('free').to('mm'))}{minus}{force(load)} / {told(rate)} = {mm(fitted)}"


def _mm(length: Fraction) -> str:
    return fixed_number(length, 2)


def _verdict(given: Given, rate: Fraction, load: Fraction | None, fitted: Fraction | None, solid: Fraction) -> str:  # fmt: skip
    told = Teller((("N/mm", 1, 1), ("lbf/in", 0, 0)), given)
    mm, force = Teller((("mm", 0, 0), ("in", 2, 2)), given), Teller((("N", 0, 0), ("lbf", 0, 0)), given)  # fmt: skip
    if fitted is None or load is None:
        return f"The spring has a rate of {told(rate)}."
    if fitted <= solid:
        return f"The spring has a rate of {told(rate)} and is closed solid before it carries {force(load)}."
    return f"The spring has a rate of {told(rate)}; at {mm(fitted)} it carries {force(load)}, and {mm(fitted - solid)} are left before its coils close."


def _warnings(given: Given, load: Fraction | None, fitted: Fraction | None, solid: Fraction, wire: Fraction, mean: Fraction) -> Iterator[str]:  # fmt: skip
    if load is not None and _stress(load, wire, mean) > _MUCH:
        yield f"The stress at that load is more than {_MUCH} MPa, at which suspension springs settle: ask the maker of the spring."
    if given.has("free") and given.one("free").to("mm") <= solid:
        yield "The free length is no more than that of the closed coils: see what was measured."


COIL_SPRING = Sum(
    name="coil-spring",
    title="Coil spring: rate from wire, diameter and coils",
    job=Job.SPRINGS,
    asks="What is the rate of this coil spring, and what does it carry at its fitted length?",
    inputs=(
        Input("wire", "diameter of the wire, on bare metal", "length", symbol="d", least="0.5 mm", most="40 mm"),
        Input("outside", "diameter over the coils", "length", least="3 mm", most="400 mm"),
        Input("coils", "all coils from end to end, in quarters", "number", least="1.5", most="40"),
        Input(
            "ends", "how the ends are made", WORD, default="closed",
            choices=(("closed", "both lie close: a coil at each end does not work"), ("one-closed", "one end lies close"), ("open", "all coils work")),
        ),
        Input("ground", "whether the ends are ground flat", WORD, default="yes", choices=(("yes", "flat"), ("no", "as they were cut"))),
        Input("wound", "how the spring was made, for the modulus of its steel", WORD, default="hot-coiled", choices=(("hot-coiled", "from bar, as suspension springs: 78,500 MPa"), ("cold-drawn", "from wire, as valve springs: 81,500 MPa"))),
        Input("modulus", "shear modulus of the steel, where it is known", "pressure", symbol="G", optional=True, least="30000 MPa", most="90000 MPa"),
        Input("free", "length off the car", "length", optional=True, least="5 mm", most="1000 mm"),
        Input("fitted", "length in the car", "length", optional=True, least="5 mm", most="1000 mm"),
        Input("load", "load on the spring, where the fitted length is wanted", "force", optional=True, least="1 N", most="50000 N"),
    ),
    outputs=(RATE, MEAN, INDEX, SOLID, LOAD, STRESS, FITTED, LEFT),
    in_words=(
        "The rate is the modulus times the wire to the fourth, over eight times the mean diameter cubed times the coils that work. "
        "A hundredth more of wire is four hundredths more of rate, so the wire is measured with a micrometer on bare metal."
    ),
    formula=(
        "D = outside \N{MINUS SIGN} d",
        "k = G d\N{SUPERSCRIPT FOUR} / (8 D\N{SUPERSCRIPT THREE} n)",
        "stress = ((4C \N{MINUS SIGN} 1) / (4C \N{MINUS SIGN} 4) + 0.615 / C) \N{MULTIPLICATION SIGN} 8 F D / (\N{GREEK SMALL LETTER PI} d\N{SUPERSCRIPT THREE})",
    ),
    limits=(
        "Round wire, one pitch, one diameter: barrel, taper and progressive springs only while no coil has closed.",
        "Coils that work are guessed from the ends; a spring press tells the true rate (spring-test).",
        "Rust pits and sag do not show in the rate; they show in the free length and under the loupe.",
    ),
    caution=(
        "A loaded road spring stores enough force to kill: use the maker's compressor or method and keep out of its path. Springs are changed in pairs, "
        "and a suspension that was altered is to be checked by a qualified person to the maker's manual and local rules before the car is used."
    ),
    sources=(
        "EN 13906-1, compression springs of round wire: rate, and stress with the factor of Wahl (cited from memory).",
        "Spring calculation of a spring maker (atspere.lv): c = G d\N{SUPERSCRIPT FOUR} / (8 D\N{SUPERSCRIPT THREE} n), G 78,500 MPa.",
        "J. E. Shigley, Mechanical Engineering Design, helical springs (cited from memory).",
    ),
    example=(
        ("wire", "12.7 mm"), ("outside", "114.3 mm"), ("coils", "8.5"), ("free", "330 mm"), ("fitted", "216 mm"),
    ),
    work=_work,
)  # fmt: skip

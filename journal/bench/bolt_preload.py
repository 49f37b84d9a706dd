"""Preload of a bolt from its torque, or the torque for a preload, with the range that friction gives it.

Most of a torque goes into friction. The nut factor stands for all of it, and nobody knows it closely, so
that an answer here is a range and an estimate.
"""

import math
from collections.abc import Iterator
from fractions import Fraction

from journal.bench.base.definition import WORD, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number, plain_number
from journal.words.quantities import Quantity

_FORCES, _TORQUES = (("kN", 1), ("lbf", 0)), (("Nm", 1), ("lbf ft", 1))
LEAST = Output("least", "preload of one bolt, least", _FORCES, "F")
MOST = Output("most", "preload of one bolt, most", _FORCES)
CLAMP_LEAST = Output("clamp-least", "clamp of all bolts, least", _FORCES)
CLAMP_MOST = Output("clamp-most", "clamp of all bolts, most", _FORCES)
AREA = Output("area", "stress area of the thread", (("mm2", 1), ("sq in", 4)), "A")
SHARE_LEAST = Output("share-least", "share of the proof load, least", (("%", 0),))
SHARE_MOST = Output("share-most", "share of the proof load, most", (("%", 0),))
AIM_TORQUE = Output(
    "aim-torque", "torque by which the preload is at most the share wanted", _TORQUES
)
AIM_LEAST = Output("aim-least", "preload that it gives at least", _FORCES)
AIM_MOST = Output("aim-most", "preload that it gives at most", _FORCES)

_PI = Fraction(math.pi)
_TIMES, _MINUS = "\N{MULTIPLICATION SIGN}", "\N{MINUS SIGN}"
# What the nut factor is measured to be, by the state of the threads: see the sources.
_FACTORS: dict[str, tuple[str, str, str]] = {
    "dry": ("0.18", "0.30", "plain steel, clean and dry"),
    "oiled": ("0.10", "0.26", "plain steel with engine oil"),
    "zinc": ("0.17", "0.35", "zinc plated, dry"),
    "cadmium": ("0.15", "0.19", "cadmium plated, dry"),
    "phosphated": ("0.15", "0.22", "phosphated and oiled"),
    "antiseize": ("0.12", "0.16", "with anti-seize compound"),
    "stainless": ("0.30", "0.50", "stainless on stainless, dry"),
}
# Diameter less so many pitches is that of the stress area: the mean of effective and core diameter. The
# core of a metric thread is reckoned to its rounded root, that of a Unified one to the sharp form.
_LESS_PITCHES: dict[str, tuple[Fraction, str]] = {
    "metric": (Fraction("0.938194"), "60 degrees, metric"),
    "unified": (Fraction("0.974279"), "60 degrees: UNC, UNF and their like"),
    "whitworth": (Fraction("0.9604905"), "55 degrees: BSW and BSF"),
    "ba": (Fraction("0.9"), "47.5 degrees"),
}
_KSI = Fraction("6.894757293168361")
# Proof stress in MPa up to a diameter in mm and above it: ISO 898-1 and SAE J429, from memory.
_GRADES: dict[str, tuple[Fraction, Fraction, Fraction, str]] = {
    "4.6": (Fraction(100), Fraction(225), Fraction(225), "metric property class 4.6"),
    "4.8": (Fraction(100), Fraction(310), Fraction(310), "metric property class 4.8"),
    "5.8": (Fraction(100), Fraction(380), Fraction(380), "metric property class 5.8"),
    "8.8": (Fraction(16), Fraction(580), Fraction(600), "metric property class 8.8"),
    "10.9": (Fraction(100), Fraction(830), Fraction(830), "metric property class 10.9"),
    "12.9": (Fraction(100), Fraction(970), Fraction(970), "metric property class 12.9"),
    "sae-2": (Fraction("19.05"), 55 * _KSI, 33 * _KSI, "SAE grade 2, no marks on the head"),
    "sae-5": (Fraction("25.4"), 85 * _KSI, 74 * _KSI, "SAE grade 5, three marks"),
    "sae-8": (Fraction(100), 120 * _KSI, 120 * _KSI, "SAE grade 8, six marks"),
}


def _work(given: Given) -> Worked:
    diameter = given.one("diameter").to("mm")
    factor = _factor(given)
    pitch = _pitch(given)
    area = _area(given, diameter, pitch) if pitch is not None else None
    proof = _proof(given, diameter)
    load = area * proof / 1000 if area is not None and proof is not None else None
    if not given.has("torque") and load is None:
        raise NotWorked(
            "torque", "is missing, and so is what it could be reckoned from", "give torque; or grade or proof, with pitch or threads",
        )  # fmt: skip
    results: list[Result] = []
    if given.has("torque"):
        results += _preload(given, diameter, factor, load)
    if area is not None:
        results.append(answered(AREA, area, given))
    if load is not None:
        results += _aim(given, diameter, factor, load)
    most = _share(given, diameter, factor[0], load)
    return Worked(
        tuple(results),
        tuple(_steps(given, diameter, factor, pitch, load)),
        _verdict(given, diameter, factor, load),
        None if most is None else most <= 100,
        tuple(_warnings(given, diameter, factor, load)),
        tuple(_grids(given, diameter)),
    )


def _factor(given: Given) -> tuple[Fraction, Fraction]:
    if given.has("factor"):
        ends = given.span("factor")
        return ends.low.amount, ends.high.amount
    if not given.has("threads-are"):
        raise NotWorked(
            "threads-are", "is missing, and so is factor", "write what the threads are, such as dry or oiled",
        )  # fmt: skip
    low, high, _ = _FACTORS[given.word("threads-are")]
    return Fraction(low), Fraction(high)


def _factor_words(given: Given) -> tuple[str, str]:
    if given.has("factor"):
        ends = given.span("factor")
        return ends.low.written, ends.high.written
    low, high, _ = _FACTORS[given.word("threads-are")]
    return low, high


def _form(given: Given) -> str:
    """The form of the thread: what says nothing else is Unified by the inch and metric by its pitch."""
    if given.has("form"):
        return given.word("form")
    return "unified" if given.has("threads") else "metric"


def _pitch(given: Given) -> Fraction | None:
    if given.has("pitch") and given.has("threads"):
        raise NotWorked("threads", "and pitch say the same thing", "write one of them")
    if given.has("threads"):
        return Fraction("25.4") / given.number("threads")
    return given.one("pitch").to("mm") if given.has("pitch") else None


def _area(given: Given, diameter: Fraction, pitch: Fraction) -> Fraction:
    less, _ = _LESS_PITCHES[_form(given)]
    across = diameter - less * pitch
    if across <= diameter / 2:
        name = "threads" if given.has("threads") else "pitch"
        raise NotWorked(
            name, f"is too coarse for a diameter of {given.one('diameter').words}, found {given.one(name).words}", "read it again",
        )  # fmt: skip
    return _PI / 4 * across**2


def _proof(given: Given, diameter: Fraction) -> Fraction | None:
    """Proof stress in MPa."""
    if given.has("proof") and given.has("grade"):
        raise NotWorked("proof", "and grade say the same thing", "write one of them")
    if given.has("proof"):
        return given.one("proof").to("MPa")
    if not given.has("grade"):
        return None
    up_to, below, above, _ = _GRADES[given.word("grade")]
    return below if diameter <= up_to else above


def _ends(given: Given) -> tuple[Quantity, Quantity]:
    torque = given.span("torque")
    return torque.low, torque.high


def _forces(
    given: Given, diameter: Fraction, factor: tuple[Fraction, Fraction]
) -> tuple[Fraction, Fraction]:
    """The least and the most preload in kN: torque in Nm over diameter in mm is force in kN."""
    low, high = (end.to("Nm") for end in _ends(given))
    return low / (factor[1] * diameter), high / (factor[0] * diameter)


def _share(
    given: Given, diameter: Fraction, factor: Fraction, load: Fraction | None
) -> Fraction | None:
    """The largest share of the proof load in percent."""
    if load is None or not given.has("torque"):
        return None
    return 100 * _ends(given)[1].to("Nm") / (factor * diameter) / load


def _preload(
    given: Given, diameter: Fraction, factor: tuple[Fraction, Fraction], load: Fraction | None
) -> Iterator[Result]:
    least, most = _forces(given, diameter, factor)
    yield answered(LEAST, least, given)
    yield answered(MOST, most, given)
    bolts = int(given.number("bolts"))
    if bolts > 1:
        yield answered(CLAMP_LEAST, least * bolts, given)
        yield answered(CLAMP_MOST, most * bolts, given)
    if load is not None:
        yield answered(SHARE_LEAST, 100 * least / load, given)
        yield answered(SHARE_MOST, 100 * most / load, given)


def _aim(
    given: Given, diameter: Fraction, factor: tuple[Fraction, Fraction], load: Fraction
) -> Iterator[Result]:
    most = load * given.one("aim").amount / 100
    yield answered(AIM_TORQUE, most * factor[0] * diameter, given)
    yield answered(AIM_LEAST, most * factor[0] / factor[1], given)
    yield answered(AIM_MOST, most, given)


def _tellers(given: Given) -> tuple[Teller, Teller, Teller]:
    return (
        Teller((("kN", 1, 2), ("lbf", 0, 0)), given),
        Teller((("Nm", 0, 1), ("lbf ft", 0, 1)), given),
        Teller((("mm", 0, 3), ("in", 0, 4)), given),
    )


def _steps(
    given: Given,
    diameter: Fraction,
    factor: tuple[Fraction, Fraction],
    pitch: Fraction | None,
    load: Fraction | None,
) -> Iterator[str]:
    force, torque, length = _tellers(given)
    low, high = _factor_words(given)
    if not given.has("factor"):
        yield f"nut factor of threads that are {_FACTORS[given.word('threads-are')][2]}: {low} to {high}"
    by = f" {_TIMES} 12" if given.imperial else ""
    if given.has("torque"):
        least, most = _forces(given, diameter, factor)
        for word, end, end_factor, found in (
            ("least", _ends(given)[0], high, least),
            ("most", _ends(given)[1], low, most),
        ):
            yield f"{word} preload: {torque.number(end.to('Nm'))}{by} / ({end_factor} {_TIMES} {length.number(diameter)}) = {force(found)}"
    if pitch is not None:
        less = plain_number(_LESS_PITCHES[_form(given)][0], 4)
        area = Teller((("mm2", 1, 2), ("sq in", 4, 4)), given)
        yield (
            f"stress area: \N{GREEK SMALL LETTER PI} / 4 {_TIMES} ({length.number(diameter)} {_MINUS} {less} {_TIMES} {length.number(pitch)})"
            f"\N{SUPERSCRIPT TWO} = {area(_area(given, diameter, pitch))}"
        )
    if load is not None and pitch is not None:
        stress = Teller((("MPa", 0, 0), ("psi", 0, 0)), given)
        area = Teller((("mm2", 1, 2), ("sq in", 4, 4)), given)
        proof = load * 1000 / _area(given, diameter, pitch)
        by_thousand = "" if given.imperial else " / 1000"
        yield f"proof load: {area.number(_area(given, diameter, pitch))} {_TIMES} {stress.number(proof)}{by_thousand} = {force(load)}"
        most = load * given.one("aim").amount / 100
        over = " / 12" if given.imperial else ""
        yield (
            f"torque for at most {given.one('aim').words} of it: {force.number(most)} {_TIMES} {low} {_TIMES} {length.number(diameter)}{over} = "
            f"{torque(most * factor[0] * diameter)}"
        )


def _verdict(
    given: Given, diameter: Fraction, factor: tuple[Fraction, Fraction], load: Fraction | None
) -> str:
    force, torque, _ = _tellers(given)
    told = []
    if given.has("torque"):
        least, most = _forces(given, diameter, factor)
        words = f"{given.span('torque').words} pulls each bolt to somewhere between {force.number(least)} and {force(most)}"
        if load is not None:
            words += f", {fixed_number(100 * least / load, 0)} to {fixed_number(100 * most / load, 0)} % of its proof load"
        told.append(words)
    if load is not None and not given.has("torque"):
        aim = load * given.one("aim").amount / 100
        told.append(
            f"About {torque(aim * factor[0] * diameter)} keeps the preload at or below {given.one('aim').words} of the proof load, and may leave as little as "
            f"{force(aim * factor[0] / factor[1])}"
        )
    return f"{told[0]}. An estimate: the maker's torque goes before it."


def _warnings(
    given: Given, diameter: Fraction, factor: tuple[Fraction, Fraction], load: Fraction | None
) -> Iterator[str]:
    most = _share(given, diameter, factor[0], load)
    if most is not None and most > 100:
        yield "Where friction is low this torque stretches the bolt for good: use less, or know the friction better."
    elif most is not None and most > 90:
        yield "Where friction is low this torque comes near the proof load, with nothing left for what the joint has to carry."
    if given.has("threads-are") and given.word("threads-are") == "oiled":
        yield "A torque that is given for dry threads is too much for oiled ones: the maker's manual says how the threads are to be."


def _grids(given: Given, diameter: Fraction) -> Iterator[Grid]:
    if not given.has("torque"):
        return
    force = Teller((("kN", 1, 1), ("lbf", 0, 0)), given)
    low, high = (end.to("Nm") for end in _ends(given))
    rows = []
    for name, (least, most, _) in _FACTORS.items():
        ends = (low / (Fraction(most) * diameter), high / (Fraction(least) * diameter))
        rows.append((name, f"{least} to {most}", f"{force.number(ends[0])} to {force(ends[1])}"))
    yield Grid(
        "What the same torque does with other threads",
        ("Threads", "Nut factor", "Preload"),
        tuple(rows),
    )


BOLT_PRELOAD = Sum(
    name="bolt-preload",
    title="Preload of a bolt",
    job=Job.FASTENERS,
    asks="How hard does a torque pull the bolt, or what torque is safe where no figure is left?",
    inputs=(
        Input("diameter", "diameter over the threads", "length", symbol="d", least="1.5 mm", most="100 mm"),
        Input("torque", "torque, one figure or from and to", "torque", Takes.RANGE, "T", optional=True, least="0.05 Nm", most="5000 Nm"),
        Input("threads-are", "state of the threads and under the nut", WORD, optional=True, choices=tuple((name, words) for name, (_, _, words) in _FACTORS.items())),
        Input("factor", "nut factor where it is known better than by the state of the threads", "number", Takes.RANGE, "K", optional=True, least="0.03", most="1"),
        Input("form", "form of the thread; unified if left out with threads to the inch, metric with a pitch", WORD, optional=True, choices=tuple((name, words) for name, (_, words) in _LESS_PITCHES.items())),
        Input("pitch", "pitch of the thread, for its stress area", "length", symbol="p", optional=True, least="0.2 mm", most="10 mm"),
        Input("threads", "or threads to the inch", "number", optional=True, least="2", most="120"),
        Input("grade", "strength that is marked on the head", WORD, optional=True, choices=tuple((name, words) for name, (_, _, _, words) in _GRADES.items())),
        Input("proof", "or proof stress of the bolt", "pressure", symbol="s", optional=True, least="50 MPa", most="1500 MPa"),
        Input("aim", "share of the proof load that the preload is not to pass", "share", symbol="q", default="75 %", least="10 %", most="100 %"),
        Input("bolts", "number of bolts in the joint", "count", default="1", least="1", most="200"),
    ),
    outputs=(LEAST, MOST, CLAMP_LEAST, CLAMP_MOST, AREA, SHARE_LEAST, SHARE_MOST, AIM_TORQUE, AIM_LEAST, AIM_MOST),
    in_words=(
        "Torque is nut factor times preload times diameter. The nut factor lies between two values, so that the preload does too: least by the "
        "larger one, most by the smaller. The bolt carries its proof stress on its stress area; the torque for a share of that is worked out "
        "with the smaller nut factor, so that the share is not passed."
    ),
    formula=(
        "F = T / (K d)",
        "A = \N{GREEK SMALL LETTER PI} / 4 (d \N{MINUS SIGN} 0.9382 p)\N{SUPERSCRIPT TWO}, metric; Unified 0.9743 p, Whitworth 0.9605 p, BA 0.9 p",
        "T = K d q s A",
    ),
    limits=(
        "An estimate: bolts that look alike differ by a quarter and more at one torque.",
        "It holds for steel nuts and bolts; a thread in aluminium or cast iron strips, and a gasket crushes, long before.",
        "Bolts that are tightened by angle, stretched, waisted or used once are another matter: the maker's manual alone.",
        "Grades hold for marked bolts of known make; an old bolt without marks is taken for the lowest.",
    ),
    caution=(
        "Never a figure for brakes, steering, wheels, suspension, seat belts, connecting rods, cylinder heads or what is lifted by: these are "
        "tightened to the maker's manual, and by nothing else."
    ),
    sources=(
        "Nut factors: zipfastener.com, engineering data (dry 0.18 to 0.27, oil 0.10 to 0.26, cadmium 0.15 to 0.19, phosphate and oil 0.15 to 0.22, zinc 0.17 to 0.35, stainless 0.30 to 0.50).",
        "Shigley's Mechanical Engineering Design, table 8-15 (black finish 0.30, anti-seize 0.12) and example 8-3.",
        "Stress area and proof stress: ISO 898-1 and SAE J429, from memory; Whitworth and BA by the same mean of effective and core diameter.",
    ),
    example=(
        ("diameter", "3/8 in"), ("torque", "24..28 lbf ft"), ("threads-are", "dry"), ("threads", "24"), ("grade", "sae-5"), ("bolts", "4"),
    ),
    work=_work,
)  # fmt: skip

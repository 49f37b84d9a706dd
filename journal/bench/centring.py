"""Centring between two faces: a caliper over its disc, a pulley on its line, an axle in its arches.

Readings are taken on both sides at the same points. What is moved may be the part in the middle, or
the part around it; shims under its mounting move it one way, metal off the mounting the other.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from journal.bench.base.definition import WORD, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Output, Result, Teller, Worked, answered, said

_LENGTHS = (("mm", 2), ("thou", 1))
OFFSET = Output("offset", "out of centre by", _LENGTHS, "e")
SHIM = Output("shim", "shims to add under the mounting", _LENGTHS, "s")
LESS = Output("less", "shims to take out from under the mounting", _LENGTHS)
METAL = Output("metal", "metal to take off the face of the mounting", _LENGTHS)
GAP = Output("gap", "smallest gap once it stands central", (("mm", 2), ("in", 3)), "g")
SCATTER = Output("scatter", "the centre differs between the points by", _LENGTHS)
MOVE = Output("move", "which way")


def _work(given: Given) -> Worked:
    one, other = (_gaps(given, name) for name in ("one", "other"))
    if len(one) != len(other):
        raise NotWorked(
            "other",
            f"must be read at the same points as one, found {len(other)} and {len(one)}",
            "read both sides at every point",
        )
    tell = Teller((("mm", 2, 4), ("thou", 0, 2)), given)
    centres = [(a - b) / 2 for a, b in zip(one, other, strict=True)]
    offset = _mean(one) / 2 - _mean(other) / 2
    scatter = max(centres) - min(centres)
    least = min(a + b for a, b in zip(one, other, strict=True)) / 2 - _run_out(given) / 2
    tolerance = given.one("tolerance").to("mm")
    central = abs(offset) <= tolerance
    results = [answered(OFFSET, abs(offset), given)]
    if not central:
        results += _correction(given, offset)
    results += [answered(GAP, least, given), answered(SCATTER, scatter, given)]
    steps = (
        *_mean_steps(tell, (("the first side", one), ("the other side", other))),
        f"out of centre: ({tell.number(_mean(one))} \N{MINUS SIGN} {tell.number(_mean(other))}) / 2 = {tell(offset)}",
        *_gap_step(given, tell, one, other, least),
    )
    return Worked(
        tuple(results),
        steps,
        _verdict(given, central, offset),
        central and scatter <= tolerance,
        tuple(_warnings(given, tell, scatter, least)),
    )


def _gaps(given: Given, name: str) -> list[Fraction]:
    return [reading.to("mm") for reading in given.readings(name)]


def _mean(readings: Sequence[Fraction]) -> Fraction:
    return sum(readings, Fraction(0)) / len(readings)


def _run_out(given: Given) -> Fraction:
    return given.one("run-out").to("mm") if given.has("run-out") else Fraction(0)


def _mean_steps(tell: Teller, sides: Sequence[tuple[str, Sequence[Fraction]]]) -> Iterator[str]:
    for label, readings in sides:
        added = " + ".join(tell.number(reading) for reading in readings)
        if len(readings) == 1:
            yield f"gap on {label}: {tell(readings[0])}"
        else:
            yield f"mean gap on {label}: ({added}) / {len(readings)} = {tell(_mean(readings))}"


def _gap_step(
    given: Given, tell: Teller, one: Sequence[Fraction], other: Sequence[Fraction], least: Fraction
) -> Iterator[str]:
    both = min(a + b for a, b in zip(one, other, strict=True))
    run_out = _run_out(given)
    less = f" \N{MINUS SIGN} {tell.number(run_out)} / 2" if run_out else ""
    yield f"smallest gap when central: {tell.number(both)} / 2{less} = {tell(least)}"


def _away(given: Given, offset: Fraction) -> Fraction:
    """How far the moved part must go away from its mounting; below nothing is towards it.

    Away from `one`, the part in the middle opens the gap there and the part around it closes it.
    """
    from_one = -offset if given.word("moves") == "middle" else offset
    return from_one if given.word("mounted") == "one" else -from_one


def _correction(given: Given, offset: Fraction) -> Iterator[Result]:
    away = _away(given, offset)
    fitted = given.one("fitted").to("mm")
    if away > 0:
        yield said(MOVE, "away from its mounting: add shims")
        yield answered(SHIM, away, given)
        return
    less, metal = min(fitted, -away), max(-away - fitted, Fraction(0))
    yield said(
        MOVE, "towards its mounting: " + ("no shim can do it alone" if metal else "take shims out")
    )
    if less:
        yield answered(LESS, less, given)
    if metal:
        yield answered(METAL, metal, given)


def _verdict(given: Given, central: bool, offset: Fraction) -> str:
    allowed = given.one("tolerance").words
    if central:
        return f"Central within {allowed}; nothing to do."
    wider = "the first side" if offset > 0 else "the other side"
    return f"Out of centre by more than {allowed}: the gap is wider on {wider}. {_remedy(given, offset)}"


def _remedy(given: Given, offset: Fraction) -> str:
    told = Teller((("mm", 2, 2), ("thou", 0, 1)), given)
    away = _away(given, offset)
    fitted = given.one("fitted").to("mm")
    if away > 0:
        return f"Shims of {told(away)} under the mounting bring it central."
    if -away <= fitted:
        return f"Shims of {told(-away)} out from under the mounting bring it central."
    out = f"with all shims out, {told(-away - fitted)}" if fitted else told(-away)
    return f"No shim can do it alone: {out} must come off the face of the mounting, where the maker allows it."


def _warnings(given: Given, tell: Teller, scatter: Fraction, least: Fraction) -> Iterator[str]:
    allowed = given.one("tolerance").words
    if scatter > given.one("tolerance").to("mm"):
        yield (
            f"The centre differs by {tell(scatter)} from point to point, more than the tolerance of {allowed}: the faces are not "
            "parallel, or something is bent or dirty. A shim of one thickness cannot put that right; find the reason first."
        )
    if least <= 0:
        yield "With this run-out the parts touch even when they stand central."


CENTRING = Sum(
    name="centring",
    title="Centring between two faces",
    job=Job.FITTING,
    asks="Does it stand in the middle, and if not, what shim goes where, or how much comes off?",
    inputs=(
        Input("one", "gaps on one side, point by point", "length", Takes.READINGS, "a", least="0 mm", most="500 mm"),
        Input("other", "gaps on the other side at the same points", "length", Takes.READINGS, "b", least="0 mm", most="500 mm"),
        Input("tolerance", "how far out of centre the maker allows it to stand", "length", symbol="t", least="0 mm", most="20 mm"),
        Input(
            "moves", "which part is moved to bring it central", WORD, default="outer",
            choices=(
                ("outer", "the part around, such as a caliper over its disc"),
                ("middle", "the part between, such as an axle in its arches"),
            ),
        ),
        Input(
            "mounted", "on which side the moved part is bolted up, where shims go", WORD, default="one",
            choices=(("one", "on the side read first"), ("other", "on the other side")),
        ),
        Input("fitted", "shims that are under the mounting as it was read", "length", default="0 mm", least="0 mm", most="50 mm"),
        Input("run-out", "run-out of the part in the middle, full swing of the gauge", "length", symbol="r", optional=True, least="0 mm", most="10 mm"),
    ),
    outputs=(OFFSET, MOVE, SHIM, LESS, METAL, GAP, SCATTER),
    in_words=(
        "Half the difference between the mean gaps of the two sides is how far it stands out of centre, and the thickness of the shim "
        "that moves it there. Half of both gaps together, less half the run-out, is the gap that is left when it stands central."
    ),
    formula=("e = (mean a \N{MINUS SIGN} mean b) / 2", "s = |e|", "g = smallest (a + b) / 2 \N{MINUS SIGN} r / 2"),
    limits=(
        "Both sides are read at the same points, with the parts clean, tightened and pushed to the same stop.",
        "A shim of one thickness moves the part bodily; it does not put right a face that is out of square.",
        "Metal comes off only where the maker allows it; thread depth and bolt length change with shims.",
    ),
    caution=(
        "Brakes, steering and running gear that were shimmed or machined are to be checked by a qualified person to the maker's manual "
        "before the car is used. Use shims of full face and one piece, and the bolts and torque that the maker gives."
    ),
    sources=(
        "Common practice, no source: the part must stand central within the maker's tolerance.",
        "Makers' instructions for the alignment of shafts: the offset is half of the full reading.",
    ),
    example=(
        ("one", "1.62, 1.58, 1.60 mm"), ("other", "1.12, 1.10, 1.08 mm"), ("tolerance", "0.10 mm"),
        ("moves", "outer"), ("mounted", "one"), ("fitted", "0.30 mm"), ("run-out", "0.04 mm"),
    ),
    work=_work,
)  # fmt: skip

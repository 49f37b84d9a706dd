"""What plating does to a thread, and the size to which it is cut before, with the note for the plater.

Plating lies square on the flanks, so that the effective diameter grows by more than twice its thickness:
by twice over the sine of half the angle of the thread.
"""

import math
from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import TEXT, WORD, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Teller, Worked, answered, said
from journal.words.amounts import plain_number
from journal.words.text import counted

_GROWTH, _SIZES = (("micron", 0), ("thou", 2)), (("mm", 3), ("in", 4))
GROWTH_LEAST = Output("growth-least", "effective diameter changes by, least", _GROWTH)
GROWTH_MOST = Output("growth-most", "effective diameter changes by, most", _GROWTH, "G")
OVER_MOST = Output("over-most", "diameter over the crests changes by, most", _GROWTH, "O")
BEFORE_LEAST = Output("before-least", "effective diameter before plating, smallest", _SIZES)
BEFORE_MOST = Output("before-most", "effective diameter before plating, largest", _SIZES)
CREST_LEAST = Output("crest-least", "diameter over the crests before plating, smallest", _SIZES)
CREST_MOST = Output("crest-most", "diameter over the crests before plating, largest", _SIZES)
AFTER_LEAST = Output("after-least", "effective diameter of these after plating, smallest", _SIZES)
AFTER_MOST = Output("after-most", "effective diameter of these after plating, largest", _SIZES)
THICKEST = Output(
    "thickest", "thickest plating for which there is room", (("micron", 1), ("thou", 2))
)
NOTE = Output("note", "note for the plater")

_MINUS, _TIMES = "\N{MINUS SIGN}", "\N{MULTIPLICATION SIGN}"
_FORMS: dict[str, tuple[Fraction, str]] = {
    "unified": (Fraction(60), "60 degrees: UNC, UNF, cycle"),
    "metric": (Fraction(60), "60 degrees, metric"),
    "whitworth": (Fraction(55), "55 degrees: BSW, BSF, BSP"),
    "ba": (Fraction("47.5"), "47.5 degrees: BA"),
}
_STEELS: dict[str, tuple[str, str]] = {
    "ordinary": ("up to class 8.8 or grade 5", "steel up to class 8.8, no baking asked for"),
    "high": (
        "class 10.9 or grade 8, or above 1000 MPa",
        "HIGH-TENSILE STEEL: bake within 4 hours of plating, to the standard the plater works to, and send the slip with time and temperature",
    ),
    "highest": (
        "class 12.9, springs, hardened parts, or harder than 39 HRC",
        "HARDENED STEEL: not to be electroplated or pickled; ask for a finish that brings no hydrogen",
    ),
}
# Where the plater gives one thickness, the most is taken half as much again: see the sources.
_SPREAD = Fraction(3, 2)
# By how many times the diameter a part is long: what its ends get over the average of the batch.
_LONG = ((5, Fraction(1)), (10, Fraction(5, 4)), (15, Fraction(3, 2)))


class _Plating(Struct, frozen=True):
    """Thickness on the flank in mm, and by how many times it the effective diameter changes."""

    least: Fraction
    most: Fraction
    times: Fraction
    internal: bool

    def growth(self, thickness: Fraction) -> Fraction:
        return self.times * thickness

    def before(
        self, low: Fraction, high: Fraction, times: Fraction | int
    ) -> tuple[Fraction, Fraction]:
        """The limits before plating for those after it; the least is larger where nothing can do it."""
        if self.internal:
            return low + times * self.most, high + times * self.least
        return low - times * self.least, high - times * self.most


def _times(form: str) -> Fraction:
    degrees = _FORMS[form][0]
    return Fraction(4) if degrees == 60 else Fraction(2 / math.sin(math.radians(degrees / 2)))


def _work(given: Given) -> Worked:
    plating = _plating(given)
    results = [
        answered(GROWTH_LEAST, plating.growth(plating.least), given, unit="mm"),
        answered(GROWTH_MOST, plating.growth(plating.most), given, unit="mm"),
        answered(OVER_MOST, 2 * plating.most, given, unit="mm"),
    ]
    wrong: list[str] = []
    for name, times, outputs in (
        ("finished", plating.times, (BEFORE_LEAST, BEFORE_MOST)),
        ("crests", Fraction(2), (CREST_LEAST, CREST_MOST)),
    ):
        if given.has(name):
            low, high = _before(given, plating, name, times)
            wrong += [f"the limits of {name} are too close for plating that differs so much"] * (
                low > high
            )
            results += (
                [answered(outputs[0], low, given), answered(outputs[1], high, given)]
                if low <= high
                else []
            )
    if given.has("now"):
        low, high = _after(given, plating)
        results += [answered(AFTER_LEAST, low, given), answered(AFTER_MOST, high, given)]
        wrong += _outside(given, low, high)
    if given.has("room"):
        room = given.one("room").to("mm")
        results.append(answered(THICKEST, room / (plating.times * _long(given)), given, unit="mm"))
        wrong += ["there is no room for it in the thread"] * (plating.growth(plating.most) > room)
    if given.has("steel") and given.word("steel") == "highest":
        wrong.append("steel as hard as this is not electroplated")
    results.append(said(NOTE, _note(given, plating)))
    judged = given.has("room") or given.has("finished") or given.has("crests") or bool(wrong)
    return Worked(
        tuple(results),
        (*_steps(given, plating), *_now_step(given, plating)),
        _verdict(given, plating, wrong),
        not wrong if judged else None,
        tuple(_warnings(given, plating)),
        (_grid(given, plating),),
    )


def _plating(given: Given) -> _Plating:
    span = given.span("thickness")
    least, most = span.low.to("mm"), span.high.to("mm")
    if least == most:
        most = least * _SPREAD
    internal = given.word("thread") == "nut"
    return _Plating(least, most * _long(given), _times(given.word("form")), internal)


def _long(given: Given) -> Fraction:
    """What the ends of a long part get over the average of its batch."""
    if not given.has("long"):
        return Fraction(1)
    long = given.number("long")
    return next(factor for times, factor in _LONG if long <= times)


def _before(
    given: Given, plating: _Plating, name: str, times: Fraction
) -> tuple[Fraction, Fraction]:
    ends = given.span(name)
    low, high = plating.before(ends.low.to("mm"), ends.high.to("mm"), times)
    if low <= 0:
        raise NotWorked("thickness", f"is more than {name} can hold", "read both again")
    return low, high


def _after(given: Given, plating: _Plating) -> tuple[Fraction, Fraction]:
    """What the threads that there are come to, smallest and largest."""
    now = given.span("now")
    low, high = now.low.to("mm"), now.high.to("mm")
    least, most = plating.growth(plating.least), plating.growth(plating.most)
    return (low - most, high - least) if plating.internal else (low + least, high + most)


def _outside(given: Given, low: Fraction, high: Fraction) -> Iterator[str]:
    if not given.has("finished"):
        return
    ends = given.span("finished")
    if high > ends.high.to("mm"):
        yield "these become too large"
    if low < ends.low.to("mm"):
        yield "these stay too small" if given.word("thread") == "bolt" else "these become too small"


def _sizes(given: Given) -> Teller:
    return Teller((("mm", 3, 4), ("in", 4, 5)), given)


def _thin(given: Given, amount: Fraction) -> str:
    """An amount in mm as platings are told: in micron, or in thou."""
    return f"{_thin_number(given, amount)} {'thou' if given.imperial else 'micron'}"


def _thin_number(given: Given, amount: Fraction) -> str:
    if given.imperial:
        return Teller((("mm", 1, 4), ("thou", 1, 3)), given).number(amount)
    return Teller((("micron", 0, 2),), given).number(amount * 1000)


def _steps(given: Given, plating: _Plating) -> Iterator[str]:
    times = plain_number(plating.times, 4)
    half = plain_number(_FORMS[given.word("form")][0] / 2, 2)
    if given.span("thickness").low == given.span("thickness").high:
        yield f"thickest, where one figure is given: 1.5 {_TIMES} {_thin_number(given, plating.least)} = {_thin(given, plating.least * _SPREAD)}"
    if _long(given) > 1:
        yield f"at the ends of a part so long: {plain_number(_long(given), 2)} times the average of the batch, {_thin(given, plating.most)}"
    yield f"change for each unit of thickness: 2 / sin {half}\N{DEGREE SIGN} = {times}"
    yield (
        f"effective diameter: {times} {_TIMES} {_thin_number(given, plating.least)} = {_thin(given, plating.growth(plating.least))} to "
        f"{times} {_TIMES} {_thin_number(given, plating.most)} = {_thin(given, plating.growth(plating.most))}"
    )
    size = _sizes(given)
    sign = "+" if plating.internal else _MINUS
    for name, each in (("finished", plating.times), ("crests", Fraction(2))):
        if given.has(name):
            ends = given.span(name)
            low, high = _before(given, plating, name, each)
            first, last = (
                (plating.most, plating.least) if plating.internal else (plating.least, plating.most)
            )
            yield (
                f"{name} before plating: {size.number(ends.low.to('mm'))} {sign} {size.number(each * first)} = {size(low)}, to "
                f"{size.number(ends.high.to('mm'))} {sign} {size.number(each * last)} = {size(high)}"
            )


def _now_step(given: Given, plating: _Plating) -> Iterator[str]:
    if not given.has("now"):
        return
    now, size = given.span("now"), _sizes(given)
    low, high = _after(given, plating)
    least, most = (
        size.number(plating.growth(plating.least)),
        size.number(plating.growth(plating.most)),
    )
    first, last = (
        (f"{_MINUS} {most}", f"{_MINUS} {least}")
        if plating.internal
        else (f"+ {least}", f"+ {most}")
    )
    yield (
        f"these after plating: {size.number(now.low.to('mm'))} {first} = {size(low)}, to {size.number(now.high.to('mm'))} {last} = {size(high)}"
    )


def _verdict(given: Given, plating: _Plating, wrong: list[str]) -> str:
    way = "closes" if plating.internal else "grows"
    told = f"The effective diameter {way} by {_thin_number(given, plating.growth(plating.least))} to {_thin(given, plating.growth(plating.most))}"
    if wrong:
        return f"{told}. Not as it is: {'; '.join(wrong)}."
    if given.has("room"):
        return f"{told}, for which there is room."
    if given.has("finished") and given.has("now"):
        return f"{told}; these are right for it as they are."
    if given.has("finished"):
        size = _sizes(given)
        low, high = _before(given, plating, "finished", plating.times)
        return f"{told}: cut it to {size.number(low)} to {size(high)} before."
    return f"{told}; its mate must have room for that."


def _note(given: Given, plating: _Plating) -> str:
    """What goes to the plater with the parts, in one line."""
    span = given.span("thickness")
    what = given.word("what") if given.has("what") else "threaded parts"
    head = (
        f"{counted(int(given.number('pieces')), 'piece')}, {what}" if given.has("pieces") else what
    )
    finish = given.word("finish") if given.has("finish") else "plating"
    told = [head, f"{finish}, {span.words} on the flanks, never above {_thin(given, plating.most)}"]
    if given.has("pieces"):
        told.append(f"counted out {int(given.number('pieces'))}, to be counted back")
    told.append(
        _STEELS[given.word("steel")][1]
        if given.has("steel")
        else "strength of the steel not known: ask before pickling"
    )
    return "; ".join(told)


def _warnings(given: Given, plating: _Plating) -> Iterator[str]:
    if not given.has("steel"):
        yield "Say what steel it is: high-tensile parts can turn brittle in the bath and break days later, without warning."
    elif given.word("steel") == "high":
        yield "High-tensile parts are baked after plating, at once and long enough; what comes back without its slip is not used."
    if given.has("finished"):
        low, high = _before(given, plating, "finished", plating.times)
        if low > high:
            yield "Ask for plating within closer limits, or for a finish that adds less."


def _grid(given: Given, plating: _Plating) -> Grid:
    rows = []
    for name, (_, words) in _FORMS.items():
        times = _times(name)
        rows.append((words, plain_number(times, 4), _thin(given, times * plating.most)))
    return Grid(
        "What the same plating does to other threads",
        ("Thread", "Times its thickness", "At most"),
        tuple(rows),
    )


THREAD_PLATING = Sum(
    name="thread-plating",
    title="Plating allowance of threads",
    job=Job.PLATING,
    asks="How much does plating change a thread, and to what size is it cut before?",
    inputs=(
        Input("thickness", "thickness of the plating on the flanks, least to most", "length", Takes.RANGE, "t", least="0.1 micron", most="1 mm"),
        Input("form", "form of the thread", WORD, choices=tuple((name, words) for name, (_, words) in _FORMS.items())),
        Input("thread", "whether it is plated outside or inside", WORD, default="bolt", choices=(("bolt", "an external thread, which grows"), ("nut", "an internal thread, which closes"))),
        Input("finished", "effective diameter that it must have after plating", "length", Takes.RANGE, "E", optional=True, least="0.5 mm", most="300 mm"),
        Input("crests", "diameter over the crests after plating: major of a bolt, minor of a nut", "length", Takes.RANGE, "D", optional=True, least="0.5 mm", most="300 mm"),
        Input("now", "effective diameter of the threads as they are, read over wires", "length", Takes.RANGE, optional=True, least="0.5 mm", most="300 mm"),
        Input("room", "room that the fit leaves on the effective diameter, such as the allowance of its class", "length", symbol="r", optional=True, least="0.1 micron", most="2 mm"),
        Input("long", "how many diameters the part is long, where thickness is the average of a batch", "number", optional=True, least="0.1", most="15"),
        Input("steel", "strength of the steel", WORD, optional=True, choices=tuple((name, words) for name, (words, _) in _STEELS.items())),
        Input("pieces", "pieces that go to the plater", "count", optional=True, least="1", most="100000"),
        Input("what", "what they are, for the note", TEXT, optional=True),
        Input("finish", "finish that is asked for, for the note", TEXT, optional=True),
    ),
    outputs=(GROWTH_LEAST, GROWTH_MOST, OVER_MOST, BEFORE_LEAST, BEFORE_MOST, CREST_LEAST, CREST_MOST, AFTER_LEAST, AFTER_MOST, THICKEST, NOTE),
    in_words=(
        "The effective diameter changes by twice the thickness over the sine of half the angle: four times at 60 degrees, 4.33 times at 55, "
        "4.97 times at 47.5; the diameter over the crests by twice. A bolt is cut smaller and a nut larger by that: by the least at the one "
        "limit and by the most at the other, so that thin and thick plating both end within the limits."
    ),
    formula=(
        "G = 2 t / sin(angle / 2), O = 2 t",
        "bolt before: E smallest \N{MINUS SIGN} G of least t, to E largest \N{MINUS SIGN} G of most t",
        "nut before: E smallest + G of most t, to E largest + G of least t",
    ),
    limits=(
        "For plating that follows the flanks; dipped, sprayed and painted coats gather in the roots and are another matter.",
        "In a bath the crests and the ends get more than the roots and the middle; deep nuts get little inside.",
        "Where one thickness is given, the most is taken half as much again.",
        "The average of a batch holds for parts up to 15 diameters long.",
    ),
    caution=(
        "Plating and pickling can make high-tensile steel brittle, and it breaks later under load: brake, steering, suspension and wheel "
        "fixings are not plated unless the maker did so and the plater bakes and certifies them; otherwise they are renewed in the maker's grade."
    ),
    sources=(
        "ASME B1.1 section 7 and B1.13M section 8, as told by vermontgage.com, pre-plate threads; pdgage.com, plating (half as much again, ASME B1.1-2003, 7.4.2).",
        "ISO 4042:1999, annex: fundamental deviation for local and batch average thickness (boltport.com).",
        "ASTM F1941: risk of embrittlement above 39 HRC; ISO 9588 as told by misumi-techcentral.com: relief above 1000 MPa.",
    ),
    example=(
        ("thickness", "5..8 micron"), ("form", "unified"), ("finished", "8.66..8.75 mm"), ("steel", "ordinary"), ("pieces", "214"),
        ("what", "chassis bolts 3/8 UNF"), ("finish", "bright zinc"),
    ),
    work=_work,
)  # fmt: skip

"""End float of a crankshaft, a gear or a hub: how much thicker its thrust washers or shims must be.

Whatever is put in takes up as much float as it is thick, on whichever side it lies.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import combinations_with_replacement

from msgspec import Struct

from journal.bench.base.definition import Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Output, Result, Teller, Worked, answered, said

_LENGTHS = (("mm", 2), ("thou", 1))
FLOAT = Output("float", "end float, mean of the readings", _LENGTHS)
SCATTER = Output("scatter", "the float differs as it is turned by", _LENGTHS)
ADD_LEAST = Output("add-least", "thickness to add, least; with a minus to take out", _LENGTHS, "a")
ADD_MOST = Output("add-most", "thickness to add, most; with a minus to take out", _LENGTHS, "A")
NEW_LEAST = Output("new-least", "thickness then, least", _LENGTHS)
NEW_MOST = Output("new-most", "thickness then, most", _LENGTHS)
CHOICE = Output("choice", "of the sizes that can be had")
THEN = Output("then", "end float then", _LENGTHS)

_MINUS = "\N{MINUS SIGN}"


class _Float(Struct, frozen=True):
    """Readings and limits in mm, and how much thickness brings every reading within the limits."""

    readings: tuple[Fraction, ...]
    low: Fraction
    high: Fraction

    @property
    def mean(self) -> Fraction:
        return sum(self.readings, Fraction(0)) / len(self.readings)

    @property
    def right(self) -> bool:
        return self.low <= min(self.readings) and max(self.readings) <= self.high

    @property
    def add(self) -> tuple[Fraction, Fraction]:
        """The least and the most to add; the least is the larger where nothing can do it."""
        return max(self.readings) - self.high, min(self.readings) - self.low

    @property
    def curable(self) -> bool:
        return self.add[0] <= self.add[1]

    def choice(self, sizes: Sequence[Fraction], faces: int) -> tuple[Fraction, ...] | None:
        """A size for every face that brings it nearest to the middle; of two as near, alike faces."""
        least, most = self.add
        ways = combinations_with_replacement(sorted({*sizes, Fraction(0)}), faces)
        fitting = [way for way in ways if least <= sum(way) <= most]
        middle = (least + most) / 2
        return min(
            fitting,
            key=lambda way: (abs(sum(way) - middle), max(way) - min(way), way),
            default=None,
        )


def _work(given: Given) -> Worked:
    limit = given.span("limit")
    found = _Float(
        tuple(reading.to("mm") for reading in given.readings("float")),
        limit.low.to("mm"),
        limit.high.to("mm"),
    )
    tell = Teller((("mm", 2, 4), ("thou", 0, 2)), given)
    choice = _choice(given, found)
    results = [answered(FLOAT, found.mean, given)]
    if len(found.readings) > 1:
        scatter = max(found.readings) - min(found.readings)
        results.append(answered(SCATTER, scatter, given))
    if not found.right and found.curable:
        results += _correction(given, found)
        if given.has("sizes"):
            results.append(said(CHOICE, _choice_words(choice, tell)))
        if choice is not None:
            results.append(answered(THEN, found.mean - sum(choice), given))
    return Worked(
        tuple(results),
        tuple(_steps(given, found, choice, tell)),
        _verdict(given, found, choice, tell),
        found.right,
        tuple(_warnings(given, found, tell)),
    )


def _choice(given: Given, found: _Float) -> tuple[Fraction, ...] | None:
    if not given.has("sizes") or found.right or not found.curable:
        return None
    sizes = [size.to("mm") for size in given.readings("sizes")]
    return found.choice(sizes, int(given.number("faces")))


def _correction(given: Given, found: _Float) -> Iterator[Result]:
    least, most = found.add
    yield answered(ADD_LEAST, least, given)
    yield answered(ADD_MOST, most, given)
    if not given.has("fitted"):
        return
    fitted = given.one("fitted").to("mm")
    if fitted + most < 0:
        raise NotWorked(
            "fitted", f"is less than what must come out, found {given.one('fitted').words}", "measure the float and the shims again",
        )  # fmt: skip
    yield answered(NEW_LEAST, max(fitted + least, Fraction(0)), given)
    yield answered(NEW_MOST, fitted + most, given)


def _steps(
    given: Given, found: _Float, choice: tuple[Fraction, ...] | None, tell: Teller
) -> Iterator[str]:
    if len(found.readings) > 1:
        added = " + ".join(tell.number(reading) for reading in found.readings)
        yield f"mean float: ({added}) / {len(found.readings)} = {tell(found.mean)}"
    least, most = found.add
    low, high = min(found.readings), max(found.readings)
    yield f"to add at least: {tell.number(high)} {_MINUS} {tell.number(found.high)} = {tell(least)}"
    yield f"to add at most: {tell.number(low)} {_MINUS} {tell.number(found.low)} = {tell(most)}"
    if given.has("fitted") and not found.right and found.curable:
        fitted = given.one("fitted").to("mm")
        yield (
            f"thickness then: {tell.number(fitted)} + {_signed(least, tell)} = {tell(fitted + least)}, "
            f"to {tell.number(fitted)} + {_signed(most, tell)} = {tell(fitted + most)}"
        )
    if choice is not None:
        taken = " ".join(f"{_MINUS} {_signed(size, tell)}" for size in choice)
        yield f"float then: {tell.number(found.mean)} {taken} = {tell(found.mean - sum(choice))}"


def _signed(amount: Fraction, tell: Teller) -> str:
    return f"({tell.number(amount)})" if amount < 0 else tell.number(amount)


def _choice_words(choice: tuple[Fraction, ...] | None, tell: Teller) -> str:
    if choice is None:
        return "none brings it within its limits"
    told = [_size_words(size, tell) for size in sorted(choice, reverse=True)]
    if len(told) == 1:
        return told[0]
    return (
        f"{told[0]} on both faces"
        if told[0] == told[1]
        else f"{told[0]} on one face, {told[1]} on the other"
    )


def _size_words(size: Fraction, tell: Teller) -> str:
    if not size:
        return "as fitted"
    return f"{tell(abs(size))} {'thicker' if size > 0 else 'thinner'}"


def _verdict(given: Given, found: _Float, choice: tuple[Fraction, ...] | None, tell: Teller) -> str:
    allowed = given.span("limit").words
    if found.right:
        return f"End float is right, within {allowed}; nothing to do."
    if not found.curable:
        return f"The float differs more as it is turned than the limits of {allowed} are apart: no thickness can put that right."
    least, most = found.add
    if least > 0:
        words = f"Too much float: {tell.number(least)} to {tell(most)} more thickness brings it within {allowed}."
    elif most < 0:
        words = f"Too little float: {tell.number(-most)} to {tell(-least)} less thickness brings it within {allowed}."
    else:
        words = f"A reading is outside {allowed}."
    if given.has("sizes"):
        words += f" Of the sizes that can be had: {_choice_words(choice, tell)}."
    return words


def _warnings(given: Given, found: _Float, tell: Teller) -> Iterator[str]:
    scatter = max(found.readings) - min(found.readings)
    if not found.curable or scatter > (found.high - found.low) / 2:
        yield (
            f"The float differs by {tell(scatter)} as it is turned: a face runs out, a washer is bent or dirt is behind it. Find the "
            "reason before anything is made thicker."
        )
    if max(found.readings) < found.low:
        yield "Too little float may be dirt, a washer the wrong way round or a part not home: look before a washer is thinned."


END_FLOAT = Sum(
    name="end-float",
    title="End float",
    job=Job.FITTING,
    asks="Is the end float within its limits, and how much thicker or thinner must the washers or shims be?",
    inputs=(
        Input("float", "end float as read, best at several positions as it is turned", "length", Takes.READINGS, "e", least="0 mm", most="50 mm"),
        Input("limit", "end float that the maker allows", "length", Takes.RANGE, "l", least="0 mm", most="10 mm"),
        Input("fitted", "thickness of the shim, pack or washer that was in as it was read", "length", symbol="f", optional=True, least="0 mm", most="50 mm"),
        Input("sizes", "how much thicker than those fitted the washers are that can be had, with a minus for thinner", "length", Takes.READINGS, optional=True, least="-5 mm", most="5 mm"),
        Input("faces", "faces that have a washer each, 1 or 2", "count", default="2", least="1", most="2"),
    ),
    outputs=(FLOAT, SCATTER, ADD_LEAST, ADD_MOST, NEW_LEAST, NEW_MOST, CHOICE, THEN),
    in_words=(
        "Thickness that is put in takes up as much float. The least to add is the largest reading less the most that is allowed, the most to "
        "add the smallest reading less the least that is allowed; between the two every reading comes within the limits."
    ),
    formula=(
        "a = largest e \N{MINUS SIGN} largest l",
        "A = smallest e \N{MINUS SIGN} smallest l",
        "thickness then = f + a to f + A",
    ),
    limits=(
        "Read with a dial gauge, the shaft levered right home each way, or with feelers that do not spring; caps tightened.",
        "A reading with a bent or dirty washer is worth nothing: clean, stone off burrs, read again.",
        "Bearings that run with preload have no float to read: that is another measurement, to the maker's manual.",
    ),
    caution=(
        "Some makers forbid to shim or to grind their thrust washers, and some shells carry the thrust themselves: the maker's manual says "
        "what may be changed. After it is changed the float is read again before anything is closed."
    ),
    sources=(
        "Transmission maker's service manual, countershaft end play: pack thicker than measured less largest, thinner than measured less smallest (easymanua.ls, fso-2105, page 95).",
        "US Army TM 5-4210-233-14&P-2, table c, thrust washers by the end play found.",
    ),
    example=(
        ("float", "0.24, 0.26, 0.25 mm"), ("limit", "0.05..0.15 mm"), ("fitted", "2.31 mm"),
        ("sizes", "0.06, 0.12, 0.25 mm"),
    ),
    work=_work,
)  # fmt: skip

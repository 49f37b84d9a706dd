"""What a tyre measures by its designation, and what another one in its place changes."""

from collections.abc import Iterator
from fractions import Fraction

from journal.bench.base.definition import Job, Sum
from journal.bench.base.given import Given
from journal.bench.base.tyres import (
    Tyre,
    given_turn,
    given_tyre,
    turn_words,
    tyre_inputs,
)
from journal.bench.base.worked import Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number

_LENGTHS, _SHARE = (("mm", 0), ("in", 2)), (("%", 1),)
_MILE, _KILOMETRE = Fraction(1_609_344), Fraction(1_000_000)


def _of(name: str, meaning: str, units: tuple[tuple[str, int], ...]) -> tuple[Output, Output]:
    return Output(name, meaning, units), Output(f"{name}-other", f"{meaning}, of the other", units)


DIAMETER = _of("diameter", "diameter over all", _LENGTHS)
WALL = _of("wall", "height of the side wall", _LENGTHS)
TURN = _of("turn", "way of one turn, loaded", _LENGTHS)
PER_MILE = _of("per-mile", "turns in a mile", (("", 0),))
PER_KM = _of("per-km", "turns in a kilometre", (("", 0),))
DIFFERENCE = Output("difference", "the other goes further in a turn by", _SHARE)
RIDE = Output("ride", "the other lifts the car by", (("mm", 0), ("in", 2)))
SHOWS = Output("shows", "a speedometer that was right then shows", _SHARE)


def _work(given: Given) -> Worked:
    tell = Teller((("mm", 0, 1), ("in", 2, 2)), given)
    first, other = given_tyre(given), given_tyre(given, "-other")
    turn, other_turn = given_turn(given), given_turn(given, "-other")
    assert first is not None
    assert turn is not None
    results = list(_results(first, turn, 0, given))
    steps = [*_steps(first, turn, "", given, tell)]
    if other is None or other_turn is None:
        return Worked(tuple(results), tuple(steps), f"{first.name} measures {tell(first.diameter)} over all and goes {tell(turn)} in one turn.")  # fmt: skip
    share, ride = 100 * (other_turn / turn - 1), (other.diameter - first.diameter) / 2
    results += [
        *_results(other, other_turn, 1, given),
        answered(DIFFERENCE, share, given),
        answered(RIDE, ride, given),
        answered(SHOWS, 100 * turn / other_turn, given),
    ]
    steps += [
        *_steps(other, other_turn, "-other", given, tell),
        f"difference: {tell.number(other_turn)} / {tell.number(turn)} \N{MINUS SIGN} 1 = {fixed_number(share, 1)} %",
        f"ride height: ({tell.number(other.diameter)} \N{MINUS SIGN} {tell.number(first.diameter)}) / 2 = {tell(ride)}",
    ]
    return Worked(tuple(results), tuple(steps), _verdict(first, other, share, _stands(ride, given)), None, tuple(_warnings(first, other, share)))  # fmt: skip


def _results(tyre: Tyre, turn: Fraction, which: int, given: Given) -> Iterator[Result]:
    yield answered(DIAMETER[which], tyre.diameter, given)
    if tyre.rim is not None:
        yield answered(WALL[which], (tyre.diameter - tyre.rim) / 2, given)
    yield answered(TURN[which], turn, given)
    yield answered(PER_MILE[which], _MILE / turn, given)
    yield answered(PER_KM[which], _KILOMETRE / turn, given)


def _steps(tyre: Tyre, turn: Fraction, after: str, given: Given, tell: Teller) -> Iterator[str]:
    if given.has(f"diameter{after}"):
        yield f"{tyre.name}: diameter over all {tell(tyre.diameter)}, as given"
    elif tyre.rim is not None and tyre.width is not None:
        yield (
            f"{tyre.name}: rim {tell(tyre.rim)} + 2 \N{MULTIPLICATION SIGN} {tell(tyre.width)} \N{MULTIPLICATION SIGN} "
            f"{tyre.aspect} / 100 = {tell(tyre.diameter)}"
        )
    else:
        yield f"{tyre.name}: diameter over all {tell(tyre.diameter)}, as its name says"
    yield f"{tyre.name}: one turn {tell(turn)}, {turn_words(given, after).removeprefix(f'{tyre.name}, ')}"


def _stands(ride: Fraction, given: Given) -> str:
    tell = Teller((("mm", 0, 0), ("in", 1, 1)), given)
    return f"{tell(abs(ride))} {'higher' if ride > 0 else 'lower'}" if ride else "as high"


def _verdict(first: Tyre, other: Tyre, share: Fraction, ride: str) -> str:
    if abs(share) < Fraction(1, 20):
        return f"{other.name} goes as far in one turn as {first.name}."
    further, faster = ("further", "slower") if share > 0 else ("less far", "faster")
    return (
        f"{other.name} goes {fixed_number(abs(share), 1)} % {further} in one turn than {first.name}: the engine turns so much {faster} "
        f"at the same speed, and the car stands {ride}."
    )


def _warnings(first: Tyre, other: Tyre, share: Fraction) -> Iterator[str]:
    if share > Fraction(1, 20):
        yield "With the other tyre the speedometer shows less than is driven unless its drive is changed."
    if first.rim is not None and other.rim is not None and first.rim != other.rim:
        yield "The two are for rims of different diameter."
    if first.width is not None and other.width is not None and other.width > first.width:
        yield "The other tyre is wider: see that the rim is wide enough, and that it touches nothing at full lock and full bump."


TYRE_SIZE = Sum(
    name="tyre-size",
    title="Tyre size, and another tyre in its place",
    job=Job.GEARING,
    asks="What does a tyre measure, and what changes with another?",
    inputs=(*tyre_inputs(), *tyre_inputs("-other", optional=True, when=" that would take its place")),
    outputs=(
        DIAMETER[0], WALL[0], TURN[0], PER_MILE[0], PER_KM[0],
        DIAMETER[1], WALL[1], TURN[1], PER_MILE[1], PER_KM[1], DIFFERENCE, RIDE, SHOWS,
    ),
    in_words=(
        "Twice the height of the side wall, which is the width times the series over 100, and the diameter of the rim are the diameter over all. "
        "A loaded tyre goes about 3.05 times that in one turn, a little less than a free circle; a turn that was measured on the floor is better."
    ),
    formula=(
        "D = rim + 2 \N{MULTIPLICATION SIGN} width \N{MULTIPLICATION SIGN} series / 100",
        "U = 3.05 D",
        "difference = U other / U \N{MINUS SIGN} 1",
    ),
    limits=(
        "Sizes by designation are those of a new tyre on its measuring rim; makes differ by a hundredth or so, and wear takes some more.",
        "A radial size without a series is taken as series 80; early ones are often a little taller.",
        "Cross-ply sizes have no rule for their height, and go a little less far in a turn than radials: the maker's table and a tape on the floor tell.",
    ),
    caution=(
        "Fit only sizes, load and speed marks that the car's maker or the tyre's maker names for this car and rim; local rules may want other sizes approved. "
        "Tyres age out whatever their tread, and cross-ply and radial tyres are not mixed on an axle."
    ),
    sources=(
        "ISO 4000-1, designation and design dimensions of tyres for passenger cars: overall diameter from width, series and rim (cited from memory).",
        "ETRTO practice, from memory: one turn at 60 km/h is 3.05 times the diameter over all; DIN 70020 measures it at that speed.",
    ),
    example=(("tyre", "165 R 15"), ("tyre-other", "185/65 R 15")),
    work=_work,
)  # fmt: skip

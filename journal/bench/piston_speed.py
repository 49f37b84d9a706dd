"""Piston speed: mean, largest, and the pull on the piston at top dead centre."""

import math
from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import Input, Job, Sum
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number

_SPEEDS = (("m/s", 1), ("ft/min", 0))
MEAN = Output("mean", "mean piston speed", _SPEEDS, "v")
LARGEST = Output("largest", "largest piston speed", _SPEEDS)
AT = Output("at", "crank angle after top dead centre at which it is reached", (("deg", 0),))
PULL = Output(
    "pull",
    "pull on rod and pin at top dead centre, in times the weight of the piston",
    (("", 0),),
    "p",
)
SPEED_LIMIT = Output(
    "limit-speed", "engine speed at which the mean speed is the most allowed", (("rpm", 0),), "N"
)

# Standard gravity in mm/s2, by definition.
_GRAVITY = Fraction("9806.65")
_TIMES = "\N{MULTIPLICATION SIGN}"
_SHARES = (Fraction(1, 2), Fraction(3, 4), Fraction(1), Fraction(5, 4))


class _Crank(Struct, frozen=True):
    """A crank without offset: throw and rod in mm."""

    throw: float
    rod: float

    def speed(self, angle: float) -> float:
        """Speed of the piston in mm for each radian, at a crank angle after top dead centre."""
        sine, share = math.sin(angle), self.throw / self.rod
        lean = share * math.cos(angle) / math.sqrt(1 - (share * sine) ** 2)
        return self.throw * sine * (1 + lean)

    def fastest(self) -> float:
        """The angle of the largest speed: speed rises to it and falls after it, within a half turn."""
        low, high = 0.0, math.pi
        for _ in range(200):
            one, other = low + (high - low) / 3, high - (high - low) / 3
            low, high = (one, high) if self.speed(one) < self.speed(other) else (low, other)
        return (low + high) / 2


def _work(given: Given) -> Worked:
    stroke, turning = given.one("stroke").to("mm"), given.one("speed").to("rpm")
    mean = _mean(stroke, turning)
    results = [answered(MEAN, mean, given, unit="m/s")]
    crank = _crank(given, stroke)
    if crank is not None:
        results += _with_rod(given, crank, turning)
    right = None
    if given.has("most"):
        most = given.one("most").to("m/s")
        results.append(answered(SPEED_LIMIT, _limit(stroke, most), given))
        right = mean <= most
    return Worked(
        tuple(results),
        tuple(_steps(given, stroke, turning, crank)),
        _verdict(given, mean, right),
        right,
        grids=(_grid(given, stroke, turning),),
    )


def _mean(stroke: Fraction, turning: Fraction) -> Fraction:
    """The mean speed in m/s: two strokes a turn."""
    return 2 * stroke * turning / 60 / 1000


def _limit(stroke: Fraction, most: Fraction) -> Fraction:
    return most * 1000 * 60 / (2 * stroke)


def _crank(given: Given, stroke: Fraction) -> _Crank | None:
    if not given.has("rod"):
        return None
    rod = given.one("rod").to("mm")
    if rod <= stroke / 2:
        raise NotWorked(
            "rod", f"must be longer than half the stroke, found {given.one('rod').words}", "measure it from centre to centre",
        )  # fmt: skip
    return _Crank(float(stroke / 2), float(rod))


def _with_rod(given: Given, crank: _Crank, turning: Fraction) -> Iterator[Result]:
    radians = float(turning) * 2 * math.pi / 60
    angle = crank.fastest()
    yield answered(LARGEST, crank.speed(angle) * radians / 1000, given)
    yield answered(AT, math.degrees(angle), given)
    yield answered(PULL, _pull(crank, radians), given)


def _pull(crank: _Crank, radians: float) -> float:
    return crank.throw * radians**2 * (1 + crank.throw / crank.rod) / float(_GRAVITY)


def _steps(
    given: Given, stroke: Fraction, turning: Fraction, crank: _Crank | None
) -> Iterator[str]:
    length = Teller((("mm", 0, 2), ("in", 0, 4)), given)
    speed = Teller((("m/s", 2, 2), ("ft/min", 0, 0)), given)
    by = "12" if given.imperial else "(60 " + _TIMES + " 1000)"
    told = given.one("speed").words.removesuffix(" rpm")
    yield f"mean: 2 {_TIMES} {length.number(stroke)} {_TIMES} {told} / {by} = {speed(_mean(stroke, turning))}"
    if crank is not None:
        share = Teller((("", 3, 3),), given)
        ratio = share(Fraction(crank.throw / crank.rod))
        radians = float(turning) * 2 * math.pi / 60
        angle, radius = crank.fastest(), fixed_number(crank.throw / 1000, 5)
        quick = Fraction(crank.speed(angle) * radians / 1000)
        yield f"throw over rod: {length.number(stroke / 2)} / {length.number(given.one('rod').to('mm'))} = {ratio}"
        yield f"largest, {fixed_number(math.degrees(angle), 0)}\N{DEGREE SIGN} after top dead centre: {fixed_number(quick / _mean(stroke, turning), 3)} times the mean = {speed(quick)}"
        yield (
            f"pull: {radius} m {_TIMES} (2 \N{GREEK SMALL LETTER PI} {_TIMES} {told} / 60)\N{SUPERSCRIPT TWO} {_TIMES} (1 + {ratio}) / 9.80665 = "
            f"{fixed_number(_pull(crank, radians), 0)} times its weight"
        )
    if given.has("most"):
        most = given.one("most")
        yield f"engine speed for {most.words}: {told} {_TIMES} {speed.number(most.to('m/s'))} / {speed.number(_mean(stroke, turning))} = {round(_limit(stroke, most.to('m/s')))} rpm"


def _verdict(given: Given, mean: Fraction, right: bool | None) -> str:
    told = f"The pistons average {Teller((('m/s', 1, 1), ('ft/min', 0, 0)), given)(mean)} at {given.one('speed').words}"
    if right is None:
        return f"{told}."
    most = given.one("most").words
    return f"{told}, within {most}." if right else f"{told}, more than {most}."


def _grid(given: Given, stroke: Fraction, turning: Fraction) -> Grid:
    metric, imperial = Teller((("m/s", 1, 1),), given), Teller((("ft/min", 0, 0),), given)
    rows = []
    for share in _SHARES:
        at = turning * share
        mean = _mean(stroke, at)
        rows.append((f"{round(at)} rpm", metric(mean), imperial(mean * 60000 / Fraction("304.8"))))
    return Grid(
        "Mean speed as the engine turns", ("Engine speed", "Metric", "Imperial"), tuple(rows)
    )


PISTON_SPEED = Sum(
    name="piston-speed",
    title="Piston speed",
    job=Job.ENGINE,
    asks="How fast do the pistons run, and how fast may the engine turn?",
    inputs=(
        Input("stroke", "stroke of the piston", "length", symbol="s", least="10 mm", most="300 mm"),
        Input("speed", "engine speed", "turning", symbol="n", least="100 rpm", most="20000 rpm"),
        Input("rod", "length of the connecting rod from centre to centre", "length", symbol="l", optional=True, least="20 mm", most="1000 mm"),
        Input("most", "mean piston speed that is not to be passed", "speed", symbol="m", optional=True, least="1 m/s", most="50 m/s"),
    ),
    outputs=(MEAN, LARGEST, AT, PULL, SPEED_LIMIT),
    in_words=(
        "The piston goes the stroke twice a turn, so that the mean speed is twice the stroke times the turns. It is fastest where rod and "
        "crank stand nearly square, and pulled hardest at top dead centre, by the throw and the rod together."
    ),
    formula=(
        "v = 2 s n",
        "p = s / 2 \N{GREEK SMALL LETTER OMEGA}\N{SUPERSCRIPT TWO} (1 + s / (2 l)) / g, with \N{GREEK SMALL LETTER OMEGA} = 2 \N{GREEK SMALL LETTER PI} n",
        "N = m / (2 s)",
    ),
    limits=(
        "The piston pin is taken to stand on the centre line; an offset, as many engines have, shifts the angle and the largest speed a little.",
        "Many older touring engines were made for a mean of 10 to 15 m/s (2,000 to 3,000 ft/min); the maker's red line goes before any rule (common practice).",
        "Mean speed says little of a bottom end with soft bearings, or of valve gear that floats first.",
    ),
    caution=(
        "An engine that is turned faster than the maker's limit can throw a rod through its side: keep to the maker's speed, and lower where "
        "parts are old or of unknown make."
    ),
    sources=(
        "Mean piston speed, 90 mm at 3000 rpm: motor-car.net, 14842; kfz-tech.de.",
        "Piston motion with rod, quartermile.ws forum, topic 7907; piston acceleration, audifans.com archive, January 1998.",
    ),
    example=(("stroke", "88.9 mm"), ("speed", "5000 rpm"), ("rod", "165 mm"), ("most", "16 m/s")),
    work=_work,
)  # fmt: skip

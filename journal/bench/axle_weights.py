"""What the scales say: weight by axle, side and diagonal, and where the centre of gravity lies."""

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number
from journal.words.text import listed

_MASSES, _SHARE, _LENGTHS = (("kg", 0), ("lb", 0)), (("%", 1),), (("mm", 0), ("in", 1))
TOTAL = Output("total", "weight of the car", _MASSES, "W")
FRONT = Output("front-weight", "weight on the front axle", _MASSES)
REAR = Output("rear-weight", "weight on the rear axle", _MASSES)
FRONT_SHARE = Output("front-share", "share on the front axle", _SHARE)
SIDE = Output("first-side", "share on the side read first", _SHARE)
CROSS = Output("diagonal", "share on the diagonal from there", _SHARE)
BEHIND = Output("behind", "centre of gravity behind the front axle", _LENGTHS, "a")
ASIDE = Output("aside", "centre of gravity off the middle, to that side", _LENGTHS)  # fmt: skip
MOVE = Output("too-much", "too much on the front wheel read first", _MASSES)  # fmt: skip

# An uneven diagonal of more than this, and axles that differ from the whole by more than this, are told
# of. Common practice, no source.
_UNEVEN, _ASTRAY = Fraction(1), Fraction(1)


class _Scales(Struct, frozen=True):
    """Weights in kg by axle, those of the wheels side by side, or one for both."""

    front: tuple[Fraction, ...]
    rear: tuple[Fraction, ...]

    @property
    def total(self) -> Fraction:
        """The whole car."""
        return sum((*self.front, *self.rear), Fraction(0))

    @property
    def by_wheel(self) -> bool:
        """Whether every wheel was weighed."""
        return len(self.front) == len(self.rear) == 2

    @property
    def side(self) -> Fraction:
        """What stands on the side read first."""
        return self.front[0] + self.rear[0]

    @property
    def diagonal(self) -> Fraction:
        """The front wheel read first and the rear wheel of the other side."""
        return self.front[0] + self.rear[1]


def _work(given: Given) -> Worked:
    scales = _Scales(
        *(tuple(q.to("kg") for q in given.readings(axle)) for axle in ("front", "rear"))
    )
    for axle, read in (("front", scales.front), ("rear", scales.rear)):
        if len(read) > 2:
            raise NotWorked(axle, f"must be one weight for the axle or two for its wheels, found {len(read)}", "write the mean of readings that were repeated")  # fmt: skip
    if not scales.total:
        raise NotWorked("front", "and rear weigh nothing together", "read the scales again")
    over = tuple(_over(given, scales))
    return Worked(
        tuple(_results(given, scales)),
        tuple(_steps(given, scales)),
        _verdict(given, scales, over),
        (not over) if given.has("front-most") or given.has("rear-most") else None,
        tuple(_warnings(given, scales)),
        (_grid(given, scales),) if scales.by_wheel else (),
    )


def _over(given: Given, scales: _Scales) -> Iterator[str]:
    tell = Teller((("kg", 0, 0), ("lb", 0, 0)), given)
    for axle, read in (("front", scales.front), ("rear", scales.rear)):
        if given.has(f"{axle}-most") and sum(read) > given.one(f"{axle}-most").to("kg"):
            yield f"the {axle} axle carries {tell(sum(read) - given.one(f'{axle}-most').to('kg'))} more than its maker allows"


def _results(given: Given, scales: _Scales) -> Iterator[Result]:
    total, rear = scales.total, sum(scales.rear, Fraction(0))
    yield answered(TOTAL, total, given)
    yield answered(FRONT, sum(scales.front, Fraction(0)), given)
    yield answered(REAR, rear, given)
    yield answered(FRONT_SHARE, 100 * (1 - rear / total), given)
    if given.has("wheelbase"):
        yield answered(BEHIND, given.one("wheelbase").to("mm") * rear / total, given)
    if scales.by_wheel:
        yield answered(SIDE, 100 * scales.side / total, given)
        yield answered(CROSS, 100 * scales.diagonal / total, given)
        yield answered(MOVE, _move(scales), given)
        if given.has("track"):
            yield answered(ASIDE, given.one("track").to("mm") * (scales.side / total - Fraction(1, 2)), given)  # fmt: skip


def _move(scales: _Scales) -> Fraction:
    """What must leave the front wheel read first so that both sides have one share of their weight in
    front; what leaves it goes to its neighbour in front, and behind the other way round."""
    side, other = scales.side, scales.total - scales.side
    front = sum(scales.front, Fraction(0))
    return scales.front[0] - front * side / (side + other)


def _steps(given: Given, scales: _Scales) -> Iterator[str]:
    kg, mm = Teller((("kg", 0, 1), ("lb", 0, 0)), given), Teller((("mm", 0, 0), ("in", 1, 1)), given)  # fmt: skip
    total, rear = scales.total, sum(scales.rear, Fraction(0))
    weights = " + ".join(kg.number(weight) for weight in (*scales.front, *scales.rear))
    yield f"weight: {weights} = {kg(total)}"
    yield f"front share: {kg.number(total - rear)} / {kg.number(total)} = {fixed_number(100 * (1 - rear / total), 1)} %"
    if given.has("wheelbase"):
        wheelbase = given.one("wheelbase").to("mm")
        yield f"centre of gravity behind the front axle: {mm(wheelbase)} \N{MULTIPLICATION SIGN} {kg.number(rear)} / {kg.number(total)} = {mm(wheelbase * rear / total)}"
    if scales.by_wheel:
        yield f"side read first: ({kg.number(scales.front[0])} + {kg.number(scales.rear[0])}) / {kg.number(total)} = {fixed_number(100 * scales.side / total, 1)} %"
        yield f"diagonal: ({kg.number(scales.front[0])} + {kg.number(scales.rear[1])}) / {kg.number(total)} = {fixed_number(100 * scales.diagonal / total, 1)} %"


def _verdict(given: Given, scales: _Scales, over: tuple[str, ...]) -> str:
    kg = Teller((("kg", 0, 0), ("lb", 0, 0)), given)
    share = 100 * sum(scales.front) / scales.total
    told = f"The car weighs {kg(scales.total)}, {fixed_number(share, 1)} % of it in front"
    if over:
        return f"{told}; {listed(over)}: it is not to be driven so."
    if not scales.by_wheel:
        return f"{told}."
    move = _move(scales)
    if abs(100 * scales.diagonal / scales.total - 50) <= _UNEVEN and abs(move) < scales.total * _UNEVEN / 100:  # fmt: skip
        return f"{told}; its diagonals are even."
    way = "too much" if move > 0 else "too little"
    return f"{told}; the front wheel read first carries {kg(abs(move))} {way}, and the rear wheel across from it too: the car stands on a diagonal."


def _warnings(given: Given, scales: _Scales) -> Iterator[str]:
    kg = Teller((("kg", 0, 0), ("lb", 0, 0)), given)
    if given.has("whole"):
        off = given.one("whole").to("kg") - scales.total
        if abs(off) > scales.total * _ASTRAY / 100:
            yield f"The axles together and the whole differ by {kg(abs(off))}: the weighbridge was not level, a brake was on, or somebody was in the car."
    if scales.by_wheel and abs(100 * scales.side / scales.total - 50) > 3:
        yield "One side carries more than 53 % of the car: see that it stood level and with nobody beside it; springs do not change that, only weight does."


def _grid(given: Given, scales: _Scales) -> Grid:
    kg = Teller((("kg", 0, 1), ("lb", 0, 0)), given)
    rows = [
        (axle, *(f"{kg(weight)}, {fixed_number(100 * weight / scales.total, 1)} %" for weight in read))
        for axle, read in (("Front", scales.front), ("Rear", scales.rear))
    ]  # fmt: skip
    return Grid("Wheel by wheel", ("Axle", "Side read first", "Other side"), tuple(rows))


AXLE_WEIGHTS = Sum(
    name="axle-weights",
    title="Axle and wheel weights",
    job=Job.SPRINGS,
    asks="How is the weight of the car spread by axle, side and diagonal, and where does it balance?",
    inputs=(
        Input("front", "weight of the front axle, or of its two wheels side by side", "mass", Takes.READINGS, symbol="F", least="0 kg", most="5000 kg"),
        Input("rear", "the same of the rear axle, in the same order", "mass", Takes.READINGS, symbol="R", least="0 kg", most="5000 kg"),
        Input("whole", "the whole car on the weighbridge, to check by", "mass", optional=True, least="50 kg", most="10000 kg"),
        Input("wheelbase", "from the middle of the front wheels to that of the rear ones", "length", symbol="L", optional=True, least="1000 mm", most="6000 mm"),
        Input("track", "from the middle of one tyre to that of the other", "length", symbol="T", optional=True, least="600 mm", most="2500 mm"),
        Input("front-most", "most that the front axle may carry, by the maker", "mass", optional=True, least="50 kg", most="5000 kg"),
        Input("rear-most", "most that the rear axle may carry, by the maker", "mass", optional=True, least="50 kg", most="5000 kg"),
    ),
    outputs=(TOTAL, FRONT, REAR, FRONT_SHARE, BEHIND, SIDE, CROSS, MOVE, ASIDE),
    in_words=(
        "The car balances where its axles say: the wheelbase times the share of the rear axle is how far that point lies behind the front one. "
        "Springs and packers move weight along the diagonals alone; they change neither axle nor side."
    ),
    formula=(
        "W = F + R",
        "a = L R / W",
        "diagonal = (front of one side + rear of the other) / W",
        "move = front of one side \N{MINUS SIGN} F \N{MULTIPLICATION SIGN} that side / W",
    ),
    limits=(
        "Scales and floor level to a millimetre or two, tyres at their pressure, dampers settled, brakes off, anti-roll bars unhooked for diagonals.",
        "Say in the note what was in the car: fuel, water, tools, spare wheel, people. Weights without that are worth little.",
        "Weights of axles that are weighed one after the other need both on one level.",
    ),
    caution=(
        "Chock the car on the scales and keep people from under it. More than the maker allows on an axle is more than its tyres, brakes and springs were made for; "
        "local rules forbid it too."
    ),
    sources=(
        "The hows and whys of cornerweights (groundcontrolstore.com): diagonals are evened by giving both sides one share in front; four weights and what they become.",
        "Statics: moments about the front axle. FAA-H-8083-1, Aircraft Weight and Balance Handbook, has the same rule.",
    ),
    example=(
        ("front", "236, 242 kg"), ("rear", "221, 213 kg"), ("wheelbase", "2286 mm"), ("track", "1216 mm"), ("front-most", "560 kg"), ("rear-most", "620 kg"),
    ),
    work=_work,
)  # fmt: skip

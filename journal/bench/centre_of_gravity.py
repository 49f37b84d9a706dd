"""How high the centre of gravity lies: the car level and with one axle lifted, the other on scales."""

from collections.abc import Iterator
from math import asin, degrees, radians, sin, tan

from msgspec import Struct

from journal.bench.base.definition import WORD, Input, Job, Sum
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Output, Teller, Worked, answered
from journal.words.amounts import fixed_number

_LENGTHS = (("mm", 0), ("in", 1))
HEIGHT = Output("height", "centre of gravity above the road", _LENGTHS, "h")
GIVE = Output("give", "it may be out by, from the scales alone", _LENGTHS)
ABOVE = Output("above", "centre of gravity above the hubs", _LENGTHS)
BEHIND = Output("behind", "centre of gravity behind the front axle", _LENGTHS, "a")
TILT = Output("tilt", "angle of the car", (("deg", 1),))

# A height that the scales leave open by more than this share is not worth much; a car leans less than
# this safely. Common practice, no source.
_VAGUE, _STEEP = 0.1, 25.0


class _Tilted(Struct, frozen=True):
    """Weights in kg and lengths in mm; `stays` is the weight that the axle on the scales has level, and
    `lifted` what it has with the other one up."""

    front: float
    rear: float
    stays: float
    lifted: float
    wheelbase: float
    angle: float

    @property
    def per_kg(self) -> float:
        """How much height each kilogramme of difference is."""
        return self.wheelbase / ((self.front + self.rear) * tan(self.angle))

    @property
    def above(self) -> float:
        """The height of the centre of gravity above the line of the hubs."""
        return (self.lifted - self.stays) * self.per_kg


def _work(given: Given) -> Worked:
    tilted = _tilted(given)
    share = tilted.rear / (tilted.front + tilted.rear)
    hub_front = float(given.one("hub").to("mm"))
    hub_rear = float(given.one("hub-rear").to("mm")) if given.has("hub-rear") else hub_front
    line = hub_front + (hub_rear - hub_front) * share
    height = tilted.above + line
    # Both weighings may be out by what the scales give.
    give = 2 * float(given.one("scales").to("kg")) * tilted.per_kg
    if not 0 < height < tilted.wheelbase:
        raise NotWorked("lifted", "gives a height that no car has", "see which axle was on the scales, the lift, and every weight again")  # fmt: skip
    return Worked(
        (
            answered(HEIGHT, height, given),
            answered(GIVE, give, given),
            answered(ABOVE, tilted.above, given),
            answered(BEHIND, tilted.wheelbase * share, given),
            answered(TILT, degrees(tilted.angle), given),
        ),
        tuple(_steps(given, tilted, line, height)),
        _verdict(given, height, give, tilted.wheelbase * share),
        None,
        tuple(_warnings(given, tilted, height, give)),
    )


def _tilted(given: Given) -> _Tilted:
    front, rear = (float(given.one(axle).to("kg")) for axle in ("front", "rear"))
    wheelbase = float(given.one("wheelbase").to("mm"))
    if given.has("lift") == given.has("angle"):
        both = given.has("lift")
        raise NotWorked("lift", "is told and angle too" if both else "is not told, and no angle either", "write one of them")  # fmt: skip
    if given.has("angle"):
        angle = radians(float(given.one("angle").to("deg")))
    else:
        lift = float(given.one("lift").to("mm"))
        if lift >= 0.7 * wheelbase:
            raise NotWorked("lift", "is more than any car can be tilted by", "write how far the hub rose")  # fmt: skip
        angle = asin(lift / wheelbase)
    stays = front if given.word("raised") == "rear" else rear
    lifted = float(given.one("lifted").to("kg"))
    if lifted <= stays:
        raise NotWorked("lifted", f"must be more than that axle weighs level, {given.one('front' if stays == front else 'rear').words}", "weigh the axle that stays down, with the other one up")  # fmt: skip
    if lifted >= front + rear:
        raise NotWorked("lifted", "must be less than the whole car", "read the scales again")
    return _Tilted(front, rear, stays, lifted, wheelbase, angle)


def _steps(given: Given, tilted: _Tilted, line: float, height: float) -> Iterator[str]:
    mm, kg = Teller((("mm", 0, 0), ("in", 1, 2)), given), Teller((("kg", 0, 1), ("lb", 0, 0)), given)  # fmt: skip
    times, minus = " \N{MULTIPLICATION SIGN} ", " \N{MINUS SIGN} "
    total = tilted.front + tilted.rear
    yield f"centre of gravity behind the front axle: {mm(tilted.wheelbase)}{times}{kg.number(tilted.rear)} / {kg.number(total)} = {mm(tilted.wheelbase * tilted.rear / total)}"
    if given.has("lift"):
        yield f"tilt: sin = {mm.number(tilted.wheelbase * sin(tilted.angle))} / {mm.number(tilted.wheelbase)}, {fixed_number(degrees(tilted.angle), 1)} deg, tan = {fixed_number(tan(tilted.angle), 4)}"
    else:
        yield f"tilt: {fixed_number(degrees(tilted.angle), 1)} deg, tan = {fixed_number(tan(tilted.angle), 4)}"
    yield (
        f"above the hubs: ({kg.number(tilted.lifted)}{minus}{kg.number(tilted.stays)}){times}{mm.number(tilted.wheelbase)} / "
        f"({kg.number(total)}{times}{fixed_number(tan(tilted.angle), 4)}) = {mm(tilted.above)}"
    )
    yield f"above the road: {mm.number(tilted.above)} + {mm.number(line)} = {mm(height)}"


def _verdict(given: Given, height: float, give: float, behind: float) -> str:
    mm = Teller((("mm", 0, 0), ("in", 1, 1)), given)
    return f"The centre of gravity lies {mm(height)} above the road, give or take {mm(give)}, and {mm(behind)} behind the front axle."


def _warnings(given: Given, tilted: _Tilted, height: float, give: float) -> Iterator[str]:
    if give > _VAGUE * height:
        yield "The scales leave the height open by more than a tenth: lift higher where it is safe, weigh on finer scales, or repeat it and take the mean."
    if degrees(tilted.angle) > _STEEP:
        yield f"More than {fixed_number(_STEEP, 0)} degrees is too steep for a car on stands: fluids move, and so may the car."
    if not 0.1 < height / tilted.wheelbase < 0.4:
        yield "Cars of usual make have their centre of gravity at a tenth to two fifths of the wheelbase; see the readings again."


CENTRE_OF_GRAVITY = Sum(
    name="centre-of-gravity",
    title="Height of the centre of gravity, by tilting",
    job=Job.SPRINGS,
    asks="How high does the centre of gravity lie?",
    inputs=(
        Input("wheelbase", "from the middle of the front wheels to that of the rear ones", "length", symbol="L", least="1000 mm", most="6000 mm"),
        Input("front", "weight on the front axle, level", "mass", symbol="F", least="30 kg", most="5000 kg"),
        Input("rear", "weight on the rear axle, level", "mass", symbol="R", least="30 kg", most="5000 kg"),
        Input("raised", "which axle was lifted", WORD, default="rear", choices=(("rear", "the front axle stayed on the scales"), ("front", "the rear axle stayed on the scales"))),
        Input("lifted", "weight on the axle that stayed down, with the other lifted", "mass", symbol="F'", least="30 kg", most="8000 kg"),
        Input("lift", "how far the hub of the lifted axle rose", "length", symbol="s", optional=True, least="50 mm", most="4000 mm"),
        Input("angle", "angle of the car, where that was measured instead", "angle", optional=True, least="1 deg", most="44 deg"),
        Input("hub", "height of the hub on the scales above the road, loaded", "length", symbol="r", least="100 mm", most="700 mm"),
        Input("hub-rear", "height of the rear hub, where it is another", "length", optional=True, least="100 mm", most="700 mm"),
        Input("scales", "how far each reading of the scales may be out", "mass", default="1 kg", least="0 kg", most="100 kg"),
    ),
    outputs=(HEIGHT, GIVE, ABOVE, BEHIND, TILT),
    in_words=(
        "With one axle up, the weight leans towards the other by as much as it lies above the hubs. The difference that the scales show, times the wheelbase, "
        "over the weight and the tangent of the angle is that height; the hub's own height above the road is added."
    ),
    formula=(
        "sin angle = s / L",
        "h = (F' \N{MINUS SIGN} F) L / (W tan angle) + r",
        "a = L R / W",
    ),
    limits=(
        "Springs blocked solid or replaced by links, tyres pumped hard, tank full or empty, nothing loose: all that moves falsifies it.",
        "Wheels on the scales free to turn, chocked against the other axle only; gearbox in neutral, brakes off.",
        "The higher the lift the better the answer: a difference of 1 kg is worth tens of millimetres at small angles.",
    ),
    caution=(
        "A car tilted on stands can come down and kill. Lift it only with a hoist and stands made for that weight and height, chocked and strapped so that it cannot roll "
        "or slip, on level ground, with nobody in, under or behind it; keep to the maker's lifting points and manual. Leave it to somebody equipped for it rather than improvise: an estimate does for most sums."
    ),
    sources=(
        "Centre of gravity height of a vehicle by lifting one axle (openbooks.link, Automotive engineering): h = (b \N{MINUS SIGN} L R / W) cot angle + r.",
        "ISO 10392, road vehicles, determination of centre of gravity (cited from memory): the axle lift method.",
        "Body builders' guidelines of a van maker, section on centre of gravity heights, have the same moments.",
    ),
    example=(
        ("wheelbase", "2286 mm"), ("front", "478 kg"), ("rear", "434 kg"), ("lifted", "506 kg"), ("lift", "600 mm"), ("hub", "295 mm"), ("scales", "0.5 kg"),
    ),
    work=_work,
)  # fmt: skip

"""What an upgrade weighs: the car, its axles and what its springs do not carry, part by part."""

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import TEXT, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number

_MASSES, _SHARE, _LENGTHS = (("kg", 1), ("lb", 1)), (("%", 1),), (("mm", 0), ("in", 1))
CHANGE = Output("change", "the car becomes heavier by, lighter with a minus", _MASSES)
TOTAL = Output("total", "weight of the car after", _MASSES)
FRONT = Output("front-after", "weight on the front axle after", _MASSES)
REAR = Output("rear-after", "weight on the rear axle after", _MASSES)
SHARE = Output("front-share", "share on the front axle before", _SHARE)
SHARE_AFTER = Output("front-share-after", "share on the front axle after", _SHARE)
BEHIND = Output("behind", "centre of gravity behind the front axle before", _LENGTHS)
BEHIND_AFTER = Output("behind-after", "centre of gravity behind the front axle after", _LENGTHS)
UNSPRUNG_FRONT = Output("unsprung-front", "unsprung in front, more by", _MASSES)
UNSPRUNG_REAR = Output("unsprung-rear", "unsprung behind, more by", _MASSES)
UNSPRUNG = {
    axle: Output(f"unsprung-share-{axle}", f"unsprung share of the {axle} axle after", _SHARE)
    for axle in ("front", "rear")
}

# A change that moves more than so many hundredths of the weight between the axles wants brakes and
# springs looked at. Common practice, no source.
_MUCH = Fraction(1)


class _Part(Struct, frozen=True):
    """What comes off and what goes on, in kg, each with its place behind the front axle in mm, and the
    share that no spring carries."""

    name: str
    off: Fraction
    on: Fraction
    at: Fraction
    to: Fraction
    unsprung: Fraction

    @property
    def change(self) -> Fraction:
        """How much heavier the car grows."""
        return self.on - self.off

    def rear(self, wheelbase: Fraction) -> Fraction:
        """How much heavier the rear axle grows."""
        return (self.on * self.to - self.off * self.at) / wheelbase


def _work(given: Given) -> Worked:
    wheelbase = given.one("wheelbase").to("mm")
    front, rear = (given.one(axle).to("kg") for axle in ("front", "rear"))
    parts = tuple(_part(row) for row in given.rows("parts"))
    rear_grows = sum((part.rear(wheelbase) for part in parts), Fraction(0))
    change = sum((part.change for part in parts), Fraction(0))
    after = (front + change - rear_grows, rear + rear_grows)
    if min(after) <= 0:
        raise NotWorked(
            "parts", "would leave an axle without weight", "see weights and places again"
        )
    unsprung = _unsprung(parts, wheelbase)
    tell = Teller((("kg", 1, 1), ("lb", 1, 1)), given)
    return Worked(
        tuple(_results(given, (front, rear), after, unsprung, wheelbase)),
        tuple(_steps(given, tell, parts, (front, rear), after, wheelbase)),
        _verdict(tell, change, (front, rear), after, unsprung),
        None,
        tuple(_warnings((front, rear), after, unsprung, parts, wheelbase)),
        (_grid(tell, parts, wheelbase),),
    )


def _part(row: Given) -> _Part:
    if row.one("off").amount == row.one("on").amount == 0:
        raise NotWorked("parts", f'has nothing off and nothing on in the row "{row.word("part")}"', "write part: off, on, at")  # fmt: skip
    at = row.one("at").to("mm")
    to = row.one("to").to("mm") if row.has("to") else at
    return _Part(row.word("part"), row.one("off").to("kg"), row.one("on").to("kg"), at, to, row.one("unsprung").to("%") / 100)  # fmt: skip


def _unsprung(parts: tuple[_Part, ...], wheelbase: Fraction) -> tuple[Fraction, Fraction]:
    """How much heavier grows what the springs do not carry, in front and behind; each place counts to the
    nearer axle."""
    grows = [Fraction(0), Fraction(0)]
    for part in parts:
        for place, weight in ((part.at, -part.off), (part.to, part.on)):
            grows[int(place > wheelbase / 2)] += weight * part.unsprung
    return grows[0], grows[1]


def _results(given: Given, before: tuple[Fraction, Fraction], after: tuple[Fraction, Fraction], unsprung: tuple[Fraction, Fraction], wheelbase: Fraction) -> Iterator[Result]:  # fmt: skip
    yield answered(CHANGE, sum(after) - sum(before), given)
    yield answered(TOTAL, sum(after, Fraction(0)), given)
    yield answered(FRONT, after[0], given)
    yield answered(REAR, after[1], given)
    for share, behind, axles in ((SHARE, BEHIND, before), (SHARE_AFTER, BEHIND_AFTER, after)):
        yield answered(share, 100 * axles[0] / sum(axles), given)
        yield answered(behind, wheelbase * axles[1] / sum(axles), given)
    yield answered(UNSPRUNG_FRONT, unsprung[0], given)
    yield answered(UNSPRUNG_REAR, unsprung[1], given)
    for n, axle in enumerate(("front", "rear")):
        if given.has(f"unsprung-{axle}"):
            was = given.one(f"unsprung-{axle}").to("kg")
            if was >= before[n] or not 0 < was + unsprung[n] < after[n]:
                raise NotWorked(f"unsprung-{axle}", "must be part of what that axle weighs, before and after", "write both wheels with brakes, hubs and half of the arms")  # fmt: skip
            yield answered(UNSPRUNG[axle], 100 * (was + unsprung[n]) / after[n], given)


def _steps(given: Given, tell: Teller, parts: tuple[_Part, ...], before: tuple[Fraction, Fraction], after: tuple[Fraction, Fraction], wheelbase: Fraction) -> Iterator[str]:  # fmt: skip
    mm = Teller((("mm", 0, 0), ("in", 1, 1)), given)
    minus, times = " \N{MINUS SIGN} ", " \N{MULTIPLICATION SIGN} "
    for part in parts:
        moment = f"{tell.number(part.on)}{times}{mm.number(part.to)}{minus}{tell.number(part.off)}{times}{mm.number(part.at)}"
        yield f"{part.name}: {tell.number(part.on)}{minus}{tell.number(part.off)} = {tell(part.change)}; rear axle ({moment}) / {mm.number(wheelbase)} = {tell(part.rear(wheelbase))}"
    for axle, was, is_ in zip(("front", "rear"), before, after, strict=True):
        grows = is_ - was
        sign = minus if grows < 0 else " + "
        yield f"{axle} axle: {tell.number(was)}{sign}{tell.number(abs(grows))} = {tell(is_)}"


def _more(tell: Teller, grows: Fraction) -> str:
    if not grows:
        return "unchanged"
    return f"{tell(abs(grows))} {'heavier' if grows > 0 else 'lighter'}"


def _verdict(tell: Teller, change: Fraction, before: tuple[Fraction, Fraction], after: tuple[Fraction, Fraction], unsprung: tuple[Fraction, Fraction]) -> str:  # fmt: skip
    told = (
        f"The car becomes {_more(tell, change)}" if change else "The car stays as heavy as before"
    )
    axles = ", ".join(f"{_more(tell, new - old)} {name}" for name, old, new in zip(("in front", "behind"), before, after, strict=True))  # fmt: skip
    parts = [f"{_more(tell, grows)} {name}" for name, grows in zip(("in front", "behind"), unsprung, strict=True) if grows]  # fmt: skip
    rides = f" What the springs do not carry becomes {' and '.join(parts)}." if parts else ""
    return f"{told}: {axles}.{rides}"


def _warnings(before: tuple[Fraction, Fraction], after: tuple[Fraction, Fraction], unsprung: tuple[Fraction, Fraction], parts: tuple[_Part, ...], wheelbase: Fraction) -> Iterator[str]:  # fmt: skip
    moved = 100 * abs(after[0] / sum(after) - before[0] / sum(before))
    if moved > _MUCH:
        yield f"{fixed_number(moved, 1)} % of the weight goes from one axle to the other: see ride-height, brake-balance, and what each axle and its tyres may carry."
    if any(grows > 0 for grows in unsprung):
        yield "More unsprung weight asks more of dampers and tyres; the maker's damper setting was for the lighter parts."
    for part in parts:
        if part.unsprung and any(not -300 <= place <= wheelbase + 300 for place in (part.at, part.to)):  # fmt: skip
            yield f"{part.name} is unsprung and stands at no axle; see its place again."


def _grid(tell: Teller, parts: tuple[_Part, ...], wheelbase: Fraction) -> Grid:
    rows = tuple(
        (
            part.name, tell(part.off), tell(part.on), tell(part.change),
            tell(part.change - part.rear(wheelbase)), tell(part.rear(wheelbase)),
            tell(part.change * part.unsprung),
        )
        for part in parts
    )  # fmt: skip
    return Grid("Part by part", ("Part", "Off", "On", "Change", "Front axle", "Rear axle", "Unsprung"), rows)  # fmt: skip


WEIGHT_CHANGE = Sum(
    name="weight-change",
    title="Weight change of an upgrade",
    job=Job.SPRINGS,
    asks="What does an upgrade add or save, on which axle, and how much of it do the springs not carry?",
    inputs=(
        Input("wheelbase", "from the middle of the front wheels to that of the rear ones", "length", symbol="L", least="1000 mm", most="6000 mm"),
        Input("front", "weight on the front axle before", "mass", symbol="F", least="30 kg", most="5000 kg"),
        Input("rear", "weight on the rear axle before", "mass", symbol="R", least="30 kg", most="5000 kg"),
        Input(
            "parts", "what comes off and goes on, and where", takes=Takes.ROWS,
            columns=(
                Input("part", "what it is", TEXT),
                Input("off", "weight that comes off", "mass", symbol="o", least="0 kg", most="1500 kg"),
                Input("on", "weight that goes on", "mass", symbol="n", least="0 kg", most="1500 kg"),
                Input("at", "how far behind the front axle it lies; ahead of it with a minus", "length", symbol="x", least="-2000 mm", most="8000 mm"),
                Input("to", "the same of what goes on, where that is elsewhere", "length", symbol="y", optional=True, least="-2000 mm", most="8000 mm"),
                Input("unsprung", "share that no spring carries: all of a wheel, half of an arm", "share", default="0 %", least="0 %", most="100 %"),
            ),
        ),
        Input("unsprung-front", "unsprung weight of the front axle before", "mass", optional=True, least="5 kg", most="1000 kg"),
        Input("unsprung-rear", "unsprung weight of the rear axle before", "mass", optional=True, least="5 kg", most="1000 kg"),
    ),
    outputs=(CHANGE, TOTAL, FRONT, REAR, SHARE, BEHIND, SHARE_AFTER, BEHIND_AFTER, UNSPRUNG_FRONT, UNSPRUNG_REAR, *UNSPRUNG.values()),
    in_words=(
        "Weight that goes on at a place is carried by both axles, by the rear one in the share of the wheelbase that the place lies behind the front one. "
        "Behind the rear axle it lightens the front one."
    ),
    formula=(
        "change = \N{N-ARY SUMMATION} (n \N{MINUS SIGN} o)",
        "rear after = R + \N{N-ARY SUMMATION} (n y \N{MINUS SIGN} o x) / L",
        "front after = F + change \N{MINUS SIGN} (rear after \N{MINUS SIGN} R)",
    ),
    limits=(
        "Weigh the parts as they go on: with bolts, brackets, fluid and wiring.",
        "Height is left out; what is moved up or down changes the centre of gravity and the brakes' work all the same.",
        "Unsprung are wheels, tyres, brakes at the wheel, hubs and a live axle, and half of arms, shafts, springs and dampers.",
    ),
    caution=(
        "An axle, its tyres, brakes and springs carry what their makers allow and no more; wheels and hubs take only loads and offsets that were approved for them. "
        "A car that was changed is to be checked by a qualified person to the maker's manual and local rules before it is used."
    ),
    sources=(
        "Pilot's Handbook of Aeronautical Knowledge, FAA-H-8083-25, weight and balance: weight shifting and weight addition, with worked examples.",
        "Common practice, no source: half of what joins wheel and body counts as unsprung.",
    ),
    example=(
        ("wheelbase", "2286 mm"), ("front", "478 kg"), ("rear", "434 kg"),
        ("parts", "battery: 17 kg, 14 kg, 2000 mm, to -150 mm; front brakes: 21 kg, 18.5 kg, 0 mm, unsprung 100 %; heater: 0 kg, 6.5 kg, 450 mm"),
        ("unsprung-front", "70 kg"),
    ),
    work=_work,
)  # fmt: skip

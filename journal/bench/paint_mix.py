"""Paint mixed by its ratio: how much of each, how high in the cup, and what the scales read."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import pi

from msgspec import Struct

from journal.bench.base.definition import TEXT, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number
from journal.words.quantities import NotRead, parse_quantity, plain_text
from journal.words.text import listed

_VOLUMES = (("ml", 0), ("fl oz", 1))
READY = Output("ready", "ready to spray", _VOLUMES)
PARTS = tuple(
    Output(f"{place}-part", f"{place} part", _VOLUMES)
    for place in ("first", "second", "third", "fourth")
)
WEIGHT = Output("weight", "weight of the mixture", (("g", 0), ("oz", 1)))

# What stands in a ratio when nobody says.
_NAMES = ("paint", "hardener", "thinner")


class Part(Struct, frozen=True):
    """A part of a ratio: its name, how it is written, and how many parts of the first it is."""

    name: str
    written: str
    number: Fraction

    @property
    def is_share(self) -> bool:
        """Whether it is told as a share of all before it."""
        return self.written.endswith("%")


def _work(given: Given) -> Worked:
    parts = tuple(_parts(given))
    whole = sum((part.number for part in parts), Fraction(0))
    one = _one_part(given, parts, whole)
    volumes = tuple(part.number * one for part in parts)
    densities = _densities(given, len(parts))
    tell = Teller((("ml", 0, 1), ("fl oz", 1, 2)), given)
    return Worked(
        tuple(_results(given, volumes, densities)),
        tuple(_steps(given, parts, whole, one, tell)),
        f"For {tell(whole * one)}, pour in this order: {listed([f'{tell(v)} of {p.name}' for p, v in zip(parts, volumes, strict=True)])}.",
        None,
        (),
        (_grid(given, parts, volumes, densities, tell),),
    )


def _parts(given: Given) -> Iterator[Part]:
    cells = [cell.strip() for cell in plain_text(given.word("ratio")).split(":")]
    if not 1 < len(cells) <= len(PARTS):
        raise _no_ratio(given)
    names = _names(given, len(cells))
    before = Fraction(0)
    for name, cell in zip(names, cells, strict=True):
        number = _number(given, cell, before)
        before += number
        yield Part(name, cell, number)


def _number(given: Given, cell: str, before: Fraction) -> Fraction:
    """A part as it is written: `4`, `0.5`, or `10 %` of all before it."""
    try:
        if cell.endswith("%"):
            number = parse_quantity(cell, "share").to("%") / 100 * before
        else:
            number = parse_quantity(cell, "number").amount
    except NotRead:
        raise _no_ratio(given) from None
    if number <= 0:
        raise _no_ratio(given)
    return number


def _no_ratio(given: Given) -> NotWorked:
    return NotWorked(
        "ratio",
        f'must be two to four parts, found "{given.word("ratio")}"',
        "write it as on the tin, such as 4 : 1 : 1 or 4 : 1 : 10 %",
    )


def _names(given: Given, number: int) -> tuple[str, ...]:
    if not given.has("names"):
        return (*_NAMES, "fourth part")[:number]
    names = given.values["names"]
    assert isinstance(names, tuple)
    if len(names) != number:
        raise NotWorked("names", f"must be as many as the ratio has, {number}, found {len(names)}")
    return names


def _densities(given: Given, number: int) -> tuple[Fraction, ...]:
    """Grams of a millilitre of each part; none where they are not given."""
    if not given.has("densities"):
        return ()
    densities = tuple(each.amount for each in given.readings("densities"))
    if len(densities) != number:
        raise NotWorked(
            "densities",
            f"must be as many as the ratio has, {number}, found {len(densities)}",
            "they stand on the data sheets",
        )
    return densities


def _one_part(given: Given, parts: Sequence[Part], whole: Fraction) -> Fraction:
    """One part in ml."""
    ways = [name for name in ("ready", "stock") if given.has(name)]
    if len(ways) != 1:
        told = "is missing" if not ways else "cannot be given together with stock"
        raise NotWorked(
            "ready", told, "give how much is wanted ready to spray, or how much there is of the first part"
        )  # fmt: skip
    if ways == ["ready"]:
        return given.one("ready").to("ml") / whole
    return given.one("stock").to("ml") / parts[0].number


def _results(
    given: Given, volumes: Sequence[Fraction], densities: Sequence[Fraction]
) -> Iterator[Result]:
    yield answered(READY, sum(volumes, Fraction(0)), given)
    for output, volume in zip(PARTS, volumes, strict=False):
        yield answered(output, volume, given)
    if densities:
        grams = sum((v * d for v, d in zip(volumes, densities, strict=True)), Fraction(0))
        yield answered(WEIGHT, grams, given)


def _steps(
    given: Given, parts: Sequence[Part], whole: Fraction, one: Fraction, tell: Teller
) -> Iterator[str]:
    before = Fraction(0)
    for part in parts:
        if part.is_share:
            yield f"{part.name}: {part.written} of {float(before):g} parts = {float(part.number):g}"
        before += part.number
    yield f"parts: {' + '.join(f'{float(part.number):g}' for part in parts)} = {float(whole):g}"
    if given.has("ready"):
        yield f"one part: {tell(whole * one)} / {float(whole):g} = {tell(one)}"
    else:
        first = parts[0]
        yield f"one part: {tell(first.number * one)} / {float(first.number):g} = {tell(one)}"
    for part in parts:
        yield f"{part.name}: {float(part.number):g} \N{MULTIPLICATION SIGN} {tell.number(one)} = {tell(part.number * one)}"


def _grid(
    given: Given,
    parts: Sequence[Part],
    volumes: Sequence[Fraction],
    densities: Sequence[Fraction],
    tell: Teller,
) -> Grid:
    heads = ["Pour in order", "Amount", "Cup then holds"]
    heads += ["Height in the cup"] * given.has("cup") + ["Scales then read"] * bool(densities)
    rows, so_far, grams = [], Fraction(0), Fraction(0)
    for n, (part, volume) in enumerate(zip(parts, volumes, strict=True)):
        so_far += volume
        row = [part.name, tell(volume), tell(so_far)]
        if given.has("cup"):
            radius = float(given.one("cup").to("mm")) / 2
            row.append(f"{fixed_number(1000 * float(so_far) / (pi * radius**2), 0)} mm")
        if densities:
            grams += volume * densities[n]
            row.append(f"{fixed_number(grams, 0)} g")
        rows.append(tuple(row))
    return Grid("In the cup", tuple(heads), tuple(rows))


PAINT_MIX = Sum(
    name="paint-mix",
    title="Paint by its mixing ratio",
    job=Job.PAINT,
    asks="How much of each goes into the cup for this ratio?",
    inputs=(
        Input("ratio", "mixing ratio by volume as on the tin, such as 4 : 1 : 1 or 4 : 1 : 10 %", TEXT),
        Input("names", "what the parts are, where not paint, hardener and thinner", TEXT, Takes.READINGS, optional=True),
        Input("ready", "how much is wanted ready to spray", "volume", symbol="V", optional=True, least="1 ml", most="200 l"),
        Input("stock", "how much there is of the first part, where all of that is to be mixed", "volume", optional=True, least="1 ml", most="200 l"),
        Input("densities", "grams of a millilitre of each part, for weighing them in", "number", Takes.READINGS, optional=True, least="0.5", most="3"),
        Input("cup", "inside diameter of a straight cup, for marks on a stick", "length", optional=True, least="20 mm", most="1 m"),
    ),
    outputs=(READY, *PARTS, WEIGHT),
    in_words=(
        "The amount wanted, over all parts together, is one part. A part that is told as a share is of all that stands before it, not of the finished "
        "mixture. For weighing, each volume is multiplied by its own density."
    ),
    formula=("one part = V / sum of parts", "10 % after 4 : 1 is 0.1 \N{MULTIPLICATION SIGN} 5 = 0.5 parts"),
    limits=(
        "Ratios are by volume unless the tin says by weight; a ratio by weight needs scales and no densities.",
        "Some makers tell thinner as a share of the paint alone: read the sheet, and write it as a part.",
        "Mix no more than can be sprayed within the pot life; it runs faster when it is warm.",
        "A little more or less thinner changes how it sprays; a little more or less hardener spoils it.",
    ),
    caution=(
        "Two-pack paint holds isocyanates: air-fed mask, suit and extraction, or leave it to a painter who has them. Thinners burn and their vapour "
        "explodes. The maker's data sheet goes before all that is told here."
    ),
    sources=(
        "4 : 1 : 10 % with the share of paint and hardener together: greenyplace.com, How do you calculate paint thinner ratio.",
        "Health and Safety Executive, Health and safety in motor vehicle repair: isocyanate paints.",
    ),
    example=(("ratio", "4 : 1 : 10 %"), ("names", "colour, hardener, thinner"), ("ready", "600 ml"), ("densities", "1.25, 1.05, 0.87"), ("cup", "100 mm")),
    work=_work,
)  # fmt: skip

"""Compression ratio from what is measured: swept volume, chamber, gasket, deck and crown, cylinder by cylinder.

Where a ratio is wanted, what must come off the block or the head for it, or what thickens the gasket.
"""

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Result, Teller, Worked, answered
from journal.words.amounts import fixed_number, plain_number

_VOLUMES, _LENGTHS, _NUMBER = (("cc", 1), ("cu in", 2)), (("mm", 2), ("thou", 0)), (("", 2),)
SWEPT = Output("swept", "swept volume of one cylinder", _VOLUMES, "V")
CAPACITY = Output("capacity", "capacity of the engine", (("cc", 0), ("cu in", 1)))
DECK = Output("deck-volume", "volume between crown and block face", _VOLUMES)
GASKET = Output("gasket-volume", "volume in the hole of the gasket", _VOLUMES)
CLEARANCE = Output("clearance", "volume above the piston at top dead centre", _VOLUMES, "v")
RATIO = Output("ratio", "compression ratio to 1", _NUMBER, "R")
LOWEST = Output("lowest", "lowest ratio of a cylinder", _NUMBER)
HIGHEST = Output("highest", "highest ratio of a cylinder", _NUMBER)
GAP = Output("gap", "from the edge of the crown to the face of the head", _LENGTHS)
WANTED = Output("wanted", "volume above the piston for the ratio wanted", _VOLUMES)
CHANGE = Output("change", "volume to take out of each chamber, or to add with a minus", _VOLUMES)
OFF_BLOCK = Output("off-block", "off the face of the block for it", _LENGTHS)
OFF_HEAD = Output("off-head", "off the face of the head for it", _LENGTHS)
THICKER = Output("thicker", "thicker gasket for it", _LENGTHS)

_PI = Fraction(math.pi)
_MINUS, _TIMES = "\N{MINUS SIGN}", "\N{MULTIPLICATION SIGN}"
# Common practice, no source: less than this between crown and head, and they may touch at speed.
_CLOSE = Fraction("0.8")
# Common practice, no source: chambers are brought within so many cc of one another.
_EVEN = 1
# From the cube of the lengths to the volumes: lengths in inches, volumes in cubic inches or not.
_CUBED = {
    (False, False): " / 1000",
    (True, True): "",
    (True, False): f" {_TIMES} 16.387",
    (False, True): " / 16387",
}
# Cuts in the table, in the system of the inputs.
_CUTS_MM = tuple(Fraction(n, 100) for n in (0, 25, 50, 75, 100, 150))
_CUTS_THOU = tuple(Fraction(n) * Fraction("0.0254") for n in (0, 10, 20, 30, 40, 60))


class _Engine(Struct, frozen=True):
    """What was measured, in mm and cc; `chambers` and `decks` have one entry for each cylinder."""

    bore: Fraction
    stroke: Fraction
    chambers: tuple[Fraction, ...]
    decks: tuple[Fraction, ...]
    gasket: Fraction
    gasket_bore: Fraction
    crown: Fraction

    @property
    def swept(self) -> Fraction:
        return _cylinder(self.bore, self.stroke)

    @property
    def gasket_volume(self) -> Fraction:
        return _cylinder(self.gasket_bore, self.gasket)

    @property
    def clearances(self) -> tuple[Fraction, ...]:
        """The volume above each piston at top dead centre."""
        return tuple(
            chamber + self.gasket_volume + _cylinder(self.bore, deck) + self.crown
            for chamber, deck in zip(self.chambers, self.decks, strict=True)
        )

    def ratio(self, clearance: Fraction) -> Fraction:
        return (self.swept + clearance) / clearance


def _cylinder(diameter: Fraction, length: Fraction) -> Fraction:
    """The volume in cc of a cylinder in mm."""
    return _PI / 4 * diameter**2 * length / 1000


def _mean(amounts: Sequence[Fraction]) -> Fraction:
    return sum(amounts, Fraction(0)) / len(amounts)


def _work(given: Given) -> Worked:
    engine = _engine(given)
    clearances = engine.clearances
    mean = _mean(clearances)
    gap = min(engine.decks) + engine.gasket
    results = [
        answered(SWEPT, engine.swept, _volumes(given)),
        answered(CAPACITY, engine.swept * len(clearances), _volumes(given)),
        answered(
            DECK, _mean([_cylinder(engine.bore, deck) for deck in engine.decks]), _volumes(given)
        ),
        answered(GASKET, engine.gasket_volume, _volumes(given)),
        answered(CLEARANCE, mean, _volumes(given)),
        answered(RATIO, engine.ratio(mean), given),
    ]
    if len(set(clearances)) > 1:
        results += [
            answered(LOWEST, engine.ratio(max(clearances)), given),
            answered(HIGHEST, engine.ratio(min(clearances)), given),
        ]
    results.append(answered(GAP, gap, given))
    results += _target(given, engine, mean)
    return Worked(
        tuple(results),
        tuple(_steps(given, engine, mean)),
        _verdict(given, engine, mean),
        None,
        tuple(_warnings(given, engine, gap)),
        tuple(_grids(given, engine, mean)),
    )


def _engine(given: Given) -> _Engine:
    cylinders = int(given.number("cylinders"))
    gasket_bore = given.one("gasket-bore" if given.has("gasket-bore") else "bore").to("mm")
    engine = _Engine(
        given.one("bore").to("mm"), given.one("stroke").to("mm"), _each(given, "chamber", "cc", cylinders),
        _each(given, "deck", "mm", cylinders), given.one("gasket").to("mm") if given.has("gasket") else Fraction(0),
        gasket_bore, given.one("crown").to("cc"),
    )  # fmt: skip
    if min(engine.clearances) <= 0:
        raise NotWorked(
            "crown", "and deck leave no volume above the piston", "a crown that stands up has a minus, and so has a piston that stands proud; measure again",
        )  # fmt: skip
    return engine


def _each(given: Given, name: str, unit: str, cylinders: int) -> tuple[Fraction, ...]:
    read = tuple(reading.to(unit) for reading in given.readings(name))
    if len(read) not in (1, cylinders):
        raise NotWorked(
            name, f"must be one, or one for each of {cylinders} cylinders, found {len(read)}", "write the cylinders in order",
        )  # fmt: skip
    return read if len(read) == cylinders else read * cylinders


def _volumes(given: Given) -> Given:
    """What says in which system volumes are told: chambers are filled in cc where bores are in inches."""
    return Given({"chamber": given.values["chamber"]})


def _wanted(given: Given, engine: _Engine) -> Fraction | None:
    """The volume above the piston for the ratio wanted, or None where none is."""
    if not given.has("target"):
        return None
    return engine.swept / (given.number("target") - 1)


def _met(given: Given, engine: _Engine, mean: Fraction) -> bool:
    """Whether the ratio is the one wanted, as both are told."""
    return _number(engine.ratio(mean)) == _number(given.number("target"))


def _target(given: Given, engine: _Engine, mean: Fraction) -> Iterator[Result]:
    wanted = _wanted(given, engine)
    if wanted is None:
        return
    change = mean - wanted
    yield answered(WANTED, wanted, _volumes(given))
    yield answered(CHANGE, change, _volumes(given))
    if _met(given, engine, mean):
        return
    if change > 0:
        yield answered(OFF_BLOCK, change / _cylinder(engine.bore, Fraction(1)), given)
        if given.has("face"):
            yield answered(OFF_HEAD, _off_head(given, change), given)
    elif change < 0:
        yield answered(THICKER, -change / _cylinder(engine.gasket_bore, Fraction(1)), given)


def _off_head(given: Given, change: Fraction) -> Fraction:
    return change * 1000 / given.one("face").to("mm2")


def _steps(given: Given, engine: _Engine, mean: Fraction) -> Iterator[str]:
    length = Teller((("mm", 2, 3), ("in", 3, 4)), given)
    volume = Teller((("cc", 1, 2), ("cu in", 2, 3)), _volumes(given))
    cubed = _CUBED[given.imperial, _volumes(given).imperial]
    quarter = f"\N{GREEK SMALL LETTER PI} / 4 {_TIMES} "
    yield f"swept: {quarter}{length.number(engine.bore)}\N{SUPERSCRIPT TWO} {_TIMES} {length.number(engine.stroke)}{cubed} = {volume(engine.swept)}"
    if engine.gasket:
        yield (
            f"gasket: {quarter}{length.number(engine.gasket_bore)}\N{SUPERSCRIPT TWO} {_TIMES} {length.number(engine.gasket)}{cubed} = "
            f"{volume(engine.gasket_volume)}"
        )
    deck = _mean(engine.decks)
    if any(engine.decks):
        yield (
            f"deck{_mean_word(engine.decks)}: {quarter}{length.number(engine.bore)}\N{SUPERSCRIPT TWO} {_TIMES} {_signed(deck, length)}{cubed} = "
            f"{volume(_cylinder(engine.bore, deck))}"
        )
    parts = [
        _mean(engine.chambers),
        engine.gasket_volume,
        _cylinder(engine.bore, deck),
        engine.crown,
    ]
    added = " + ".join(_signed(part, volume) for part in parts if part)
    yield f"above the piston{_mean_word(engine.clearances)}: {added} = {volume(mean)}"
    yield f"ratio: ({volume.number(engine.swept)} + {volume.number(mean)}) / {volume.number(mean)} = {_number(engine.ratio(mean))}"
    wanted = _wanted(given, engine)
    if wanted is not None:
        yield f"volume wanted: {volume.number(engine.swept)} / ({plain_number(given.number('target'), 3)} {_MINUS} 1) = {volume(wanted)}"
        yield f"to take out: {volume.number(mean)} {_MINUS} {volume.number(wanted)} = {volume(mean - wanted)}"


def _mean_word(readings: Sequence[Fraction]) -> str:
    return ", mean of all" if len(set(readings)) > 1 else ""


def _signed(amount: Fraction, tell: Teller) -> str:
    return f"({tell.number(amount)})" if amount < 0 else tell.number(amount)


def _number(ratio: Fraction) -> str:
    return fixed_number(ratio, 2)


def _verdict(given: Given, engine: _Engine, mean: Fraction) -> str:
    told = f"The compression ratio is {_number(engine.ratio(mean))} to 1"
    wanted = _wanted(given, engine)
    if wanted is None:
        return f"{told}."
    volume, length = Teller((("cc", 1, 1), ("cu in", 2, 2)), _volumes(given)), _cut_teller(given)
    change, target = mean - wanted, given.one("target").words
    target = target if ":" in target else f"{target} to 1"
    if _met(given, engine, mean):
        return f"{told}, as it is wanted."
    if change < 0:
        gasket = length(-change / _cylinder(engine.gasket_bore, Fraction(1)))
        return f"{told}; for {target} each chamber needs {volume(-change)} more: {gasket} more of gasket, or metal out of the chambers."
    block = length(change / _cylinder(engine.bore, Fraction(1)))
    head = f", or {length(_off_head(given, change))} off the head" if given.has("face") else ""
    return f"{told}; for {target} each chamber loses {volume(change)}: {block} off the block{head}."


def _cut_teller(given: Given) -> Teller:
    return Teller((("mm", 2, 2), ("thou", 0, 0)), given)


def _warnings(given: Given, engine: _Engine, gap: Fraction) -> Iterator[str]:
    if not given.has("gasket"):
        yield "No gasket is counted: where there is one, give its thickness as it is when tightened."
    if gap < _CLOSE:
        close = _cut_teller(given)
        yield (
            f"Crown and head stand {close(gap)} apart at top dead centre; less than {close(_CLOSE)} is close (common practice): turn the "
            "engine over by hand with a soft strip between them before it is started."
        )
    spread = max(engine.chambers) - min(engine.chambers)
    if spread > _EVEN:
        volume = Teller((("cc", 1, 1), ("cu in", 2, 2)), _volumes(given))
        yield f"The chambers differ by {volume(spread)}; they are brought within {volume(Fraction(_EVEN))} of one another (common practice)."


def _grids(given: Given, engine: _Engine, mean: Fraction) -> Iterator[Grid]:
    volume = Teller((("cc", 1, 1), ("cu in", 2, 2)), _volumes(given))
    if len(set(engine.clearances)) > 1:
        wanted = _wanted(given, engine)
        heads = ("Cylinder", "Chamber", "Above the piston", "Ratio")
        rows = tuple(
            (str(n), volume(chamber), volume(above), _number(engine.ratio(above)))
            + ((volume(above - wanted),) if wanted is not None else ())
            for n, (chamber, above) in enumerate(
                zip(engine.chambers, engine.clearances, strict=True), 1
            )
        )
        yield Grid(
            "Cylinder by cylinder", (*heads, "To take out") if wanted is not None else heads, rows
        )
    yield Grid(
        "What metal off a face does",
        ("Metal off", "Ratio, off the block", *(("Ratio, off the head",) if given.has("face") else ())),
        tuple(_cut_rows(given, engine, mean)),
    )  # fmt: skip


def _cut_rows(given: Given, engine: _Engine, mean: Fraction) -> Iterator[tuple[str, ...]]:
    areas = [_PI / 4 * engine.bore**2]
    areas += [given.one("face").to("mm2")] if given.has("face") else []
    for cut in _CUTS_THOU if given.imperial else _CUTS_MM:
        left = [mean - cut * area / 1000 for area in areas]
        yield (
            _cut_teller(given)(cut),
            *(_number(engine.ratio(each)) if each > 0 else "none left" for each in left),
        )


COMPRESSION_RATIO = Sum(
    name="compression-ratio",
    title="Compression ratio and volumes",
    job=Job.ENGINE,
    asks="What are the capacity and the compression ratio, and what brings the ratio that is wanted?",
    inputs=(
        Input("bore", "cylinder bore", "length", symbol="d", least="10 mm", most="250 mm"),
        Input("stroke", "stroke of the piston", "length", symbol="s", least="10 mm", most="300 mm"),
        Input("cylinders", "number of cylinders", "count", least="1", most="16"),
        Input(
            "chamber", "volume of the chamber in the head, filled with valves and plug in; one, or one for each cylinder", "volume",
            Takes.READINGS, "h", least="1 cc", most="1000 cc",
        ),
        Input(
            "deck", "how far the crown stays below the block face at top dead centre, with a minus where it stands proud; one, or one for each cylinder",
            "length", Takes.READINGS, "k", default="0 mm", least="-30 mm", most="30 mm",
        ),
        Input("gasket", "thickness of the gasket when tightened", "length", symbol="g", optional=True, least="0 mm", most="10 mm"),
        Input("gasket-bore", "hole of the gasket, where it is not that of the bore", "length", symbol="D", optional=True, least="10 mm", most="300 mm"),
        Input("crown", "volume of the dish in the crown, with a minus for a crown that stands up", "volume", symbol="c", default="0 cc", least="-500 cc", most="500 cc"),
        Input("target", "compression ratio wanted", "ratio", symbol="r", optional=True, least="2", most="30"),
        Input("face", "area of the open face of one chamber, for metal off the head", "area", symbol="A", optional=True, least="1 cm2", most="1000 cm2"),
    ),
    outputs=(SWEPT, CAPACITY, DECK, GASKET, CLEARANCE, RATIO, LOWEST, HIGHEST, GAP, WANTED, CHANGE, OFF_BLOCK, OFF_HEAD, THICKER),
    in_words=(
        "Swept volume is the area of the bore times the stroke. Above the piston are the chamber, the hole of the gasket, what is between "
        "crown and block face, and the dish of the crown. The ratio is both together over what is above the piston."
    ),
    formula=(
        "V = \N{GREEK SMALL LETTER PI} / 4 d\N{SUPERSCRIPT TWO} s",
        "v = h + \N{GREEK SMALL LETTER PI} / 4 D\N{SUPERSCRIPT TWO} g + \N{GREEK SMALL LETTER PI} / 4 d\N{SUPERSCRIPT TWO} k + c",
        "R = (V + v) / v",
        "v wanted = V / (r \N{MINUS SIGN} 1)",
    ),
    limits=(
        "The ratio is that of the volumes; what the gauge reads depends on valve timing, speed and leaks.",
        "The small space above the top ring, around the piston, is not counted.",
        "Metal off the head shrinks the chamber by its open face only while the walls of the chamber stand square to it.",
        "Metal off a face changes valve timing of some engines, the length of push rods and the depth of pockets in the crown.",
    ),
    caution=(
        "A ratio above the maker's, with the fuel of today and an old ignition curve, burns pistons and breaks rings: keep to the maker's figure "
        "and to the least thickness the maker gives for head and block, and check valve to piston by hand before the engine is started."
    ),
    sources=(
        "Formulas and example of an engine parts trade: qualitygermanautoparts.com, formulas and charts.",
        "Head gasket and compression ratio, circletrack.com, May 2004, with all five volumes.",
        "Geometry: the volume of a cylinder.",
    ),
    example=(
        ("bore", "73.0 mm"), ("stroke", "88.9 mm"), ("cylinders", "4"), ("chamber", "43.5, 44.2, 43.8, 45.1 cc"),
        ("deck", "0.30 mm"), ("gasket", "0.90 mm"), ("gasket-bore", "75.0 mm"), ("crown", "2.5 cc"), ("target", "8.5 : 1"),
        ("face", "38.5 cm2"),
    ),
    work=_work,
)  # fmt: skip

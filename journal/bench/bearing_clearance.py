"""Clearance of bearings, bushes and pistons from micrometer readings, with ovality and taper.

Readings are taken at up to three places along the part, two at each place at right angles. Journals of
one kind are ground to one size together, and so are cylinders bored: the size is that of the worst.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from journal.bench.base.definition import TEXT, WORD, Input, Job, Sum, Takes
from journal.bench.base.fits import Bearing, Maker, Part
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Result, Teller, Worked, answered
from journal.words.text import listed

_FINE, _SIZE = (("mm", 3), ("thou", 1)), (("mm", 3), ("in", 4))
LEAST = Output("least", "smallest clearance", _FINE, "c")
MOST = Output("most", "largest clearance", _FINE, "C")
OVALITY = Output("ovality", "largest ovality of the part that is machined", _FINE, "o")
TAPER = Output("taper", "largest taper of the part that is machined", _FINE, "t")
STEP = Output("step", "next size supplied that cleans up", _FINE, "u")
FINISH_LEAST = Output("finish-least", "machine to, smallest", _SIZE)
FINISH_MOST = Output("finish-most", "machine to, largest", _SIZE)

_PLACES = ("first", "second", "third")
# What the part that is machined, and the one that is renewed, are called in each fit.
_CALLED = {
    "journal": ("journal", "shells"),
    "piston": ("cylinder", "piston"),
    "bush": ("shaft", "bush"),
}

_TIGHT = {
    "journal": (
        "Never file caps or scrape shells to gain clearance: look for dirt behind the shell, a wrong size, a cap on the wrong place "
        "or the wrong way round, and measure again."
    ),
    "piston": "A tight piston seizes: measure both parts again at one temperature; a cylinder that was bored is honed to its clearance.",
    "bush": "A bush closes when it is pressed in: measure it in its place; it is reamed or honed to its clearance.",
}


def _work(given: Given) -> Worked:
    bearings = tuple(_bearings(given))
    maker = _maker(given)
    parts = [maker.machined(bearing) for bearing in bearings]
    found = {bearing.name: maker.remedy(bearing) for bearing in bearings}
    wrong = {name: remedy for name, remedy in found.items() if remedy}
    machining = maker.fit != "bush" and any(r.startswith("machine") for r in wrong.values())
    fine, size = Teller((("mm", 3, 4), ("thou", 1, 2)), given), _size_teller(given)
    results = [
        answered(LEAST, min(b.least for b in bearings), given),
        answered(MOST, max(b.most for b in bearings), given),
        *_form(given, parts),
    ]
    step = maker.next_step(parts) if machining and maker.standard else None
    if step is not None:
        low, high = maker.sizes(step)
        results += [
            answered(STEP, step, given),
            answered(FINISH_LEAST, low, given),
            answered(FINISH_MOST, high, given),
        ]
    remedy = _together(wrong, maker, step, size)
    return Worked(
        tuple(results),
        (
            *(line for bearing in bearings for line in _steps(bearing, maker, fine, size)),
            *_step_lines(parts, maker, step, machining, size),
        ),
        _verdict(len(bearings), wrong, remedy, given),
        not wrong,
        tuple(_warnings(bearings, maker, step, machining, given)),
        (_grid(bearings, maker, found, fine, size),),
    )


def _size_teller(given: Given) -> Teller:
    return Teller((("mm", 3, 4), ("in", 4, 5)), given)


def _bearings(given: Given) -> Iterator[Bearing]:
    bores, shafts = (_parts(given, name) for name in ("bores", "shafts"))
    for one, other, missing in ((bores, shafts, "shafts"), (shafts, bores, "bores")):
        lone = [name for name in one if name not in other]
        if lone:
            raise NotWorked(
                missing, f'must have the same names as the others, and has no "{lone[0]}"', "give each pair one name",
            )  # fmt: skip
    yield from (Bearing(name, bores[name], shafts[name]) for name in bores)


def _parts(given: Given, name: str) -> dict[str, Part]:
    parts: dict[str, Part] = {}
    for row in given.rows(name):
        called = row.word("bearing")
        if called in parts:
            raise NotWorked(name, f'has "{called}" twice', "give every one its own name")
        parts[called] = Part(tuple(_places(row, name, called)))
    if not parts:
        raise NotWorked(name, "must have at least one row", "write 1: and its readings")
    return parts


def _places(row: Given, name: str, called: str) -> Iterator[tuple[Fraction, Fraction | None]]:
    for place in _PLACES:
        square = f"{place}-square"
        if row.has(place):
            yield row.one(place).to("mm"), row.one(square).to("mm") if row.has(square) else None
        elif row.has(square):
            raise NotWorked(
                name, f'has a {square} and no {place} in the row "{called}"', "give both"
            )


def _maker(given: Given) -> Maker:
    limit = given.span("limit")
    most = [given.one(n).to("mm") if given.has(n) else None for n in ("most-ovality", "most-taper")]
    standard = None
    if given.has("standard"):
        ends = given.span("standard")
        standard = (ends.low.to("mm"), ends.high.to("mm"))
    steps = tuple(sorted(each.to("mm") for each in given.readings("sizes")))
    return Maker(
        given.word("fit"), limit.low.to("mm"), limit.high.to("mm"), most[0], most[1], standard,
        steps, given.one("cleanup").to("mm"),
    )  # fmt: skip


def _form(given: Given, parts: Sequence[Part]) -> Iterator[Result]:
    ovality = [part.ovality for part in parts if part.ovality is not None]
    taper = [part.taper for part in parts if part.taper is not None]
    if ovality:
        yield answered(OVALITY, max(ovality), given)
    if taper:
        yield answered(TAPER, max(taper), given)


def _together(wrong: dict[str, str], maker: Maker, step: Fraction | None, size: Teller) -> str:
    """What is to be done with the set, in words."""
    part, other = _CALLED[maker.fit]
    verb, way = ("bore", "oversize") if maker.fit == "piston" else ("grind", "undersize")
    told = []
    if any(remedy.startswith("machine") for remedy in wrong.values()):
        if maker.fit == "bush":
            told.append("a new pin or shaft")
        elif step is not None:
            low, high = maker.sizes(step)
            by = Teller((("mm", 2, 3), ("thou", 0, 1)), size.given)
            told.append(f"{verb} all {part}s {by(step)} {way}, to {_span(low, high, size)}")
        elif maker.standard is None:
            told.append(f"{verb} the {part}s to the next size; give standard to see which")
        else:
            told.append(f"no size supplied cleans up: the {part}s are built up or replaced")
    if "renew" in wrong.values():
        told.append(
            f"{'a new' if maker.fit != 'journal' else 'new'} {other} of the same size, and measure again"
        )
    if "wide" in wrong.values():
        told.append(f"measure the {part} against its new size: give standard")
    if "tight" in wrong.values():
        told.append("find why it is tight")
    return "; ".join(told) or "nothing"


def _steps(bearing: Bearing, maker: Maker, fine: Teller, size: Teller) -> Iterator[str]:
    bore, shaft = bearing.bore, bearing.shaft
    minus = "\N{MINUS SIGN}"
    yield (
        f"{bearing.name}, smallest clearance: {size.number(bore.least)} {minus} {size(shaft.most)} = {fine(bearing.least)}; "
        f"largest: {size.number(bore.most)} {minus} {size(shaft.least)} = {fine(bearing.most)}"
    )
    part = maker.machined(bearing)
    pairs = [
        f"{size.number(max(a, b))} {minus} {size.number(min(a, b))}"
        for a, b in part.places
        if b is not None and abs(a - b) == part.ovality
    ]
    told = []
    if part.ovality is not None:
        told.append(f"ovality {pairs[0]} = {fine(part.ovality)}")
    if part.taper is not None:
        told.append(f"taper {fine(part.taper)}")
    if told:
        yield f"{bearing.name}, {_CALLED[maker.fit][0]}: {', '.join(told)}"


def _step_lines(
    parts: Sequence[Part], maker: Maker, step: Fraction | None, machining: bool, size: Teller
) -> Iterator[str]:
    if not machining or maker.standard is None or step is None:
        return
    low, high = maker.sizes(step)
    if maker.fit == "piston":
        worst = max(part.most for part in parts)
        yield f"largest cylinder {size(worst)}, with {size(maker.cleanup)} to clean up: the next size begins at {size(low)}"
    else:
        worst = min(part.least for part in parts)
        yield f"smallest {_CALLED[maker.fit][0]} {size(worst)}, with {size(maker.cleanup)} to clean up: the next size ends at {size(high)}"


def _verdict(bearings: int, wrong: dict[str, str], remedy: str, given: Given) -> str:
    allowed = given.span("limit").words
    if not wrong:
        return f"{'Right' if bearings == 1 else f'All {bearings} are right'}, within {allowed}; nothing to do."
    told = listed([f"{name} ({_said(each)})" for name, each in wrong.items()])
    return f"Not right against {allowed}: {told}. {remedy[:1].upper()}{remedy[1:]}."


def _said(remedy: str) -> str:
    return {"machine-shape": "out of shape", "machine-worn": "worn", "tight": "too tight"}.get(
        remedy, "too wide"
    )


def _warnings(
    bearings: Sequence[Bearing], maker: Maker, step: Fraction | None, machining: bool, given: Given
) -> Iterator[str]:
    part = _CALLED[maker.fit][0]
    if any(maker.remedy(bearing) == "tight" for bearing in bearings):
        yield _TIGHT[maker.fit]
    parts = [maker.machined(bearing) for bearing in bearings]
    for limit, found, how in (
        (maker.ovality, [p.ovality for p in parts], "twice, at right angles"),
        (maker.taper, [p.taper for p in parts], "at two places or more"),
    ):
        if limit is not None and None in found:
            names = listed([b.name for b, f in zip(bearings, found, strict=True) if f is None])
            yield f"{names}: the {part} was not read {how}, so its shape cannot be judged."
    if machining and maker.standard is not None and step is None:
        last = max(given.readings("sizes"), key=lambda q: q.to("mm")).words
        yield f"The worst {part} does not clean up at {last}, the last size given."


def _grid(
    bearings: Sequence[Bearing], maker: Maker, found: dict[str, str], fine: Teller, size: Teller
) -> Grid:
    part = _CALLED[maker.fit][0]
    return Grid(
        "One by one",
        ("Which", "Bore", "Shaft", "Clearance", f"Ovality of the {part}", f"Taper of the {part}", "Verdict"),
        tuple(_row(bearing, maker, found[bearing.name], fine, size) for bearing in bearings),
    )  # fmt: skip


def _row(
    bearing: Bearing, maker: Maker, remedy: str, fine: Teller, size: Teller
) -> tuple[str, ...]:
    part = maker.machined(bearing)
    return (
        bearing.name,
        _span(bearing.bore.least, bearing.bore.most, size),
        _span(bearing.shaft.least, bearing.shaft.most, size),
        _span(bearing.least, bearing.most, fine),
        fine(part.ovality) if part.ovality is not None else "not read",
        fine(part.taper) if part.taper is not None else "not read",
        _said(remedy) if remedy else "right",
    )


def _span(low: Fraction, high: Fraction, tell: Teller) -> str:
    return tell(low) if low == high else f"{tell.number(low)} to {tell(high)}"


def _readings(name: str, meaning: str) -> Input:
    columns = [Input("bearing", "which one", TEXT)]
    for place in _PLACES:
        at = "diameter" if place == "first" else f"at a {place} place along it"
        columns += [
            Input(place, at, "length", optional=place != "first", least="1 mm", most="500 mm"),
            Input(f"{place}-square", "there, at right angles", "length", optional=True, least="1 mm", most="500 mm"),
        ]  # fmt: skip
    return Input(name, meaning, takes=Takes.ROWS, columns=tuple(columns))


BEARING_CLEARANCE = Sum(
    name="bearing-clearance",
    title="Clearance of bearings, bushes and pistons",
    job=Job.ENGINE,
    asks="Is every bearing within its clearance and round, and if not, to which size is it ground or bored?",
    inputs=(
        _readings("bores", "what goes round: bearings with their caps tightened, bushes or cylinders"),
        _readings("shafts", "what goes inside: journals, pins or pistons, under the same names"),
        Input("limit", "clearance that the maker allows", "length", Takes.RANGE, least="0 mm", most="2 mm"),
        Input(
            "fit", "what it is, and what is machined when it is worn", WORD, default="journal",
            choices=(
                ("journal", "a journal in its shells; journals are ground undersize"),
                ("piston", "a piston in its cylinder; cylinders are bored oversize"),
                ("bush", "a pin or shaft in a bush; the bush is renewed"),
            ),
        ),
        Input("most-ovality", "most ovality that the maker allows of the part that is machined", "length", optional=True, least="0 mm", most="1 mm"),
        Input("most-taper", "most taper that the maker allows of it", "length", optional=True, least="0 mm", most="1 mm"),
        Input("standard", "diameter of that part when new, smallest and largest", "length", Takes.RANGE, "s", optional=True, least="1 mm", most="500 mm"),
        Input("sizes", "under- or oversizes in which shells or pistons are supplied", "length", Takes.READINGS, "u", default="10, 20, 30, 40 thou", least="0.01 mm", most="5 mm"),
        Input("cleanup", "least metal on the diameter for the wheel or the bar to clean up all round", "length", symbol="k", default="1 thou", least="0 mm", most="1 mm"),
    ),
    outputs=(LEAST, MOST, OVALITY, TAPER, STEP, FINISH_LEAST, FINISH_MOST),
    in_words=(
        "Clearance is the bore less the shaft, on the diameter: smallest bore less largest shaft, and the other way round. Ovality is the "
        "difference of two readings at one place, at right angles; taper that of readings along one line. A worn journal goes to the first "
        "undersize that lies below its smallest reading, a cylinder to the first oversize above its largest, all of a set alike."
    ),
    formula=(
        "c = smallest bore \N{MINUS SIGN} largest shaft; C = largest bore \N{MINUS SIGN} smallest shaft",
        "o = largest |reading \N{MINUS SIGN} reading at right angles|; t = largest \N{MINUS SIGN} smallest along one line",
        "journal: first u with largest s \N{MINUS SIGN} u \N{LESS-THAN OR EQUAL TO} smallest reading \N{MINUS SIGN} k",
        "cylinder: first u with smallest s + u \N{GREATER-THAN OR EQUAL TO} largest reading + k",
    ),
    limits=(
        "Parts are clean, dry and at one temperature, caps on their own places and tightened to the maker's torque.",
        "Shells are thinner towards their joint on purpose: read the bore of split bearings away from the joint.",
        "Pistons are read where the maker says, as a rule low on the skirt and square to the pin.",
        "Clearance here is on the diameter; some tables give it on the radius, which is half.",
        "Scores deeper than what cleans up are not seen by a micrometer.",
    ),
    caution=(
        "A journal ground without its radius, or through its hard skin, breaks: regrinding, crack testing and the last size that is allowed "
        "are for a qualified machinist to the maker's manual."
    ),
    sources=(
        "Makers' workshop manuals: ovality is the difference across one place, taper the difference along the journal, four readings a journal.",
        "ISO 286-2, limits and fits, for the smallest and the largest clearance of two toleranced parts.",
        "Common practice, no source: shells and pistons in steps of ten thou, a set ground alike.",
    ),
    example=(
        ("bores", "1: 2.0018, 2.0019, 2.0018, 2.0019 in; 2: 2.0018, 2.0018, 2.0019, 2.0019"),
        ("shafts", "1: 1.9994, 1.9996, 1.9995, 1.9996 in; 2: 1.9972, 1.9986, 1.9978, 1.9988"),
        ("limit", "1.0..2.5 thou"), ("most-ovality", "1 thou"), ("most-taper", "1 thou"),
        ("standard", "1.9990..2.0000 in"),
    ),
    work=_work,
)  # fmt: skip

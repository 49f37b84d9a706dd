"""Gaps of piston rings in their cylinder, and their side clearance in the groove.

A ring is as long as the circle that it lies in, so that its gap grows by pi times what the bore grows.
"""

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import TEXT, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Result, Teller, Worked, answered
from journal.words.quantities import Span, parse_span
from journal.words.text import listed

_GAPS, _SIDES = (("mm", 2), ("thou", 1)), (("mm", 3), ("thou", 1))
WANTED_LEAST = Output("wanted-least", "smallest gap wanted", _GAPS, "g")
WANTED_MOST = Output("wanted-most", "largest gap wanted", _GAPS, "G")
LEAST = Output("least", "smallest gap found", _GAPS)
MOST = Output("most", "largest gap found", _GAPS)
FILE = Output("file", "most to file off a ring, to bring it to the smallest gap wanted", _GAPS)
OVERSIZE = Output("oversize", "bore larger than the ring is made for, by the widest gap", _SIDES)
AT_TOP = Output("at-top", "widest gap at the top of the travel, where the bore is worn", _GAPS, "w")
SIDE_LEAST = Output("side-least", "smallest side clearance found", _SIDES)
SIDE_MOST = Output("side-most", "largest side clearance found", _SIDES)

_PI = Fraction(math.pi)
# Below the smaller a ring may close up, above the larger its bore is oversize: see the sources.
_RULE = "0.0035..0.008"
_MINUS, _TIMES = "\N{MINUS SIGN}", "\N{MULTIPLICATION SIGN}"


class _Ring(Struct, frozen=True):
    name: str
    gap: Fraction
    side: Fraction | None


class _Wanted(Struct, frozen=True):
    low: Fraction
    high: Fraction
    side: tuple[Fraction, Fraction] | None

    def short(self, ring: _Ring) -> Fraction:
        """What must come off a ring at least, or nothing."""
        return max(self.low - ring.gap, Fraction(0))

    def side_wrong(self, ring: _Ring) -> str:
        """What is wrong with its side clearance, or nothing."""
        if ring.side is None or self.side is None:
            return ""
        if ring.side < self.side[0]:
            return "too tight in the groove"
        return "too loose in the groove" if ring.side > self.side[1] else ""

    def wrong(self, ring: _Ring) -> str:
        """What is wrong with a ring in words, or nothing."""
        told = ["gap too small"] if self.short(ring) else []
        told += ["gap too wide"] if ring.gap > self.high else []
        told += [self.side_wrong(ring)] if self.side_wrong(ring) else []
        return ", ".join(told)


def _work(given: Given) -> Worked:
    rings, wanted = tuple(_rings(given)), _wanted(given)
    gap = Teller((("mm", 2, 3), ("thou", 0, 1)), given)
    widest = max(ring.gap for ring in rings)
    wrong = {ring.name: told for ring in rings if (told := wanted.wrong(ring))}
    results = [
        answered(WANTED_LEAST, wanted.low, given),
        answered(WANTED_MOST, wanted.high, given),
        answered(LEAST, min(ring.gap for ring in rings), given),
        answered(MOST, widest, given),
    ]
    if any(wanted.short(ring) for ring in rings):
        results.append(answered(FILE, max(wanted.short(ring) for ring in rings), given))
    if widest > wanted.high:
        results.append(answered(OVERSIZE, (widest - wanted.high) / _PI, given))
    if given.has("worn"):
        results.append(answered(AT_TOP, widest + _PI * _wear(given), given))
    results += _sides(given, rings)
    remedy = "; ".join(_remedies(rings, wanted, gap)) or "nothing"
    return Worked(
        tuple(results),
        tuple(_steps(given, rings, wanted, gap)),
        _verdict(wrong, remedy, gap, wanted, len(rings)),
        not wrong,
        tuple(_warnings(given, widest, wanted, gap)),
        (_grid(given, rings, wanted, gap),),
    )


def _rings(given: Given) -> Iterator[_Ring]:
    seen: set[str] = set()
    for row in given.rows("rings"):
        name = row.word("ring")
        if name in seen:
            raise NotWorked("rings", f'has "{name}" twice', "give every ring its own name")
        seen.add(name)
        side = row.one("side").to("mm") if row.has("side") else None
        yield _Ring(name, row.one("gap").to("mm"), side)
    if not seen:
        raise NotWorked("rings", "must have at least one row", "write 1 top: and its gap")


def _wanted(given: Given) -> _Wanted:
    side = None
    if given.has("side-limit"):
        ends = given.span("side-limit")
        side = (ends.low.to("mm"), ends.high.to("mm"))
    if given.has("limit"):
        limit = given.span("limit")
        return _Wanted(limit.low.to("mm"), limit.high.to("mm"), side)
    rule, bore = _rule(given), given.one("bore").to("mm")
    return _Wanted(rule.low.amount * bore, rule.high.amount * bore, side)


def _rule(given: Given) -> Span:
    return given.span("rule") if given.has("rule") else parse_span(_RULE, "number")


def _wear(given: Given) -> Fraction:
    wear = given.one("worn").to("mm") - given.one("bore").to("mm")
    if wear < 0:
        raise NotWorked(
            "worn", f"is smaller than bore, found {given.one('worn').words}", "the bore wears at the top of the travel: measure both again",
        )  # fmt: skip
    return wear


def _sides(given: Given, rings: Sequence[_Ring]) -> Iterator[Result]:
    sides = [ring.side for ring in rings if ring.side is not None]
    if sides:
        yield answered(SIDE_LEAST, min(sides), given)
        yield answered(SIDE_MOST, max(sides), given)


def _steps(given: Given, rings: Sequence[_Ring], wanted: _Wanted, gap: Teller) -> Iterator[str]:
    if given.has("limit"):
        yield f"gap wanted, by the maker: {given.span('limit').words}"
    else:
        rule, bore = _rule(given), given.one("bore").words
        for word, end, found in (
            ("smallest", rule.low, wanted.low),
            ("largest", rule.high, wanted.high),
        ):
            yield f"{word} gap wanted, by the rule: {end.words} {_TIMES} {bore} = {gap(found)}"
    for ring in rings:
        if short := wanted.short(ring):
            yield f"{ring.name}, to file: {gap.number(wanted.low)} {_MINUS} {gap.number(ring.gap)} = {gap(short)} at least, {gap(wanted.high - ring.gap)} at most"
        elif ring.gap > wanted.high:
            over = (ring.gap - wanted.high) / _PI
            yield (
                f"{ring.name}, bore too large for it by: ({gap.number(ring.gap)} {_MINUS} {gap.number(wanted.high)}) / \N{GREEK SMALL LETTER PI} = "
                f"{Teller((('mm', 2, 3), ('thou', 0, 1)), given)(over)}"
            )
    if given.has("worn"):
        widest = max(ring.gap for ring in rings)
        yield (
            f"gap at the top of the travel: {gap.number(widest)} + \N{GREEK SMALL LETTER PI} {_TIMES} {gap.number(_wear(given))} = "
            f"{gap(widest + _PI * _wear(given))}"
        )


def _remedies(rings: Sequence[_Ring], wanted: _Wanted, gap: Teller) -> Iterator[str]:
    for ring in rings:
        if short := wanted.short(ring):
            yield f"file {gap(short)} off {ring.name}"
    wide = [ring.name for ring in rings if ring.gap > wanted.high]
    if wide:
        yield f"another ring for {listed(wide)}, or an oversize one filed to fit"
    tight = [r.name for r in rings if wanted.side_wrong(r) == "too tight in the groove"]
    if tight:
        yield f"clean the groove of {listed(tight)}, or find the ring that belongs there"
    loose = [r.name for r in rings if wanted.side_wrong(r) == "too loose in the groove"]
    if loose:
        yield f"the groove of {listed(loose)} is worn: another piston, or the groove trued for a wider ring"


def _verdict(wrong: dict[str, str], remedy: str, gap: Teller, wanted: _Wanted, rings: int) -> str:
    allowed = f"{gap.number(wanted.low)} to {gap(wanted.high)}"
    if not wrong:
        return f"{'Right' if rings == 1 else f'All {rings} are right'}, within {allowed}; nothing to do."
    told = listed([f"{name} ({words})" for name, words in wrong.items()])
    return f"Not right against {allowed}: {told}. {remedy[:1].upper()}{remedy[1:]}."


def _warnings(given: Given, widest: Fraction, wanted: _Wanted, gap: Teller) -> Iterator[str]:
    if not given.has("limit"):
        yield "The gap wanted is by the rule for cast-iron rings in an engine without a blower; what the maker of the ring gives goes before it."
    if given.has("worn") and widest + _PI * _wear(given) > wanted.high >= widest:
        yield (
            f"The bore is worn so that a ring that is right below opens to {gap(widest + _PI * _wear(given))} at the top. "
            "New rings do not cure a worn bore."
        )


def _grid(given: Given, rings: Sequence[_Ring], wanted: _Wanted, gap: Teller) -> Grid:
    side = Teller((("mm", 3, 3), ("thou", 0, 1)), given)
    return Grid(
        "Ring by ring",
        ("Ring", "Gap", "Side clearance", "Verdict"),
        tuple(
            (
                ring.name,
                gap(ring.gap),
                side(ring.side) if ring.side is not None else "not read",
                wanted.wrong(ring) or "right",
            )
            for ring in rings
        ),
    )


RING_GAP = Sum(
    name="ring-gap",
    title="Gaps of piston rings",
    job=Job.ENGINE,
    asks="Has every ring its gap and its clearance in the groove, and how much is filed off?",
    inputs=(
        Input("bore", "cylinder bore below the wear, where the gaps are read", "length", symbol="d", least="10 mm", most="500 mm"),
        Input(
            "rings", "every ring with its gap, pushed square down the bore", takes=Takes.ROWS,
            columns=(
                Input("ring", "which one", TEXT),
                Input("gap", "gap between its ends", "length", least="0 mm", most="20 mm"),
                Input("side", "clearance between it and the side of its groove", "length", optional=True, least="0 mm", most="2 mm"),
            ),
        ),
        Input("limit", "gap that the maker allows", "length", Takes.RANGE, optional=True, least="0.01 mm", most="10 mm"),
        Input("rule", f"gap for each unit of bore, where the maker gives none; {_RULE} if left out", "number", Takes.RANGE, "f", optional=True, least="0.001", most="0.02"),
        Input("side-limit", "side clearance that the maker allows", "length", Takes.RANGE, optional=True, least="0 mm", most="2 mm"),
        Input("worn", "cylinder bore at the top of the travel, under the ridge", "length", symbol="d1", optional=True, least="10 mm", most="500 mm"),
    ),
    outputs=(WANTED_LEAST, WANTED_MOST, LEAST, MOST, FILE, OVERSIZE, AT_TOP, SIDE_LEAST, SIDE_MOST),
    in_words=(
        "The gap wanted is the maker's, or the rule's for each inch of bore. What is short of the smallest is filed off one end. Where the "
        "bore is larger, the gap is wider by \N{GREEK SMALL LETTER PI} times as much, since the ring lies on its circle."
    ),
    formula=("g = smallest f d, G = largest f d", "w = gap + \N{GREEK SMALL LETTER PI} (d1 \N{MINUS SIGN} d)"),
    limits=(
        "The ring lies square in the bore, pushed down with a bare piston, below the worn part.",
        "The rule is for plain cast-iron rings; steel rails, second rings of some makers, blown and competition engines want other gaps.",
        "Ends are filed square and their burrs stoned off, from the outside in; a plated face is filed towards the middle of the ring.",
    ),
    caution=(
        "A ring whose ends meet when it is hot breaks its land and scores the bore: never fit one below the maker's smallest gap, and "
        "follow the maker's sheet for the ring where it differs."
    ),
    sources=(
        "Hastings Manufacturing, service tips, oversize cylinders: at least 0.0035 in of gap for each inch of bore; above 0.008 in for each inch the bore is oversize.",
        "Common practice, no source: a ring is filed to three or four thou for each inch of bore.",
        "Geometry: the circumference is \N{GREEK SMALL LETTER PI} times the diameter.",
    ),
    example=(
        ("bore", "3.000 in"),
        ("rings", "1 top: 8 thou, 2 thou; 1 second: 11, 1.5; 2 top: 10, 2; 2 second: 14, 1.5"),
        ("limit", "9..13 thou"), ("side-limit", "1.5..3 thou"), ("worn", "3.003 in"),
    ),
    work=_work,
)  # fmt: skip

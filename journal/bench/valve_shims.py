"""Valve clearance by shims or buckets, all valves at once: which shim goes where before any is bought.

Every fitted shim and every spare one may go to every valve that it brings within its range. That is an
assignment problem; it is solved exactly, by whole numbers that rank what counts: first how few shims
are bought, then how few valves are disturbed, then how near each comes to the middle of its range.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import floor, lcm

from msgspec import Struct

from journal.bench.base.assignment import assigned
from journal.bench.base.definition import TEXT, WORD, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Teller, Worked, answered, said
from journal.words.quantities import Span
from journal.words.text import counted, listed

_LENGTHS = (("mm", 2), ("thou", 1))
OUTSIDE = Output("outside", "valves outside their range", (("", 0),))
BOUGHT = Output("bought", "shims to buy", (("", 0),))
MOVED = Output("moved", "shims that go to another valve", (("", 0),))
SPARES = Output("spares", "shims from the drawer", (("", 0),))
ORDER = Output("order", "to order")
LEAST = Output("least", "smallest clearance then", _LENGTHS)
MOST = Output("most", "largest clearance then", _LENGTHS)

# More than any engine of a car has, and what a drawer is searched for.
MOST_VALVES, MOST_SPARES = 64, 400


class Valve(Struct, frozen=True):
    """A valve as it was measured, in mm: its shim, its clearance, and the range wanted."""

    name: str
    shim: Fraction
    clearance: Fraction
    low: Fraction
    high: Fraction

    def then(self, shim: Fraction) -> Fraction:
        """The clearance with another shim: new = old + clearance - then."""
        return self.shim + self.clearance - shim

    def takes(self, shim: Fraction) -> bool:
        """Whether a shim brings the valve within its range."""
        return self.low <= self.then(shim) <= self.high

    def off(self, shim: Fraction) -> Fraction:
        """How far from the middle of its range a shim leaves the valve."""
        return abs(self.then(shim) - (self.low + self.high) / 2)

    @property
    def wanted(self) -> Fraction:
        """The shim that leaves the middle of the range."""
        return self.then((self.low + self.high) / 2)


class Fit(Struct, frozen=True):
    """What is done at one valve: the shim it gets and where from.

    `source` is the number of the valve that the shim comes from, its own where it stays; absent for
    a spare and for one that is bought. `sizes` are the ends between which a bought one must lie, when
    none that is sold does; then `shim` is what would leave the middle.
    """

    shim: Fraction
    source: int | None = None
    spare: bool = False
    unsold: bool = False

    @property
    def bought(self) -> bool:
        """Whether the shim is neither there already nor in the drawer."""
        return self.source is None and not self.spare


def fits_of(
    valves: Sequence[Valve], spares: Sequence[Fraction] = (), sold: Sequence[Fraction] | None = None
) -> tuple[Fit, ...]:
    """The fit of every valve in order: fewest shims bought, then fewest valves disturbed, then nearest
    to the middle. Without `sold` any thickness can be bought."""
    buys = [_bought(valve, sold) for valve in valves]
    shims = [valve.shim for valve in valves] + list(spares)
    ranks = [
        [_rank(valve, n, shim, m) for m, shim in enumerate(shims)]
        + [(1, 1, valve.off(buys[n].shim)) if m == n else None for m in range(len(valves))]
        for n, valve in enumerate(valves)
    ]
    chosen = assigned(_costs(ranks))
    return tuple(_fit(n, m, shims, buys, len(valves)) for n, m in enumerate(chosen))


_Rank = tuple[int, int, Fraction]


def _rank(valve: Valve, n: int, shim: Fraction, m: int) -> _Rank | None:
    return (0, int(m != n), valve.off(shim)) if valve.takes(shim) else None


def _fit(n: int, m: int, shims: Sequence[Fraction], buys: Sequence[Fit], valves: int) -> Fit:
    if m >= len(shims):
        return buys[n]
    return Fit(shims[m], source=m) if m < valves else Fit(shims[m], spare=True)


def _bought(valve: Valve, sold: Sequence[Fraction] | None) -> Fit:
    if sold is None:
        return Fit(valve.wanted)
    fitting = [size for size in sold if valve.takes(size)]
    if not fitting:
        return Fit(valve.wanted, unsold=True)
    # Of two as near the thinner: valves close up as their seats wear (common practice).
    return Fit(min(fitting, key=lambda size: (valve.off(size), size)))


def _costs(ranks: Sequence[Sequence[_Rank | None]]) -> list[list[int]]:
    """Ranks as whole numbers, so that a smaller sum is the better choice; what cannot be costs more
    than all that can together."""
    offs = [rank[2] for row in ranks for rank in row if rank is not None]
    measure = lcm(*(off.denominator for off in offs))
    disturbed = len(ranks) * (int(max(offs) * measure) + 1)
    bought = disturbed * (len(ranks) + 1)
    never = bought * (len(ranks) + 1)
    return [
        [
            never if r is None else r[0] * bought + r[1] * disturbed + int(r[2] * measure)
            for r in row
        ]
        for row in ranks
    ]


def _work(given: Given) -> Worked:
    valves = tuple(_valves(given))
    spares, sold = _spares(given, len(valves)), _sold(given)
    fits = fits_of(valves, spares, sold)
    tell = Teller((("mm", 2, 4), ("thou", 0, 2)), given)
    then = [valve.then(fit.shim) for valve, fit in zip(valves, fits, strict=True)]
    outside = sum(not valve.takes(valve.shim) for valve in valves)
    bought = [(v, f) for v, f in zip(valves, fits, strict=True) if f.bought]
    moved = sum(fit.source not in (None, n) for n, fit in enumerate(fits))
    counts = (
        (OUTSIDE, outside),
        (BOUGHT, len(bought)),
        (MOVED, moved),
        (SPARES, sum(f.spare for f in fits)),
    )
    return Worked(
        (
            *(answered(output, Fraction(count), given) for output, count in counts),
            said(ORDER, _order(bought, sold is not None, tell)),
            answered(LEAST, min(then), given),
            answered(MOST, max(then), given),
        ),
        tuple(_steps(valves, tell)),
        _verdict(len(valves), outside, fits, moved),
        not outside,
        tuple(_warnings(bought, tell)),
        (
            Grid(
                "Valve by valve",
                ("Valve", "Shim and clearance as found", "Range", "What to do", "Shim then", "Clearance then"),
                tuple(_row(valves, n, fit, tell) for n, fit in enumerate(fits)),
            ),
            *_left_over(valves, fits, tell),
        ),
    )  # fmt: skip


def _valves(given: Given) -> Iterator[Valve]:
    rows = given.rows("valves")
    if not 0 < len(rows) <= MOST_VALVES:
        raise NotWorked("valves", f"must be 1 to {MOST_VALVES}, found {len(rows)}")
    seen: set[str] = set()
    for row in rows:
        name, at = row.word("valve"), row.word("at")
        if name in seen:
            raise NotWorked("valves", f'has "{name}" twice', "give every valve its own name")
        seen.add(name)
        if not given.has(at):
            raise NotWorked(
                at,
                f"is missing, and {name} is such a valve",
                f"it is the clearance wanted at the {at} valves",
            )
        wanted = given.span(at)
        yield Valve(
            name, row.one("fitted").to("mm"), row.one("clearance").to("mm"), wanted.low.to("mm"), wanted.high.to("mm"),
        )  # fmt: skip


def _spares(given: Given, valves: int) -> list[Fraction]:
    """Spare shims, of each thickness no more than there are valves."""
    spares: list[Fraction] = []
    for row in given.rows("spare"):
        spares += [row.one("thickness").to("mm")] * min(int(row.number("count")), valves)
    if len(spares) > MOST_SPARES:
        raise NotWorked(
            "spare",
            f"must be at most {MOST_SPARES} shims, found {len(spares)}",
            "leave out what cannot fit",
        )
    return spares


def _sold(given: Given) -> list[Fraction] | None:
    if given.has("sold") != given.has("step"):
        missing = "step" if given.has("sold") else "sold"
        raise NotWorked(
            missing, "is missing", "give both, or neither where any thickness can be had"
        )
    if not given.has("sold"):
        return None
    ends: Span = given.span("sold")
    low, high, step = ends.low.to("mm"), ends.high.to("mm"), given.one("step").to("mm")
    sizes = floor((high - low) / step) + 1
    if sizes > 1000:
        raise NotWorked(
            "step", f"makes {sizes} sizes", "write the step between two sizes that are sold"
        )
    return [low + n * step for n in range(sizes)]


def _steps(valves: Sequence[Valve], tell: Teller) -> Iterator[str]:
    for v in valves:
        yield (
            f"{v.name}: {tell.number(v.shim)} + {tell.number(v.clearance)} \N{MINUS SIGN} {tell.number((v.low + v.high) / 2)} = "
            f"{tell(v.wanted)}; from {tell.number(v.then(v.high))} to {tell(v.then(v.low))} will do"
        )


def _row(valves: Sequence[Valve], n: int, fit: Fit, tell: Teller) -> tuple[str, ...]:
    valve = valves[n]
    if fit.unsold:
        do = "no size that is sold will do"
    elif fit.bought:
        do = "buy"
    elif fit.spare:
        do = "from the drawer"
    else:
        do = "stays" if fit.source == n else f"that of {valves[fit.source or 0].name}"
    found = f"{tell(valve.shim)}, {tell(valve.clearance)}"
    if not valve.takes(valve.shim):
        found += " (outside)"
    then = tell(valve.then(fit.shim))
    return (
        valve.name,
        found,
        f"{tell.number(valve.low)} to {tell(valve.high)}",
        do,
        tell(fit.shim),
        then,
    )


def _left_over(valves: Sequence[Valve], fits: Sequence[Fit], tell: Teller) -> Iterator[Grid]:
    used = {fit.source for fit in fits}
    rows = tuple((tell(v.shim), v.name) for n, v in enumerate(valves) if n not in used)
    if rows:
        yield Grid("Left over, for the drawer", ("Shim", "Came off"), rows)


def _order(bought: Sequence[tuple[Valve, Fit]], sizes: bool, tell: Teller) -> str:
    if not bought:
        return "nothing"
    told = [
        f"{tell(fit.shim)} for {valve.name}"
        if sizes and not fit.unsold
        else f"{tell.number(valve.then(valve.high))} to {tell(valve.then(valve.low))} for {valve.name}"
        for valve, fit in bought
    ]
    return "; ".join(told)


def _verdict(valves: int, outside: int, fits: Sequence[Fit], moved: int) -> str:
    if not outside:
        return f"All {counted(valves, 'valve')} are within their range; nothing to do."
    bought, spares = sum(fit.bought for fit in fits), sum(fit.spare for fit in fits)
    ways = [
        f"{counted(number, 'shim')} {word}"
        for number, word in (
            (moved, "changing places"),
            (spares, "from the drawer"),
            (bought, "bought"),
        )
        if number
    ]
    verb = "is" if outside == 1 else "are"
    return f"{outside} of {counted(valves, 'valve')} {verb} outside the range; put right with {listed(ways)}."


def _warnings(bought: Sequence[tuple[Valve, Fit]], tell: Teller) -> Iterator[str]:
    for valve, fit in bought:
        if fit.unsold:
            yield f"No size that is sold brings {valve.name} within its range: {tell(fit.shim)} would leave the middle of it."


def _clearance(at: str) -> Input:
    return Input(
        at, f"clearance wanted at the {at} valves, cold or hot as they were measured", "length",
        Takes.RANGE, optional=True, least="0.01 mm", most="3 mm",
    )  # fmt: skip


VALVE_SHIMS = Sum(
    name="valve-shims",
    title="Valve clearance by shims or buckets",
    job=Job.ENGINE,
    asks="Which shims change places, and how few must be bought, to bring every valve within its clearance?",
    inputs=(
        Input(
            "valves", "every valve with its shim and the clearance measured", takes=Takes.ROWS,
            columns=(
                Input("valve", "what you call it", TEXT),
                Input("at", "which range is wanted there", WORD, choices=(("inlet", "an inlet valve"), ("exhaust", "an exhaust valve"))),
                Input("fitted", "the shim that is fitted, measured", "length", symbol="T", least="0.1 mm", most="20 mm"),
                Input("clearance", "the clearance measured", "length", symbol="A", least="0 mm", most="3 mm"),
            ),
        ),
        _clearance("inlet"),
        _clearance("exhaust"),
        Input(
            "spare", "shims in the drawer", "length", Takes.ROWS, optional=True, least="0.1 mm", most="20 mm",
            columns=(
                Input("thickness", "thickness, measured", "length", least="0.1 mm", most="20 mm"),
                Input("count", "how many there are of it", "count", default="1", least="0", most="1000"),
            ),
        ),
        Input("sold", "thinnest and thickest shim that can be bought", "length", Takes.RANGE, optional=True, least="0.1 mm", most="20 mm"),
        Input("step", "step between the sizes that can be bought", "length", optional=True, least="0.001 mm", most="5 mm"),
    ),
    outputs=(OUTSIDE, BOUGHT, MOVED, SPARES, ORDER, LEAST, MOST),
    in_words=(
        "The new shim is the old one plus the clearance measured less the clearance wanted. Every shim that is there is tried at every "
        "valve: first as few as can be are bought, then as few valves as can be are disturbed, then each comes as near the middle of its "
        "range as can be."
    ),
    formula=("N = T + A \N{MINUS SIGN} V", "V = middle of the range wanted there"),
    limits=(
        "Clearances are measured at the temperature for which the maker gives them, cam on the back of its lobe.",
        "Shims are measured, since worn ones are thinner than their mark; a worn or dished one is not moved but replaced.",
        "A shim under a bucket and one on top of it count alike; buckets of graded thickness count as shims.",
    ),
    caution=(
        "Too little clearance burns a valve, and a shim that is spat out wrecks the engine: turn the engine over by hand and measure every "
        "valve again before it is started, to the maker's manual."
    ),
    sources=(
        "Formula N = T + (A \N{MINUS SIGN} V): makers' workshop manuals, several of which print it in such letters.",
        "H. W. Kuhn, The Hungarian method for the assignment problem, Naval Research Logistics Quarterly 2 (1955) 83-97, cited from memory.",
    ),
    example=(
        (
            "valves",
            "1 inlet: inlet, 2.45 mm, 0.31 mm; 2 inlet: inlet, 2.50, 0.22; 3 inlet: inlet, 2.55, 0.16; "
            "1 exhaust: exhaust, 2.50, 0.35; 2 exhaust: exhaust, 2.60, 0.28; 3 exhaust: exhaust, 2.60, 0.22",
        ),
        ("inlet", "0.20..0.25 mm"), ("exhaust", "0.25..0.30 mm"), ("spare", "2.40 mm x 1"),
        ("sold", "2.00..3.00 mm"), ("step", "0.05 mm"),
    ),
    work=_work,
)  # fmt: skip

"""A shim pack from the shims that are really in the drawer: the fewest that come to what is wanted.

The search is exact. All thicknesses are whole numbers of their common measure; the thicknesses that n
shims can come to are the bits of one number, and a size in the drawer shifts and joins these numbers.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil, floor, gcd, lcm

from msgspec import Struct

from journal.bench.base.definition import Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Teller, Worked, answered, said
from journal.words.text import counted, listed

_LENGTHS = (("mm", 3), ("thou", 1))
PACK = Output("pack", "shims of the best pack")
PIECES = Output("pieces", "number of shims", (("", 0),), "n")
THICKNESS = Output("thickness", "thickness of the pack", _LENGTHS, "T")
OFF = Output("off", "over the target, or under it with a minus", _LENGTHS)

# Nobody stacks more; and so fine a measure that a pack is a million of it is a slip of the pen.
MOST_PIECES, FINEST = 24, 1_000_000
# How many more shims than the fewest are looked at for a pack that comes closer.
_MORE = 3


class Pack(Struct, frozen=True):
    """A pack: how many of each thickness in mm, thickest first."""

    shims: tuple[tuple[Fraction, int], ...]

    @property
    def pieces(self) -> int:
        """How many shims it has."""
        return sum(count for _, count in self.shims)

    @property
    def thickness(self) -> Fraction:
        """How thick it is in mm."""
        return sum((size * count for size, count in self.shims), Fraction(0))


class Packs(Struct, frozen=True):
    """What a drawer yields. `best` starts with the pack of fewest shims that comes closest, and each
    further one has more shims and comes closer; it is empty where none keeps the tolerance, and then
    `under` and `over` are the nearest packs on either side, as far as there are any."""

    best: tuple[Pack, ...]
    under: Pack | None = None
    over: Pack | None = None


class TooFine(ValueError):
    """Thicknesses that share so fine a measure that no drawer is meant."""


def packs_from(
    drawer: Sequence[tuple[Fraction, int]], target: Fraction, tolerance: Fraction
) -> Packs:
    """The packs of a drawer (thickness in mm and count) that come to a target within a tolerance.

    Raises TooFine where the thicknesses share no measure that a search can use.
    """
    search = _Search.of(drawer, target, tolerance)
    for room in (3, 6, 12, MOST_PIECES):
        reach = search.layers(room)
        fewest = next((n for n in range(room + 1) if search.closest(reach[-1][n])), None)
        if fewest is not None:
            most = min(MOST_PIECES, fewest + _MORE)
            return Packs(tuple(search.improving(search.layers(most), fewest)))
    under, over = search.nearest(reach[-1])
    return Packs((), *(search.pack(reach, *found) if found else None for found in (under, over)))


class _Search(Struct, frozen=True):
    """A drawer in whole measures: sizes thickest first, and the window that a pack must meet."""

    measure: Fraction
    sizes: tuple[tuple[int, int], ...]
    low: int
    high: int
    target: Fraction

    @classmethod
    def of(
        cls, drawer: Sequence[tuple[Fraction, int]], target: Fraction, tolerance: Fraction
    ) -> "_Search":
        held: dict[Fraction, int] = {}
        for size, count in drawer:
            held[size] = held.get(size, 0) + count
        below = lcm(*(size.denominator for size in held))
        measure = Fraction(gcd(*(int(size * below) for size in held)), below)
        low, high = (target - tolerance) / measure, (target + tolerance) / measure
        sizes = sorted(((int(size / measure), count) for size, count in held.items()), reverse=True)
        if high + sizes[0][0] > FINEST:
            raise TooFine
        return cls(measure, tuple(sizes), max(ceil(low), 0), floor(high), target / measure)

    def layers(self, room: int) -> list[list[int]]:
        """For each number of sizes taken, and each number of shims up to `room`: a number whose bit s
        is set when these can come to s. What lies further over than one shim more is left out."""
        mask = (1 << (self.high + self.sizes[0][0] + 1)) - 1
        layers = [[1] + [0] * room]
        for size, count in self.sizes:
            reach = list(layers[-1])
            left, bundle = min(count, room), 1
            while left:
                taken = min(bundle, left)
                for n in range(room, taken - 1, -1):
                    reach[n] |= (reach[n - taken] << (taken * size)) & mask
                left, bundle = left - taken, bundle * 2
            layers.append(reach)
        return layers

    def closest(self, reach: int) -> tuple[int, ...]:
        """The thickness within the window that comes closest to the target, or nothing."""
        if self.high < self.low:
            return ()
        window = (reach >> self.low) & ((1 << (self.high - self.low + 1)) - 1)
        middle = min(max(floor(self.target), self.low), self.high) - self.low
        under = window & ((1 << (middle + 1)) - 1)
        over = window >> (middle + 1)
        found = [self.low + under.bit_length() - 1] if under else []
        found += [self.low + middle + 1 + _lowest(over)] if over else []
        return tuple(sorted(found, key=lambda s: (abs(s - self.target), s))[:1])

    def improving(self, layers: list[list[int]], fewest: int) -> Iterator[Pack]:
        """The closest pack of the fewest shims, and of more where that comes closer."""
        nearest: Fraction | None = None
        for n in range(fewest, len(layers[-1])):
            for total in self.closest(layers[-1][n]):
                off = abs(total - self.target)
                if nearest is None or off < nearest:
                    nearest = off
                    yield self.pack(layers, total, n)

    def nearest(self, reach: list[int]) -> tuple[tuple[int, int] | None, tuple[int, int] | None]:
        """The thickest pack under the window and the thinnest over it, each with its shims."""
        every = 0
        for each in reach[1:]:
            every |= each
        below, above = every & ((1 << self.low) - 1), every >> max(self.high + 1, 0)
        under = below.bit_length() - 1 if below else None
        over = max(self.high + 1, 0) + _lowest(above) if above else None
        return self._fewest(reach, under), self._fewest(reach, over)

    @staticmethod
    def _fewest(reach: list[int], total: int | None) -> tuple[int, int] | None:
        if total is None:
            return None
        return total, next(n for n, each in enumerate(reach) if n and (each >> total) & 1)

    def pack(self, layers: list[list[int]], total: int, pieces: int) -> Pack:
        """A pack that comes to a total; where several do, one with as few thin shims as can be."""
        shims = []
        for number in range(len(self.sizes), 0, -1):
            size, count = self.sizes[number - 1]
            before = layers[number - 1]
            taken = next(
                c
                for c in range(min(count, pieces) + 1)
                if c * size <= total and (before[pieces - c] >> (total - c * size)) & 1
            )
            if taken:
                shims.append((size * self.measure, taken))
            total, pieces = total - taken * size, pieces - taken
        return Pack(tuple(reversed(shims)))


def _lowest(bits: int) -> int:
    return (bits & -bits).bit_length() - 1


def _work(given: Given) -> Worked:
    drawer = [
        (row.one("thickness").to("mm"), int(row.number("count"))) for row in given.rows("shims")
    ]
    drawer = [(size, count) for size, count in drawer if count]
    if not drawer:
        raise NotWorked(
            "shims", "must be at least one", "write thickness x count, such as 0.10 mm x 3"
        )
    target, tolerance = (given.one(name).to("mm") for name in ("target", "tolerance"))
    try:
        packs = packs_from(drawer, target, tolerance)
    except TooFine:
        raise NotWorked(
            "shims", "have thicknesses too fine to be added up exactly", "write them to 0.001 mm or 0.1 thou",
        ) from None  # fmt: skip
    tell = Teller((("mm", 2, 4), ("thou", 0, 2)), given)
    window = f"wanted: {tell.number(target - tolerance)} to {tell(target + tolerance)}"
    stock = f"in the drawer: {counted(sum(c for _, c in drawer), 'shim')}, {tell(sum((s * c for s, c in drawer), Fraction(0)))} together"
    if packs.best:
        return _found(given, packs.best, target, tell, (window, stock))
    near = tuple(p for p in (packs.under, packs.over) if p is not None)
    told = [f"{_shims(p, tell)} ({tell(p.thickness)}, {_off(p, target, tell)})" for p in near]
    return Worked(
        (said(PACK, "none"),),
        (window, stock, *(f"nearest: {words}" for words in told)),
        f"No pack from this drawer keeps the tolerance; the nearest are {listed(told)}.",
        False,
        grids=(_grid("The nearest packs", near, target, tell),),
    )


def _found(
    given: Given, best: tuple[Pack, ...], target: Fraction, tell: Teller, steps: tuple[str, ...]
) -> Worked:
    first = best[0]
    added = (
        " + ".join(
            f"{count} \N{MULTIPLICATION SIGN} {tell.number(size)}" for size, count in first.shims
        )
        or "no shim"
    )
    return Worked(
        (
            said(PACK, _shims(first, tell)),
            answered(PIECES, Fraction(first.pieces), given),
            answered(THICKNESS, first.thickness, given),
            answered(OFF, first.thickness - target, given),
        ),
        (
            *steps,
            f"fewest: {added} = {tell(first.thickness)}",
            f"off: {tell.number(first.thickness)} \N{MINUS SIGN} {tell.number(target)} = {tell(first.thickness - target)}",
        ),
        f"{_shims(first, tell)[:1].upper()}{_shims(first, tell)[1:]} {'comes' if first.pieces == 1 else 'come'} to {tell(first.thickness)}, {_off(first, target, tell)}.",
        True,
        grids=(_grid("The best packs", best, target, tell),),
    )


def _grid(title: str, packs: Sequence[Pack], target: Fraction, tell: Teller) -> Grid:
    rows = tuple(
        (_shims(p, tell), str(p.pieces), tell(p.thickness), _off(p, target, tell)) for p in packs
    )
    return Grid(title, ("Pack", "Shims", "Thickness", "Against the target"), rows)


def _shims(pack: Pack, tell: Teller) -> str:
    """`2 of 0.15 mm and 1 of 0.12 mm`."""
    return listed([f"{count} of {tell(size)}" for size, count in pack.shims]) or "no shims"


def _off(pack: Pack, target: Fraction, tell: Teller) -> str:
    off = pack.thickness - target
    return f"{tell(abs(off))} {'over' if off > 0 else 'under'}" if off else "just right"


SHIM_PACK = Sum(
    name="shim-pack",
    title="Shim pack from stock",
    job=Job.FITTING,
    asks="Which of the shims in the drawer come to the thickness wanted, with as few as can be?",
    inputs=(
        Input("target", "thickness wanted", "length", symbol="w", least="0 mm", most="100 mm"),
        Input("tolerance", "how much thicker or thinner it may be", "length", symbol="t", least="0 mm", most="10 mm"),
        Input(
            "shims", "what is in the drawer, each thickness with its count", "length", Takes.ROWS, "d",
            least="0.005 mm", most="50 mm",
            columns=(
                Input("thickness", "thickness of a shim, as it is measured", "length", least="0.005 mm", most="50 mm"),
                Input("count", "how many there are of it", "count", default="1", least="0", most="1000"),
            ),
        ),
    ),
    outputs=(PACK, PIECES, THICKNESS, OFF),
    in_words=(
        "Of all packs that the drawer yields and that come to the target within the tolerance, the one with the fewest shims; "
        "among these the one that comes closest. Packs of more shims are shown where they come closer still."
    ),
    formula=(
        "n = smallest \N{N-ARY SUMMATION} k",
        "T = \N{N-ARY SUMMATION} k d, with 0 \N{LESS-THAN OR EQUAL TO} k \N{LESS-THAN OR EQUAL TO} count of d",
        "w \N{MINUS SIGN} t \N{LESS-THAN OR EQUAL TO} T \N{LESS-THAN OR EQUAL TO} w + t",
    ),
    limits=(
        "Every shim is measured with a micrometer, clean and without burr; what is printed on the packet is not enough.",
        f"Packs of more than {MOST_PIECES} shims are not looked for.",
        "A pack settles when it is first tightened: measure the float or preload again with it fitted (common practice).",
    ),
    caution=(
        "End float and preload that are wrong wreck a gearbox, an axle or a hub, and a hub or steering joint that fails can hurt "
        "someone: the figure wanted and the way to measure it are those of the maker's manual."
    ),
    sources=(
        "G. B. Mathews, On the partition of numbers, Proceedings of the London Mathematical Society 28 (1897) 486-490, cited from memory: choosing from a stock to a given total.",
        "Common practice, no source: fewest shims, the thin ones between thick ones.",
    ),
    example=(
        ("target", "0.42 mm"), ("tolerance", "0.02 mm"),
        ("shims", "0.10 mm x 3, 0.15 x 2, 0.18 x 1, 0.25 x 1"),
    ),
    work=_work,
)  # fmt: skip

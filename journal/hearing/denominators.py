"""Denominators as they are said: sixteenths, thirty seconds, the quarter of a quarter inch."""

from typing import NamedTuple

from journal.hearing.strand import Strand
from journal.hearing.unitwords import unit_at

# Denominators as they are said after one, and after more than one. A tenth of nothing in particular
# is a unit of the trade, and a second, a fifth and the like are gears.
ONE_OF: dict[str, int] = {
    "half": 2, "third": 3, "quarter": 4, "fifth": 5, "sixth": 6, "eighth": 8, "sixteenth": 16,
    "thirty second": 32, "sixty fourth": 64, "16th": 16, "32nd": 32, "64th": 64, "8th": 8,
}  # fmt: skip
_MANY_OF: dict[str, int] = {
    "thirds": 3, "quarters": 4, "fifths": 5, "sixths": 6, "eighths": 8, "sixteenths": 16,
    "thirty seconds": 32, "sixty fourths": 64, "16 ths": 16, "32 nds": 32, "64 ths": 64, "8 ths": 8,
    "sixteens": 16,
}  # fmt: skip
_FIRST = frozenset(said.split()[0] for said in (*ONE_OF, *_MANY_OF))
# Threads and fits that follow a bare fraction of an inch.
FITS: frozenset[str] = frozenset({
    "unf", "unc", "bsf", "bsw", "bsp", "af", "whitworth", "whit", "drive", "npt",
})  # fmt: skip


class Whole(NamedTuple):
    """A whole number up to word `end`."""

    end: int
    value: int


def denominator(strand: Strand, n: int, *, many: bool) -> Whole | None:
    """`sixteenths`, `thirty seconds`; in the singular after one, or right before a unit."""
    if strand.on(n) not in _FIRST:
        return None
    for words in (2, 1):
        said = " ".join(strand.on(n + k) for k in range(words))
        if said in _MANY_OF and many:
            return Whole(n + words, _MANY_OF[said])
        if said in ONE_OF and (not many or _before_inch(strand, n + words, said)):
            return Whole(n + words, ONE_OF[said])
    return None


def _before_inch(strand: Strand, n: int, said: str) -> bool:
    """A three quarter inch spanner, a five eighth bolt, two and three quarter psi."""
    if said in ("half", "third", "fifth", "sixth"):
        return False
    found = unit_at(strand, n)
    if found is not None and said == "quarter":
        return True
    return strand.on(n) in FITS | {"hour", "hours"} or (
        found is not None and found.said.unit in ("in", "turns")
    )

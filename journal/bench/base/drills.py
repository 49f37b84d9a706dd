"""Twist drills that can be bought: metric, and the inch ones by fraction, number and letter.

Metric sizes are the usual ones of ISO 235: by 0.05 mm up to 3 mm, by 0.1 up to 14, by 0.25 up to 32.
Numbers and letters are those of ASME B94.11M.
"""

from fractions import Fraction
from functools import cache
from typing import NamedTuple

from journal.bench.base.threads import INCH, plain


class Drill(NamedTuple):
    """A drill: its name in the drawer and its diameter in mm."""

    name: str
    diameter: Fraction


# Thousandths and tenths of an inch, from number 1 on and from A on.
_NUMBERS = (
    "2280 2210 2130 2090 2055 2040 2010 1990 1960 1935 1910 1890 1850 1820 1800 1770 1730 1695 1660 1610 1590 1570 "
    "1540 1520 1495 1470 1440 1405 1360 1285 1200 1160 1130 1110 1100 1065 1040 1015 0995 0980 0960 0935 0890 0860 "
    "0820 0810 0785 0760 0730 0700 0670 0635 0595 0550 0520 0465 0430 0420 0410 0400"
)  # fmt: skip
_LETTERS = (
    "2340 2380 2420 2460 2500 2570 2610 2660 2720 2770 2810 2900 2950 3020 3160 3230 3320 3390 3480 3580 3680 3770 "
    "3860 3970 4040 4130"
)  # fmt: skip


def _metric() -> tuple[Drill, ...]:
    sizes = [Fraction(n, 100) for n in (*range(50, 300, 5), *range(300, 1400, 10), *range(1400, 3201, 25))]  # fmt: skip
    return tuple(Drill(f"{_decimal(size)} mm", size) for size in sizes)


def _decimal(size: Fraction) -> str:
    """`7.0`, `2.55`: a drill is told to a tenth at the least."""
    told = plain(size, 2)
    return told if "." in told else f"{told}.0"


def _inch() -> tuple[Drill, ...]:
    numbered = [(f"no. {n}", size) for n, size in enumerate(_NUMBERS.split(), 1)]
    lettered = [(chr(ord("A") + n), size) for n, size in enumerate(_LETTERS.split())]
    drills = [Drill(name, Fraction(int(size), 10000) * INCH) for name, size in numbered + lettered]
    drills += [Drill(_fraction(n), Fraction(n, 64) * INCH) for n in range(1, 97)]
    return tuple(sorted(drills, key=lambda drill: drill.diameter))


def _fraction(sixty_fourths: int) -> str:
    whole, part = divmod(Fraction(sixty_fourths, 64), 1)
    return " ".join([str(whole)] * bool(whole) + [str(part)] * bool(part)) + " in"


@cache
def drills_of(kind: str) -> tuple[Drill, ...]:
    """All drills of a kind, `metric` or `inch`, from the thinnest on."""
    return {"metric": _metric, "inch": _inch}[kind]()

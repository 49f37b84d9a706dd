"""Cables and fuses for cars of 6, 12 and 24 V: sizes, what they carry, and what their copper drops.

Resistance is that of stranded copper at 20 C, 1/56 ohm for a metre of 1 mm2, as cable makers reckon it,
and grows by 0.393 % of it for every degree above (IEC 60028). What a cable carries is for one that lies
by itself in moving air; in a loom with others it is less.
"""

from fractions import Fraction

from msgspec import Struct

RESISTIVITY, PER_DEGREE = Fraction(1, 56), Fraction("0.00393")
# Share of its rating that a cable carries among others that are warm too (common practice).
IN_LOOM = Fraction("0.8")


class Cable(Struct, frozen=True):
    """A cable: strands and their diameter in mm as it is sold, copper in mm2, current in A."""

    strands: str
    area: Fraction
    rating: Fraction

    @property
    def name(self) -> str:
        """`28/0.30, 2.0 mm2`."""
        return f"{self.strands}, {float(self.area):g} mm2"

    def carries(self, *, loom: bool) -> Fraction:
        """What it carries for hours, by itself or in a loom."""
        return self.rating * (IN_LOOM if loom else 1)


def _cables(table: str) -> tuple[Cable, ...]:
    rows = (row.split() for row in table.split(";"))
    return tuple(Cable(strands, Fraction(area), Fraction(rating)) for strands, area, rating in rows)


# Strands, mm2 and A. The first six of the standard insulation as rydertowing.co.uk/towbar-wiring/cable
# prints them; the others, and thin wall, are what suppliers' lists have in common, from memory.
CABLES: dict[str, tuple[Cable, ...]] = {
    "standard": _cables(
        "9/0.30 0.65 5.75; 14/0.30 1 8.75; 21/0.30 1.5 12.75; 28/0.30 2 17.5; 35/0.30 2.5 21.75; 44/0.30 3 25.5; "
        "65/0.30 4.5 35; 84/0.30 6 42; 97/0.30 7 50; 120/0.30 8.5 60; 80/0.40 10 70; 126/0.40 16 110; 196/0.40 25 170; "
        "276/0.40 35 240; 396/0.40 50 345; 475/0.40 60 415"
    ),
    "thin": _cables(
        "16/0.20 0.5 11; 24/0.20 0.75 14; 32/0.20 1 16.5; 30/0.25 1.5 21; 28/0.30 2 25; 50/0.25 2.5 29; 44/0.30 3 33; "
        "56/0.30 4 39; 84/0.30 6 50; 80/0.40 10 70; 126/0.40 16 110"
    ),
}  # fmt: skip


def resistance(area: Fraction, metres: Fraction, warm: Fraction) -> Fraction:
    """Resistance in ohm of so many metres of copper of an area in mm2 at a temperature in C."""
    return RESISTIVITY * (1 + PER_DEGREE * (warm - 20)) * metres / area


class Fuse(Struct, frozen=True):
    """A fuse: what it carries for hours and what blows it at once, both in A."""

    carries: Fraction
    blows: Fraction

    def name(self, marking: str) -> str:
        """How it is marked: by what it carries, or by what blows it."""
        return f"{float(self.blows if marking == 'blow' else self.carries):g} A"


# Blade fuses are marked by what they carry, as in ISO 8820; some 1.35 times that blows them in minutes,
# twice that in seconds. Old British glass fuses are marked by what blows them, and carry half of it
# (torontotriumph.com, David Copping, `A conFUSEing topic`; chicagolandmgclub.com, August 2017).
FUSES: dict[str, tuple[Fuse, ...]] = {
    "continuous": tuple(
        Fuse(Fraction(a), Fraction(a) * 2)
        for a in ("1", "2", "3", "4", "5", "7.5", "10", "15", "20", "25", "30", "40", "50", "60", "70", "80")
    ),
    "blow": tuple(Fuse(Fraction(a, 2), Fraction(a)) for a in (2, 5, 8, 10, 15, 20, 25, 30, 35, 50)),
}  # fmt: skip

"""Units that a reading may be written in, exact factors between them, and the other system's unit.

Factors follow from the definitions behind NIST Special Publication 811, appendix B: the inch is
25.4 mm, the pound 453.59237 g, standard gravity 9.80665 m/s2, the imperial gallon 4546.09 ml; an inch
of mercury is that of the conventional column, 13,595.1 kg/m3. Pint, gallon, fluid ounce and ton
are imperial, as in the trade; horsepower is 550 foot-pounds a second.
"""

from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from functools import cache
from itertools import count
from typing import NamedTuple

from journal.words.amounts import half_up

_INCH = Fraction("25.4")
_POUND = Fraction("453.59237")
_GRAVITY = Fraction("9.80665")
_GALLON = Fraction("4546.09")
_LBF = _POUND / 1000 * _GRAVITY
_FOOT = 12 * _INCH / 1000
_MERCURY = Fraction("13595.1") * _GRAVITY * _INCH / 1000
_PSI = _LBF / (_INCH / 1000) ** 2


class Scale(NamedTuple):
    """A unit as `factor` base units of its kind, counted from `zero` of them."""

    factor: Fraction
    zero: Fraction = Fraction(0)


def _scale(factor: Fraction | int | str) -> Scale:
    return Scale(Fraction(factor))


_ONE = _scale(1)

# By kind of quantity; the unit with factor 1 is the base unit. What has a kind to itself converts
# into nothing else.
UNITS: dict[str, dict[str, Scale]] = {
    "length": {
        "mm": _ONE,
        "cm": _scale(10),
        "m": _scale(1000),
        "in": _scale(_INCH),
        "thou": _scale(_INCH / 1000),
        "ft": _scale(12 * _INCH),
        "micron": _scale("0.001"),
        "km": _scale(1_000_000),
        "mile": _scale(63360 * _INCH),
    },
    "area": {
        "mm2": _ONE,
        "cm2": _scale(100),
        "m2": _scale(1_000_000),
        "sq in": _scale(_INCH**2),
        "sq ft": _scale((12 * _INCH) ** 2),
    },
    "pressure": {
        "psi": _scale(_PSI / 1000),
        "bar": _scale(100),
        "kPa": _ONE,
        "MPa": _scale(1000),
        "kgf/cm2": _scale(_GRAVITY * 10),
        "inHg": _scale(_MERCURY / 1000),
        "tonf/sq in": _scale(_PSI * 2240 / 1000),
    },
    "torque": {
        "Nm": _ONE,
        "lbf ft": _scale(_LBF * _FOOT),
        "lbf in": _scale(_LBF * _FOOT / 12),
        "kgf m": _scale(_GRAVITY),
    },
    "force": {"N": _ONE, "kN": _scale(1000), "lbf": _scale(_LBF), "kgf": _scale(_GRAVITY)},
    "rate": {"N/mm": _ONE, "lbf/in": _scale(_LBF / _INCH), "kgf/mm": _scale(_GRAVITY)},
    "mass": {"g": _ONE, "kg": _scale(1000), "oz": _scale(_POUND / 16), "lb": _scale(_POUND)},
    "volume": {
        "ml": _ONE,
        "cc": _ONE,
        "l": _scale(1000),
        "cu in": _scale((_INCH / 10) ** 3),
        "fl oz": _scale(_GALLON / 160),
        "pint": _scale(_GALLON / 8),
        "gallon": _scale(_GALLON),
    },
    "angle": {"deg": _ONE, "min": _scale("1/60")},
    "temperature": {"C": _ONE, "F": Scale(Fraction(5, 9), Fraction(-160, 9))},
    "potential": {"V": _ONE},
    "current": {"A": _ONE},
    "charge": {"Ah": _ONE},
    "resistance": {"ohm": _ONE, "kohm": _scale(1000), "Mohm": _scale(1_000_000)},
    "power": {"W": _ONE, "kW": _scale(1000), "hp": _scale(550 * _FOOT * _LBF)},
    "time": {"s": _ONE, "minutes": _scale(60), "h": _scale(3600)},
    "turning": {"rpm": _ONE},
    "speed": {
        "mph": _scale(63360 * _INCH / 1_000_000),
        "km/h": _ONE,
        "m/s": _scale("3.6"),
        "ft/min": _scale(_FOOT * 60 / 1000),
    },
    "share": {"%": _ONE},
    "teeth": {"teeth": _ONE},
    "turns": {"turns": _ONE},
    "clicks": {"clicks": _ONE},
}

ALL_UNITS: tuple[str, ...] = tuple(unit for units in UNITS.values() for unit in units)

_KIND: dict[str, str] = {unit: kind for kind, units in UNITS.items() for unit in units}

# The unit in which the other system says the same: metric and imperial face each other.
_PARTNER: dict[str, str] = {
    "mm": "in", "cm": "in", "m": "ft", "micron": "thou", "km": "mile",
    "in": "mm", "thou": "mm", "ft": "m", "mile": "km",
    "psi": "bar", "bar": "psi", "kPa": "psi", "kgf/cm2": "psi", "inHg": "kPa",
    "MPa": "psi", "tonf/sq in": "MPa",
    "Nm": "lbf ft", "kgf m": "lbf ft", "lbf ft": "Nm", "lbf in": "Nm",
    "N": "lbf", "kN": "lbf", "kgf": "lbf", "lbf": "N",
    "g": "oz", "kg": "lb", "oz": "g", "lb": "kg",
    "ml": "fl oz", "cc": "cu in", "l": "gallon", "cu in": "cc", "fl oz": "ml", "pint": "l", "gallon": "l",
    "C": "F", "F": "C", "kW": "hp", "hp": "kW", "mph": "km/h", "km/h": "mph",
    "m/s": "ft/min", "ft/min": "m/s",
    "mm2": "sq in", "cm2": "sq in", "sq in": "cm2", "m2": "sq ft", "sq ft": "m2",
    "N/mm": "lbf/in", "kgf/mm": "lbf/in", "lbf/in": "N/mm",
}  # fmt: skip

# The units of the older British system; who writes in these is answered in these.
IMPERIAL: frozenset[str] = frozenset({
    "in", "thou", "ft", "mile", "sq in", "sq ft", "psi", "inHg", "tonf/sq in", "lbf ft", "lbf in", "lbf",
    "lbf/in", "oz", "lb", "cu in", "fl oz", "pint", "gallon", "F", "hp", "mph", "ft/min",
})  # fmt: skip

# Below so many of it, the first unit is told in another partner: clearances go in thou, sumps in
# pints (common practice).
_SMALL: dict[str, tuple[Fraction, str]] = {
    "mm": (Fraction(1), "thou"),
    "l": (_GALLON / 1000, "pint"),
}


def kind_of(unit: str) -> str:
    """The kind of quantity that a unit measures. Raises ValueError for a unit not known here."""
    if unit not in _KIND:
        raise ValueError(f"no such unit: {unit}")
    return _KIND[unit]


def same_kind(one: str, other: str) -> bool:
    """Whether two units measure the same kind of quantity, so that they convert."""
    return kind_of(one) == kind_of(other)


def convert(value: Decimal | Fraction | int, from_: str, to: str) -> Fraction:
    """A value in another unit, exactly: (value x factor + zero - other zero) / other factor.

    Raises ValueError for a unit not known here, and for two that measure different things.
    """
    scale = _scale_between(from_, to)
    told = Fraction(value) * scale.factor
    return told + scale.zero if scale.zero else told


@cache
def _scale_between(from_: str, to: str) -> Scale:
    """One unit on the scale of another: how many of it one is, and where its nothing lies."""
    if not same_kind(from_, to):
        raise ValueError(f"{from_} does not convert into {to}")
    old, new = (UNITS[kind_of(unit)][unit] for unit in (from_, to))
    return Scale(old.factor / new.factor, (old.zero - new.zero) / new.factor)


def partner_unit(unit: str, values: Iterable[Decimal] = ()) -> str | None:
    """The unit in which the other system tells these values; None where both use the same."""
    if unit not in _SMALL:
        return _PARTNER.get(unit)
    bound, small = _SMALL[unit]
    largest = max((value.copy_abs() for value in values), default=None)
    return small if largest is not None and Fraction(largest) < bound else _PARTNER.get(unit)


def converted(
    value: Decimal, from_: str, to: str, *, as_fine_as: Iterable[Decimal] = ()
) -> Decimal:
    """A value in another unit, half up, with as many decimals as it takes to lose nothing.

    The last figure of the result stands for no more than the last figure of the finest among
    `value` and `as_fine_as`: 0.22 mm is 8.7 thou, 168 psi are 11.58 bar.
    """
    places = _places(from_, to, max(_decimals(written) for written in (value, *as_fine_as)))
    over, under = convert(value, from_, to).as_integer_ratio()
    scaled = half_up(abs(over) * 10**places, under)
    return Decimal(scaled if over >= 0 else -scaled).scaleb(-places)


def _decimals(value: Decimal) -> int:
    """How many decimals are written: two in 3.20."""
    exponent = value.as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 0


@cache
def _places(from_: str, to: str, decimals: int) -> int:
    """With how many decimals of one unit what is written with some of another loses nothing."""
    wide = _scale_between(from_, to).factor / 10**decimals
    return next(places for places in count() if Fraction(1, 10**places) <= wide)

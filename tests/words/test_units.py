"""Units: exact factors, checked against a published table and another library; partners and digits."""

from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.words.units import (
    ALL_UNITS,
    UNITS,
    convert,
    converted,
    kind_of,
    partner_unit,
    same_kind,
)

# NIST Special Publication 811 (2008), appendix B, and the definitions behind it; exact.
EXACT = [
    ("in", "mm", "25.4"),
    ("ft", "m", "0.3048"),
    ("thou", "mm", "0.0254"),
    ("mile", "km", "1.609344"),
    ("cu in", "ml", "16.387064"),
    ("gallon", "l", "4.54609"),
    ("pint", "ml", "568.26125"),
    ("fl oz", "ml", "28.4130625"),
    ("lb", "kg", "0.45359237"),
    ("oz", "g", "28.349523125"),
    ("lbf", "N", "4.4482216152605"),
    ("kgf", "N", "9.80665"),
    ("lbf ft", "Nm", "1.3558179483314004"),
    ("kgf m", "Nm", "9.80665"),
    ("kgf/cm2", "kPa", "98.0665"),
    ("bar", "kPa", "100"),
    ("MPa", "bar", "10"),
    ("tonf/sq in", "psi", "2240"),
    ("mph", "km/h", "1.609344"),
    ("hp", "W", "745.69987158227022"),
    ("cc", "ml", "1"),
    ("micron", "mm", "0.001"),
    ("Mohm", "ohm", "1000000"),
    ("h", "minutes", "60"),
    ("sq in", "mm2", "645.16"),
    ("sq ft", "m2", "0.09290304"),
    ("kgf/mm", "N/mm", "9.80665"),
    ("ft/min", "m/s", "0.00508"),
]

# The same table where it rounds: value, and the last figure printed.
ROUNDED = [
    ("psi", "kPa", "6.894757293168361", "1e-15"),
    ("bar", "psi", "14.503773773020921", "1e-15"),
    ("lbf in", "Nm", "0.1129848290276167", "1e-16"),
    ("inHg", "kPa", "3.386389", "1e-6"),
]

# Our names in the other library, which means the US measure by a bare pint or gallon and an angle by
# a mil.
IN_PINT = {
    "in": "inch", "ft": "foot", "cc": "cm**3", "l": "liter", "cu in": "inch**3", "kgf": "kilogram_force",
    "fl oz": "imperial_fluid_ounce", "pint": "imperial_pint", "gallon": "imperial_gallon",
    "inHg": "inch_Hg", "Nm": "N*m", "lbf ft": "lbf*ft", "lbf in": "lbf*inch", "kgf m": "kilogram_force*m",
    "kgf/cm2": "kilogram_force/cm**2", "tonf/sq in": "UK_ton_force/inch**2",
    "kohm": "kiloohm", "Mohm": "megaohm", "minutes": "minute",
    "h": "hour", "km/h": "km/hour", "hp": "horsepower", "min": "arcminute", "%": "percent",
    "C": "degC", "F": "degF", "turns": "turn", "mm2": "mm**2", "cm2": "cm**2", "sq in": "inch**2",
    "m2": "m**2", "sq ft": "foot**2", "Ah": "ampere_hour",
    "N/mm": "N/mm", "lbf/in": "lbf/inch", "kgf/mm": "kilogram_force/mm", "m/s": "m/s", "ft/min": "ft/minute",
}  # fmt: skip
OURS_ALONE = {"teeth", "clicks"}


@pytest.mark.parametrize(("unit", "into", "value"), EXACT)
def test_factor__is_exactly_that_of_the_table(unit: str, into: str, value: str) -> None:
    assert Fraction(value) == convert(Decimal(1), unit, into)


@pytest.mark.parametrize(("unit", "into", "value", "last"), ROUNDED)
def test_factor__agrees_with_the_table_where_the_table_rounds(
    unit: str, into: str, value: str, last: str
) -> None:
    assert abs(Fraction(value) - convert(Decimal(1), unit, into)) <= Fraction(last)


def test_temperature__freezes_and_boils_where_it_does() -> None:
    assert [32, 212, -40] == [convert(c, "C", "F") for c in (0, 100, -40)]
    assert [0, 100, -40] == [convert(f, "F", "C") for f in (32, 212, -40)]


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


@pytest.mark.parametrize("unit", sorted(set(ALL_UNITS) - OURS_ALONE))
def test_factor__agrees_with_another_library(unit: str, registry: pint.UnitRegistry) -> None:
    for other in UNITS[kind_of(unit)]:
        theirs = registry.Quantity(100.0, IN_PINT.get(unit, unit)).to(IN_PINT.get(other, other))
        assert float(convert(100, unit, other)) == pytest.approx(theirs.magnitude, rel=1e-12)


def test_units__have_one_kind_each_and_every_kind_its_base() -> None:
    assert len(set(ALL_UNITS)) == len(ALL_UNITS)
    for units in UNITS.values():
        assert any(scale == (1, 0) for scale in units.values())


@given(
    st.sampled_from(ALL_UNITS), st.sampled_from(ALL_UNITS), st.decimals("-9999", "9999", places=3)
)
def test_conversion__there_and_back_loses_nothing(one: str, other: str, value: Decimal) -> None:
    if same_kind(one, other):
        assert Fraction(value) == convert(convert(value, one, other), other, one)
    else:
        with pytest.raises(ValueError, match="does not convert"):
            convert(value, one, other)


def test_conversion__of_an_unknown_unit_is_refused() -> None:
    with pytest.raises(ValueError, match="no such unit"):
        convert(1, "cubit", "mm")


# Common practice, no source: clearances are told in thou, sumps in pints, tanks in gallons.
@pytest.mark.parametrize(
    ("value", "unit", "other"),
    [
        ("0.22", "mm", "thou"), ("1.0", "mm", "in"), ("255.2", "mm", "in"), ("2", "thou", "mm"),
        ("132", "micron", "thou"), ("38", "lbf ft", "Nm"), ("30", "psi", "bar"), ("2", "bar", "psi"),
        ("4.5", "l", "pint"), ("45", "l", "gallon"), ("71", "C", "F"), ("40", "mph", "km/h"),
    ],
)  # fmt: skip
def test_partner__is_the_unit_that_the_other_system_would_use(
    value: str, unit: str, other: str
) -> None:
    assert other == partner_unit(unit, [Decimal(value)])


def test_partner__is_always_of_the_same_kind_and_has_one_itself() -> None:
    for unit in ALL_UNITS:
        other = partner_unit(unit)
        if other is not None:
            assert same_kind(unit, other)
            assert partner_unit(other) is not None


@pytest.mark.parametrize(
    "unit", ["deg", "V", "A", "ohm", "s", "rpm", "%", "teeth", "turns", "clicks"]
)
def test_partner__is_not_there_where_both_systems_use_the_same(unit: str) -> None:
    assert partner_unit(unit) is None


# Each by hand: the factor, then the decimals whose step is no wider than that of what was written.
@pytest.mark.parametrize(
    ("value", "unit", "other", "shown"),
    [
        ("0.22", "mm", "thou", "8.7"),  # 8.6614; 0.01 mm is 0.39 thou
        ("5.1", "mm", "in", "0.201"),  # 0.20079; 0.1 mm is 0.0039 in
        ("118", "mm", "in", "4.65"),  # 4.6457; 1 mm is 0.039 in
        ("255.20", "mm", "in", "10.0472"),  # 10.04724; 0.01 mm is 0.00039 in
        ("1.9801", "in", "mm", "50.295"),  # 50.29454; 0.0001 in is 0.0025 mm
        ("2.2", "thou", "mm", "0.056"),  # 0.05588; 0.1 thou is 0.0025 mm
        ("168", "psi", "bar", "11.58"),  # 11.5832; 1 psi is 0.069 bar
        ("1.5", "psi", "bar", "0.103"),  # 0.10342; 0.1 psi is 0.0069 bar
        ("40", "lbf ft", "Nm", "54"),  # 54.233; 1 lbf ft is 1.36 Nm
        ("71", "C", "F", "160"),  # 159.8; 1 C is 1.8 F
        ("48206", "mile", "km", "77580"),  # 77,580.04
        ("-0.5", "mm", "thou", "-20"),  # -19.685; 0.1 mm is 3.9 thou
        ("0.00", "mm", "thou", "0.0"),
    ],
)
def test_digits__are_as_many_as_it_takes_to_lose_nothing(
    value: str, unit: str, other: str, shown: str
) -> None:
    assert shown == str(converted(Decimal(value), unit, other))


def test_digits__of_a_limit_are_those_of_the_reading_beside_it() -> None:
    assert "35.94" == str(converted(Decimal(913), "mm", "in"))  # 35.9449
    assert "35.945" == str(converted(Decimal(913), "mm", "in", as_fine_as=[Decimal("914.5")]))


@given(st.sampled_from(ALL_UNITS), st.decimals("-9999", "9999", places=2))
def test_digits__say_the_same_value_to_within_half_of_the_last_figure(
    unit: str, value: Decimal
) -> None:
    other = partner_unit(unit, [value])
    if other is not None:
        step = abs(convert(Decimal("0.01"), unit, other) - convert(0, unit, other))
        shown = converted(value, unit, other)
        assert abs(Fraction(shown) - convert(value, unit, other)) <= step / 2

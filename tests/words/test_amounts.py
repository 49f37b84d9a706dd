"""Exact numbers: read as written, rounded half up, never claiming all or nothing falsely."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.words.amounts import NOTHING, OPEN, WHOLE, parse_decimal, percent, plain_number

_SHARES = st.fractions(0, 1, max_denominator=10_000)


@pytest.mark.parametrize("text", ["3", "3.5", "-3.5", "0", "0.05", "007", "212.00", "1.9900"])
def test_number__keeps_every_digit(text: str) -> None:
    assert Decimal(text).as_tuple() == parse_decimal(text).as_tuple()


@pytest.mark.parametrize(
    "text",
    ["", "2,5", "1e3", ".5", "5.", "+1", "1 000", "1_000", "0x1F", "inf", "NaN", "--1", "1.2.3", "½",
     "1" * 13, "0." + "1" * 10, " 1", "1\n"],
)  # fmt: skip
def test_number__in_any_other_form_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="not a number with a decimal point"):
        parse_decimal(text)


@given(st.decimals("-999999999999", "999999999999", places=9))
def test_number__written_and_read_is_the_same(number: Decimal) -> None:
    assert number == parse_decimal(f"{number:f}")


@pytest.mark.parametrize(
    ("share", "shown"),
    [
        (Fraction(0), 0), (Fraction(1), 100), (Fraction(1, 2), 50), (Fraction(125, 1000), 13),
        (Fraction(124, 1000), 12), (Fraction(996, 1000), 99), (Fraction(9999, 10000), 99),
        (Fraction(1, 10000), 1), (Fraction(4, 1000), 1), (Fraction(994, 1000), 99), (Fraction(2, 3), 67),
    ],
)  # fmt: skip
def test_percent__is_half_up_and_claims_all_and_nothing_only_when_it_is(
    share: Fraction, shown: int
) -> None:
    assert shown == percent(share)


@given(_SHARES)
def test_percent__says_0_and_100_of_the_very_ends_alone(share: Fraction) -> None:
    assert (share == 0, share == 1) == (percent(share) == 0, percent(share) == 100)
    assert abs(percent(share) - share * 100) < 1


@given(_SHARES, _SHARES)
def test_percent__never_turns_the_order_of_two_shares_round(one: Fraction, other: Fraction) -> None:
    small, large = sorted((one, other))
    assert percent(small) <= percent(large)


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        ("3.50", "3.5"), ("12", "12"), ("12.00", "12"), ("0.005", "0.01"), ("0.004", "0"), ("-0.004", "0"),
        ("-0.005", "-0.01"), ("1234.5", "1234.5"), ("100", "100"), ("-2.5", "-2.5"),
    ],
)  # fmt: skip
def test_plain_number__drops_what_says_nothing(value: str, shown: str) -> None:
    assert shown == plain_number(Decimal(value))


def test_plain_number__without_decimals_is_whole() -> None:
    assert ("4", "3", "10") == (
        plain_number(Fraction(7, 2), 0),
        plain_number(Fraction(10, 3), 0),
        plain_number(Decimal("9.5"), 0),
    )


@given(st.decimals("-1000000", "1000000", places=6), st.integers(0, 4))
def test_plain_number__rounds_as_decimal_arithmetic_does(value: Decimal, places: int) -> None:
    rounded = value.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)
    assert rounded == Decimal(plain_number(value, places))
    assert plain_number(value, places) == plain_number(Fraction(value), places)


def test_intervals__tell_whether_anything_is_open() -> None:
    assert (True, True, False) == (NOTHING.certain, WHOLE.certain, OPEN.certain)

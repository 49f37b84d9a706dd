"""Money: coins, tax and shares.

Sources: gov.uk as named in the reference values of the project, section 21 (HMRC VATREC12010 and
12030, Notice 700 paragraph 17.5); decimals of currencies ISO 4217.
"""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.words.money import converted, decimals_of, shared_out, tax_on, to_coin
from journal.words.vocabulary import TaxBy, TaxRounding

NEAREST, DOWN = TaxRounding.NEAREST, TaxRounding.DOWN


def _tax(nets: str, by: TaxBy, rounding: TaxRounding) -> str:
    amounts = tuple(Decimal(net) for net in nets.split())
    return str(tax_on(amounts, Decimal(20), "GBP", by, rounding))


@pytest.mark.parametrize(
    ("currency", "places"),
    [("GBP", 2), ("EUR", 2), ("USD", 2), ("JPY", 0), ("ISK", 0), ("KRW", 0), ("BHD", 3), ("KWD", 3),
     ("OMR", 3), ("TND", 3), ("CLF", 4), ("IQD", 3), ("MGA", 2)],
)  # fmt: skip
def test_currency__has_the_decimals_of_iso_4217(currency: str, places: int) -> None:
    assert places == decimals_of(currency)


@pytest.mark.parametrize(
    ("amount", "coin"),
    [("0.005", "0.01"), ("0.015", "0.02"), ("0.025", "0.03"), ("0.125", "0.13"), ("1.005", "1.01"),
     ("2.675", "2.68"), ("-0.005", "-0.01")],
)  # fmt: skip
def test_coin__is_rounded_half_up(amount: str, coin: str) -> None:
    assert Decimal(coin) == to_coin(Decimal(amount), "GBP")


def test_tax__of_one_net_rounded_both_ways() -> None:
    # A published example: net 704.88 at 20 % is 140.976.
    assert "140.97" == _tax("704.88", TaxBy.TOTAL, DOWN)
    assert "140.98" == _tax("704.88", TaxBy.TOTAL, NEAREST)


@pytest.mark.parametrize(
    ("nets", "by_line", "on_total", "total_down"),
    [
        # By hand: 33.60 + 2.77 + 0.28 + 1.90 by line; 38.548 on the total.
        ("168.00 13.87 1.38 9.49", "38.55", "38.55", "38.54"),
        # By hand: five times 0.024 is 0.02 each by line, 0.12 on the total.
        ("0.12 0.12 0.12 0.12 0.12", "0.10", "0.12", "0.12"),
        # By hand: three times 0.226, 0.574 and 1.998 by line; 3.250 on the total.
        ("1.13 1.13 1.13 2.87 9.99", "3.26", "3.25", "3.25"),
    ],
)
def test_tax__by_line_and_on_the_total(
    nets: str, by_line: str, on_total: str, total_down: str
) -> None:
    assert by_line == _tax(nets, TaxBy.LINE, NEAREST)
    assert on_total == _tax(nets, TaxBy.TOTAL, NEAREST)
    assert total_down == _tax(nets, TaxBy.TOTAL, DOWN)


def test_foreign_amount__at_its_rate_to_the_coin() -> None:
    assert Decimal("72.34") == converted(Decimal("84.00"), Decimal("0.8612"), "GBP")
    assert Decimal("72") == converted(Decimal("84.00"), Decimal("0.8612"), "JPY")


def test_shares__give_the_coin_left_over_to_the_one_that_lost_most() -> None:
    # 100.00 in three is 33.333...: the first takes the coin; 0.005 and 0.006 together are one coin.
    third = Fraction(100, 3)
    assert ["33.34", "33.33", "33.33"] == [str(n) for n in shared_out([third] * 3, "GBP")]
    assert ["0.00", "0.01"] == [
        str(n) for n in shared_out([Fraction("0.005"), Fraction("0.006")], "GBP")
    ]
    assert () == shared_out([], "GBP")


@given(st.lists(st.fractions(min_value=0, max_value=10**6, max_denominator=97), max_size=9))
def test_law__shares_add_up_to_the_rounded_sum_and_move_less_than_a_coin(
    amounts: list[Fraction],
) -> None:
    shares = shared_out(amounts, "GBP")
    whole = int(sum(amounts, Fraction(0)) * 100 + Fraction(1, 2))
    assert whole == sum(shares, Decimal(0)) * 100
    for amount, share in zip(amounts, shares, strict=True):
        assert abs(amount - Fraction(share)) < Fraction(1, 100)

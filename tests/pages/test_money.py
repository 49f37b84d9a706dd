"""Money in print, and the drawings of hours."""

from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest
from babel.numbers import get_currency_symbol, parse_pattern
from hypothesis import given
from hypothesis import strategies as st

from journal.digests.money import Reckoned
from journal.pages.money import page_money
from journal.pages.moneycharts import AllowedBar, allowed_bars, week_columns, weeks_between
from journal.pages.moneywords import money_in
from journal.pages.view import view_of
from journal.pages.words import Figure, decimals_in, exact_hours, hours_figure
from journal.words.money import KNOWN, decimals_of
from journal.words.vocabulary import HourKind, Reader
from tests.writing import WORKSHOP, a_car, a_sheet

# A space that keeps a figure with its sign.
_ = "\N{NO-BREAK SPACE}"


@pytest.mark.parametrize(
    ("currency", "amount", "text"),
    [
        ("GBP", "1212", "£1,212.00"),
        ("GBP", "-30", "−£30.00"),
        ("GBP", "2.675", "£2.68"),
        ("EUR", "72.34", "€72.34"),
        ("USD", "5", "US$5.00"),
        ("JPY", "1200", "JP¥1,200"),
        ("CHF", "5", f"CHF{_}5.00"),
        # ISO 4217 gives three decimals, where Babel's own data have none.
        ("IQD", "5.125", f"IQD{_}5.125"),
    ],
)
def test_money__as_print_has_it(currency: str, amount: str, text: str) -> None:
    assert text == money_in(currency, Decimal(amount))


@pytest.mark.parametrize("currency", sorted(KNOWN))
@given(coins=st.integers(-(10**15), 10**15))
def test_money__of_every_currency_is_what_babel_makes_of_it(currency: str, coins: int) -> None:
    amount = Decimal(coins).scaleb(-decimals_of(currency))
    sign = get_currency_symbol(currency, "en_GB")
    gap = _ if sign[-1].isalpha() else ""
    # The decimals are not the library's.
    pattern = parse_pattern(f"¤{gap}#,##0.{'0' * decimals_of(currency)}".rstrip("."))
    told = pattern.apply(amount, "en_GB", currency=currency, currency_digits=False)
    assert told.replace("-", "\N{MINUS SIGN}") == money_in(currency, amount)


@pytest.mark.parametrize(
    ("hours", "text"),
    [("1240.25", "1,240.25"), ("99.999", "100"), ("-0.5", "−0.5"), ("0", "0"), ("587.95", "587.95")],
)  # fmt: skip
def test_hours__to_a_hundredth(hours: str, text: str) -> None:
    assert text == exact_hours(Fraction(hours))


def test_column_of_hours__keeps_the_decimal_point_in_its_place() -> None:
    column = [Fraction(5), Fraction(9, 2), Fraction(17, 4), None]
    decimals = decimals_in(column)
    assert 2 == decimals
    assert [Figure("5", ".00"), Figure("4.5", "0"), Figure("4.25"), Figure("")] == [
        hours_figure(hours, decimals) for hours in column
    ]
    assert [Figure("38"), Figure("22")] == [
        hours_figure(hours, decimals_in([Fraction(38), Fraction(22)]))
        for hours in (Fraction(38), Fraction(22))
    ]


def test_labour_by_hand__tells_from_which_day_each_rate_holds() -> None:
    rates = {"2023-01-01": "50", "2024-02-01": "52", "2024-06-01": "50"}
    hands = {
        "MT": {"name": "Margit Tolland", "rate": rates},
        "JB": {"name": "J. Birkett", "rate": "40"},
    }
    sheets = [
        a_sheet(day, subsystem="body", hours={"MT": "2", "JB": "1.5"})
        for day in ("2024-01-08", "2024-03-04", "2024-07-01")
    ]
    car = a_car({"body/door": "first-fit"}, sheets, workshop={**WORKSHOP, "hands": hands})
    (page,) = page_money(view_of(car, Reader.WORKSHOP, pictures={}))
    assert [
        ("J. Birkett", "", "£40.00", "4.5"),
        ("Margit Tolland", "to 31 January 2024, from 1 June 2024", "£50.00", "4"),
        ("Margit Tolland", "from 1 February 2024 to 31 May 2024", "£52.00", "2"),
        ("Together", "", "", "10.5"),
    ] == [(row.hand, row.holds, row.rate, row.hours.text) for row in page.values["hands"]]


def test_bars__are_all_to_the_scale_of_the_longest() -> None:
    rows = (
        Reckoned("brakes", Decimal(40), hours=Fraction(30), uncharged=Fraction(20)),
        Reckoned("fuel", None, hours=Fraction(10)),
    )
    drawn = allowed_bars(rows)
    assert AllowedBar("80", "60", "60", "40") == drawn.bars[0]
    assert AllowedBar("0", "20", "20", "0") == drawn.bars[1]


def test_bars__of_nothing_are_drawn_without_a_scale_to_divide_by() -> None:
    assert (AllowedBar("0", "0", "0", "0"),) == allowed_bars((Reckoned("brakes"),)).bars


def test_weeks__run_over_the_turn_of_the_year() -> None:
    assert ((2020, 52), (2020, 53), (2021, 1)) == weeks_between(
        date(2020, 12, 27), date(2021, 1, 4)
    )


def test_week_columns__stack_their_kinds_without_a_gap() -> None:
    weeks = weeks_between(date(2024, 3, 4), date(2024, 3, 18))
    hours = {
        (weeks[0], HourKind.BILLABLE): Fraction(6),
        (weeks[0], HourKind.REWORK): Fraction(2),
        (weeks[2], HourKind.GOODWILL): Fraction(8),
    }
    first, last = week_columns(hours, weeks, dict.fromkeys(weeks, "some hours")).columns
    low, high = first.parts
    assert ("billable", "rework") == (low.kind, high.kind)
    assert Decimal(150) == Decimal(low.y) + Decimal(low.height)
    assert Decimal(low.y) == Decimal(high.y) + Decimal(high.height)
    assert high.y == last.parts[0].y

"""Dates. Source: ISO 8601-1:2019, 5.2.2.1 (calendar date, extended format), in the years of four digits.

The reference is `date.fromisoformat` of the standard library.
"""

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.words.dates import (
    OutOfTime,
    long_date,
    month_name,
    months_between,
    parse_date,
    plain_date,
    years_between,
)


@given(st.dates(date(1800, 1, 1), date(2199, 12, 31)))
def test_date__written_and_read_is_the_same_day(day: date) -> None:
    assert day == parse_date(day.isoformat()) == date.fromisoformat(day.isoformat())


@pytest.mark.parametrize(
    "text",
    [
        "2024-3-5", "20240305", "2024-W10-2", "2024-065", "2024-03", "2024", "05/03/2024", "5.3.2024",
        "2024-02-30", "2023-02-29", "2024-13-01", "2024-00-10", "2024-01-00", "0000-01-01", "+2024-03-05",
        "2024-03-05T10:00", " 2024-03-05", "2024-03-05\n", "24-03-05", "2024–03–05", "", "today",
    ],
)  # fmt: skip
def test_date__in_any_other_form_or_on_no_day_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r".+"):
        parse_date(text)


@given(st.text(st.characters(codec="utf-8"), max_size=12))
def test_date__is_read_only_where_the_standard_library_reads_it_too(text: str) -> None:
    try:
        day = parse_date(text)
    except ValueError:
        return
    assert day == date.fromisoformat(text)


@pytest.mark.parametrize("text", ["0001-01-01", "1799-12-31", "2200-01-01", "9999-12-31"])
def test_date__that_no_car_file_can_mean_is_refused(text: str) -> None:
    with pytest.raises(OutOfTime, match="from 1800 to 2199"):
        parse_date(text)


def test_leap_days__are_those_of_the_calendar() -> None:
    assert date(2024, 2, 29) == parse_date("2024-02-29")
    assert date(2000, 2, 29) == parse_date("2000-02-29")
    with pytest.raises(ValueError, match="day is out of range"):
        parse_date("1900-02-29")


def test_dates__are_said_in_english_without_a_locale() -> None:
    day = date(2024, 3, 5)
    assert "Tuesday 5 March 2024" == long_date(day)
    assert "5 March 2024" == plain_date(day)
    assert "March 2024" == month_name(2024, 3)


def test_months__from_one_day_to_another_hold_both_ends() -> None:
    assert ((2023, 11), (2023, 12), (2024, 1)) == months_between(
        date(2023, 11, 30), date(2024, 1, 1)
    )
    assert ((2024, 3),) == months_between(date(2024, 3, 1), date(2024, 3, 31))
    assert () == months_between(date(2024, 3, 1), date(2024, 2, 29))


@given(st.dates(), st.dates())
def test_months__follow_each_other_without_a_gap(one: date, other: date) -> None:
    first, last = sorted((one, other))
    months = [year * 12 + month for year, month in months_between(first, last)]
    assert list(range(first.year * 12 + first.month, last.year * 12 + last.month + 1)) == months


@pytest.mark.parametrize(
    ("first", "last", "years"),
    [
        # Worked by hand: whole years by anniversary, then days of the year that is running.
        ("2018-03-05", "2024-03-05", Fraction(6)),
        ("2018-03-05", "2024-03-04", 5 + Fraction(365, 366)),
        ("2016-09-05", "2024-03-05", 7 + Fraction(182, 366)),
        ("2020-02-29", "2021-02-28", Fraction(365, 366)),
        ("2020-02-29", "2021-03-01", Fraction(1)),
        ("2024-03-05", "2024-03-05", Fraction(0)),
    ],
)
def test_years__between_two_days(first: str, last: str, years: Fraction) -> None:
    assert years == years_between(date.fromisoformat(first), date.fromisoformat(last))


def test_years__backwards_are_refused() -> None:
    with pytest.raises(ValueError, match="the later day comes first"):
        years_between(date(2024, 3, 5), date(2024, 3, 4))

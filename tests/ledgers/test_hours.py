"""Hours by week and kind, and hours that parts made necessary."""

from datetime import date
from decimal import Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from journal.ledgers.hours import fold_hours, week_of
from journal.words.amounts import even_shares
from journal.words.vocabulary import HourKind
from tests.writing import a_car, a_sheet

REGISTER = {"brakes/pipes": "first-fit"}


def test_week__is_that_of_iso_8601() -> None:
    # 1 January 2021 is a Friday and belongs to the last week of 2020, which has 53.
    assert (2020, 53) == week_of(date(2021, 1, 1))
    # 31 December 2024 is a Tuesday and belongs to the first week of 2025.
    assert (2025, 1) == week_of(date(2024, 12, 31))


@given(st.dates(min_value=date(1900, 1, 1)))
def test_week__is_what_the_calendar_of_the_standard_library_prints(day: date) -> None:
    assert day.strftime("%G-%V") == "{:04d}-{:02d}".format(*week_of(day))


def test_hours__by_week_and_kind_add_up() -> None:
    sheets = [
        a_sheet("2024-03-04", hours={"MT": "3"}),
        a_sheet("2024-03-10", hours={"MT": ["1", {"hours": "2", "kind": "rework", "because": "pipe"}]}),
        a_sheet("2024-03-11", hours={"JB": {"hours": "0.5", "kind": "goodwill"}}),
    ]  # fmt: skip
    hours = fold_hours(a_car(REGISTER, sheets))
    assert {(2024, 10): Fraction(6), (2024, 11): Fraction("0.5")} == hours.by_week()
    assert {
        HourKind.BILLABLE: Fraction(4), HourKind.REWORK: Fraction(2), HourKind.GOODWILL: Fraction("0.5"),
    } == hours.by_kind()  # fmt: skip
    assert {"pipe": Fraction(2)} == hours.lost_to_parts()
    assert Fraction(2) == hours.by_hand_and_kind()["MT", HourKind.REWORK]
    assert hours.total == sum(hours.by_week_and_kind().values())


def test_hours__that_do_not_divide_are_shared_to_a_hundredth() -> None:
    sheet = a_sheet("2024-03-04", subsystem=["brakes", "fuel", "trim"], hours={"MT": "2.5"})
    shares = fold_hours(a_car(REGISTER, [sheet])).by_subsystem()
    assert {
        "brakes": Fraction("0.84"),
        "fuel": Fraction("0.83"),
        "trim": Fraction("0.83"),
    } == shares


@given(st.decimals(min_value=0, max_value=24, places=3), st.integers(min_value=1, max_value=9))
def test_shares__add_up_and_differ_by_one_step_at_most(amount: Decimal, parts: int) -> None:
    shares = even_shares(amount, parts)
    assert Fraction(amount) == sum(shares)
    assert max(shares) - min(shares) <= Fraction(1, 1000)

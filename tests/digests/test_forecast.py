"""Forecast: an interval for the finishing date, from the workshop's own weeks."""

from datetime import date, timedelta
from fractions import Fraction
from itertools import product
from typing import Any

import numpy
import pytest

from journal.digests.forecast import (
    EARLY,
    LATE,
    LEAST_WEEKS,
    LEAST_WORKED,
    MIDDLE,
    RECENT_WEEKS,
    Forecast,
    Unsaid,
    digest_forecast,
    finishing_days,
)
from journal.ledgers.hours import fold_hours
from journal.words.draws import quantile
from tests.writing import WORKSHOP, a_car, a_sheet

MONDAY = date(2024, 1, 1)
WEEK = timedelta(days=7)


def worked_weeks(*hours: str, first: date = MONDAY) -> list[Any]:
    """A sheet on the Monday of each week; a week of no hours has none."""
    return [
        a_sheet((first + n * WEEK).isoformat(), hours={"MT": spent})
        for n, spent in enumerate(hours)
        if spent != "0"
    ]


def forecast(
    *hours: str,
    remaining: str | None = "40",
    budget: str = "100",
    day: date | None = None,
    booked_in: str = "2024-01-01",
    **car: Any,
) -> Forecast:
    file = a_car({}, worked_weeks(*hours), booked_in=booked_in, **car)
    return digest_forecast(
        file, hours=fold_hours(file), budget=Fraction(budget),
        remaining=Fraction(remaining) if remaining is not None else None,
        day=day or MONDAY + len(hours) * WEEK - timedelta(days=1),
    )  # fmt: skip


def test_forecast__of_a_steady_week_is_a_day_and_not_an_interval() -> None:
    # Ten hours a week, two each working day; 40 hours are twenty working days: ten weeks end on
    # Sunday 10 March 2024, and the twentieth working day after it is Friday 5 April.
    told = forecast(*["10"] * 10)
    assert {date(2024, 4, 5)} == {told.early, told.middle, told.late}


def test_forecast__stops_in_the_middle_of_a_week() -> None:
    # 41 hours at two a day are 20.5 days: the twenty-first working day, a Monday.
    assert date(2024, 4, 8) == forecast(*["10"] * 10, remaining="41").middle


def test_forecast__waits_while_the_workshop_is_closed() -> None:
    # The same, with the week from 18 March off: a week later.
    workshop = {**WORKSHOP, "holidays": [{"from": "2024-03-18", "to": "2024-03-22"}]}
    assert date(2024, 4, 12) == forecast(*["10"] * 10, workshop=workshop).middle


def test_week_cut_short_by_a_holiday__counts_by_its_pace() -> None:
    # 4 hours in a week of two working days are as good as 10 in a whole one.
    workshop = {**WORKSHOP, "holidays": [{"from": "2024-01-03", "to": "2024-01-05"}]}
    told = forecast("4", *["10"] * 9, workshop=workshop)
    assert {Fraction(2)} == {week.pace for week in told.weeks}
    assert told.early == told.late


def test_week_in_which_nobody_works__is_not_in_the_sample() -> None:
    workshop = {**WORKSHOP, "holidays": [{"from": "2024-01-08", "to": "2024-01-14"}]}
    told = forecast("10", "0", *["10"] * 9, workshop=workshop)
    assert 10 == len(told.weeks)
    # A week in which the workshop was open and did nothing for this car is.
    assert 11 == len(forecast("10", "0", *["10"] * 9).weeks)


def test_sample__is_whole_weeks_since_the_car_came_in_and_the_recent_ones() -> None:
    # Booked in on a Wednesday; asked on a Thursday.
    told = forecast(*["10"] * 10, booked_in="2024-01-03", day=date(2024, 3, 7))
    assert [MONDAY + n * WEEK for n in range(1, 9)] == [week.monday for week in told.weeks]
    assert RECENT_WEEKS == len(forecast(*["10"] * 60).weeks)


@pytest.mark.parametrize(
    ("hours", "unsaid"),
    [
        (["10"] * (LEAST_WEEKS - 1), Unsaid.SHORT_HISTORY),
        (["10"] * (LEAST_WORKED - 1) + ["0"] * LEAST_WEEKS, Unsaid.SHORT_HISTORY),
        (["10"] * LEAST_WEEKS, None),
        (["10"] * LEAST_WORKED + ["0"] * (LEAST_WEEKS - LEAST_WORKED), None),
    ],
)
def test_too_little_history__is_said_and_not_guessed(hours: list[str], unsaid: Unsaid) -> None:
    told = forecast(*hours)
    assert unsaid is told.unsaid
    assert (told.early is None) is (unsaid is not None)


@pytest.mark.parametrize(
    ("change", "unsaid"),
    [
        ({"delivered": "2024-02-01"}, Unsaid.DELIVERED),
        ({"budget": "0", "remaining": None}, Unsaid.NO_ESTIMATE),
        ({"remaining": None}, Unsaid.NOTHING_EARNED),
        ({"remaining": "0"}, Unsaid.DONE),
        ({"remaining": "100000"}, Unsaid.TOO_FAR),
    ],
)
def test_no_date__is_given_without_its_reason(change: dict[str, Any], unsaid: Unsaid) -> None:
    told = forecast(*["10"] * 10, **change)
    assert (unsaid, None, None, None) == (told.unsaid, told.early, told.middle, told.late)


def test_forecast__is_the_same_every_time() -> None:
    uneven = ["3", "12", "0", "7.5", "20", "1", "9", "14", "0", "6"]
    assert forecast(*uneven) == forecast(*uneven)


def test_forecast__comes_in_order() -> None:
    told = forecast("3", "12", "0", "7.5", "20", "1", "9", "14", "0", "6", remaining="150")
    assert told.early is not None
    assert told.middle is not None
    assert told.late is not None
    assert told.day < told.early < told.middle < told.late


# Outside: the same question answered by other means.

WEEKS = [tuple(MONDAY + n * WEEK + timedelta(days=d) for d in range(5)) for n in range(300)]
PACES = [Fraction(n, 20) for n in (13, 0, 41, 22, 35, 8, 60, 17, 26, 44, 0, 30)]
QUANTILES = (EARLY, MIDDLE, LATE)


def test_finishing_days__agree_with_numpy() -> None:
    # Independent: numpy's own generator, weeks as an array, days by searching the running sums.
    rng = numpy.random.default_rng(20240101)
    paces = numpy.array([float(p) for p in PACES])
    drawn = rng.choice(paces, size=(20_000, len(WEEKS)))
    worked = numpy.repeat(drawn, 5, axis=1).cumsum(axis=1)
    place = (worked < 180 - 1e-9).sum(axis=1)
    days = sorted(MONDAY + int(n // 5) * WEEK + timedelta(days=int(n % 5)) for n in place)
    ours = finishing_days(Fraction(180), PACES, WEEKS, 20_000)
    for share in QUANTILES:
        assert abs((quantile(ours, share) - quantile(days, share)).days) <= 4


def test_finishing_days__keep_to_the_exact_distribution() -> None:
    # Three past weeks of 5, 10 and 15 hours and 30 to come: all rows of six weeks, each as likely
    # as the next, counted one by one. The week in which the sum reaches 30:
    paces = [Fraction(1), Fraction(2), Fraction(3)]
    exact: dict[int, int] = {}
    for row in product((5, 10, 15), repeat=6):
        sums = [sum(row[: n + 1]) for n in range(6)]
        week = next(n for n, total in enumerate(sums) if total >= 30)
        exact[week] = exact.get(week, 0) + 1
    runs = 3**6 * 20
    ours = [(day - MONDAY).days // 7 for day in finishing_days(Fraction(30), paces, WEEKS, runs)]
    for week, rows in exact.items():
        assert abs(ours.count(week) - 20 * rows) <= 4 * (20 * rows) ** 0.5
    assert runs == len(ours)


def test_run__that_never_ends_is_later_than_any_date() -> None:
    assert [date.max] == finishing_days(Fraction(10), [Fraction(0)], WEEKS, 1)

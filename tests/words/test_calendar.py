"""The workshop's calendar, against a count of every single day and the standard library."""

from dataclasses import dataclass
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.words.calendar import is_working_day, working_days
from journal.words.vocabulary import Weekday

WEEK = tuple(Weekday)


@dataclass(frozen=True)
class Off:
    """A holiday."""

    from_: date
    to: date | None = None


@dataclass(frozen=True)
class Open:
    """Who works when."""

    working_days: tuple[Weekday, ...] = WEEK[:5]
    holidays: tuple[Off, ...] = ()


days = st.dates(date(1999, 12, 1), date(2032, 2, 1))
offs = st.lists(st.builds(Off, days, st.none() | days), max_size=4).map(tuple)
opens = st.builds(Open, st.lists(st.sampled_from(WEEK), unique=True).map(tuple), offs)


@given(days)
def test_weekday__is_that_of_the_iso_calendar(day: date) -> None:
    # Independent: the week date of ISO 8601 as the standard library reckons it, Monday 1.
    name = WEEK[day.isocalendar().weekday - 1]
    assert is_working_day(Open((name,)), day)
    assert not is_working_day(Open(tuple(w for w in WEEK if w is not name)), day)


@given(days, st.integers(1, 60))
def test_working_days__of_whole_weeks_are_five_a_week(day: date, weeks: int) -> None:
    assert 5 * weeks == working_days(Open(), day, day + timedelta(weeks=weeks))


@given(opens, days, st.integers(0, 800))
def test_working_days__are_those_counted_one_by_one(workshop: Open, day: date, length: int) -> None:
    every = [day + timedelta(days=n) for n in range(1, length + 1)]
    counted = 0
    for each in every:
        at_home = any(off.from_ <= each <= (off.to or off.from_) for off in workshop.holidays)
        counted += WEEK[each.isocalendar().weekday - 1] in workshop.working_days and not at_home
    assert counted == working_days(workshop, day, day + timedelta(days=length))
    assert -counted == working_days(workshop, day + timedelta(days=length), day)


@pytest.mark.parametrize(
    ("after", "until", "count"),
    [
        ("2024-03-01", "2024-03-01", 0),  # the same Friday
        ("2024-03-01", "2024-03-04", 1),  # Friday to Monday
        ("2024-03-01", "2024-03-03", 0),  # Friday to Sunday
        ("2024-03-02", "2024-03-08", 5),  # Saturday to the Friday after
        ("2024-03-04", "2024-03-01", -1),  # here a working day before it was promised
        ("2024-12-23", "2025-01-03", 6),  # 24, 27, 30, 31 December, 2 and 3 January: see below
    ],
)
def test_working_days__in_a_calendar(after: str, until: str, count: int) -> None:
    # 25 and 26 December and 1 January are kept; counted off on a wall calendar.
    closed = (Off(date(2024, 12, 25), date(2024, 12, 26)), Off(date(2025, 1, 1)))
    workshop = Open(holidays=closed)
    assert count == working_days(workshop, date.fromisoformat(after), date.fromisoformat(until))


def test_working_days__of_two_holidays_that_overlap_are_taken_off_once() -> None:
    closed = (Off(date(2024, 8, 5), date(2024, 8, 9)), Off(date(2024, 8, 7), date(2024, 8, 12)))
    workshop = Open(holidays=closed)
    assert 4 == working_days(workshop, date(2024, 8, 4), date(2024, 8, 16))


def test_working_days__of_a_workshop_that_never_opens_are_none() -> None:
    assert 0 == working_days(Open(()), date(2024, 1, 1), date(2025, 1, 1))


def test_working_days__over_all_the_calendar_has() -> None:
    # 3,652,059 days are 521,722 weeks and 5 days, Monday 1 January of year 1 the first of them.
    whole = Open(WEEK)
    assert 3_652_058 == working_days(whole, date.min, date.max)
    assert 5 * 521_722 + 4 == working_days(Open(), date.min, date.max)

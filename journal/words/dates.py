"""Dates: ISO 8601 calendar dates in, English dates out, without a locale."""

import re
from datetime import date
from fractions import Fraction

_ISO = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_YEAR = re.compile(r"(?<![0-9])(?:1[89]|20)[0-9]{2}(?![0-9])")

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


# Before the first there was no car, and after the last there are no plans; reckoning from day to
# day and month to month stays short between them.
FIRST_YEAR, LAST_YEAR = 1800, 2199


class OutOfTime(ValueError):
    """A day of the calendar that no car file can mean; the text continues "a day"."""


def parse_date(text: str) -> date:
    """Read an ISO 8601 calendar date in its extended form, `2024-03-05`.

    Raises ValueError for any other form (week dates and ordinal dates are not written in a
    workshop) and for a day that the calendar does not have, OutOfTime for one before 1800 or
    after 2199.
    """
    if not _ISO.fullmatch(text):
        raise ValueError("not written as year-month-day")
    day = date.fromisoformat(text)
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise OutOfTime(f"from {FIRST_YEAR} to {LAST_YEAR}")
    return day


def long_date(day: date) -> str:
    """`Tuesday 5 March 2024`."""
    return f"{WEEKDAYS[day.weekday()]} {plain_date(day)}"


def plain_date(day: date) -> str:
    """`5 March 2024`."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def month_name(year: int, month: int) -> str:
    """`March 2024`."""
    return f"{MONTHS[month - 1]} {year}"


def months_between(first: date, last: date) -> tuple[tuple[int, int], ...]:
    """Every (year, month) from the month of `first` to the month of `last`, both included."""
    start, end = first.year * 12 + first.month - 1, last.year * 12 + last.month - 1
    return tuple((n // 12, n % 12 + 1) for n in range(start, end + 1))


def years_between(first: date, last: date) -> Fraction:
    """Years from one day to a later one: whole years by anniversary, and the days since the last
    of them as a part of that year. Somebody born on 29 February is a year older on 1 March.

    Raises ValueError when `last` lies before `first`.
    """
    if last < first:
        raise ValueError("the later day comes first")
    years = last.year - first.year - (last < _anniversary(first, last.year))
    passed = _anniversary(first, first.year + years)
    coming = _anniversary(first, first.year + years + 1)
    return years + Fraction((last - passed).days, (coming - passed).days)


def _anniversary(day: date, year: int) -> date:
    try:
        return day.replace(year=year)
    except ValueError:
        return date(year, 3, 1)


def year_in(text: str) -> int | None:
    """The first year, 1800 to 2099, in a text such as `1958`, `about 1984` or `1961/62`, or None."""
    found = _YEAR.search(text)
    return int(found.group()) if found else None

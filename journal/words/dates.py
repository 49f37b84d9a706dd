"""Dates: ISO 8601 calendar dates in, English dates out, without a locale."""

import re
from datetime import date

_ISO = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def parse_date(text: str) -> date:
    """Read an ISO 8601 calendar date in its extended form, `2024-03-05`.

    Raises ValueError for any other form (week dates and ordinal dates are not written in a
    workshop) and for a day that the calendar does not have.
    """
    if not _ISO.fullmatch(text):
        raise ValueError("not written as year-month-day")
    return date.fromisoformat(text)


def long_date(day: date) -> str:
    """`Tuesday 5 March 2024`."""
    return f"{WEEKDAYS[day.weekday()]} {plain_date(day)}"


def plain_date(day: date) -> str:
    """`5 March 2024`."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def month_name(year: int, month: int) -> str:
    """`March 2024`."""
    return f"{MONTHS[month - 1]} {year}"


def short_month(year: int, month: int) -> str:
    """`Mar 24`, for the axis of a chart."""
    return f"{MONTHS[month - 1][:3]} {year % 100:02d}"


def months_between(first: date, last: date) -> tuple[tuple[int, int], ...]:
    """Every (year, month) from the month of `first` to the month of `last`, both included."""
    start, end = first.year * 12 + first.month - 1, last.year * 12 + last.month - 1
    return tuple((n // 12, n % 12 + 1) for n in range(start, end + 1))

"""Stretches after which something is due: a distance, a time, or both, whichever comes first.

Written as people say it: `500 miles`, `6 weeks`, `500 miles or 6 weeks`.
"""

import calendar
import re
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum
from fractions import Fraction
from typing import NamedTuple

from msgspec import Struct

from journal.words.text import counted
from journal.words.units import convert
from journal.words.vocabulary import OdometerUnit


class Span(StrEnum):
    """What a time is counted in."""

    DAY = "day"
    WEEK = "week"
    MONTH = "month"
    YEAR = "year"


class Distance(NamedTuple):
    """A distance on the road in whole miles or kilometres."""

    amount: int
    unit: OdometerUnit


class Time(NamedTuple):
    """A time in whole days, weeks, months or years."""

    amount: int
    span: Span


class Stretch(Struct, frozen=True):
    """A distance, a time, or both; then the one that comes first counts. One of them is there."""

    distance: Distance | None = None
    time: Time | None = None


class TooFar(ValueError):
    """A stretch longer than anything is left for; the text continues "a stretch"."""


# Beyond these nobody waits to look at a car again, and the calendar ends.
FARTHEST, LONGEST = 100_000, 30

_PART = re.compile(r"([0-9]{1,9}) ?(miles?|km|days?|weeks?|months?|years?)")
_DAYS = {Span.DAY: 1, Span.WEEK: 7}
_MONTHS = {Span.MONTH: 1, Span.YEAR: 12}


def parse_stretch(text: str) -> Stretch:
    """Read `500 miles`, `800 km`, `6 weeks`, or a distance and a time with `or` between them.

    Raises ValueError for every other form, TooFar for more than 100,000 of a distance or 30 years.
    """
    distance: Distance | None = None
    time: Time | None = None
    for part in text.split(" or "):
        found = _PART.fullmatch(part.strip())
        if found is None or not int(found[1]):
            raise ValueError("neither a distance nor a time")
        amount, unit = int(found[1]), found[2].removesuffix("s")
        if unit in frozenset(OdometerUnit):
            if distance is not None:
                raise ValueError("two distances")
            distance = Distance(amount, OdometerUnit(unit))
        elif time is None:
            time = Time(amount, Span(unit))
        else:
            raise ValueError("two times")
    if distance is not None and distance.amount > FARTHEST:
        raise TooFar(f"of at most {FARTHEST:,} miles or km")
    if time is not None and day_after(date(2000, 1, 1), time) is None:
        raise TooFar(f"of at most {LONGEST} years")
    return Stretch(distance, time)


def day_after(first: date, time: Time) -> date | None:
    """The day so much time after another; None when that is more than 30 years.

    Months end where the calendar ends them: a month after 31 January is the last day of February.
    """
    if time.span in _DAYS:
        days = time.amount * _DAYS[time.span]
        return first + timedelta(days=days) if days <= LONGEST * 366 else None
    months = time.amount * _MONTHS[time.span]
    if months > LONGEST * 12:
        return None
    year, month = divmod(first.year * 12 + first.month - 1 + months, 12)
    return date(year, month + 1, min(first.day, calendar.monthrange(year, month + 1)[1]))


def distance_in(distance: Distance, unit: OdometerUnit) -> Decimal:
    """A distance in whole units of an odometer, half up: 500 miles are 805 km."""
    exact = convert(Fraction(distance.amount), distance.unit.value, unit.value)
    return (Decimal(exact.numerator) / exact.denominator).quantize(Decimal(1), ROUND_HALF_UP)


def stretch_words(stretch: Stretch) -> str:
    """`500 miles`, `800 km`, `500 miles or 6 weeks`, as it is written."""
    said = []
    if stretch.distance is not None:
        amount, unit = stretch.distance
        said.append(f"{amount:,} km" if unit is OdometerUnit.KM else counted(amount, unit.value))
    if stretch.time is not None:
        said.append(counted(stretch.time.amount, stretch.time.span.value))
    return " or ".join(said)


def stretch_text(stretch: Stretch) -> str:
    """A stretch as `parse_stretch` reads it."""
    parts = (stretch.distance, stretch.time)
    return " or ".join(f"{amount} {unit.value}" for amount, unit in filter(None, parts))

"""Forecast: the finishing date as an interval, drawn from the workshop's own recent weeks.

Hears the hours written for the car, the hours still to come, and the workshop's calendar. The
method is the bootstrap (Efron and Tibshirani, An Introduction to the Bootstrap, 1993, percentile
method): the past weeks, Monday to Sunday, are the sample; the future is a row of weeks, each drawn
from them with replacement. A week counts by its pace, hours for each working day, so that a week
cut short by a holiday gives and takes no more than its days. The hours to come are worked off day
by day on working days alone until they are done; that is one run. The interval holds the middle
eight tenths of the runs. It knows nothing of parts that do not come.
"""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from enum import Enum
from fractions import Fraction
from math import lcm
from operator import mul
from typing import NamedTuple

from msgspec import Struct

from journal.ledgers.hours import Hours
from journal.records.carfile import CarFile
from journal.records.workshop import Workshop
from journal.words.calendar import is_working_day
from journal.words.draws import draws, quantile

# Half a year: long enough for good weeks and bad, short enough to be how the work goes now.
RECENT_WEEKS = 26
# Below these nothing is said: fewer weeks, or weeks with work, repeat themselves in every run.
LEAST_WEEKS = 8
LEAST_WORKED = 4
RUNS = 4000
# The number that the lots start from: any would do, and it stays the same for good.
SEED = 1958
EARLY, MIDDLE, LATE = Fraction(1, 10), Fraction(1, 2), Fraction(9, 10)
# Ten years. A run that is not done by then counts as later than any date.
HORIZON_WEEKS = 520

_WEEK = timedelta(days=7)


class Unsaid(Enum):
    """Why no date is given."""

    DELIVERED = "the car has been handed over"
    NO_ESTIMATE = "no hours were estimated"
    NOTHING_EARNED = (
        "nothing of the estimate is earned yet, so the hours to come cannot be reckoned"
    )
    DONE = "every step is done"
    SHORT_HISTORY = "there are too few weeks to go by"
    TOO_FAR = "at the pace of the weeks gone by it would not be done within ten years"


class PastWeek(NamedTuple):
    """A week gone by: its Monday, the working days it had, and the hours written for the car."""

    monday: date
    days: int
    hours: Fraction

    @property
    def pace(self) -> Fraction:
        """Hours for each working day."""
        return self.hours / self.days


class Forecast(Struct, frozen=True):
    """When the car may be finished.

    `early`, `middle` and `late` are the days by which one, five and nine runs in ten were done;
    `late` is absent when it lies beyond ten years. All are absent when `unsaid` tells why nothing
    is said. `weeks` is the sample, oldest first.
    """

    day: date
    remaining: Fraction | None
    weeks: tuple[PastWeek, ...] = ()
    unsaid: Unsaid | None = None
    early: date | None = None
    middle: date | None = None
    late: date | None = None

    @property
    def worked(self) -> int:
        """Weeks of the sample in which there was work on the car."""
        return sum(week.hours > 0 for week in self.weeks)


def digest_forecast(
    car: CarFile, *, hours: Hours, budget: Fraction, remaining: Fraction | None, day: date
) -> Forecast:
    """The forecast on a day. `budget` is the estimate with its extras, `remaining` the hours to
    come at the pace of what was earned so far; absent while nothing is."""
    weeks = recent_weeks(car, hours, day)
    unsaid = _unsaid(car, weeks, budget, remaining, day)
    if unsaid is not None or remaining is None:
        return Forecast(day, remaining, weeks, unsaid)
    done = finishing_days(
        remaining, [week.pace for week in weeks], _open_weeks(car.workshop, day), RUNS
    )
    early, middle, late = (quantile(done, share) for share in (EARLY, MIDDLE, LATE))
    if early == date.max or middle == date.max:
        return Forecast(day, remaining, weeks, Unsaid.TOO_FAR)
    return Forecast(day, remaining, weeks, None, early, middle, late if late < date.max else None)


def _unsaid(
    car: CarFile,
    weeks: tuple[PastWeek, ...],
    budget: Fraction,
    remaining: Fraction | None,
    day: date,
) -> Unsaid | None:
    if car.car.delivered is not None and car.car.delivered <= day:
        return Unsaid.DELIVERED
    if not budget:
        return Unsaid.NO_ESTIMATE
    if remaining is None:
        return Unsaid.NOTHING_EARNED
    if remaining <= 0:
        return Unsaid.DONE
    if len(weeks) < LEAST_WEEKS or sum(week.hours > 0 for week in weeks) < LEAST_WORKED:
        return Unsaid.SHORT_HISTORY
    return None


def recent_weeks(car: CarFile, hours: Hours, day: date) -> tuple[PastWeek, ...]:
    """The last whole weeks up to a day, none before the car came in and none without a working day."""
    first = _monday(car.car.booked_in + timedelta(days=6))
    monday = _monday(day + timedelta(days=1)) - _WEEK
    spent: dict[date, Fraction] = {}
    for line in hours.spent:
        week = _monday(line.day)
        spent[week] = spent.get(week, Fraction(0)) + line.hours
    weeks: list[PastWeek] = []
    while monday >= first and len(weeks) < RECENT_WEEKS:
        days = len(_working(car.workshop, monday))
        if days:
            weeks.append(PastWeek(monday, days, spent.get(monday, Fraction(0))))
        monday -= _WEEK
    return tuple(reversed(weeks))


def finishing_days(
    remaining: Fraction, paces: Sequence[Fraction], weeks: Sequence[Sequence[date]], runs: int
) -> list[date]:
    """The day on which each run is done, in order; the last day of the calendar when it is not.

    `paces` are hours for each working day in past weeks, `weeks` the working days of coming ones.
    """
    # Whole numbers keep the sums exact and quick.
    unit = lcm(remaining.denominator, *(pace.denominator for pace in paces))
    sample, whole = [int(pace * unit) for pace in paces], int(remaining * unit)
    counts = [len(days) for days in weeks]
    drawn = draws(SEED, sample)
    return sorted(_run(whole, drawn, counts, weeks) for _ in range(runs))


def _run(
    left: int, paces: Iterator[int], counts: Sequence[int], weeks: Sequence[Sequence[date]]
) -> date:
    # The week comes before the pace: when no week is left, none is drawn.
    hours: Iterator[int] = map(mul, counts, paces)
    for week, done in enumerate(hours):
        if done >= left:
            pace = done // counts[week]
            return weeks[week][-(-left // pace) - 1]
        left -= done
    return date.max


def _open_weeks(workshop: Workshop, day: date) -> tuple[tuple[date, ...], ...]:
    """The working days after a day, week by week; weeks without any are left out."""
    return tuple(days for days in _coming(workshop, day) if days)


def _coming(workshop: Workshop, day: date) -> Iterator[tuple[date, ...]]:
    monday = _monday(day)
    for n in range(HORIZON_WEEKS):
        yield tuple(d for d in _working(workshop, monday + n * _WEEK) if d > day)


def _working(workshop: Workshop, monday: date) -> tuple[date, ...]:
    week = (monday + timedelta(days=n) for n in range(7))
    return tuple(day for day in week if is_working_day(workshop, day))


def _monday(day: date) -> date:
    return day - timedelta(days=day.weekday())

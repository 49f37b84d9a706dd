"""The workshop's calendar: on which days anybody works, and how many such days lie between two."""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Protocol

from journal.words.vocabulary import Weekday


class DaysOff(Protocol):
    """A holiday: its first day, and its last when it has more than one."""

    @property
    def from_(self) -> date:
        """The first day."""

    @property
    def to(self) -> date | None:
        """The last day, absent for a single one."""


class OpenDays(Protocol):
    """Whoever has working days of the week and holidays: the workshop."""

    @property
    def working_days(self) -> tuple[Weekday, ...]:
        """The days of the week on which it works."""

    @property
    def holidays(self) -> Sequence[DaysOff]:
        """The days on which it does not work all the same."""


_WEEK = tuple(Weekday)


def is_working_day(workshop: OpenDays, day: date) -> bool:
    """Whether the workshop works on a day: one of its days of the week, and no holiday."""
    if _WEEK[day.weekday()] not in workshop.working_days:
        return False
    return not any(off.from_ <= day <= (off.to or off.from_) for off in workshop.holidays)


def working_days(workshop: OpenDays, after: date, until: date) -> int:
    """Working days after one day, up to and with another: ordered Friday, here Monday, is 1.

    Negative when `until` lies before `after`, so that early and late are told by one figure.
    """
    if until < after:
        return -working_days(workshop, until, after)
    first, last = after.toordinal() + 1, until.toordinal()
    open_days = frozenset(_WEEK.index(name) for name in workshop.working_days)
    off = sum(_count(open_days, *days) for days in _days_off(workshop, first, last))
    return _count(open_days, first, last) - off


def _count(open_days: frozenset[int], first: int, last: int) -> int:
    """How many days from first to last, counted from the year 1, fall on these days of the week.

    Day 1 of that count is a Monday, so that Mondays are the days n with n = 1 modulo 7.
    """
    if last < first:
        return 0
    return sum((last - 1 - day) // 7 - (first - 2 - day) // 7 for day in open_days)


def _days_off(workshop: OpenDays, first: int, last: int) -> Iterator[tuple[int, int]]:
    """Stretches of holidays within first and last, each day of them in one stretch only."""
    reached = first - 1
    spans = sorted((h.from_.toordinal(), (h.to or h.from_).toordinal()) for h in workshop.holidays)
    for start, end in spans:
        start, end = max(start, reached + 1), min(end, last)
        if start <= end:
            yield start, end
            reached = end

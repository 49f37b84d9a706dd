"""Times of day as they are said: half past nine, quarter to four, eight thirty, 4.15, five o'clock."""

import re
from typing import NamedTuple

from journal.hearing.cardinals import DIGITS, TEENS, small, written
from journal.hearing.strand import Strand


class Clock(NamedTuple):
    """A time of day up to word `end`, in minutes from midnight.

    `fixed` tells that the half of the day was said, else it may be twelve hours later; `plain` that it
    is a bare number and could be something else; `vague` that it is no time of the clock.
    """

    end: int
    minutes: int
    fixed: bool = False
    plain: bool = False
    vague: bool = False


_NOON = 12 * 60
_FIXED = {"noon": _NOON, "midday": _NOON, "midnight": 24 * 60}
# When people eat. Common practice, no source: dinner is at noon in the trade.
_MEALS = {
    "lunch": _NOON, "lunchtime": _NOON, "dinner": _NOON, "dinnertime": _NOON, "tea": 17 * 60,
    "teatime": 17 * 60, "breakfast": 8 * 60,
}  # fmt: skip
_HOURS = {**DIGITS, **{word: n for word, n in TEENS.items() if n <= 12}}
_WRITTEN = re.compile(r"([01]?[0-9]|2[0-3])[.:]([0-5][0-9])")
_HALVES = {"am": 0, "a.m": 0, "pm": _NOON, "p.m": _NOON}
_PARTS = {"morning": 0, "afternoon": _NOON, "evening": _NOON, "night": _NOON}


# What a time of the day may begin with: most words are looked up once.
_BEGINS = frozenset({*_FIXED, *_MEALS, *_HOURS, "twenty", "half", "quarter", "a", "the", "my"})


def clock_at(strand: Strand, n: int) -> Clock | None:
    """The time of day that is said from word n on; None where none begins."""
    word = strand.at(n)
    if word not in _BEGINS and not word[:1].isdigit():
        return None
    if word in _FIXED:
        return Clock(n + 1, _FIXED[word], fixed=True)
    begin = n + 1 if word in ("a", "the", "my") else n
    if strand.at(begin) in _MEALS:
        end = begin + 2 if strand.on(begin + 1) == "time" else begin + 1
        return Clock(end, _MEALS[strand.at(begin)], fixed=True, vague=True)
    found = _past_or_to(strand, n) or _half_hour(strand, n) or _hour_and_minutes(strand, n)
    return _with_half(strand, found) if found else None


def _past_or_to(strand: Strand, n: int) -> Clock | None:
    """Half past nine, a quarter to four, twenty five past, ten minutes to."""
    begin = n + 1 if strand.at(n) == "a" and strand.on(n + 1) == "quarter" else n
    minutes, end = _minutes(strand, begin)
    if not minutes or strand.on(end) not in ("past", "to", "gone"):
        return None
    hour = _hour(strand, end + 1)
    if hour is None or (strand.on(end) == "to" and _is_range(strand, n, minutes, hour)):
        return None
    sign = -1 if strand.on(end) == "to" else 1
    return Clock(hour[1], hour[0] * 60 + sign * minutes)


def _is_range(strand: Strand, n: int, minutes: int, hour: tuple[int, int]) -> bool:
    """From ten to five is a range of hours; till ten to five a time."""
    return minutes == 10 and strand.at(n - 1) in ("from", "between", "worked", "did")


def _minutes(strand: Strand, n: int) -> tuple[int, int]:
    word = strand.at(n)
    if word in ("half", "quarter"):
        return (30 if word == "half" else 15), n + 1
    number = written(strand, n) or small(strand, n)
    if number is None or number.value % 5 or number.value >= 30:
        return 0, n
    end = number.end + 1 if strand.on(number.end) in ("minutes", "mins") else number.end
    return number.value, end


def _half_hour(strand: Strand, n: int) -> Clock | None:
    """Half nine, which is half past it."""
    hour = _hour(strand, n + 1) if strand.at(n) == "half" else None
    if hour is None:
        return None
    if strand.at(n - 1) not in _BEFORE_HALF and not _until_another(strand, hour[1]):
        return None
    return Clock(hour[1], hour[0] * 60 + 30)


def _until_another(strand: Strand, n: int) -> bool:
    """Whether a time goes on to another: half eight till five."""
    return strand.on(n) in ("till", "until", "til", "to") and _hour(strand, n + 1) is not None


_BEFORE_HALF = frozenset({
    "at", "till", "until", "til", "to", "from", "about", "by", "around", "past", "gone", "between",
    "started", "since",
})  # fmt: skip


def _hour_and_minutes(strand: Strand, n: int) -> Clock | None:
    """Eight thirty, 4.15, nine o'clock, nine."""
    if found := _WRITTEN.fullmatch(strand.at(n)):
        hours = int(found[1])
        return Clock(n + 1, hours * 60 + int(found[2]), fixed=hours > 12)
    hour = _hour(strand, n)
    if hour is None:
        return _long_hour(strand, n)
    if strand.on(hour[1]) in ("o'clock", "oclock"):
        return Clock(hour[1] + 1, hour[0] * 60)
    if strand.on(hour[1]) in ("oh", "o") and strand.on(hour[1] + 1) in DIGITS:
        return Clock(hour[1] + 2, hour[0] * 60 + DIGITS[strand.on(hour[1] + 1)])
    part = small(strand, hour[1]) if strand.on(hour[1]) else None
    if part is not None and 10 <= part.value < 60 and strand.at(n).isalpha():
        return Clock(part.end, hour[0] * 60 + part.value)
    return Clock(hour[1], hour[0] * 60, plain=True)


def _long_hour(strand: Strand, n: int) -> Clock | None:
    """Seventeen hundred hours is not said here; 17 by itself may be."""
    read = written(strand, n)
    if read is None or not 13 <= read.value <= 23:
        return None
    return Clock(read.end, read.value * 60, fixed=True, plain=True)


def _hour(strand: Strand, n: int) -> tuple[int, int] | None:
    word = strand.at(n)
    if word in _HOURS:
        return _HOURS[word], n + 1
    read = written(strand, n)
    return (read.value, read.end) if read and 1 <= read.value <= 12 else None


def _with_half(strand: Strand, clock: Clock) -> Clock:
    """A time with the half of the day that was said after it."""
    n = clock.end
    if strand.on(n) in _HALVES:
        return _in_half(clock, n + 1, _HALVES[strand.on(n)])
    if strand.on(n) in ("a", "p") and strand.on(n + 1) == "m":
        return _in_half(clock, n + 2, 0 if strand.on(n) == "a" else _NOON)
    if strand.phrase(n, "in", "the") and strand.on(n + 2) in _PARTS:
        return _in_half(clock, n + 3, _PARTS[strand.on(n + 2)])
    if strand.on(n) in ("this", "at") and strand.on(n + 1) in _PARTS:
        return _in_half(clock, n + 2, _PARTS[strand.on(n + 1)])
    return clock


def _in_half(clock: Clock, end: int, half: int) -> Clock:
    return Clock(end, clock.minutes % _NOON + half, fixed=True)


def between(start: Clock, stop: Clock) -> int:
    """The minutes of work from one time to another, which is the next one after it.

    Where the half of the day was not said, work starts between six in the morning and six in the
    evening (common practice, no source).
    """
    begin = start.minutes if start.fixed else _in_the_day(start.minutes)
    end = stop.minutes
    if stop.fixed:
        return end - begin if end > begin else end + 2 * _NOON - begin
    return (end - begin) % _NOON or _NOON


def _in_the_day(minutes: int) -> int:
    return minutes if minutes >= 6 * 60 else minutes + _NOON


def words_of(clock: Clock) -> str:
    """A time as it is asked about: `9:30`."""
    return f"{clock.minutes // 60}:{clock.minutes % 60:02d}"

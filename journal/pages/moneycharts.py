"""Drawings for hours and money: hours against what was allowed, and weeks by kind of hours.

As in `charts`, horizontal places are percentages of the frame and vertical ones CSS pixels.
"""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction

from journal.digests.money import Reckoned
from journal.pages.charts import AxisMark, GridLine, grid_step, month_axis, place
from journal.pages.value import Value
from journal.words.amounts import plain_number, total_of
from journal.words.vocabulary import HourKind

WEEK_HEIGHT = 150
_HEAD_ROOM = 16

Week = tuple[int, int]


class AllowedBar(Value, frozen=True):
    """Widths of hours allowed, charged, and told besides without charge, to one scale."""

    allowed: str
    charged: str
    told_x: str
    told: str


class AllowedBars(Value, frozen=True):
    """Bars over one scale of hours, in the order of what they were drawn from."""

    scale: tuple[AxisMark, ...]
    bars: tuple[AllowedBar, ...]


class WeekPart(Value, frozen=True):
    """The hours of one kind in a week's column."""

    kind: str
    y: str
    height: str


class WeekColumn(Value, frozen=True):
    """One week: where it stands, what it is made of, and what it says in words."""

    x: str
    width: str
    parts: tuple[WeekPart, ...]
    words: str


class WeekColumns(Value, frozen=True):
    """Columns by week over a grid, `height` pixels high in all."""

    height: int
    axis: tuple[AxisMark, ...]
    grid: tuple[GridLine, ...]
    columns: tuple[WeekColumn, ...]


def allowed_bars(rows: Sequence[Reckoned]) -> AllowedBars:
    """All to the scale of the longest; the scale has marks at round hours."""
    longest = (max(Fraction(r.allowed or 0), r.hours + r.uncharged) for r in rows)
    most = max(longest, default=Fraction(0)) or Fraction(1)
    step = grid_step(most)
    levels = [step * n for n in range(int(most / step) + 1)]
    scale = tuple(
        AxisMark(place(at / most), plain_number(at), 0, "start" if not at else _end(at / most))
        for at in levels
    )
    return AllowedBars(scale, tuple(_bar(row, most) for row in rows))


def _end(share: Fraction) -> str:
    return "end" if share > Fraction(19, 20) else "middle"


def _bar(row: Reckoned, most: Fraction) -> AllowedBar:
    charged = Decimal(place(row.hours / most))
    both = Decimal(place((row.hours + row.uncharged) / most))
    return AllowedBar(
        place(Fraction(row.allowed or 0) / most), str(charged), str(charged), str(both - charged)
    )


def weeks_between(first: date, last: date) -> tuple[Week, ...]:
    """Every ISO week from that of `first` to that of `last`, both included."""
    day = first - timedelta(days=first.weekday())
    weeks = []
    while day <= last:
        year, week, _ = day.isocalendar()
        weeks.append((year, week))
        day += timedelta(days=7)
    return tuple(weeks)


def week_columns(
    hours: Mapping[tuple[Week, HourKind], Fraction],
    weeks: Sequence[Week],
    words: Mapping[Week, str],
) -> WeekColumns:
    """Hours by week as columns of their kinds, billable ones at the foot."""
    totals = {
        week: total_of(hours[week, kind] for kind in HourKind if (week, kind) in hours)
        for week in weeks
    }
    most = max(totals.values(), default=Fraction(0)) or Fraction(1)
    step = grid_step(most)
    top = step * -(-most // step)
    columns = tuple(
        _week(
            n,
            len(weeks),
            {k: hours.get((week, k), Fraction(0)) / top for k in HourKind},
            words[week],
        )
        for n, week in enumerate(weeks)
        if totals[week]
    )
    room = WEEK_HEIGHT - _HEAD_ROOM
    levels = [step * n for n in range(1, int(top / step) + 1)]
    grid = tuple(
        GridLine(plain_number(WEEK_HEIGHT - at / top * room, 1), plain_number(at)) for at in levels
    )
    return WeekColumns(WEEK_HEIGHT, _month_marks(weeks), grid, columns)


def _week(place_: int, many: int, shares: Mapping[HourKind, Fraction], words: str) -> WeekColumn:
    left = Decimal(place(Fraction(8 * place_ + 1, 8 * many)))
    right = Decimal(place(Fraction(8 * place_ + 7, 8 * many)))
    parts, reached, edge = [], Fraction(0), Decimal(WEEK_HEIGHT)
    for kind, share in shares.items():
        if not share:
            continue
        reached += share
        y = Decimal(plain_number(WEEK_HEIGHT - reached * (WEEK_HEIGHT - _HEAD_ROOM), 1))
        parts.append(WeekPart(kind.value, str(y), str(edge - y)))
        edge = y
    return WeekColumn(str(left), str(right - left), tuple(parts), words)


def _month_marks(weeks: Sequence[Week]) -> tuple[AxisMark, ...]:
    """A label at the first week whose Monday lies in a month."""
    starts: dict[tuple[int, int], Fraction] = {}
    for n, (year, week) in enumerate(weeks):
        monday = date.fromisocalendar(year, week, 1)
        starts.setdefault((monday.year, monday.month), Fraction(n, len(weeks)))
    return month_axis(tuple(starts), tuple(starts.values()))

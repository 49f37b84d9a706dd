"""Charts as geometry: what a drawing holds, as frozen values that a macro prints.

Horizontal places are percentages of the frame and vertical ones are CSS pixels, so that one drawing
fills any screen while its text keeps its size. Edges are rounded before widths are taken from them:
widths add up to the whole exactly.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import TypeVar

from msgspec import Struct

from journal.pages.value import Value
from journal.words.amounts import Interval, half_up, percent, plain_number
from journal.words.dates import MONTHS, months_between
from journal.words.groups import grouped

Month = tuple[int, int]
K = TypeVar("K", Month, int)

LANE_HEIGHT = 30
# A lane over more days than these draws no more than so many strokes.
LANE_DAYS, LANE_PLACES = 1500, 750
COLUMN_HEIGHT = 180
MONTH_LANE_HEIGHT = 34
_HEAD_ROOM = 18


class Gauge(Value, frozen=True):
    """A share between 0 and 1: sure up to `low`, open from there over `width` to `high`."""

    low: str
    width: str
    high: str
    words: str


class Segment(Value, frozen=True):
    """One stretch of a bar."""

    name: str
    x: str
    width: str
    percent: int


class Mark(Value, frozen=True):
    """One mark at a horizontal place, with what it says in words."""

    x: str
    words: str


class AxisMark(Value, frozen=True):
    """A month on the time axis. `rank` is 0 for a label that every width shows, 1 for one that
    only a wide page shows; `anchor` keeps the text inside the frame."""

    x: str
    label: str
    rank: int
    anchor: str


class DayRow(Struct, frozen=True):
    """What a lane is drawn from: hours by day, and departures with their words."""

    name: str
    days: Mapping[date, Fraction]
    departures: Sequence[tuple[date, str]] = ()


class Lane(Value, frozen=True):
    """One lane: `strokes` is a path in a frame 1000 wide and LANE_HEIGHT high."""

    name: str
    strokes: str
    departures: tuple[Mark, ...]


class Lanes(Value, frozen=True):
    """Lanes over one time axis."""

    axis: tuple[AxisMark, ...]
    lanes: tuple[Lane, ...]


class Column(Value, frozen=True):
    """One upright bar: place and width in percent, top and height in pixels."""

    x: str
    width: str
    y: str
    height: str
    words: str


class GridLine(Value, frozen=True):
    """A level that columns are read against."""

    y: str
    label: str


class Columns(Value, frozen=True):
    """Columns by month or year over a grid, `height` pixels high in all."""

    height: int
    axis: tuple[AxisMark, ...]
    grid: tuple[GridLine, ...]
    columns: tuple[Column, ...]


class Strip(Value, frozen=True):
    """Readings against their limits: the allowed band, and a mark for each reading."""

    band_x: str
    band_width: str
    inside: tuple[Mark, ...]
    outside: tuple[Mark, ...]


def place(share: Fraction) -> str:
    """A share of the frame as percent with at most two decimals, kept within the frame."""
    over, under = share.as_integer_ratio()
    return _hundredths(half_up(min(max(over, 0), under) * 10_000, under))


@cache
def _hundredths(count: int) -> str:
    """So many hundredths, from none to those of a hundred, as a number."""
    return plain_number(Fraction(count, 100))


def gauge(share: Interval) -> Gauge:
    """The drawing of an interval figure."""
    low, high = Decimal(place(share.low)), Decimal(place(share.high))
    ends = (percent(share.low), percent(share.high))
    words = f"{ends[0]} percent" if share.certain else f"between {ends[0]} and {ends[1]} percent"
    return Gauge(str(low), str(high - low), str(high), words)


def stack(parts: Iterable[tuple[str, Fraction]]) -> tuple[Segment, ...]:
    """A bar of stretches in the order given; stretches of nothing are left out."""
    parts = [(name, size) for name, size in parts if size > 0]
    total = sum((size for _, size in parts), Fraction(0))
    segments, reached, edge = [], Fraction(0), Decimal(0)
    for name, size in parts:
        reached += size
        end = Decimal(place(reached / total))
        segments.append(Segment(name, str(edge), str(end - edge), percent(size / total)))
        edge = end
    return tuple(segments)


class Span:
    """Whole months from that of `first` to that of `last`, laid over the width of a frame."""

    def __init__(self, first: date, last: date) -> None:
        self.months = months_between(min(first, last), max(first, last))
        year, month = self.months[-1]
        self._start = date(*self.months[0], 1)
        end = date(year + month // 12, month % 12 + 1, 1)
        self.days = (end - self._start).days

    def share(self, day: date) -> Fraction:
        """The middle of a day as a share of the frame; days outside are put at its ends."""
        reached = Fraction(2 * (day - self._start).days + 1, 2 * self.days)
        return min(max(reached, Fraction(0)), Fraction(1))

    def start(self, month: Month) -> Fraction:
        """The first moment of a month as a share of the frame."""
        return Fraction((date(*month, 1) - self._start).days, self.days)

    def axis(self) -> tuple[AxisMark, ...]:
        """Labels for as many months as there is room for, fewer of them on a narrow page."""
        starts = [self.start(month) for month in self.months]
        return month_axis(self.months, starts)


def month_axis(months: Sequence[Month], starts: Sequence[Fraction]) -> tuple[AxisMark, ...]:
    """Labels at the given places: a year at each January, month names between."""
    wide, narrow = _step(len(months), 12), _step(len(months), 4)
    marks: list[AxisMark] = []
    for (year, month), share in zip(months, starts, strict=True):
        count = year * 12 + month - 1
        if count % wide:
            continue
        rank = 1 if count % narrow else 0
        # The first label that every page shows tells the year.
        first = rank == 0 and all(mark.rank for mark in marks)
        name = MONTHS[month - 1][:3]
        label = str(year) if month == 1 else f"{name} {year}" if first else name
        anchor = "end" if share > Fraction(22, 25) else "start"
        marks.append(AxisMark(place(share), label, rank, anchor))
    return tuple(marks)


def _step(months: int, room: int) -> int:
    steps = (1, 3, 6, 12, 24, 60, 120)
    return next((step for step in steps if months <= step * room), steps[-1])


def day_lanes(rows: Sequence[DayRow], first: date, last: date) -> Lanes:
    """Every working day as a stroke, taller for more hours, and departures as marks above.

    Where so many days would be drawn over each other, those that fall together are one stroke, as tall as
    the one with most hours.
    """
    span = Span(first, last)
    most = max((h for row in rows for h in row.days.values()), default=Fraction(0))
    return Lanes(span.axis(), tuple(_lane(row, span, most) for row in rows))


def _lane(row: DayRow, span: Span, most: Fraction) -> Lane:
    strokes = []
    for share, hours in _placed(row.days, span):
        x = plain_number(share * 1000, 1)
        height = 5 + (13 * hours / most if most else Fraction(0))
        strokes.append(f"M{x} {LANE_HEIGHT - 1}V{plain_number(LANE_HEIGHT - 1 - height, 1)}")
    marks = tuple(Mark(place(span.share(day)), words) for day, words in row.departures)
    return Lane(row.name, "".join(strokes), marks)


def _placed(days: Mapping[date, Fraction], span: Span) -> Iterator[tuple[Fraction, Fraction]]:
    """Where each day lies over the width of a frame, with its hours, in order."""
    if span.days <= LANE_DAYS:
        yield from ((span.share(day), hours) for day, hours in sorted(days.items()))
        return
    last = LANE_PLACES - 1
    together = grouped(days, lambda day: min(int(span.share(day) * LANE_PLACES), last))
    for place_, of in sorted(together.items()):
        yield Fraction(2 * place_ + 1, 2 * LANE_PLACES), max(days[day] for day in of)


def month_columns(
    hours: Mapping[Month, Fraction], months: Sequence[Month], words: Mapping[Month, str]
) -> Columns:
    """Hours by month as columns over a grid of round levels."""
    starts = [Fraction(n, len(months)) for n in range(len(months))]
    return _columns_over(hours, months, words, month_axis(months, starts))


def year_columns(
    hours: Mapping[int, Fraction], years: Sequence[int], words: Mapping[int, str]
) -> Columns:
    """Hours by year in the same way."""
    return _columns_over(hours, years, words, year_axis(years))


def year_axis(years: Sequence[int]) -> tuple[AxisMark, ...]:
    """Labels under the columns of years that follow one another, as many as there is room for."""
    wide, narrow = -(-len(years) // 12), -(-len(years) // 5)
    narrow += -narrow % wide
    return tuple(
        AxisMark(
            place(Fraction(2 * n + 1, 2 * len(years))), str(year), 1 if n % narrow else 0, "middle"
        )
        for n, year in enumerate(years)
        if n % wide == 0
    )


def _columns_over(
    hours: Mapping[K, Fraction],
    periods: Sequence[K],
    words: Mapping[K, str],
    axis: tuple[AxisMark, ...],
) -> Columns:
    most = max(hours.values(), default=Fraction(1))
    step = grid_step(most)
    top = step * -(-most // step)
    columns = _columns(hours, periods, words, top, COLUMN_HEIGHT - _HEAD_ROOM, COLUMN_HEIGHT)
    return Columns(COLUMN_HEIGHT, axis, _grid(step, top, COLUMN_HEIGHT), columns)


def lane_of(
    hours: Mapping[K, Fraction], periods: Sequence[K], words: Mapping[K, str], most: Fraction
) -> tuple[Column, ...]:
    """Hours by month or year in one lane, MONTH_LANE_HEIGHT high, to a scale that lanes share: `most`
    fills it."""
    return _columns(hours, periods, words, most, MONTH_LANE_HEIGHT, MONTH_LANE_HEIGHT)


def _columns(
    hours: Mapping[K, Fraction],
    periods: Sequence[K],
    words: Mapping[K, str],
    top: Fraction,
    room: int,
    floor: int,
) -> tuple[Column, ...]:
    columns = []
    for n, period in enumerate(periods):
        if hours.get(period, Fraction(0)) > 0:
            left = Decimal(place(Fraction(8 * n + 1, 8 * len(periods))))
            right = Decimal(place(Fraction(8 * n + 7, 8 * len(periods))))
            tall = plain_number(hours[period] / top * room, 1)
            y = str(floor - Decimal(tall))
            columns.append(Column(str(left), str(right - left), y, tall, words[period]))
    return tuple(columns)


def _grid(step: Fraction, top: Fraction, height: int) -> tuple[GridLine, ...]:
    levels = [step * n for n in range(1, int(top / step) + 1)]
    return tuple(
        GridLine(plain_number(height - level / top * (height - _HEAD_ROOM), 1), plain_number(level))
        for level in levels
    )


def grid_step(most: Fraction) -> Fraction:
    """A round step, 1, 2 or 5 times a power of ten, of which at most four reach `most`."""
    step = Fraction(1, 10)
    while True:
        for factor in (1, 2, 5):
            if step * factor * 4 >= most:
                return step * factor
        step *= 10


def limit_strip(
    values: Sequence[Decimal], least: Decimal | None, most: Decimal | None, unit: str
) -> Strip | None:
    """Readings on a scale that shows the limits with some air; None when there is no limit."""
    ends = [end for end in (least, most) if end is not None]
    if not ends or not values:
        return None
    low, high = Fraction(min(*values, *ends)), Fraction(max(*values, *ends))
    air = (high - low) * Fraction(3, 20) or abs(high) * Fraction(3, 20) or Fraction(1)
    low, wide = low - air, high - low + 2 * air

    def at(value: Decimal) -> Fraction:
        return (Fraction(value) - low) / wide

    left = Decimal(place(at(least))) if least is not None else Decimal(0)
    right = Decimal(place(at(most))) if most is not None else Decimal(100)
    marks = [(value, Mark(place(at(value)), f"{value} {unit}")) for value in values]
    kept = [
        (least is None or value >= least) and (most is None or value <= most) for value in values
    ]
    return Strip(
        str(left), str(right - left),
        tuple(m for (_, m), inside in zip(marks, kept, strict=True) if inside),
        tuple(m for (_, m), inside in zip(marks, kept, strict=True) if not inside),
    )  # fmt: skip

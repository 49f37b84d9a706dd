"""Charts are true to their figures: what is drawn adds up, keeps its order and stays in the frame."""

import itertools
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.pages.charts import (
    COLUMN_HEIGHT,
    LANE_DAYS,
    LANE_HEIGHT,
    MONTH_LANE_HEIGHT,
    DayRow,
    Span,
    day_lanes,
    gauge,
    grid_step,
    lane_of,
    limit_strip,
    month_axis,
    month_columns,
    place,
    stack,
    year_axis,
)
from journal.words.amounts import Interval

shares = st.fractions(min_value=0, max_value=1, max_denominator=997)
weights = st.lists(st.fractions(min_value=0, max_value=100, max_denominator=50), max_size=9)
days = st.dates(min_value=date(1998, 1, 1), max_value=date(2048, 12, 31))
hours = st.fractions(min_value=Fraction(1, 4), max_value=24, max_denominator=4)
readings = st.decimals(min_value=-1000, max_value=1000, places=3)


def inside(*places: str) -> bool:
    return all(Decimal(0) <= Decimal(at) <= Decimal(100) for at in places)


@given(shares, shares)
def test_gauge__the_sure_and_the_open_part_end_where_the_figure_ends(
    a: Fraction, b: Fraction
) -> None:
    drawn = gauge(Interval(min(a, b), max(a, b)))
    assert inside(drawn.low, drawn.width, drawn.high)
    assert Decimal(drawn.high) == Decimal(drawn.low) + Decimal(drawn.width)


def test_gauge__says_one_figure_when_nothing_is_open() -> None:
    assert gauge(Interval(Fraction(3, 5), Fraction(3, 5))).words == "60 percent"
    assert gauge(Interval(Fraction(3, 5), Fraction(1))).words == "between 60 and 100 percent"


@given(weights)
def test_stack__stretches_touch_and_fill_the_bar(sizes: list[Fraction]) -> None:
    bar = stack((str(n), size) for n, size in enumerate(sizes))
    edge = Decimal(0)
    for segment in bar:
        assert Decimal(segment.x) == edge
        edge += Decimal(segment.width)
    assert edge == (100 if any(sizes) else 0)


@given(weights)
def test_stack__keeps_the_order_given_and_leaves_nothing_out(sizes: list[Fraction]) -> None:
    bar = stack((str(n), size) for n, size in enumerate(sizes))
    assert [s.name for s in bar] == [str(n) for n, size in enumerate(sizes) if size]


@given(days, days, days)
def test_span__every_day_lies_in_the_frame(first: date, last: date, day: date) -> None:
    assert inside(place(Span(first, last).share(day)))


@given(days, days)
def test_span__a_later_day_lies_further_right(one: date, other: date) -> None:
    first, last = min(one, other), max(one, other)
    span = Span(first, last)
    assert span.share(first) <= span.share(last)
    assert (span.share(first) == span.share(last)) == (first == last)


@given(days, st.integers(min_value=0, max_value=9000))
def test_axis__has_room_for_its_labels(first: date, length: int) -> None:
    axis = Span(first, first + timedelta(days=length)).axis()
    assert len(axis) <= 13
    assert sum(mark.rank == 0 for mark in axis) <= 5
    assert inside(*(mark.x for mark in axis))


def test_axis__a_january_is_called_by_its_year() -> None:
    months = [(2023, 11), (2023, 12), (2024, 1), (2024, 2)]
    labels = [m.label for m in month_axis(months, [Fraction(n, 4) for n in range(4)])]
    assert labels == ["Nov 2023", "Dec", "2024", "Feb"]


# Lanes of a hundred years take their time.
@settings(max_examples=30)
@given(st.dictionaries(days, hours, min_size=1, max_size=12), days, days)
def test_day_lanes__a_stroke_a_day_within_the_lane(
    worked: dict[date, Fraction], first: date, last: date
) -> None:
    (lane,) = day_lanes([DayRow("brakes", worked)], first, last).lanes
    strokes = [s.replace("V", " ").split() for s in lane.strokes.split("M")[1:]]
    assert len(strokes) == len(worked) or Span(first, last).days > LANE_DAYS
    for x, foot, head in strokes:
        assert 0 <= Decimal(x) <= 1000
        assert 0 <= Decimal(head) < Decimal(foot) <= LANE_HEIGHT


def test_day_lanes__over_many_years_draw_days_together_that_would_cover_each_other() -> None:
    first, last = date(2004, 1, 1), date(2023, 12, 31)
    worked = {first + timedelta(days=n): Fraction(1 + n % 7, 2) for n in range(7000)}
    (lane,) = day_lanes([DayRow("brakes", worked)], first, last).lanes
    strokes = [s.replace("V", " ").split() for s in lane.strokes.split("M")[1:]]
    # 7,000 of 7,305 days: 719 of 750 places, each of nine or ten days, so that one of them is of the longest.
    assert 710 <= len(strokes) <= 720
    assert [float(x) for x, _, _ in strokes] == sorted({float(x) for x, _, _ in strokes})
    assert 1 == len({head for _, _, head in strokes[:-1]})


def test_day_lanes__a_longer_day_stands_taller() -> None:
    short, long = date(2024, 3, 5), date(2024, 3, 6)
    row = DayRow("brakes", {short: Fraction(2), long: Fraction(8)})
    (lane,) = day_lanes([row], short, long).lanes
    heads = [Decimal(stroke.split("V")[1]) for stroke in lane.strokes.split("M")[1:]]
    assert heads[1] < heads[0]


@given(st.integers(1900, 2100), st.integers(1, 120))
def test_year_axis__has_room_for_its_labels(first: int, count: int) -> None:
    axis = year_axis(range(first, first + count))
    assert 1 <= len(axis) <= 12
    assert str(first) == axis[0].label
    # On a narrow page those of the first rank alone are seen.
    assert 1 <= sum(mark.rank == 0 for mark in axis) <= 5
    assert inside(*(mark.x for mark in axis))


@given(days)
def test_day_lanes__a_departure_is_marked_on_its_day(day: date) -> None:
    row = DayRow("electrical", {day: Fraction(1)}, [(day, "dynamo, upgrade")])
    (lane,) = day_lanes([row], day, day + timedelta(days=300)).lanes
    (mark,) = lane.departures
    stroke = lane.strokes.removeprefix("M").split(" ")[0]
    assert mark.words == "dynamo, upgrade"
    assert float(mark.x) * 10 == pytest.approx(float(stroke), abs=0.11)


@given(st.lists(st.one_of(st.none(), hours), min_size=1, max_size=40))
def test_month_columns__stand_on_the_floor_and_do_not_overlap(
    worked: list[Fraction | None],
) -> None:
    months = [(2020 + n // 12, n % 12 + 1) for n in range(len(worked))]
    spent = {month: h for month, h in zip(months, worked, strict=True) if h is not None}
    words = dict.fromkeys(months, "some hours")
    drawn = month_columns(spent, months, words)
    assert len(drawn.columns) == len(spent)
    for column in drawn.columns:
        assert Decimal(column.y) + Decimal(column.height) == COLUMN_HEIGHT
        assert Decimal(column.y) >= 0
    edges = [(Decimal(c.x), Decimal(c.x) + Decimal(c.width)) for c in drawn.columns]
    assert all(left[1] < right[0] for left, right in itertools.pairwise(edges))
    assert all(inside(str(a), str(b)) for a, b in edges)


@given(st.lists(hours, min_size=1, max_size=40))
def test_month_lane__the_most_hours_fill_the_lane(worked: list[Fraction]) -> None:
    months = [(2020 + n // 12, n % 12 + 1) for n in range(len(worked))]
    spent = dict(zip(months, worked, strict=True))
    lane = lane_of(spent, months, dict.fromkeys(months, "some hours"), max(worked))
    assert max(Decimal(column.height) for column in lane) == MONTH_LANE_HEIGHT
    assert min(Decimal(column.y) for column in lane) == 0


@given(st.fractions(min_value=Fraction(1, 4), max_value=100_000, max_denominator=4))
def test_grid__at_most_four_round_levels_reach_the_top(most: Fraction) -> None:
    step = grid_step(most)
    assert most <= 4 * step
    digits = str(step.numerator * 10 // step.denominator).rstrip("0")
    assert digits in ("1", "2", "5")


@given(st.lists(readings, min_size=1, max_size=6), readings, readings)
def test_limit_strip__a_mark_lies_in_the_band_exactly_when_it_keeps_its_limit(
    values: list[Decimal], a: Decimal, b: Decimal
) -> None:
    least, most = min(a, b), max(a, b)
    drawn = limit_strip(values, least, most, "mm")
    assert drawn is not None
    left = Decimal(drawn.band_x)
    right = left + Decimal(drawn.band_width)
    assert len(drawn.inside) == sum(least <= v <= most for v in values)
    assert all(left <= Decimal(mark.x) <= right for mark in drawn.inside)
    # Marks are rounded to a hundredth of a percent, as the edges of the band are.
    assert all(not left < Decimal(mark.x) < right for mark in drawn.outside)
    assert inside(*(mark.x for mark in (*drawn.inside, *drawn.outside)))


def test_limit_strip__a_one_sided_limit_is_open_to_the_edge() -> None:
    drawn = limit_strip([Decimal("0.04")], None, Decimal("0.05"), "mm")
    assert drawn is not None
    assert drawn.band_x == "0"
    assert limit_strip([Decimal("0.04")], None, None, "mm") is None

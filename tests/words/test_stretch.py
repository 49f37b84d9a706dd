"""Stretches: how they are read, said, and reckoned.

Sources: the mile is 1,609.344 m (NIST Special Publication 811, appendix B). Months are those of the
calendar; that a month ends where the calendar ends it is common practice, no source.
"""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.words.stretch import (
    FARTHEST,
    Distance,
    Span,
    Stretch,
    Time,
    TooFar,
    day_after,
    distance_in,
    parse_stretch,
    stretch_words,
)
from journal.words.vocabulary import OdometerUnit

MILE, KM = OdometerUnit.MILE, OdometerUnit.KM

_DISTANCES = st.builds(Distance, st.integers(1, FARTHEST), st.sampled_from(OdometerUnit))
_TIMES = st.one_of(
    st.builds(Time, st.integers(1, 10_000), st.just(Span.DAY)),
    st.builds(Time, st.integers(1, 1_500), st.just(Span.WEEK)),
    st.builds(Time, st.integers(1, 360), st.just(Span.MONTH)),
    st.builds(Time, st.integers(1, 30), st.just(Span.YEAR)),
)


@given(st.none() | _DISTANCES, _TIMES)
def test_stretch__said_and_read_is_the_same(distance: Distance | None, time: Time) -> None:
    stretch = Stretch(distance, time)
    assert stretch == parse_stretch(stretch_words(stretch).replace(",", ""))


@pytest.mark.parametrize(
    ("text", "stretch"),
    [
        ("500 miles", Stretch(Distance(500, MILE))),
        ("1 mile", Stretch(Distance(1, MILE))),
        ("800 km", Stretch(Distance(800, KM))),
        ("6 weeks", Stretch(time=Time(6, Span.WEEK))),
        ("500 miles or 6 weeks", Stretch(Distance(500, MILE), Time(6, Span.WEEK))),
        ("1 year or 1000 miles", Stretch(Distance(1000, MILE), Time(1, Span.YEAR))),
    ],
)
def test_stretch__is_a_distance_a_time_or_both(text: str, stretch: Stretch) -> None:
    assert stretch == parse_stretch(text)


@pytest.mark.parametrize(
    "text",
    ["", "soon", "500", "0 miles", "1,000 miles", "2.5 miles", "500 mi", "2 weeks or 3 weeks",
     "500 miles or 800 km", "500 miles and 6 weeks", "500 miles or", "٥ miles", "500kms"],
)  # fmt: skip
def test_stretch__is_nothing_else(text: str) -> None:
    with pytest.raises(ValueError, match=r"distance|time"):
        parse_stretch(text)


@pytest.mark.parametrize(
    ("text", "fault"),
    [("100001 miles", "of at most 100,000 miles or km"), ("31 years", "of at most 30 years"),
     ("361 months", "of at most 30 years"), ("999999999 days", "of at most 30 years")],
)  # fmt: skip
def test_stretch__has_an_end(text: str, fault: str) -> None:
    with pytest.raises(TooFar, match=fault):
        parse_stretch(text)


@pytest.mark.parametrize(
    ("time", "day"),
    [
        (Time(14, Span.DAY), date(2024, 2, 14)),
        (Time(6, Span.WEEK), date(2024, 3, 13)),
        (Time(1, Span.MONTH), date(2024, 2, 29)),
        (Time(13, Span.MONTH), date(2025, 2, 28)),
        (Time(1, Span.YEAR), date(2025, 1, 31)),
    ],
)
def test_time__goes_by_the_calendar(time: Time, day: date) -> None:
    assert day == day_after(date(2024, 1, 31), time)


def test_distance__is_counted_in_what_the_odometer_counts() -> None:
    # 500 x 1.609344 = 804.672; 800 / 1.609344 = 497.096...
    assert Decimal(805) == distance_in(Distance(500, MILE), KM)
    assert Decimal(497) == distance_in(Distance(800, KM), MILE)
    assert Decimal(500) == distance_in(Distance(500, MILE), MILE)

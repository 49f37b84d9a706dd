"""A speedometer on the road: 3600 over the seconds of a mile, and what may be shown."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.bench.base.speedlaw import keeps_law
from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # 3600 / 60 s = 60 mph; error = (indicated - true) x 100 / true.
        "How to find tire diameter, speedometer error (discountpartcenter.com): a mile in 60 s is 60 mph",
        {"readings": "66 mph: time 60 s"},
        {"error": "10.0 %"},
    ),
    Example(
        "The national standard explained (iceinspace.com.au): at a true 100 km/h between 100 and 114 may be shown",
        {"readings": "114 km/h: 100 km/h; 100 km/h: 100 km/h", "dial": "km/h"},
        {"worst": "14.0 %", "spread": "14.0 %", "error": "7.0 %"},
    ),
    Example(
        # Circular 18/03-3-1 has speeds shown held against speeds measured.
        "Examples of the regulation (taketonews.com): at a true 50 km/h between 50 and 59, at 130 up to 147",
        {"readings": "59 km/h: 50 km/h; 147 km/h: 130 km/h", "dial": "km/h"},
        {"worst": "18.0 %"},
    ),
)


@given(st.integers(10, 200), st.integers(10, 200))
def test_right__is_what_the_regulation_allows(shown: int, true: int) -> None:
    worked = answer_of("speedometer-check", {"readings": f"{shown} km/h: {true} km/h"}).worked
    assert keeps_law(Fraction(shown), Fraction(true)) == worked.right


@pytest.mark.parametrize(
    ("readings", "verdict"),
    [
        # Ten under at every speed: 27 of 30, 45 of 50, 63 of 70.
        (
            "27 mph: 30 mph; 45 mph: 50 mph; 63 mph: 70 mph",
            "In the mean it reads 10.0 % slow, much the same at every speed: at a true 30 mph it shows less than is driven. "
            "The gearing of its drive is the cause; it must turn the cable 1.111 times as fast.",
        ),
        # 10 % fast, right, and 10 % slow.
        (
            "33 mph: 30 mph; 50 mph: 50 mph; 63 mph: 70 mph",
            "In the mean it reads right, not the same at every speed: at a true 70 mph it shows less than is driven. "
            "The instrument itself wants attention: its magnet, its hairspring, or a needle that was moved on its shaft.",
        ),
        (
            "31 mph: 30 mph; 52 mph: 50 mph; 73 mph: 70 mph",
            "In the mean it reads 3.9 % fast; every reading is within what is allowed today.",
        ),
        (
            "28 mph: 30 mph",
            "In the mean it reads 6.7 % slow: at a true 30 mph it shows less than is driven. Read it at more speeds to find the cause.",
        ),
    ],
)
def test_verdict__tells_the_drive_from_the_instrument(readings: str, verdict: str) -> None:
    assert verdict == answer_of("speedometer-check", {"readings": readings}).worked.verdict


def test_readings__are_told_from_slow_to_fast() -> None:
    worked = answer_of("speedometer-check", {"readings": "63 mph: 60 mph; 31 mph: 30 mph"}).worked
    assert ["30 mph", "60 mph"] == [row[0] for row in worked.grids[0].rows]


@pytest.mark.parametrize(
    ("readings", "told"),
    [
        ("30 mph", "readings must have a true speed or a time beside 30 mph, and one of them; write 30 mph: 28.4 mph, or 30 mph: time 127 s"),
        ("30 mph: time two", 'readings has a time that must be a time, found "two"; write it in s, minutes or h'),
        ("30 psi: 29 mph", 'readings has a shown that must be a speed, found "30 psi"; write it in mph, km/h or m/s'),
    ],
)  # fmt: skip
def test_readings__that_cannot_be_are_refused(readings: str, told: str) -> None:
    assert [told] == mistakes_of("speedometer-check", {"readings": readings})

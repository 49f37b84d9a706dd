"""A speedometer after a change: the old turn over the new one, and UN Regulation 39."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.bench.base.speedlaw import always_kept, keeps_law, most_shown
from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        "Encyclopaedia text on tyre codes, archived: from 185/70R14 to 195/50R15 the ratio is 1.0670139",
        {"tyre": "185/70R14", "tyre-after": "195/50R15"},
        {"shows": "106.70139 %", "counted": "106.70139"},
    ),
    Example(
        # 26.744 in and 33.831 in over all.
        "Encyclopaedia text on tyre codes, archived: 225/55-17 and 285/75R17 in inches",
        {"tyre": "225/55-17", "tyre-after": "285/75R17", "driven": "wheel"},
        {"shows": "79.05 %", "error": "-20.95 %"},
    ),
)


@pytest.mark.parametrize(
    ("true", "most"),
    # z4-forum.com quoting paragraph 5.3; taketonews.com for 50, 70, 90, 110 and 130.
    [(40, 48), (50, 59), (70, 81), (80, 92), (90, 103), (110, 125), (120, 136), (130, 147)],
)
def test_regulation__allows_nothing_under_and_a_tenth_and_four_over(true: int, most: int) -> None:
    assert most == most_shown(Fraction(true))
    for shown, kept in ((true - 1, False), (true, True), (most, True), (most + 1, False)):
        assert kept == keeps_law(Fraction(shown), Fraction(true))


def _shows(written: dict[str, str]) -> Fraction:
    worked = answer_of("speedometer-change", written).worked
    return Fraction(next(r.exact for r in worked.results if r.name == "shows") or 0)


turns = st.integers(1500, 2400)


@given(turns, turns, turns)
def test_two_changes__are_the_one_that_comes_of_them(a: int, b: int, c: int) -> None:
    def change(one: int, other: int) -> Fraction:
        return _shows({"rolling": f"{one} mm", "rolling-after": f"{other} mm"}) / 100

    assert change(a, c) == change(a, b) * change(b, c)


def test_axle__counts_where_the_gearbox_drives_and_not_where_a_wheel_does() -> None:
    # A lower axle turns the cable faster: 4.1 / 3.9 of what it was.
    written = {"rolling": "1900 mm", "final": "3.9", "final-after": "4.1"}
    assert Fraction("4.1") / Fraction("3.9") == _shows(written) / 100
    assert 100 == _shows(written | {"driven": "wheel"})


def test_error__that_was_there_before_stays_in_the_needle_and_not_in_the_counter() -> None:
    worked = answer_of("speedometer-change", {"rolling": "2 m", "error-before": "5 %"}).worked
    exact = {result.name: result.exact for result in worked.results}
    assert (105, 100) == (exact["shows"], exact["counted"])


def test_verdict__of_one_that_shows_too_little() -> None:
    worked = answer_of(
        "speedometer-change", {"rolling": "1900 mm", "rolling-after": "2000 mm"}
    ).worked
    assert worked.right is False
    # 1900 / 2000 = 0.95; 1 / 0.95 = 1.053.
    assert (
        "After the change the speedometer reads 5.0 % slow: it shows less than is driven, which is not allowed today; "
        "its drive must turn the cable 1.053 times as fast."
    ) == worked.verdict
    assert not always_kept(Fraction(95, 100))


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ({}, "tyre is not told, and no rolling either; write tyre, such as 165 R 15, or rolling as measured"),
        ({"rolling": "2 m", "final-after": "3.9"}, "final is not told for before the change; write final too"),
        ({"rolling": "2 m", "driven": "clock"}, 'driven cannot be "clock"; write gearbox or wheel'),
    ],
)  # fmt: skip
def test_change__that_cannot_be_is_refused(written: dict[str, str], told: str) -> None:
    assert [told] == mistakes_of("speedometer-change", written)

"""Tyres by their designation: rim and twice the side wall."""

from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.bench.base.tyres import NoHeight, NoTyre, tyre_of
from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        "Encyclopaedia text on tyre codes, archived: 185/70R14 is 614.6 mm or 24.19685 in, 195/50R15 is 576.0 mm; ratio 1.0670139",
        {"tyre": "185/70R14", "tyre-other": "195/50R15"},
        {"diameter": "614.6 mm", "diameter-other": "576.0 mm", "shows": "106.70139 %"},
    ),
    Example(
        "Tyre sizes in inches: 225/55-17 is 26.744 in, 285/75R17 is 33.831 in (archived encyclopaedia text)",
        {"tyre": "225/55-17", "tyre-other": "285/75R17"},
        {"diameter": "26.744 in", "diameter-other": "33.831 in"},
    ),
    Example(
        # A radial size without a series is of the 80 series: 381 + 2 x 132.
        "Size converter for ETRTO dimensions (club80-90syncro.co.uk): 165 R 15 has an aspect ratio of 80 %",
        {"tyre": "165 R 15"},
        {"diameter": "645.0 mm"},
    ),
    Example(
        # Rolling circumference at 60 km/h, by the factor from memory: 3.05 x 614.6.
        "DIN 70020 way of one turn by the 3.05 rule of tyre makers (factor from memory)",
        {"tyre": "185/70 HR 14"},
        {"turn": "1874.5 mm"},
    ),
)


@pytest.mark.parametrize(
    ("text", "diameter"),
    [
        ("185/70 R 14", "614.6"),
        ("185/70HR14 88H", "614.6"),
        ("P185/70R14", "614.6"),
        ("165SR15", "645"),
        ("165 R 15", "645"),
        ("155 HR 15 82H", "629"),
        ("190/65 HR 390", "637"),
        # A beaded edge is called by its height over all.
        ("30 x 3 1/2", "762"),
        ("710 x 90", "710"),
    ],
)
def test_designation__tells_the_diameter(text: str, diameter: str) -> None:
    assert Fraction(diameter) == tyre_of(text).diameter


@pytest.mark.parametrize("text", ["5.60-15", "5.20 S 13", "6.00 x 16", "4.50-21", "6.40/7.00-13"])
def test_cross_ply__says_nothing_of_its_height(text: str) -> None:
    with pytest.raises(NoHeight):
        tyre_of(text)
    assert 660 == tyre_of(text, Fraction(660)).diameter


@pytest.mark.parametrize("text", ["round", "165", "15 R 165 R", "185/70", "165 R", "1/2 x 3"])
def test_text__that_is_no_tyre(text: str) -> None:
    with pytest.raises(NoTyre):
        tyre_of(text)


@given(st.text(max_size=40))
def test_any_text__is_a_tyre_or_told_that_it_is_none(text: str) -> None:
    with suppress(NoTyre):
        assert tyre_of(text, Fraction(600)).diameter > 0


@given(st.integers(125, 335), st.integers(35, 95), st.integers(10, 20))
def test_tyre__is_taller_with_a_higher_series_and_on_a_larger_rim(
    width: int, aspect: int, rim: int
) -> None:
    here = tyre_of(f"{width}/{aspect} R {rim}").diameter
    assert tyre_of(f"{width}/{aspect + 1} R {rim}").diameter > here
    assert Fraction("25.4") == tyre_of(f"{width}/{aspect} R {rim + 1}").diameter - here


def test_sizes__that_cannot_be_read_are_refused() -> None:
    assert [
        'tyre is "5.60-15", a size that says nothing of its height; write diameter from the tyre maker\'s table, or as measured'
    ] == mistakes_of("tyre-size", {"tyre": "5.60-15"})
    assert [
        'tyre-other cannot be read as the size of a tyre, found "the red one"; write it as 185/70 R 14, 165 R 15, 5.60-15 or 30 x 3 1/2'
    ] == mistakes_of("tyre-size", {"tyre": "165 R 15", "tyre-other": "the red one"})


def test_measured_turn__beats_the_rule() -> None:
    worked = answer_of("tyre-size", {"tyre": "165 R 15", "rolling": "2000 mm"}).worked
    assert 500 == next(r.exact for r in worked.results if r.name == "per-km")


def test_verdict__says_what_the_other_changes() -> None:
    # 1895.6 against 1967.3 mm is 3.6 % less; half of 645 - 621.5 is 12 mm.
    worked = answer_of("tyre-size", {"tyre": "165 R 15", "tyre-other": "185/65 R 15"}).worked
    assert (
        "185/65 R 15 goes 3.6 % less far in one turn than 165 R 15: the engine turns so much faster at the same speed, "
        "and the car stands 12 mm lower."
    ) == worked.verdict

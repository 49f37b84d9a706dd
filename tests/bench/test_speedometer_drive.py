"""Cable, pinion and dial: turns in a mile."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # Radius 13 in is 81.681 in round; 12 1/2 turns of the cable for 6 of the wheel: 1616 a mile.
        "Calibrating Odometers and Speedometers (britcycle.com): 1680 N / R = 1616 turns a mile",
        {"marked": "1616", "rolling": "81.681 in", "cable": "12 1/2"},
        {"turns": "1616", "shows": "100.0 %", "correction": "1.000"},
    ),
    Example(
        # Radius 33 cm is 2073.45 mm round; 2653 x 12.5 / 33.
        "Calibrating Odometers and Speedometers (britcycle.com): 2653 N / R = 1005 turns a kilometre",
        {"marked": "1005", "per": "km", "rolling": "2073.45 mm", "cable": "12.5"},
        {"turns": "1005", "shows": "100.0 %"},
    ),
    Example(
        # 7.97 turns of the wheel in 52 ft 9 1/2 in, a hundredth of a mile; 6 turns of the cable with
        # one wheel turned are 12.
        "Owners' forum (sl113.org 14337): one wheel jacked up halves the count",
        {
            "marked": "1200", "rolling": "79.48 in", "cable": "6", "wheel": "7.97", "turned": "one",
        },
        {"turns": "1200"},
    ),
)  # fmt: skip


def _exact(written: dict[str, str]) -> dict[str, Fraction]:
    worked = answer_of("speedometer-drive", written).worked
    return {result.name: Fraction(result.exact or 0) for result in worked.results}


teeth = st.integers(2, 30)


@given(teeth, teeth, st.integers(400, 3000))
def test_pinion__that_would_suit_makes_the_reading_true(
    driver: int, driven: int, marked: int
) -> None:
    written = {"marked": str(marked), "rolling": "1960 mm", "final": "4.1", "driver": str(driver), "driven": str(driven)}  # fmt: skip
    exact = _exact(written)
    assert 1 == exact["shows"] / 100 * exact["correction"]
    assert exact["pinion"] * exact["correction"] == driven


def test_counting__agrees_with_the_teeth() -> None:
    # 4 x 3 / 8 is 1.5 turns for one of the wheels, 9 for 6.
    rest = {"marked": "1000", "rolling": "2 m"}
    counted = _exact(rest | {"cable": "9"})
    worked = _exact(rest | {"final": "4", "driver": "3", "driven": "8"})
    assert counted["turns"] == worked["turns"]


def test_best_pinion__is_the_closest_that_does_not_show_too_little() -> None:
    # 4 x 3 / 12 x 1609.344 / 2 = 804.7 turns; on a dial of 800 and twelve teeth 0.6 % fast. Eleven
    # would be 9.7 % fast, thirteen 7.2 % slow.
    worked = answer_of(
        "speedometer-drive",
        {
            "marked": "800", "rolling": "2 m", "final": "4", "driver": "3", "driven": "11",
            "pinions": "11, 12, 13",
        },
    ).worked  # fmt: skip
    assert (
        "Driven like this the speedometer reads 9.7 % fast, which is within what is allowed today. "
        "Of the pinions that can be had, that of 12 teeth suits best: it reads 0.6 % fast."
    ) == worked.verdict
    assert ("13 teeth", "7.2 % slow", "not allowed") == worked.grids[1].rows[2]


def test_factor_of_two__is_told_as_the_differential() -> None:
    worked = answer_of(
        "speedometer-drive", {"marked": "1600", "rolling": "2 m", "cable": "6"}
    ).worked
    assert worked.warnings[0].startswith("That is out by a factor of two")


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ({"cable": "6", "final": "4"}, "cable was counted, and final is told too; write one of them"),
        ({}, "cable is not told, and no final either; count its turns for 6 turns of the wheels, or write final, driver and driven"),
        ({"final": "4", "driver": "3"}, "driven is not told; count its teeth, or count the turns of the cable"),
    ],
)  # fmt: skip
def test_drive__that_cannot_be_is_refused(written: dict[str, str], told: str) -> None:
    assert [told] == mistakes_of(
        "speedometer-drive", {"marked": "1000", "rolling": "2 m"} | written
    )

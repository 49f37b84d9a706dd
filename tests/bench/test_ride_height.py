"""Ride height: the lever between spring and wheel, once for the load and squared for the rate."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        "Suspension wheel rate, worked example (machinecalcs.com): 50 N/mm at 0.75 is 28.1 N/mm; 350 kg bounce at 1.43 Hz",
        {"rate": "50 N/mm", "weight": "350 kg", "ratio": "0.75"},
        {"wheel-rate": "28.1 N/mm", "bounce": "1.43"},
    ),
    Example(
        "Wheel rate, example 1 (calculator.academy): 400 lbf/in at 0.80 is 256.00 lbf/in",
        {"rate": "400 lbf/in", "weight": "800 lb", "ratio": "0.80"},
        {"wheel-rate": "256.00 lbf/in"},
    ),
    Example(
        "Wheel rate (savvycalculator.com): 300 lbf/in at 0.75 is 168.75 lbf/in",
        {"rate": "300 lbf/in", "weight": "800 lb", "ratio": "0.75"},
        {"wheel-rate": "168.75 lbf/in"},
    ),
)

CORNER = {"rate": "40 N/mm", "weight": "250 kg", "unsprung": "30 kg", "free": "330 mm"}


def _exact(written: dict[str, str]) -> dict[str, float]:
    worked = answer_of("ride-height", written).worked
    return {r.name: float(r.exact) for r in worked.results if r.exact is not None}


def test_lever__of_a_half_doubles_the_load_and_quarters_the_rate() -> None:
    one, half = (_exact(CORNER | {"ratio": ratio}) for ratio in ("1", "0.5"))
    assert half["carries"] == pytest.approx(2 * one["carries"])
    assert half["wheel-rate"] == pytest.approx(one["wheel-rate"] / 4)


def test_lean__works_as_a_shorter_lever() -> None:
    # cos 60 deg is 0.5.
    leaning = _exact(CORNER | {"lean": "60 deg"})
    assert _exact(CORNER | {"ratio": "0.5"})["wheel-rate"] == pytest.approx(leaning["wheel-rate"])


def test_packer__lifts_the_wheel_end_of_the_lever_by_more_than_itself() -> None:
    assert pytest.approx(20) == _exact(CORNER | {"ratio": "0.5", "packer-after": "10 mm"})["rise"]


@given(st.integers(-30, 30), st.integers(50, 100), st.integers(30, 60))
def test_packer__that_is_told_brings_the_height_that_is_wanted(
    wanted: int, ratio: int, rate: int
) -> None:
    written = CORNER | {
        "ratio": f"{ratio / 100}", "rate-after": f"{rate} N/mm", "packer": "60 mm",
        "wanted": f"{wanted} mm",
    }  # fmt: skip
    packer = _exact(written)["packer-wanted"]
    if 0 <= packer <= 100:
        reached = _exact(written | {"packer-after": f"{packer:.9f} mm"})
        # Nothing is told of a rise where nothing changes.
        assert reached.get("rise", 0) == pytest.approx(wanted, abs=1e-6)


@given(st.integers(50, 400))
def test_weight__that_goes_lets_the_car_rise_by_the_rate_at_the_wheel(kilograms: int) -> None:
    rise = _exact(CORNER | {"weight": "480 kg", "ratio": "0.8", "weight-after": f"{kilograms} kg"})["rise"]  # fmt: skip
    by_hand = (480 - kilograms) * 9.80665 / (40 * 0.8**2)
    assert rise == pytest.approx(by_hand)


def test_verdict__of_a_change_of_springs() -> None:
    # 220 kg x 9.80665 = 2157 N: 53.9 mm of 330 and 43.1 mm of 320; 276.9 against 276.1.
    worked = answer_of(
        "ride-height", CORNER | {"rate-after": "50 N/mm", "free-after": "320 mm"}
    ).worked
    assert (
        "After the change the car rises 0.8 mm at that wheel and is 25 % stiffer: 50.0 N/mm at the wheel, 2.40 bounces a second."
    ) == worked.verdict
    assert (
        "Road cars bounce 0.8 to 2.2 times a second; see the rate, its unit and the motion ratio.",
    ) == worked.warnings


def test_load__on_the_wheel_is_told_in_steps() -> None:
    worked = answer_of("ride-height", CORNER).worked
    # 100 kg x 9.80665 / 40 = 24.5 mm.
    assert ("100 kg", "24.5 mm") == worked.grids[0].rows[-1]
    assert Fraction(3) == len(worked.grids[0].rows)


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ({"unsprung": "250 kg"}, "unsprung must be less than the weight on the wheel; write wheel, tyre, brake, hub and half of the arms"),
        ({"rate": "2 N/mm"}, "rate is so soft that the spring would be pressed flat; see the unit of the rate, the weight and the motion ratio"),
        ({"weight-after": "25 kg"}, "weight-after must be more than what is unsprung; read both again"),
    ],
)  # fmt: skip
def test_corner__that_cannot_be_is_refused(written: dict[str, str], told: str) -> None:
    assert [told] == mistakes_of("ride-height", CORNER | written)


def test_free_length__after_needs_that_before() -> None:
    rest = {"rate": "40 N/mm", "weight": "250 kg", "free-after": "300 mm"}
    assert [
        "free is not told for before the change; write free too, or leave free-after out for springs of one length"
    ] == mistakes_of("ride-height", rest)

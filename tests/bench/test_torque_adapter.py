"""Torque wrench with an adapter: straight ahead, at an angle, square, and pointing back."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        "US Army TM 1-1500-204-23-9, page 143 (tpub.com): 300 lbf in, 10 and 4 in, printed 214",
        {"torque": "300 lbf in", "length": "10 in", "adapter": "4 in"}, {"setting": "214 lbf in", "arm": "14 in"},
    ),
    Example(
        "US Army TM 9-254, figure 45 (tpub.com): set to 60 it applies 70, 12 and 2 in",
        {"torque": "70 lbf in", "length": "12 in", "adapter": "2 in"}, {"setting": "60 lbf in"},
    ),
    Example(
        "US Navy NAVEDTRA 14315, figure 3-45 (tpub.com): 100 lbf in, 12 and 6 in; quotient worked by hand",
        {"torque": "100 lbf in", "length": "12 in", "adapter": "6 in"}, {"setting": "66.67 lbf in"},
    ),
    Example(
        "Maintenance manual of a light helicopter, page 224 (easymanua.ls): 135 lbf in, 10 in, 1.5 in pointing back, 158.824",
        {"torque": "135 lbf in", "length": "10 in", "adapter": "1.5 in", "angle": "180 deg"}, {"setting": "158.824 lbf in"},
    ),
    Example(
        "Manual of a light aeroplane, 2-90 (manualshive.com): 30 lbf ft, 1 ft and 0.25 ft, 24",
        {"torque": "30 lbf ft", "length": "1 ft", "adapter": "0.25 ft"}, {"setting": "24 lbf ft"},
    ),
    Example(
        "Table of settings by angle, cal11.calculator.city: 100 lbf ft, 18 in, 3 in: 85.71 straight, 89.46 at 45 degrees",
        {"torque": "100 lbf ft", "length": "18 in", "adapter": "3 in", "angle": "45 deg"}, {"setting": "89.46 lbf ft"},
    ),
    Example(
        "Caliper bolt 80 Nm, 40 cm and 5 cm, agentcalc.com torque wrench extension: 71.1 Nm",
        {"torque": "80 Nm", "length": "40 cm", "adapter": "5 cm"}, {"setting": "71.1 Nm"},
    ),
    Example(
        "Square to the wrench there is no correction (physicsforums.com thread 860812; all of the above)",
        {"torque": "80 Nm", "length": "40 cm", "adapter": "5 cm", "angle": "90 deg"}, {"setting": "80.0 Nm", "unset": "80.0 Nm"},
    ),
)  # fmt: skip

PLAIN = {"torque": "45 lbf ft", "length": "16 in", "adapter": "2 in"}


def _setting(written: dict[str, str]) -> Fraction:
    exact = answer_of("torque-adapter", written).worked.results[0].exact
    assert isinstance(exact, Fraction)
    return exact


@pytest.mark.parametrize(
    ("torque", "words", "other"),
    [
        # Times 16 / 18 each.
        ("45 lbf ft", "40.0 lbf ft", "54.2 Nm"),
        ("540 lbf in", "480 lbf in", "54.2 Nm"),
        ("61 Nm", "54.2 Nm", "40.0 lbf ft"),
        ("6.22 kgf m", "5.53 kgf m", "54.2 Nm"),
    ],
)
def test_setting__is_told_in_the_unit_of_the_wrench(torque: str, words: str, other: str) -> None:
    worked = answer_of("torque-adapter", {**PLAIN, "torque": torque}).worked
    assert (words, other) == (worked.results[0].words, worked.results[0].other)
    assert f"Set the wrench to {words} for {torque} at the fastener." == worked.verdict


def test_hand__nearer_the_head_tightens_more() -> None:
    # 406.4 and 50.8 mm: 432.2 / 381.4 against 457.2 / 406.4 is 0.73 % more.
    results = {r.name: r.words for r in answer_of("torque-adapter", PLAIN).worked.results}
    assert "0.7 %" == results["hand"]


def test_wrench__that_does_not_reach_the_setting_is_refused_for_it() -> None:
    worked = answer_of("torque-adapter", {**PLAIN, "wrench": "5..35 lbf ft"}).worked
    assert worked.right is False
    assert (
        "Set the wrench to 40.0 lbf ft for 45 lbf ft at the fastener; its scale of 5 to 35 lbf ft does not reach that: take "
        "another wrench, or the adapter at another angle."
    ) == worked.verdict
    assert [
        "That is below a fifth of the scale, where a wrench is least true (common practice): take a smaller one."
    ] == list(answer_of("torque-adapter", {**PLAIN, "wrench": "20..250 lbf ft"}).worked.warnings)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        (
            {"adapter": "17 in", "angle": "180 deg"},
            "adapter reaches back to the hand or beyond it, found 17 in; use a shorter one, or point it forward or square",
        ),
        ({"torque": "45 lb"}, 'torque must be a torque, found "45 lb"; write it in Nm, lbf ft or lbf in'),
        ({"angle": "200 deg"}, 'angle must be between 0 deg and 180 deg, found "200 deg"; read it again'),
        ({"length": "16"}, 'length must be a length with its unit, found "16"; write 16 mm, 16 in or 16 thou'),
    ],
)  # fmt: skip
def test_what_cannot_be__is_refused(changed: dict[str, str], said: str) -> None:
    assert [said] == mistakes_of("torque-adapter", {**PLAIN, **changed})


@given(st.integers(0, 179), st.integers(1, 15))
def test_setting__rises_as_the_adapter_turns_back(angle: int, adapter: int) -> None:
    def at(degrees: int) -> Fraction:
        return _setting({**PLAIN, "adapter": f"{adapter} in", "angle": f"{degrees} deg"})

    assert at(angle) < at(angle + 1)


@given(st.integers(0, 180), st.integers(0, 15))
def test_fastener__gets_its_torque_by_the_moments_of_the_pull(angle: int, adapter: int) -> None:
    # Outside the formula: the pull as a force, and its moment about the fastener as a cross product.
    setting = float(
        _setting({**PLAIN, "torque": "100 Nm", "adapter": f"{adapter} in", "angle": f"{angle} deg"})
    )
    pull = setting / (16 * 25.4)
    ahead, aside = (adapter * 25.4 * f(math.radians(angle)) for f in (math.cos, math.sin))
    hand = (-16 * 25.4 - ahead, -aside)
    moment = hand[0] * -pull - hand[1] * 0
    assert moment == pytest.approx(100, rel=1e-9)

"""What an upgrade weighs: moments, part by part."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # 8000 lb at 616,000 / 8000 = 77 in; 100 lb from 30 to 150 in: 628,000 / 8000 = 78.5 in. The
        # axles stand at 0 and 100 in: 1840 and 6160 lb.
        "Pilot's Handbook of Aeronautical Knowledge, weight shifting (flightlearnings.com 2011-03-21): 77 becomes 78.5 in",
        {
            "wheelbase": "100 in", "front": "1840 lb", "rear": "6160 lb",
            "parts": "load: 100 lb, 100 lb, 30 in, to 150 in",
        },
        {"behind": "77.0 in", "behind-after": "78.5 in", "change": "0 lb"},
    ),
    Example(
        # 2900 lb at 115 in, 207.1 lb added at 130: 116.0 in. The axles stand at 0 and 200 in.
        "Weight addition, an instructor's example (jetcareers.com 72797): 207.1 lb at station 130 move 115.0 to 116.0",
        {
            "wheelbase": "200 in", "front": "1232.5 lb", "rear": "1667.5 lb",
            "parts": "load: 0 lb, 207.1 lb, 130 in",
        },
        {"behind": "115.0 in", "behind-after": "116.0 in", "total": "3107.1 lb"},
    ),
)  # fmt: skip

CAR = {"wheelbase": "2400 mm", "front": "500 kg", "rear": "460 kg"}


def _exact(parts: str, more: dict[str, str] | None = None) -> dict[str, Fraction]:
    worked = answer_of("weight-change", CAR | {"parts": parts} | (more or {})).worked
    return {r.name: Fraction(r.exact) for r in worked.results if r.exact is not None}


weight = st.integers(0, 60)
place = st.integers(-800, 3200)


@given(weight, weight.filter(bool), place, place)
def test_axles__carry_the_whole_and_its_moment(off: int, on: int, at: int, to: int) -> None:
    exact = _exact(f"part: {off} kg, {on} kg, {at} mm, to {to} mm")
    assert exact["front-after"] + exact["rear-after"] == exact["total"] == 960 + on - off
    assert 2400 * exact["rear-after"] == 2400 * 460 + on * to - off * at


@given(weight.filter(bool), place)
def test_part__that_comes_off_and_goes_on_again_changes_nothing(kilograms: int, at: int) -> None:
    exact = _exact(f"part: {kilograms} kg, {kilograms} kg, {at} mm")
    assert (0, 500, 460) == (exact["change"], exact["front-after"], exact["rear-after"])


def test_weight__behind_the_rear_axle_lightens_the_front() -> None:
    assert _exact("spare wheel: 0 kg, 20 kg, 3000 mm")["front-after"] < 500


def test_unsprung__counts_to_the_nearer_axle() -> None:
    exact = _exact(
        "brakes: 20 kg, 26 kg, 0 mm, unsprung 100 %; arms: 8 kg, 6 kg, 2400 mm, unsprung 50 %",
        {"unsprung-front": "60 kg"},
    )
    assert (6, -1) == (exact["unsprung-front"], exact["unsprung-rear"])
    assert Fraction(6600, 506) == exact["unsprung-share-front"]


def test_verdict__says_it_by_axle_and_by_spring() -> None:
    # 12 kg at a quarter of the wheelbase: 9 in front and 3 behind.
    worked = answer_of(
        "weight-change", CAR | {"parts": "heater: 0 kg, 12 kg, 600 mm; discs: 10 kg, 14 kg, 0 mm, unsprung 100 %"}
    ).worked  # fmt: skip
    assert (
        "The car becomes 16.0 kg heavier: 13.0 kg heavier in front, 3.0 kg heavier behind. "
        "What the springs do not carry becomes 4.0 kg heavier in front."
    ) == worked.verdict
    assert (
        "More unsprung weight asks more of dampers and tyres; the maker's damper setting was for the lighter parts.",
    ) == worked.warnings
    assert ("heater", "0.0 kg", "12.0 kg", "12.0 kg", "9.0 kg", "3.0 kg", "0.0 kg") == worked.grids[0].rows[0]  # fmt: skip


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ({"parts": "part: 0 kg, 0 kg, 5 mm"}, 'parts has nothing off and nothing on in the row "part"; write part: off, on, at'),
        ({"parts": "engine: 900 kg, 0 kg, 0 mm"}, "parts would leave an axle without weight; see weights and places again"),
        ({"parts": "part: 1 kg, 0 kg, 0 mm", "unsprung-front": "600 kg"}, "unsprung-front must be part of what that axle weighs, before and after; write both wheels with brakes, hubs and half of the arms"),
        ({"parts": "part: 1 kg, 0 kg"}, 'parts has no at in the row "part"; write part: off, on, at, to, unsprung'),
    ],
)  # fmt: skip
def test_change__that_cannot_be_is_refused(written: dict[str, str], told: str) -> None:
    assert [told] == mistakes_of("weight-change", CAR | written)

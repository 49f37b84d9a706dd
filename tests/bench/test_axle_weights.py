"""Axle weights: moments about the front axle, and the two diagonals."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # 1050 kg on 290 + 330 and 210 + 220; wheelbase 2550, track 1800. Ahead of the middle by
        # 190 x 1.275 / 1050 = 0.2307 m, and 50 x 0.9 / 1050 = 0.0429 m to the right.
        "Exercise on the centre of gravity of a car (askfilo.com 3430373733313132)",
        {
            "front": "290, 330 kg", "rear": "210, 220 kg", "wheelbase": "2550 mm", "track": "1800 mm",
        },
        {"total": "1050 kg", "behind": "1044.3 mm", "aside": "-42.9 mm"},
    ),
    Example(
        # After it was evened: 694 + 585 against 606 + 670 lb.
        "The hows and whys of cornerweights (groundcontrolstore.com), example 2: diagonals of 1279 and 1276 lb",
        {"front": "694, 606 lb", "rear": "670, 585 lb"},
        {"total": "2555 lb", "diagonal": "50.1 %", "too-much": "0 lb"},
    ),
    Example(
        # 1800 kg, 1.8 m, 1.05 m behind the front axle: 750 in front and 1050 behind.
        "A car of 1800 kg (ask.learncbse.in 13959)",
        {"front": "750 kg", "rear": "1050 kg", "wheelbase": "1.8 m"},
        {"behind": "1050 mm"},
    ),
)  # fmt: skip


def _exact(written: dict[str, str]) -> dict[str, Fraction]:
    worked = answer_of("axle-weights", written).worked
    return {r.name: Fraction(r.exact) for r in worked.results if r.exact is not None}


wheel = st.integers(50, 500)


@given(wheel, wheel, wheel, wheel)
def test_weight__that_is_moved_along_the_diagonals_evens_them(
    fl: int, fr: int, rl: int, rr: int
) -> None:
    move = _exact({"front": f"{fl}, {fr} kg", "rear": f"{rl}, {rr} kg"})["too-much"]
    # What leaves one front wheel goes to the other, and behind the other way round.
    evened = (fl - move, fr + move, rl + move, rr - move)
    assert evened[0] * (evened[1] + evened[3]) == evened[1] * (evened[0] + evened[2])
    # Neither axle nor side changes by it.
    assert (fl + fr, fl + rl) == (evened[0] + evened[1], evened[0] + evened[2])


@given(wheel, wheel)
def test_balance__lies_nearer_the_heavier_axle(front: int, rear: int) -> None:
    behind = _exact({"front": f"{front} kg", "rear": f"{rear} kg", "wheelbase": "2400 mm"})[
        "behind"
    ]
    assert (behind < 1200) == (front > rear)
    # Moments about that point are even.
    assert front * behind == rear * (2400 - behind)


def test_verdict__of_a_car_on_a_diagonal_and_of_one_too_heavy() -> None:
    # 720 - 1304 x 1364 / 2555 = 23.9 lb.
    leaning = answer_of("axle-weights", {"front": "720, 584 lb", "rear": "644, 607 lb"}).worked
    assert leaning.right is None
    assert (
        "The car weighs 2555 lb, 51.0 % of it in front; the front wheel read first carries 24 lb too much, "
        "and the rear wheel across from it too: the car stands on a diagonal."
    ) == leaning.verdict
    heavy = answer_of("axle-weights", {"front": "478 kg", "rear": "700 kg", "rear-most": "620 kg"})
    assert heavy.worked.right is False
    assert (
        "The car weighs 1178 kg, 40.6 % of it in front; the rear axle carries 80 kg more than its maker allows: it is not to be driven so."
    ) == heavy.worked.verdict


def test_weighbridge__that_disagrees_with_itself_is_told() -> None:
    worked = answer_of(
        "axle-weights", {"front": "478 kg", "rear": "434 kg", "whole": "930 kg"}
    ).worked
    assert worked.warnings[0].startswith("The axles together and the whole differ by 18 kg")


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ({"front": "478, 480, 482 kg", "rear": "434 kg"}, "front must be one weight for the axle or two for its wheels, found 3; write the mean of readings that were repeated"),
        ({"front": "0 kg", "rear": "0 kg"}, "front and rear weigh nothing together; read the scales again"),
        ({"front": "478 mm", "rear": "434 kg"}, 'front must be a weight, found "478 mm"; write it in kg, g or lb'),
    ],
)  # fmt: skip
def test_weights__that_cannot_be_are_refused(written: dict[str, str], told: str) -> None:
    assert [told] == mistakes_of("axle-weights", written)

"""Piston speed: two strokes a turn, and what the rod adds."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example("90 mm at 3000 rpm is 9.0 m/s (motor-car.net, 14842)", {"stroke": "90 mm", "speed": "3000 rpm"}, {"mean": "9.0 m/s"}),
    Example("90 mm at 7200 rpm is 21.6 m/s (kfz-tech.de)", {"stroke": "90 mm", "speed": "7200 rpm"}, {"mean": "21.6 m/s"}),
    Example("92.8 mm at 8700 rpm is 26.912 m/s (kfz-tech.de)", {"stroke": "92.8 mm", "speed": "8700 rpm"}, {"mean": "26.912 m/s"}),
    Example(
        # 3 x 6000 / 6 = 3000; a closer value of the largest needs the rod.
        "A stroke of 3 in at 6000 rpm is 3000 ft/min (musclecardiy.com, understanding piston speed)",
        {"stroke": "3 in", "speed": "6000 rpm", "most": "3500 ft/min"},
        {"mean": "3000 ft/min", "limit-speed": "7000 rpm"},
    ),
    Example(
        # |v| = 1078 inches a second at 75.6 degrees: 1078 x 5 = 5390 ft/min, 27.38 m/s.
        "Stroke 3.307 in, rod 6.024 in, 6000 rpm (quartermile.ws forum, topic 7907)",
        {"stroke": "3.307 in", "rod": "6.024 in", "speed": "6000 rpm"},
        {"largest": "27.4 m/s", "at": "75.6 deg"},
    ),
    Example(
        # a = R w2 (1 + R / L) with R 0.1 m, L 0.2 m: 0.15 m/s2 at 1 rad/s, so 15,000 m/s2 at 100 rad/s, over 9.80665.
        "Piston acceleration at top dead centre, R 0.1 m, L 0.2 m (audifans.com archive, January 1998), 1000 times as fast is ours",
        {"stroke": "200 mm", "rod": "200 mm", "speed": "954.92965855 rpm"},
        {"pull": "153"},
    ),
)  # fmt: skip


def test_verdict__holds_the_mean_against_what_is_allowed() -> None:
    written = {"stroke": "88.9 mm", "speed": "5000 rpm", "most": "14 m/s"}
    worked = answer_of("piston-speed", written).worked
    # 2 x 0.0889 x 5000 / 60 = 14.8.
    assert "The pistons average 14.8 m/s at 5000 rpm, more than 14 m/s." == worked.verdict
    assert worked.right is False
    assert answer_of("piston-speed", {**written, "most": "15 m/s"}).worked.right
    assert answer_of("piston-speed", {"stroke": "3 in", "speed": "100 rpm"}).worked.right is None


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"rod": "40 mm"}, "rod must be longer than half the stroke, found 40 mm; measure it from centre to centre"),
        ({"speed": "5000"}, 'speed must be a speed of turning with its unit, found "5000"; write 5000 rpm'),
        ({"most": "20 mm"}, 'most must be a speed, found "20 mm"; write it in mph, km/h or m/s'),
        ({"stroke": "-3 in"}, 'stroke must be between 10 mm and 300 mm, found "-3 in"; read it again'),
    ],
)  # fmt: skip
def test_what_cannot_be__is_refused(changed: dict[str, str], said: str) -> None:
    assert [said] == mistakes_of(
        "piston-speed", {"stroke": "90 mm", "speed": "5000 rpm", **changed}
    )


@given(st.integers(40, 200), st.integers(105, 400))
def test_largest_speed__is_that_which_another_library_finds(stroke: int, share: int) -> None:
    throw, rod = stroke / 2, stroke * share / 200
    written = {"stroke": f"{stroke} mm", "rod": f"{rod} mm", "speed": "1000 rpm"}
    results = {r.name: r.exact for r in answer_of("piston-speed", written).worked.results}

    def position(angle: float) -> float:
        return throw * math.cos(angle) + math.sqrt(rod**2 - (throw * math.sin(angle)) ** 2)

    def speed(angle: float) -> float:
        step = 1e-5
        return (position(angle - step) - position(angle + step)) / (2 * step)

    found = minimize_scalar(lambda a: -speed(a), bounds=(0.01, math.pi - 0.01), method="bounded")
    radians = 1000 * 2 * math.pi / 60
    assert results["largest"] == pytest.approx(-found.fun * radians / 1000, rel=1e-5)


@given(st.integers(10, 299), st.integers(100, 19000))
def test_mean__grows_with_stroke_and_speed(stroke: int, speed: int) -> None:
    def mean(s: int, n: int) -> Fraction:
        exact = (
            answer_of("piston-speed", {"stroke": f"{s} mm", "speed": f"{n} rpm"})
            .worked.results[0]
            .exact
        )
        assert isinstance(exact, Fraction)
        return exact

    assert mean(stroke, speed) < mean(stroke + 1, speed)
    assert mean(stroke, speed) < mean(stroke, speed + 1)

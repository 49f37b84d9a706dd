"""Brake balance: Pascal from the pedal to the pad, the lever of a shoe, and the weight that a stop moves."""

from math import pi, sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from msgspec.structs import replace

from journal.bench.base.braking import (
    DISC,
    DUPLEX,
    GRAVITY,
    SERVO,
    SIMPLEX,
    Brake,
    Controls,
    Load,
    System,
    brake_factor,
)
from journal.bench.base.worked import Curve
from tests.bench.worked_examples import Example, answer_of, mistakes_of

CAR = {
    "wheelbase": "2300 mm",
    "weights": "driver alone: 470 kg, 430 kg, 500 mm",
    "tyre": "290 mm",
    "pedal": "before: 5, 19.05 mm",
    "front": "before: disc, 54 mm, 105 mm",
    "rear": "before: leading-trailing, 19.05 mm, 102 mm",
}

EXAMPLES = (
    Example(
        # 1500 kg, 55 % in front, centre of gravity 520 mm up, wheelbase 2700 mm, 0.9 g: 260 kg go
        # forward, 1085 kg of 1500 stand in front.
        "Weight transfer under braking, worked example (machinecalcs.com/weight-transfer-calculator)",
        CAR | {"wheelbase": "2700 mm", "weights": "car: 825 kg, 675 kg, 520 mm", "deceleration": "0.9"},
        {"ideal-share": "72.33 %"},
    ),
    Example(
        # 250 kg, wheelbase 1.53 m, height 0.592 m, centre of gravity 0.953 m behind the front axle,
        # 0.68 g: 1570.18 N of 2452.5 N in front.
        "Brake design of a small car, dynamic axle loads (scribd.com/document/730192255)",
        CAR
        | {
            "wheelbase": "1.53 m", "weights": "car: 94.28 kg, 155.72 kg, 0.592 m",
            "deceleration": "0.68",
        },
        {"ideal-share": "64.02 %"},
    ),
    Example(
        "Line pressure of 100 lbf at 6 to 1 on a bore of 1 in (machinecalcs.com/brake-line-pressure-calculator)",
        CAR | {"pedal": "before: 6, 1.0 in", "effort": "100 lbf"},
        {"pressure": "763.94 psi"},
    ),
)  # fmt: skip


def test_servo__adds_to_the_push_before_it_is_pressure() -> None:
    # Exam question (thecartech.com, Auto_Exam11), answered by hand: push rod 1500 N, out of the servo
    # 2500 N, master cylinder 500 mm2, wheel cylinder 1200 mm2: 5 MPa and 6000 N.
    controls = Controls(5, sqrt(4 * 500 / pi), sqrt(4 * 500 / pi), gain=2500 / 1500)
    front, rear = controls.pressures(300)
    assert (5.0, 5.0) == pytest.approx((front, rear))
    brake = Brake(1, sqrt(4 * 1200 / pi), 1, 100, 300)
    assert pytest.approx(6000) == front * brake.area


def test_torque__of_a_drum_is_force_by_factor_by_radius() -> None:
    # Exercise of iphysics.org, answered by hand: 47 N on 1.8 cm2, 6.4 cm2 at the wheel, coefficient
    # 0.5, radius 0.34 m: 28.41 Nm.
    pressure = 47 / 180
    assert 28.41 == pytest.approx(
        Brake(0.5, sqrt(4 * 640 / pi), 1, 340, 400).torque(pressure), abs=0.005
    )


def test_chain__from_the_road_back_to_the_foot() -> None:
    # Rear circuit of a student car (scribd.com/document/458887167): 704.472 N on the rear axle, tyre
    # coefficient 0.7 and radius 0.127 m, one disc with two pistons of 314 mm2 at 0.0825 m and one pad
    # face counted: 3,021,981 Pa, and 189.78 N on a pedal of 5 to 1 with 314 mm2 in the master cylinder.
    bore = sqrt(4 * 314 / pi)
    brake = Brake(0.4, bore, 1, 82.5, 127)
    controls = Controls(5, bore, bore)
    pressure = controls.pressures(189.78)[1]
    assert 3.021981 == pytest.approx(pressure, rel=1e-4)
    assert 0.7 * 704.472 == pytest.approx(brake.force(pressure), rel=1e-4)


def test_axles__stand_as_a_stop_leaves_them() -> None:
    # calcady.com/trade/automotive/brake-bias: 3000 lb, height 20 in, wheelbase 105 in, 1 g: 571 lb.
    front, rear = Load(1500, 1500, 105, 20).axles(1.0)
    assert (571, 571) == (round(front - 1500), round(1500 - rear))


def test_factors__are_those_of_handbooks() -> None:
    # The Tribology Handbook, B8, at a coefficient of 0.35: disc 0.70, shoes that push each other 4.0.
    assert 0.70 == pytest.approx(brake_factor(DISC, 0.35))
    assert 4.0 == pytest.approx(brake_factor(SERVO, 0.35), rel=0.2)
    # From memory, brake handbooks at 0.38: about 2, 3 and 5.
    for usual, kind in ((2.0, SIMPLEX), (3.0, DUPLEX), (5.0, SERVO)):
        assert usual == pytest.approx(brake_factor(kind, 0.38), rel=0.2)


def test_factors__of_drums_grow_faster_than_the_lining_and_that_of_a_disc_as_it() -> None:
    for kind in (SIMPLEX, DUPLEX, SERVO):
        assert brake_factor(kind, 0.4) / brake_factor(kind, 0.3) > 4 / 3
    assert 4 / 3 == pytest.approx(brake_factor(DISC, 0.4) / brake_factor(DISC, 0.3))


# Laws, for any car.

brakes = st.builds(
    Brake, st.floats(0.5, 5), st.floats(15, 60), st.integers(1, 3), st.floats(80, 150),
    st.floats(250, 350),
)  # fmt: skip
controls = st.builds(
    Controls, st.floats(3, 7), st.floats(15, 30), st.floats(15, 30), st.none() | st.floats(0.3, 0.7),
    gain=st.floats(1, 4), limit=st.floats(1, 12), knee=st.floats(1, 12), slope=st.floats(0, 1),
)  # fmt: skip
systems = st.builds(System, controls, brakes, brakes)
loads = st.builds(
    Load, st.floats(3000, 8000), st.floats(3000, 8000), st.floats(2000, 3000), st.floats(400, 700)
)


@given(systems, st.floats(1, 2000))
def test_effort__is_that_which_brings_the_force(system: System, effort: float) -> None:
    assert effort == pytest.approx(system.effort_for(sum(system.forces(effort))))


@given(systems, st.floats(1, 1000))
def test_effort__that_is_greater_brakes_harder(system: System, effort: float) -> None:
    front, rear = system.forces(effort)
    more_front, more_rear = system.forces(effort * 1.1)
    assert more_front > front
    assert more_rear >= rear


@given(systems, loads, st.floats(0.2, 1))
def test_front__does_more_with_a_larger_piston_there(
    system: System, load: Load, hard: float
) -> None:
    plain = replace(system, controls=replace(system.controls, slope=1))
    larger = replace(plain, front=replace(plain.front, bore=plain.front.bore * 1.1))
    assert larger.front_share(load, hard) > plain.front_share(load, hard)


@given(systems, loads)
def test_rear__locks_first_where_the_front_does_less_than_its_share(
    system: System, load: Load
) -> None:
    plain = replace(system, controls=replace(system.controls, slope=1))
    at = plain.rear_locks_from(load)
    share, still = plain.front_share(load, 0.5), load.front / load.weight
    # With one share for all stops, it is the ideal one at (share - share at rest) L / h.
    by_hand = (share - still) * load.wheelbase / load.height
    assume(abs(by_hand - 1) > 1e-6 and abs(by_hand - 0.02) > 1e-6)
    if by_hand > 1:
        assert at is None
    else:
        assert max(by_hand, 0.02) == pytest.approx(at, abs=1e-6)


@given(systems, loads, st.floats(0.1, 1))
def test_first_lock__takes_all_the_grip_of_its_axle_and_no_more_of_the_other(
    system: System, load: Load, grip: float
) -> None:
    axle, at = system.first_lock(load, grip)
    assume(at < load.lift * 0.999)
    share = system.front_share(load, at)
    front, rear = (
        part * at * load.weight / stands
        for part, stands in zip((share, 1 - share), load.axles(at), strict=True)
    )
    assert grip == pytest.approx(rear if axle == "rear" else front, rel=1e-6)
    assert min(front, rear) <= grip * (1 + 1e-9)


def test_valve__that_limits_lets_no_more_through() -> None:
    controls = Controls(5, 20, 20, knee=4.0, slope=0.0)
    front, rear = controls.pressures(1000)
    assert front > 4.0
    assert 4.0 == rear


def test_servo__that_has_given_all_adds_no_more() -> None:
    # 20 bar of the 40 at its limit come from the servo; every further newton is the foot's own.
    controls = Controls(5, 20, 20, gain=2.0, limit=4.0)
    plain = Controls(5, 20, 20)
    assert controls.pressures(800)[0] == pytest.approx(plain.pressures(800)[0] + 2.0)


def test_travel__grows_with_what_has_to_be_filled() -> None:
    # Two bores of the same area each take half: twice the piston area, twice the travel.
    one = System(Controls(5, 20, 20), Brake(1, 40, 1, 100, 300), Brake(1, 40, 1, 100, 300))
    two = replace(one, front=replace(one.front, pistons=2), rear=replace(one.rear, pistons=2))
    assert 2 == pytest.approx(two.travel / one.travel)


def _share_after(front: str) -> float:
    worked = answer_of("brake-balance", CAR | {"front": front}).worked
    return next(float(r.exact or 0) for r in worked.results if r.name == "front-share-after")


def test_another_brake__takes_nothing_over_from_the_one_before() -> None:
    drum = "before: leading-trailing, 22 mm, 114 mm, 1, factor 2.2"
    assert _share_after(f"{drum}; after: disc, 54 mm, 105 mm") == _share_after(
        "before: disc, 54 mm, 105 mm; after: bore 54 mm"
    )


def test_another_lining__does_away_with_the_factor_of_the_one_before() -> None:
    disc = "disc, 54 mm, 105 mm"
    # A disc has twice its coefficient: factor 0.9 is 0.45.
    assert _share_after(f"before: {disc}, factor 0.9; after: lining 0.3") == pytest.approx(
        _share_after(f"before: {disc}; after: factor 0.6")
    )


def test_what_is_not_told_after__stays_as_it_was() -> None:
    disc = "disc, 54 mm, 105 mm"
    assert _share_after(f"before: {disc}, factor 0.9; after: {disc}") == _share_after(
        f"before: {disc}, factor 0.9; after: bore 54 mm"
    )


# What is said.


def test_verdict__of_a_car_as_it_stands() -> None:
    worked = answer_of("brake-balance", CAR).worked
    assert worked.right is True
    assert (
        "In a stop of 0.80 g the front axle carries 69.6 % of the weight; it does 76.2 % of the braking. "
        "As it stands the front wheels lock first in every stop up to 0.80 g."
    ) == worked.verdict
    assert not [result for result in worked.results if result.name.endswith("-after")]


def test_verdict__names_the_load_with_which_the_rear_locks_first() -> None:
    worked = answer_of(
        "brake-balance",
        CAR
        | {
            "weights": "driver alone: 470 kg, 430 kg, 500 mm; two up: 480 kg, 520 kg, 520 mm",
            "rear": "before: leading-trailing, 19.05 mm, 102 mm; after: bore 23 mm",
        },
    ).worked
    # By hand: front 0.76 x 54^2 x 105 = 232,697, rear 1.9617 x 23^2 x 102 = 105,849, 68.73 % in front;
    # (0.6873 - 470/900) x 2300 / 500 = 0.76 with the driver alone.
    assert worked.right is False
    assert worked.verdict.endswith(
        "After the change the rear wheels lock first from 0.76 g (driver alone): the car can spin. It is not to be driven so."
    )


def test_warnings__tell_of_a_close_balance_a_longer_pedal_and_hard_work() -> None:
    worked = answer_of(
        "brake-balance",
        CAR
        | {
            "front": "before: disc, 45 mm, 105 mm; after: bore 54 mm",
            "rear": "before: disc, 30 mm, 105 mm; after: bore 38 mm",
            "pedal": "before: 3, 25 mm",
        },
    ).worked
    assert any(line.startswith("The pedal travels 1.4") for line in worked.warnings)
    assert any("on the pedal; type approval allows 500 N." in line for line in worked.warnings)


def test_curve__falls_below_the_ideal_where_the_rear_locks_first() -> None:
    worked = answer_of(
        "brake-balance", CAR | {"rear": "before: leading-trailing, 25 mm, 102 mm"}
    ).worked
    # By hand: rear 1.9617 x 25^2 x 102 = 125,058 against 232,697 in front, 65.04 %;
    # (0.6504 - 470/900) x 2300 / 500 = 0.59.
    ideal, now = _lines(worked.curves[0])
    at = [float(z) for (z, best), (_, does) in zip(ideal, now, strict=True) if does < best]
    locks = next(r.words for r in worked.results if r.name == "locks-first")
    assert locks == "the rear ones, from 0.59 g"
    assert min(at) == pytest.approx(0.60)


def test_one_state__is_told_as_it_stands_and_not_as_a_before() -> None:
    worked = answer_of("brake-balance", CAR).worked
    told = [r.meaning for r in worked.results]
    told += [*worked.steps, *(head for grid in worked.grids for head in grid.heads)]
    told += [line.label for curve in worked.curves for line in curve.lines]
    assert not [words for words in told if "before" in words.casefold()]
    assert "As it stands" in worked.grids[0].heads


def _lines(curve: Curve) -> list[tuple[tuple[float, float], ...]]:
    return [tuple((float(x), float(y)) for x, y in line.points) for line in curve.lines]


@pytest.mark.parametrize(
    ("key", "text", "told"),
    [
        ("pedal", "after: 5, 19 mm", "pedal must be told as it is before the change; begin a row with before:"),
        ("pedal", "before: 5", "pedal must have a bore before the change; write before: ratio, bore"),
        ("pedal", "before: 5, 19 mm, bar 50 %", "pedal has a balance bar and one cylinder; write the rear-bore too"),
        ("front", "before: disc, 54 mm, 105 mm; before: disc, 48 mm, 105 mm", 'front has two rows "before"; write each state once'),
        ("front", "before: disc, 54 mm, 105 mm; after: twin-leading, 22 mm", "front must have a radius after the change; write after: brake, bore, radius"),
        ("rear", "before: disc, 54 mm, 350 mm", "rear has a rubbing radius that is not within the tyre; measure it again, or write the radius and not the diameter"),
        ("weights", "a: 470 kg, 430 kg, 500 mm; a: 470 kg, 430 kg, 500 mm", 'weights has two rows "a"; call each load something else'),
        ("weights", "a: 470 kg, 100 kg, 900 mm", "weights would lift the rear wheels at 0.45 g with a; read heights, wheelbase and weights again, or write a smaller deceleration"),
    ],
)  # fmt: skip
def test_car__that_cannot_be_is_refused(key: str, text: str, told: str) -> None:
    assert [told] == mistakes_of("brake-balance", CAR | {key: text})


def test_weight__that_an_axle_cannot_have_alone() -> None:
    # Standing still every newton lies on one axle or the other.
    load = Load(470 * GRAVITY, 430 * GRAVITY, 2300, 500)
    assert load.weight == pytest.approx(sum(load.axles(0.7)))

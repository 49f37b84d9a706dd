"""The centre of gravity by tilting: what the scales gain with one axle up."""

from math import asin, atan2, cos, hypot, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # sin = 1500 / 2550, tan = 0.7274; 250 x 2550 / (1050 x 0.7274) + 353 = 1188 mm.
        "Exercise on the centre of gravity of a car (askfilo.com 3430373733313132), front axle raised by 1.5 m; answered by hand",
        {
            "wheelbase": "2550 mm", "front": "620 kg", "rear": "430 kg", "raised": "front",
            "lifted": "680 kg", "lift": "1.5 m", "hub": "353 mm",
        },
        {"height": "1188 mm", "behind": "1044 mm"},
    ),
    Example(
        # 1000 kg, half on each axle, 2400 mm, 540 mm up and hubs at 300: raised by 480 mm the tangent is
        # 0.2041 and the front gains 1000 x 240 x 0.2041 / 2400 = 20.41 kg.
        "Height above ground of the centre of gravity (openbooks.link): h = (b - L R / W) cot angle + r; worked backwards by hand",
        {
            "wheelbase": "2400 mm", "front": "500 kg", "rear": "500 kg", "lifted": "520.41 kg",
            "lift": "480 mm", "hub": "300 mm",
        },
        {"height": "540 mm", "behind": "1200 mm"},
    ),
)  # fmt: skip

CAR = {"wheelbase": "2400 mm", "front": "500 kg", "rear": "460 kg", "hub": "300 mm"}


def _exact(written: dict[str, str]) -> dict[str, float]:
    worked = answer_of("centre-of-gravity", written).worked
    return {r.name: float(r.exact) for r in worked.results if r.exact is not None}


@given(st.floats(380, 700), st.floats(0.35, 0.65), st.floats(300, 1000), st.booleans())
def test_height__is_that_of_a_car_turned_about_its_hub(
    height: float, share: float, lift: float, rear_up: bool
) -> None:
    """Turns the centre of gravity about the hub that stays down and weighs by moments, from scratch."""
    wheelbase, mass, hub = 2400.0, 960.0, 300.0
    angle = asin(lift / wheelbase)
    # From the hub that stays down: along the car, and up.
    along = wheelbase * (share if rear_up else 1 - share)
    reach, slope = hypot(along, height - hub), atan2(height - hub, along)
    turned = reach * cos(slope + angle)
    raised_carries = mass * turned / (wheelbase * cos(angle))
    written = {
        "wheelbase": "2400 mm", "front": f"{mass * (1 - share):.9f} kg", "rear": f"{mass * share:.9f} kg",
        "raised": "rear" if rear_up else "front", "lifted": f"{mass - raised_carries:.9f} kg",
        "lift": f"{lift:.9f} mm", "hub": "300 mm",
    }  # fmt: skip
    exact = _exact(written)
    assert exact["height"] == pytest.approx(height, abs=1e-3)
    assert exact["behind"] == pytest.approx(wheelbase * share, abs=1e-3)
    assert sin(angle) * wheelbase == pytest.approx(lift)


def test_give__shrinks_with_the_lift() -> None:
    low, high = (_exact(CAR | {"lifted": "530 kg", "lift": lift})["give"] for lift in ("500 mm", "900 mm"))  # fmt: skip
    assert high < low


def test_hubs__of_two_heights_count_where_the_weight_lies() -> None:
    # 460 / 960 of the way from 300 to 348 mm is 23 mm more.
    one, two = (
        _exact(CAR | {"lifted": "520 kg", "lift": "480 mm"} | more)["height"]
        for more in ({}, {"hub-rear": "348 mm"})
    )
    assert two - one == pytest.approx(23)


def test_verdict__tells_how_sure_it_is() -> None:
    # tan 3 deg = 0.05241; 12 x 2400 / (960 x 0.05241) = 572 is beyond any car: 6 kg give 286 + 300;
    # 2 x 2 kg give 191 mm either way.
    worked = answer_of(
        "centre-of-gravity", CAR | {"lifted": "506 kg", "angle": "3 deg", "scales": "2 kg"}
    ).worked
    assert (
        "The centre of gravity lies 586 mm above the road, give or take 191 mm, and 1150 mm behind the front axle."
    ) == worked.verdict
    assert worked.warnings[0].startswith("The scales leave the height open by more than a tenth")


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ({"lifted": "520 kg"}, "lift is not told, and no angle either; write one of them"),
        ({"lifted": "520 kg", "lift": "500 mm", "angle": "10 deg"}, "lift is told and angle too; write one of them"),
        ({"lifted": "490 kg", "lift": "500 mm"}, "lifted must be more than that axle weighs level, 500 kg; weigh the axle that stays down, with the other one up"),
        ({"lifted": "970 kg", "lift": "500 mm"}, "lifted must be less than the whole car; read the scales again"),
        ({"lifted": "900 kg", "lift": "60 mm"}, "lifted gives a height that no car has; see which axle was on the scales, the lift, and every weight again"),
        ({"lifted": "520 kg", "lift": "1.9 m"}, "lift is more than any car can be tilted by; write how far the hub rose"),
    ],
)  # fmt: skip
def test_tilt__that_cannot_be_is_refused(written: dict[str, str], told: str) -> None:
    assert [told] == mistakes_of("centre-of-gravity", CAR | written)

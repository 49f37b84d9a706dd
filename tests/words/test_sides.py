"""Sides of a car in names and notes."""

import pytest

from journal.words.sides import Side, side_in, value_names, without_side


@pytest.mark.parametrize(
    ("text", "side", "rest"),
    [
        ("front lining thickness, near side", Side.NEAR, "front lining thickness"),
        ("door gap off side", Side.OFF, "door gap"),
        ("Near-side sill height", Side.NEAR, "sill height"),
        ("brakes/front-near-side", Side.NEAR, "brakes/front"),
        ("brakes/off-side-front", Side.OFF, "brakes/front"),
        ("body/sill-left-rear", Side.LEFT, "body/sill-rear"),
        ("left-hand door gap", Side.LEFT, "door gap"),
        ("o/s headlamp drop", Side.OFF, "headlamp drop"),
        ("pipe, right, at the union", Side.RIGHT, "pipe, at the union"),
        ("laygear end float", None, "laygear end float"),
        ("brightness", None, "brightness"),
        ("header gap, near side and off side", None, "header gap, near side and off side"),
    ],
)
def test_side__is_taken_from_a_name(text: str, side: Side | None, rest: str) -> None:
    assert side == side_in(text)
    assert rest == without_side(text)


def test_note__names_the_values_when_it_has_as_many_names() -> None:
    assert ("Near side", "off side") == value_names("Near side, off side; settled", 2)
    assert () == value_names("Near side, off side; settled", 3)
    assert () == value_names("In primer", 1)
    assert () == value_names(None, 2)
    assert () == value_names("front,, rear", 3)

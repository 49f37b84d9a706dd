"""Plating of shafts and bores: twice on the diameter, plated to size or ground after, worn parts brought back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        "Bushes of 166.5 mm brought to 168 mm by 0.75 mm of chrome on each side (finishing.com, topic 401/36)",
        {"finished": "168 mm", "thickness": "0.75 mm", "now": "166.5 mm"},
        {"before-least": "166.5 mm", "before-most": "166.5 mm", "needed": "0.75 mm"},
    ),
    Example(
        # 0.004 in on the diameter is 0.002 in on each side; the diameter of 1 in is ours.
        "Hard chrome plating tolerance, sterc.org, October 2008: 0.004 in in all, 0.002 in a side",
        {"finished": "1.000 in", "thickness": "0.002 in"}, {"before-least": "0.996 in", "before-most": "0.996 in"},
    ),
    Example(
        # The same answer: over-plated 0.001 to 0.003 in on each side, ground to size.
        "Hard chrome plating tolerance, sterc.org: over-plated 0.003 in a side before grinding, on 1 in",
        {"finished": "1.000 in", "thickness": "0.002..0.004 in", "grind": "0.003 in"},
        {"bath": "1.006 in", "before-least": "0.992 in", "before-most": "0.996 in", "layer": "0.007 in"},
    ),
    Example(
        # ISO 286-2: 25 h6 is 24.987 to 25.000. Plated to size with 5 to 8 micron: 24.977 to 24.984.
        "ISO 286-2 limits of 25 h6, from memory; worked by hand for 5 to 8 micron",
        {"finished": "24.987..25.000 mm", "thickness": "5..8 micron"},
        {"before-least": "24.977 mm", "before-most": "24.984 mm"},
    ),
)  # fmt: skip

SHAFT = {"finished": "24.987..25.000 mm", "thickness": "0.05..0.15 mm", "grind": "0.05 mm"}


@pytest.mark.parametrize(
    ("now", "verdict", "right"),
    [
        # (25.000 - 24.86) / 2 = 0.07 and the high place stands above 24.887.
        ("24.93, 24.86 mm", "Grind it true first, to between 24.700 and 24.887 mm; plate to 25.100 mm at least, and grind to size.", True),
        ("24.86, 24.85 mm", "Plate to 25.100 mm at least, and grind to size.", True),
        (
            "24.60, 24.90 mm",
            "Worn too far: the worst place is 24.600 mm, beyond 24.700 mm; sleeve it, build it up otherwise or renew it.",
            False,
        ),
    ],
)  # fmt: skip
def test_worn_shaft__is_brought_back_or_not(now: str, verdict: str, right: bool) -> None:
    worked = answer_of("shaft-plating", {**SHAFT, "now": now}).worked
    assert (verdict, right) == (worked.verdict, worked.right)


@pytest.mark.parametrize(
    ("now", "verdict"),
    [
        # 24.977 to 24.984 before, for 5 to 8 micron and no grinding.
        ("24.980 mm", "Plate it as it is."),
        ("24.975 mm", "Worn too far: the worst place is 24.975 mm, beyond 24.977 mm; sleeve it, build it up otherwise or renew it."),
        ("24.990 mm", "Grind it true first, to between 24.977 and 24.984 mm; then plate."),
    ],
)  # fmt: skip
def test_shaft__that_is_plated_to_size_must_be_of_the_size_before(now: str, verdict: str) -> None:
    written = {**SHAFT, "thickness": "5..8 micron", "grind": "0 mm", "now": now}
    assert verdict == answer_of("shaft-plating", written).worked.verdict


def test_limits__too_close_for_the_plating_ask_for_grinding() -> None:
    worked = answer_of("shaft-plating", {**SHAFT, "grind": "0 mm"}).worked
    assert (
        "The limits are too close for plating that differs so much: have it plated over size and ground."
    ) == worked.verdict
    assert worked.right is False


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"finished": "1..1.1 mm", "thickness": "0.6..0.7 mm"}, "thickness is more than the diameter can hold; read both again"),
        ({"thickness": "0.15..0.05 mm"}, 'thickness must have its smaller end first, found "0.15..0.05 mm"; write 0.05..0.15 mm'),
        ({"part": "hole"}, 'part cannot be "hole"; write shaft or bore'),
        ({"now": "24.93 mm, worn"}, 'now must be a length, found "worn"; write it in mm, in or thou'),
    ],
)  # fmt: skip
def test_what_cannot_be__is_refused(changed: dict[str, str], said: str) -> None:
    assert [said] == mistakes_of("shaft-plating", {**SHAFT, **changed})


micron = st.integers(1, 60)


@given(micron, micron, micron, st.booleans(), st.booleans())
def test_part__of_the_size_before_is_right_after_plating_thin_or_thick(
    least: int, more: int, room: int, bore: bool, ground: bool
) -> None:
    most = least + more
    low, high = 20000, 20000 + room
    written = {
        "finished": f"{low}..{high} micron", "thickness": f"{least}..{most} micron",
        "part": "bore" if bore else "shaft", "grind": "10 micron" if ground else "0 micron",
    }  # fmt: skip
    found = {r.name: r.exact for r in answer_of("shaft-plating", written).worked.results}
    sign = -1 if bore else 1
    possible = 2 * (most - least) >= room if ground else room >= 2 * (most - least)
    assert possible == ("before-least" in found)
    for name in ("before-least", "before-most") if possible else ():
        exact = found[name]
        assert exact is not None
        before = exact * 1000
        if ground:
            left = [sign * (end - before) / 2 for end in (low, high)]
            assert all(least <= each <= most for each in left)
        else:
            assert all(low <= before + sign * 2 * t <= high for t in (least, most))

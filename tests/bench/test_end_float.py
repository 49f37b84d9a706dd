"""End float: what must be added between two limits, and which washers do it."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

MANUAL = "US Army TM 5-4210-233-14&P-2, 6-29, table c (firetrucksandequipment.tpub.com): standard below 0.016 in, "

EXAMPLES = (
    Example(
        # 0.47 - 0.11 = 0.36 and 0.47 - 0.06 = 0.41: "the pack must be within 0.36 mm and 0.41 mm".
        "Countershaft end play, example 1, service manual of a truck gearbox (easymanua.ls, fso-2105, page 95)",
        {"float": "0.47 mm", "limit": "0.06..0.11 mm", "fitted": "0 mm"},
        {"add-least": "0.36 mm", "add-most": "0.41 mm", "new-least": "0.36 mm", "new-most": "0.41 mm"},
    ),
    Example(
        # 0.017 to 0.026 in: 0.005 in oversize each, which leaves 0.007 to 0.016 in.
        MANUAL + "0.005 in oversize for 0.017 to 0.026 in; the limits are those that the table leaves",
        {"float": "0.022 in", "limit": "0.007..0.016 in", "sizes": "0.005, 0.010 in"},
        {"choice": "5 thou thicker on both faces", "then": "12 thou"},
    ),
    Example(
        MANUAL + "0.010 in oversize for 0.027 to 0.036 in",
        {"float": "0.032 in", "limit": "0.007..0.016 in", "sizes": "0.005, 0.010 in"},
        {"choice": "10 thou thicker on both faces", "then": "12 thou"},
    ),
    Example(
        # 1.93 - 0.17 = 1.76 and 1.93 - 0.11 = 1.82 hold the middle, 1.79, of which the manual says 1.80 is best.
        "Thrust clearance of a mainshaft 0.11 to 0.17 mm, reading 1.93 mm (garethcivicshopmanual.z21.web.core.windows.net)",
        {"float": "1.93 mm", "limit": "0.11..0.17 mm", "fitted": "0 mm", "sizes": "1.75, 1.80, 1.85, 1.90 mm", "faces": "1"},
        {"new-least": "1.76 mm", "new-most": "1.82 mm", "choice": "1.80 mm thicker", "then": "0.13 mm"},
    ),
)  # fmt: skip


def test_float__that_is_right_needs_nothing() -> None:
    worked = answer_of("end-float", {"float": "0.10 mm", "limit": "0.05..0.15 mm"}).worked
    assert "End float is right, within 0.05 to 0.15 mm; nothing to do." == worked.verdict
    assert ["float"] == [result.name for result in worked.results]


def test_float__that_is_too_small_is_told_as_less_thickness() -> None:
    worked = answer_of(
        "end-float", {"float": "0.02 mm", "limit": "0.06..0.11 mm", "sizes": "-0.05 mm"}
    ).worked
    assert (
        "Too little float: 0.04 to 0.09 mm less thickness brings it within 0.06 to 0.11 mm. "
        "Of the sizes that can be had: as fitted on one face, 0.05 mm thinner on the other."
    ) == worked.verdict
    assert [
        "Too little float may be dirt, a washer the wrong way round or a part not home: look before a washer is thinned."
    ] == list(worked.warnings)


def test_float__that_differs_more_than_the_limits_is_not_cured_by_thickness() -> None:
    worked = answer_of("end-float", {"float": "4, 10 thou", "limit": "2..5 thou"}).worked
    assert (
        "The float differs more as it is turned than the limits of 2 to 5 thou are apart: no thickness can put that right."
    ) == worked.verdict
    assert (
        "The float differs by 6 thou as it is turned: a face runs out, a washer is bent or dirt is behind it. Find the reason "
        "before anything is made thicker."
    ) == worked.warnings[0]


def test_sizes__none_of_which_will_do_are_said_so() -> None:
    worked = answer_of(
        "end-float", {"float": "0.40 mm", "limit": "0.05..0.15 mm", "sizes": "0.06 mm"}
    ).worked
    assert worked.verdict.endswith(
        "Of the sizes that can be had: none brings it within its limits."
    )


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"faces": "3"}, 'faces must be between 1 and 2, found "3"; read it again'),
        ({"limit": "0.15..0.05 mm"}, 'limit must have its smaller end first, found "0.15..0.05 mm"; write 0.05..0.15 mm'),
        ({"float": "-0.1 mm"}, 'float must be between 0 mm and 50 mm, found "-0.1 mm"; read it again'),
        (
            {"float": "0 mm", "limit": "0.5..0.6 mm", "fitted": "0.1 mm"},
            "fitted is less than what must come out, found 0.1 mm; measure the float and the shims again",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be__is_refused(changed: dict[str, str], said: str) -> None:
    assert [said] == mistakes_of(
        "end-float", {"float": "0.2 mm", "limit": "0.05..0.15 mm", **changed}
    )


hundredths = st.integers(0, 60)


@given(st.lists(hundredths, min_size=1, max_size=4), hundredths, hundredths)
def test_thickness__between_the_two_brings_every_reading_within(
    readings: list[int], low: int, more: int
) -> None:
    limit = f"{low}/100..{low + more}/100 mm"
    written = {"float": ", ".join(f"{n}/100 mm" for n in readings), "limit": limit}
    worked = answer_of("end-float", written).worked
    results = {result.name: result.exact for result in worked.results}
    if worked.right:
        assert all(low <= n <= low + more for n in readings)
    elif "add-least" in results:
        for add in (results["add-least"], results["add-most"]):
            assert add is not None
            assert all(low <= n - Fraction(add) * 100 <= low + more for n in readings)
    else:
        assert max(readings) - min(readings) > more

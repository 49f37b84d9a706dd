"""Springs on the press: the slope between readings, and a pair."""

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # R = (P2 - P1) / (L1 - L2): from 0.750 in free, 22 lbf/in carry 5.5 lbf at 0.500 in.
        "Determining rate and load (planetspring.com): 22 lbf/in, 5.5 lbf at 0.500 in",
        {"readings": "0.750 in x 0 lbf, 0.250 x 11 lbf", "fitted": "0.500 in"},
        {"rate": "22 lbf/in", "load": "5.5 lbf", "free": "0.750 in"},
    ),
    Example(
        "What a spring rate means (atxholiday.austintexas.org): 100 lbf compress a spring of 100 lbf/in by 1 in",
        {"readings": "12 in x 0 lbf, 11 x 100 lbf"},
        {"rate": "100 lbf/in", "free": "12 in"},
    ),
)


def _exact(written: dict[str, str]) -> dict[str, Fraction]:
    worked = answer_of("spring-test", written).worked
    return {r.name: Fraction(r.exact) for r in worked.results if r.exact is not None}


readings = st.lists(
    st.tuples(st.integers(100, 400), st.integers(0, 40)), min_size=3, max_size=8,
    unique_by=lambda each: each[0],
)  # fmt: skip


@given(readings, st.integers(5, 60))
def test_rate__is_the_slope_that_numpy_fits(stray: list[tuple[int, int]], rate: int) -> None:
    lengths = [length for length, _ in stray]
    loads = [rate * (450 - length) + off for length, off in stray]
    written = ", ".join(
        f"{length} mm x {load} N" for length, load in zip(lengths, loads, strict=True)
    )
    slope, start = np.polyfit(lengths, loads, 1)
    if slope > -0.5:
        return
    exact = _exact({"readings": written})
    assert pytest.approx(-slope, rel=1e-6) == float(exact["rate"])
    assert pytest.approx(-start / slope, rel=1e-6) == float(exact["free"])
    worst = max(
        abs(load - (slope * length + start)) for length, load in zip(lengths, loads, strict=True)
    )
    assert pytest.approx(worst, abs=1e-4) == float(exact["off-line"])


def test_verdict__holds_it_against_the_maker_and_its_fellow() -> None:
    # 20 N/mm from 350 and from 344 mm: at 250 mm 2000 and 1880 N; 6 mm apart at the same load.
    worked = answer_of(
        "spring-test",
        {
            "readings": "300 mm x 1000 N, 200 x 3000 N",
            "other": "300 mm x 880 N, 200 x 2880 N",
            "fitted": "250 mm",
            "wanted": "1900..2100 N",
        },
    ).worked
    assert worked.right is False
    assert (
        "The spring has a rate of 20.0 N/mm and a free length of 350 mm. At 250 mm it carries 2000 N and the other 1880 N; "
        "that does not keep the 1900 to 2100 N that are wanted. At the same load the two stand 6 mm apart: no pair; the car would lean."
    ) == worked.verdict
    assert (
        "First spring, two readings tell nothing of a slip; take three or more.",
        "Other spring, two readings tell nothing of a slip; take three or more.",
    ) == worked.warnings


def test_reading__off_the_line_is_told() -> None:
    worked = answer_of(
        "spring-test", {"readings": "300 mm x 1000 N, 250 x 2600 N, 200 x 3000 N"}
    ).worked
    assert worked.warnings[0].startswith("A reading lies ")


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ({"readings": "300 mm x 1000 N"}, "readings must be at two lengths or more; write length x load, such as 250 mm x 1800 N, 220 x 2700"),
        ({"readings": "300 mm x 1000 N, 200 x 900 N"}, "readings must have more load at less length; write each as length x load, in that order"),
        ({"readings": "300 mm x 1000 N, 200 x 3000 N", "wanted": "2 kN"}, "fitted is not told, and a load is wanted; write the length at which it is to be carried"),
    ],
)  # fmt: skip
def test_readings__that_cannot_be_are_refused(written: dict[str, str], told: str) -> None:
    assert [told] == mistakes_of("spring-test", written)

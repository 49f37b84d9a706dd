"""Counting by weight: as many as the weight says, only where the scale can tell, and what is short."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # 340 / 25 = 13.6 g each; a hundred of them weigh 1360 g.
        "Counting with a scale, ja.laermfeuer.org 285878: 25 pieces of 340 g are 13.6 g each; the batch of 1360 g is ours",
        {"sample": "25", "sample-weight": "340 g", "gross": "1360 g"}, {"each": "13.6 g", "pieces": "100"},
    ),
    Example(
        "Screws of 2.5 g each, 500 g in all (cal53.calculator.city, counting by weight): 500 / 2.5 = 200",
        {"sample": "100", "sample-weight": "250 g", "gross": "500 g"}, {"each": "2.5 g", "pieces": "200", "count": "200.00"},
    ),
)  # fmt: skip

# 25 pieces of 24 g, 211 of which weigh 5064 g, in a box of 880 g.
BACK = {
    "sample": "25", "sample-weight": "600 g", "gross": "5944 g", "tare": "880 g", "sent": "214",
    "what": "chassis bolts",
}  # fmt: skip


def test_batch__that_is_short_is_told_by_how_many() -> None:
    worked = answer_of("batch-count", BACK).worked
    assert ("211 pieces: 3 short of 214 sent.", False) == (worked.verdict, worked.right)
    assert (
        "211 chassis bolts, 5064 g net; sample of 25 at 600 g; 214 sent; 3 short; by weight"
    ) == worked.results[-1].words
    # 211 x 0.5 / 600 + 1 / 24 = 0.22.
    assert "0.22" == next(r.words for r in worked.results if r.name == "unsure")


def test_batch__that_is_whole_is_right() -> None:
    worked = answer_of("batch-count", {**BACK, "gross": "6016 g"}).worked
    assert ("214 pieces: all of 214 are there.", True) == (worked.verdict, worked.right)


def test_scale__that_cannot_tell_says_so_and_how_many_to_count_out() -> None:
    # 5 pieces of 24 g at 120 g: 211 x 0.5 / 120 + 1 / 24 = 0.92; sure above 211 x 0.5 / (0.458 x 24) = 9.6.
    worked = answer_of("batch-count", {**BACK, "sample": "5", "sample-weight": "120 g"}).worked
    assert (
        "About 211 pieces, give or take 1, of 214 sent: not sure by weight, count them by hand."
    ) == worked.verdict
    assert (
        "Count out 11 or more for the sample, and the scale is sure; or weigh them in smaller lots."
        == worked.warnings[0]
    )
    assert answer_of(
        "batch-count", {**BACK, "sample": "11", "sample-weight": "264 g"}
    ).worked.verdict.startswith("211 pieces:")


def test_scale__that_is_too_coarse_for_any_sample_is_said_so() -> None:
    worked = answer_of("batch-count", {**BACK, "division": "50 g"}).worked
    assert (
        "This scale cannot tell them apart: weigh them in smaller lots, use a finer scale, or count by hand."
    ) == worked.warnings[0]


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"tare": "6 kg"}, "gross must be more than tare, found 5944 g; weigh the full box, then the empty one"),
        ({"sample": "25.5"}, 'sample must be a whole number, found "25.5"; write it in figures, such as 4'),
        ({"gross": "5944 N"}, 'gross must be a weight, found "5944 N"; write it in kg, g or lb'),
        ({"sample-weight": "0 g"}, 'sample-weight must be between 0.1 g and 100 kg, found "0 g"; read it again'),
    ],
)  # fmt: skip
def test_what_cannot_be__is_refused(changed: dict[str, str], said: str) -> None:
    assert [said] == mistakes_of("batch-count", {**BACK, **changed})


@given(st.integers(1, 3000), st.integers(1, 200), st.integers(1, 500), st.integers(0, 900))
def test_pieces__that_weigh_alike_are_counted_exactly(
    pieces: int, sample: int, tenths: int, tare: int
) -> None:
    each = Fraction(tenths, 10)
    written = {
        "sample": str(sample), "sample-weight": f"{sample * tenths}/10 g" if sample * tenths < 10000 else f"{float(sample * each)} g",
        "gross": f"{float(pieces * each + tare)} g", "tare": f"{tare} g", "division": "0.001 g",
    }  # fmt: skip
    results = {r.name: r.exact for r in answer_of("batch-count", written).worked.results}
    assert (pieces, pieces) == (results["count"], results["pieces"])

"""Mixing: published ratios, and parts that add up whatever the ratio."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # 4 + 1 + 1 = 6 parts, 600 / 6 = 100 ml each.
        "4 : 1 : 1 and 600 ml, clacs-now.pages.dev/other/paint-mixing-calculator, The formula",
        {"ratio": "4:1:1", "ready": "600 ml"},
        {"first-part": "400 ml", "second-part": "100 ml", "third-part": "100 ml"},
    ),
    Example(
        # 32 oz of paint, 8 oz of hardener, 8 oz of reducer, 48 oz in all.
        "4:1:1 for 32 oz of base, formulafactory.tools, paint mixing ratio chart",
        {"ratio": "4:1:1", "stock": "32 fl oz"},
        {"ready": "48.0 fl oz", "second-part": "8.0 fl oz", "third-part": "8.0 fl oz"},
    ),
    Example(
        "10:1 for 32 oz of base: 3.2 oz of the second, the same chart reckoned by hand",
        {"ratio": "10 : 1", "stock": "32 fl oz"},
        {"second-part": "3.2 fl oz", "ready": "35.2 fl oz"},
    ),
    Example(
        # "4 parts of paint for each part of hardener, including 10 % of thinner of the total (paint + hardener)": 400 + 100 + 50.
        "4:1:10 %, greenyplace.com, How do you calculate paint thinner ratio",
        {"ratio": "4:1:10%", "ready": "550 ml"},
        {"first-part": "400 ml", "second-part": "100 ml", "third-part": "50 ml"},
    ),
)


def test_cup__tells_marks_and_scales_after_each_part() -> None:
    # A cup of 100 mm holds 7.854 ml on each millimetre. 400 ml at 1.25, 100 at 1.05 and 50 at 0.87 g.
    worked = answer_of(
        "paint-mix",
        {
            "ratio": "4:1:10%", "names": "colour, hardener, thinner", "ready": "550 ml",
            "densities": "1.25, 1.05, 0.87", "cup": "100 mm",
        },
    ).worked  # fmt: skip
    assert (
        ("colour", "400 ml", "400 ml", "51 mm", "500 g"),
        ("hardener", "100 ml", "500 ml", "64 mm", "605 g"),
        ("thinner", "50 ml", "550 ml", "70 mm", "649 g"),
    ) == worked.grids[0].rows
    assert (
        "For 550 ml, pour in this order: 400 ml of colour, 100 ml of hardener and 50 ml of thinner."
        == worked.verdict
    )


@pytest.mark.parametrize(
    ("wrong", "mistake"),
    [
        ({"ratio": "4"}, 'ratio must be two to four parts, found "4"; write it as on the tin, such as 4 : 1 : 1 or 4 : 1 : 10 %'),
        ({"ratio": "4:1:some"}, 'ratio must be two to four parts, found "4:1:some"; write it as on the tin, such as 4 : 1 : 1 or 4 : 1 : 10 %'),
        ({"ratio": "10 %:4"}, 'ratio must be two to four parts, found "10 %:4"; write it as on the tin, such as 4 : 1 : 1 or 4 : 1 : 10 %'),
        ({"ratio": "4:1", "stock": "1 l"}, "ready cannot be given together with stock; give how much is wanted ready to spray, or how much there is of the first part"),
        ({"ratio": "4:1", "names": "paint"}, "names must be as many as the ratio has, 2, found 1"),
        ({"ratio": "4:1", "ready": "600 mm"}, 'ready must be a volume, found "600 mm"; write it in cc, l or pint'),
    ],
)  # fmt: skip
def test_mistake__is_one_sentence(wrong: dict[str, str], mistake: str) -> None:
    assert [mistake] == mistakes_of("paint-mix", {"ready": "600 ml"} | wrong)


@given(st.lists(st.integers(1, 40), min_size=2, max_size=4), st.integers(10, 5000))
def test_parts__add_up_and_keep_their_ratio(numbers: list[int], ready: int) -> None:
    written = {"ratio": ":".join(map(str, numbers)), "ready": f"{ready} ml"}
    exact = [Fraction(r.exact or 0) for r in answer_of("paint-mix", written).worked.results]
    assert ready == exact[0] == sum(exact[1:])
    assert len({volume / number for volume, number in zip(exact[1:], numbers, strict=True)}) == 1

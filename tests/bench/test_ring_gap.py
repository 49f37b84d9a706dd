"""Ring gaps: by the maker's limits or by the rule, what is filed off, and what a larger bore does."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # 4.030 x 0.0045 = 0.018 in (top), 4.030 x 0.0050 = 0.020 in (second); both printed to three places.
        "Precision engine measuring, The Shop, January 2019, page 63 (nbm.uberflip.com), bore 4.030 in",
        {"bore": "4.030 in", "rings": "1: 0.019 in", "rule": "0.0045..0.0050"},
        {"wanted-least": "0.018 in", "wanted-most": "0.020 in"},
    ),
    Example(
        # "a ring for a 3 in bore would have a .006 to .009 end gap" at 0.002 to 0.003 for each inch.
        "Rule of thumb for end gaps, yesterdaystractors.com garden tractor forum, thread 44622",
        {"bore": "3 in", "rings": "1: 0.005 in", "rule": "0.002..0.003"},
        {"wanted-least": "0.006 in", "wanted-most": "0.009 in", "file": "0.001 in"},
    ),
    Example(
        # A ring 0.010 in too large overlaps by pi times as much: 0.0314 in, worked by hand.
        "Why an oversize ring overlaps, same thread (larger in circumference); circumference = pi times diameter",
        {"bore": "3 in", "rings": "1: 0.009 in", "limit": "0.006..0.009 in", "worn": "3.010 in"},
        {"at-top": "0.0404 in"},
    ),
    Example(
        # Above 0.008 for each inch the bore is oversize: 3 in with 0.0335 in of gap is 0.003 in over 0.024.
        "Hastings service tip on oversize cylinders: more than 0.008 in for each inch of bore; the division by pi is worked here",
        {"bore": "3 in", "rings": "1: 0.0334 in"},
        {"wanted-least": "0.0105 in", "wanted-most": "0.024 in", "oversize": "0.0030 in"},
    ),
)

FOUR = {
    "bore": "3.000 in",
    "rings": "1 top: 8 thou, 2 thou; 1 second: 15, 1; 2 top: 10, 4; 2 second: 13, 2",
    "limit": "9..13 thou",
    "side-limit": "1.5..3 thou",
}


def test_rings__are_judged_one_by_one() -> None:
    worked = answer_of("ring-gap", FOUR).worked
    assert [
        ("1 top", "8 thou", "2 thou", "gap too small"),
        ("1 second", "15 thou", "1 thou", "gap too wide, too tight in the groove"),
        ("2 top", "10 thou", "4 thou", "too loose in the groove"),
        ("2 second", "13 thou", "2 thou", "right"),
    ] == list(worked.grids[0].rows)
    assert (
        "Not right against 9 to 13 thou: 1 top (gap too small), 1 second (gap too wide, too tight in the groove) and "
        "2 top (too loose in the groove). File 1 thou off 1 top; another ring for 1 second, or an oversize one filed to fit; "
        "clean the groove of 1 second, or find the ring that belongs there; the groove of 2 top is worn: another piston, or "
        "the groove trued for a wider ring."
    ) == worked.verdict


def test_worn_bore__is_told_of_where_new_rings_would_hide_it() -> None:
    worked = answer_of("ring-gap", {**FOUR, "rings": "1: 12 thou", "worn": "3.003 in"}).worked
    # 12 + pi x 3 = 21.4 thou.
    assert worked.right
    assert [
        "The bore is worn so that a ring that is right below opens to 21.4 thou at the top. New rings do not cure a worn bore."
    ] == list(worked.warnings)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"worn": "2.990 in"}, "worn is smaller than bore, found 2.990 in; the bore wears at the top of the travel: measure both again"),
        ({"rings": "1: 8 thou; 1: 9 thou"}, 'rings has "1" twice; give every ring its own name'),
        ({"rings": "1: 8 psi"}, 'rings has a gap that must be a length, found "8 psi"; write it in mm, in or thou'),
        ({"rings": "8 thou, 9 thou"}, 'rings has a reading where the name of a row stands, found "8 thou, 9 thou"; write ring: gap, side'),
        ({"bore": "3.000"}, 'bore must be a length with its unit, found "3.000"; write 3.000 mm, 3.000 in or 3.000 thou'),
    ],
)  # fmt: skip
def test_readings__that_cannot_be_are_refused(changed: dict[str, str], said: str) -> None:
    assert [said] == mistakes_of("ring-gap", {**FOUR, **changed})


@given(st.integers(0, 400), st.integers(1, 100))
def test_gap__at_the_top_grows_by_pi_times_the_wear(gap: int, wear: int) -> None:
    written = {"bore": "80 mm", "rings": f"1: {gap}/100 mm", "worn": f"{8000 + wear}/100 mm"}
    results = {r.name: r.exact for r in answer_of("ring-gap", written).worked.results}
    assert results["at-top"] == pytest.approx((gap + math.pi * wear) / 100)


def test_gap__that_the_maker_gives_is_told_in_the_working() -> None:
    worked = answer_of("ring-gap", {**FOUR, "rings": "1: 12 thou"}).worked
    assert ("gap wanted, by the maker: 9 to 13 thou",) == worked.steps

"""Coolant: draining problems of textbooks, and freezing points of a reference library."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.bench.coolant_strength import table_of
from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        "20 quarts of 55 %, by an 80 % solution to 70 %: 12 quarts, algebra.com, Mixture word problems, question 418175 (litres here)",
        {"capacity": "20 l", "now": "55 %", "fresh": "80 %", "wanted": "70 %"},
        {"drain": "12.00 l"},
    ),
    Example(
        "7 quarts of 35 % to 50 % by pure antifreeze: 1.62 quarts, socratic.org, Mr. Fairwrench's radiator",
        {"capacity": "7 l", "now": "35 %", "wanted": "50 %"},
        {"drain": "1.62 l", "fresh-volume": "1.62 l"},
    ),
    Example(
        "16 gallons of 40 %, by a 75 % solution to 45 %: 16 x 5/35 = 16/7, cliffsnotes.com, Algebra II, mixture, example 1 (answer by hand)",
        {"capacity": "16 l", "now": "40 %", "fresh": "75 %", "wanted": "45 %"},
        {"drain": "2.29 l"},
    ),
    Example(
        "Half antifreeze and half water freezes at -37 C, 56 % at -46 C, cooling system of a 2000 Voyager, myvehicle.help",
        {"capacity": "10 l", "wanted": "50 %"},
        {"safe": "-37 C", "fresh-volume": "5.00 l", "water": "5.00 l"},
    ),
    Example(
        "The same, 56 % and 44 % of water freeze at -46 C",
        {"capacity": "10 l", "wanted": "56 %"},
        {"safe": "-46 C"},
    ),
)

# Volume in % and temperature in C at which ice begins, CoolProp 8.0.0, fluids INCOMP::AEG and INCOMP::APG
# (both of the ASHRAE Handbook 2001), PropsSI("T_freeze").
COOLPROP = {
    "ethylene": {20: -8.98, 25: -12.12, 30: -15.70, 35: -19.88, 40: -24.80, 45: -30.54, 50: -37.11, 55: -44.37},
    "propylene": {20: -7.38, 25: -9.97, 30: -13.11, 35: -16.91, 40: -21.51, 45: -27.03, 50: -33.66, 55: -41.59},
}  # fmt: skip
# Propylene glycol by volume in % and C, Lange's Handbook, 15th edition, table 5.13 (yumpu.com 21974083,
# page 458, where the minus signs are lost).
LANGE = {20: -6.7, 25: -8.9, 30: -12.8, 35: -16.1, 40: -20.6, 45: -26.7, 50: -33.3}


@pytest.mark.parametrize("glycol", ["ethylene", "propylene"])
def test_freezing__is_that_of_the_library(glycol: str) -> None:
    table = table_of(glycol)
    for strength, cold in COOLPROP[glycol].items():
        assert pytest.approx(cold, abs=0.45) == float(table.freezes(Fraction(strength)))


def test_freezing__of_propylene_glycol_is_that_of_the_handbook() -> None:
    table = table_of("propylene")
    for strength, cold in LANGE.items():
        assert pytest.approx(cold, abs=1.2) == float(table.freezes(Fraction(strength)))


@given(st.sampled_from(["ethylene", "propylene"]), st.integers(1, 550))
def test_strength__and_freezing_point_turn_into_each_other(glycol: str, tenths: int) -> None:
    table, strength = table_of(glycol), Fraction(tenths, 10)
    assert strength == table.strength(table.freezes(strength))


@given(st.integers(0, 60), st.integers(1, 60), st.integers(60, 100), st.integers(1, 20))
def test_strength__is_as_wanted_once_it_is_changed_as_told(
    now: int, wanted: int, fresh: int, litres: int
) -> None:
    written = {"capacity": f"{litres} l", "now": f"{now} %", "wanted": f"{wanted} %", "fresh": f"{fresh} %"}  # fmt: skip
    told = {r.name: Fraction(r.exact or 0) for r in answer_of("coolant-strength", written).worked.results}  # fmt: skip
    drain, poured = told["drain"], fresh if "fresh-volume" in told else 0
    left = (1000 * litres - drain) * now + drain * poured
    assert wanted == left / (1000 * litres)


@given(st.integers(0, 40), st.integers(41, 60), st.integers(5, 95))
def test_rounds__come_to_what_is_wanted_when_the_block_keeps_some_back(
    now: int, wanted: int, percent: int
) -> None:
    """Drained and filled round by round, as somebody at the car would do it."""
    drains = Fraction(percent, 10)
    written = {"capacity": "10 l", "now": f"{now} %", "wanted": f"{wanted} %", "drains": f"{float(drains)} l"}  # fmt: skip
    told = {r.name: Fraction(r.exact or 0) for r in answer_of("coolant-strength", written).worked.results}  # fmt: skip
    strength, rounds = Fraction(now), int(told.get("rounds", 1))
    for _ in range(rounds - 1):
        strength += (100 - strength) * drains / 10
        assert strength < wanted
    last = told["last"] if rounds > 1 else told["drain"]
    assert last <= 1000 * drains
    strength += (100 - strength) * last / 10000
    assert wanted == strength
    assert told["drain"] == 1000 * drains * (rounds - 1) + last


def test_verdict__says_what_to_do() -> None:
    told = [
        answer_of("coolant-strength", {"capacity": "9 l", **written}).worked.verdict
        for written in (
            {"wanted": "33 %"},
            {"wanted": "33 %", "now": "10 %"},
            {"wanted": "33 %", "now": "10 %", "drains": "2 l"},
            {"wanted": "40 %", "now": "65 %"},
            {"wanted": "33 %", "now": "33 %"},
        )
    ]
    assert [
        "Pour in 2.97 l of what is fresh and 6.03 l of water: 33 %, good down to −18 C.",
        "It is 10 % strong. Drain 2.30 l and pour in as much of what is fresh: 33 %, good down to −18 C.",
        "It is 10 % strong. Drain what runs out, fill with what is fresh and run it warm, once; then change 0.39 l: 33 %, good down to −18 C.",
        "It is 65 % strong. Drain 3.46 l and pour in as much of water: 40 %, good down to −25 C.",
        "It is 33 % strong as wanted, good down to −18 C.",
    ] == told


def test_strength__that_does_not_keep_rust_away_is_told() -> None:
    worked = answer_of("coolant-strength", {"capacity": "9 l", "coldest": "-5 C"}).worked
    assert (
        "Below 25 % there is too little inhibitor against rust, whatever the frost.",
        "It begins to freeze at the temperature given: keep 5 degrees in hand.",
    ) == worked.warnings


@pytest.mark.parametrize(
    ("wrong", "mistake"),
    [
        ({}, "wanted is missing; give the strength wanted, such as 33 %, or how cold it gets"),
        ({"wanted": "33 %", "coldest": "-20 C"}, "wanted cannot be given together with coldest; give the strength wanted, such as 33 %, or how cold it gets"),
        ({"wanted": "60 %", "fresh": "50 %"}, "fresh is weaker than the 60 % that is wanted; use concentrate, or want less"),
        ({"wanted": "33 %", "now": "20 %", "freezes": "-8 C"}, "freezes is one reading too many beside now; give one of them"),
        ({"wanted": "33 %", "now": "20 %", "drains": "12 l"}, "drains must be no more than capacity; it is what runs out of the tap"),
        ({"coldest": "-20"}, 'coldest must be a temperature with its unit, found "-20"; write -20 C or -20 F'),
    ],
)  # fmt: skip
def test_mistake__is_one_sentence(wrong: dict[str, str], mistake: str) -> None:
    assert [mistake] == mistakes_of("coolant-strength", {"capacity": "9 l"} | wrong)


def test_curve__drops_from_nothing_to_where_each_strength_freezes() -> None:
    (curve,) = answer_of(
        "coolant-strength", {"capacity": "9 l", "now": "18.1 %", "wanted": "37.5 %"}
    ).worked.curves
    ends = {line.label: [(float(x), float(y)) for x, y in line.points] for line in curve.lines[1:]}
    assert {
        "as it is": [(18.1, 0.0), (18.1, -7.8)],
        "wanted": [(37.5, 0.0), (37.5, -22.3)],
    } == ends
    assert len(curve.lines[0].points) == 13

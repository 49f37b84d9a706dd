"""Compression ratio: every volume counted once, cylinder by cylinder, and what a cut or a gasket does."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # 87 x 69, 50 cc, deck 0.060 in: printed 1641, 9.06 and 7.95 (7.9452 exact, printed from rounded volumes).
        "Engine formulas, qualitygermanautoparts.com, formulas and charts",
        {"bore": "87 mm", "stroke": "69 mm", "cylinders": "4", "chamber": "50 cc", "deck": "0.060 in"},
        {"capacity": "1641 cc", "swept": "410.2 cc", "deck-volume": "9.06 cc", "ratio": "7.9"},
    ),
    Example(
        # 4 in bore, 3.48 in stroke (43.731 cu in); deck 0.050, gasket 0.020, dish 5 cc, chamber 70 cc: 9.01 to 1.
        "Compression ratio rules, circletrack.com, ctrp_0405; the printed 0.62832 and 0.251328 cu in",
        {
            "bore": "4 in", "stroke": "3.48 in", "cylinders": "8", "chamber": "70 cc", "deck": "0.050 in",
            "gasket": "0.020 in", "crown": "5 cc",
        },
        {"swept": "43.731 cu in", "deck-volume": "0.62832 cu in", "gasket-volume": "0.251 cu in", "ratio": "9.01"},
    ),
    Example(
        "Capacity of a four and of a single: 65.5 x 44.5 mm is 599.78 cc (howmotorcycleswork.com article 033)",
        {"bore": "65.5 mm", "stroke": "44.5 mm", "cylinders": "4", "chamber": "20 cc"},
        {"capacity": "599.78 cc"},
    ),
    Example(
        "Capacity of a single: 100 x 83 mm is 651.88 cc (howmotorcycleswork.com article 033)",
        {"bore": "100 mm", "stroke": "83 mm", "cylinders": "1", "chamber": "60 cc"},
        {"capacity": "651.88 cc", "swept": "651.88 cc"},
    ),
    Example(
        # Chamber 17.9, piston 2.86 cu in above the block, gasket 0.92: 15.96; cylinder 44.2 cu in; 3.77 to 1.
        # Bore 3.75 in and stroke 4 in are from memory, and give the 44.2 that is printed.
        "Compression ratios of 1920s heads, antiqueautoranch.com, July newsletter (crown and gasket as volumes)",
        {"bore": "3.75 in", "stroke": "4 in", "cylinders": "4", "chamber": "18.82 cu in", "crown": "-2.86 cu in"},
        {"swept": "44.2 cu in", "clearance": "15.96 cu in", "ratio": "3.77"},
    ),
    Example(
        # Bore 4.0 in: (100.00 + 823.70) / 100.00 = 9.237, and 823.7 cc at 4 x 4 in: 4942.2 cc for six.
        "Displacement and ratio, wiseco.com calculators: 4 x 4 in, six cylinders, 4942.2 cc and 301.5936 cu in; chamber 100 cc",
        {"bore": "4 in", "stroke": "4.0 in", "cylinders": "6", "chamber": "100 cc", "target": "9.237 : 1"},
        {"capacity": "301.59 cu in", "ratio": "9.237", "wanted": "100.0 cc", "change": "0.0 cc"},
    ),
)  # fmt: skip

FOUR = {
    "bore": "73.0 mm", "stroke": "88.9 mm", "cylinders": "4", "chamber": "44 cc", "deck": "0.30 mm",
    "gasket": "0.90 mm",
}  # fmt: skip


def _exact(written: dict[str, str]) -> dict[str, Fraction]:
    worked = answer_of("compression-ratio", written).worked
    return {r.name: Fraction(r.exact) for r in worked.results if r.exact is not None}


def test_ratio__that_is_wanted_comes_about_by_the_cut_that_is_told() -> None:
    off = _exact({**FOUR, "target": "9 : 1"})["off-block"]
    assert Fraction(9) == pytest.approx(
        float(_exact({**FOUR, "deck": f"{float(Fraction('0.30') - off):.9f} mm"})["ratio"]),
        abs=1e-6,
    )


def test_ratio__that_is_the_one_wanted_as_both_are_told_asks_for_no_cut() -> None:
    ratio = _exact(FOUR)["ratio"]
    told = f"{float(ratio):.2f}"
    assert Fraction(told) != ratio
    answer = answer_of("compression-ratio", {**FOUR, "target": f"{told} : 1"})
    assert f"The compression ratio is {told} to 1, as it is wanted." == answer.worked.verdict
    assert not {"off-block", "off-head", "thicker"} & {r.name for r in answer.worked.results}


def test_ratio__that_is_lower_comes_about_by_the_gasket_that_is_told() -> None:
    worked = answer_of("compression-ratio", {**FOUR, "target": "7 : 1"}).worked
    thicker = _exact({**FOUR, "target": "7 : 1"})["thicker"]
    ratio = _exact({**FOUR, "gasket": f"{float(Fraction('0.90') + thicker):.9f} mm"})["ratio"]
    assert float(ratio) == pytest.approx(7, abs=1e-6)
    assert "more of gasket" in worked.verdict


def test_metal_off_the_head__is_its_volume_over_its_open_face() -> None:
    found = _exact({**FOUR, "target": "9 : 1", "face": "40 cm2"})
    assert found["off-head"] == found["change"] * 1000 / 4000


def test_cylinders__are_told_one_by_one_where_they_differ() -> None:
    worked = answer_of("compression-ratio", {**FOUR, "chamber": "43.0, 44.0, 44.0, 45.5 cc"}).worked
    assert ["1", "2", "3", "4"] == [row[0] for row in worked.grids[0].rows]
    assert (
        "The chambers differ by 2.5 cc; they are brought within 1.0 cc of one another (common practice)."
    ) == worked.warnings[-1]
    found = {r.name: r.words for r in worked.results}
    assert found["lowest"] < found["ratio"] < found["highest"]


def test_crown__that_comes_close_to_the_head_is_warned_of() -> None:
    worked = answer_of("compression-ratio", {**FOUR, "deck": "-0.40 mm"}).worked
    assert [
        "Crown and head stand 0.50 mm apart at top dead centre; less than 0.80 mm is close (common practice): turn the engine "
        "over by hand with a soft strip between them before it is started."
    ] == list(worked.warnings)


def test_gasket__that_is_forgotten_is_asked_after() -> None:
    written = {name: text for name, text in FOUR.items() if name != "gasket"} | {"deck": "1 mm"}
    assert [
        "No gasket is counted: where there is one, give its thickness as it is when tightened."
    ] == list(answer_of("compression-ratio", written).worked.warnings)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"chamber": "44, 45 cc"}, "chamber must be one, or one for each of 4 cylinders, found 2; write the cylinders in order"),
        (
            {"crown": "-60 cc"},
            "crown and deck leave no volume above the piston; a crown that stands up has a minus, and so has a piston that "
            "stands proud; measure again",
        ),
        ({"bore": "73 cc"}, 'bore must be a length, found "73 cc"; write it in mm, in or thou'),
        ({"target": "9 psi"}, 'target must be a ratio, found "9 psi"; write 1 : 4, or 0.25'),
        ({"cylinders": "3.5"}, 'cylinders must be a whole number, found "3.5"; write it in figures, such as 4'),
    ],
)  # fmt: skip
def test_what_cannot_be__is_refused(changed: dict[str, str], said: str) -> None:
    assert [said] == mistakes_of("compression-ratio", {**FOUR, **changed})


tenths = st.integers(1, 40)


@given(tenths, tenths)
def test_ratio__falls_with_every_volume_above_the_piston(more: int, gasket: int) -> None:
    plain = _exact({**FOUR, "gasket": f"{gasket}/10 mm"})["ratio"]
    for changed in (
        {"chamber": f"{440 + more}/10 cc"},
        {"deck": f"{3 + more}/10 mm"},
        {"gasket": f"{gasket + more}/10 mm"},
        {"crown": f"{more}/10 cc"},
    ):
        assert _exact({**FOUR, "gasket": f"{gasket}/10 mm", **changed})["ratio"] < plain
    assert plain < _exact({**FOUR, "gasket": f"{gasket}/10 mm", "stroke": "90 mm"})["ratio"]

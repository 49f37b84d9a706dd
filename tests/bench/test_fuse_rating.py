"""Fuses: room for the load, the cable as the limit, and two ways of marking."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # 600 / 12 = 50 A, 50 x 1.25 = 62.5 A. (The page goes on to 80 A, having no 70 A among its sizes.)
        "600 W device on a 12 V system, fuse rating calculator, ukmotorfactors.co.uk/tools/fuse-rating-calculator.html",
        {"power": "600 W", "voltage": "12 V", "kind": "steady"},
        {"load": "50 A", "least": "62.5 A"},
    ),
    Example(
        "`That 35-amp fuse that the book calls for is really a 17.5-amp fuse`, torontotriumph.com, A conFUSEing topic",
        {"current": "11.5 A", "marking": "blow"},
        {"fuse": "35 A", "carries": "17.5 A", "blows": "35 A"},
    ),
    Example(
        "Add the wattage of the lamps and divide by the voltage; 28/0.30 carries 17.5 A, rydertowing.co.uk/towbar-wiring/cable",
        {"power": "21 W, 21 W, 21 W, 5 W, 5 W, 5 W", "cable": "2 mm2"},
        {"load": "6.5 A", "most": "17.5 A"},
    ),
)  # fmt: skip

OLD = {"power": "21 W, 21 W, 5 W, 5 W", "current": "2.5 A", "cable": "2 mm2", "marking": "blow"}


def _verdict(**more: str) -> str:
    return answer_of("fuse-rating", OLD | more).worked.verdict


def test_fuse__that_is_there_is_judged_from_both_sides() -> None:
    # 52 / 12 + 2.5 = 6.83 A, and half as much again 10.25 A.
    assert [
        "The fuse marked 35 A will do.",
        "The fuse marked 15 A blows without a fault in time. A fuse marked 25 A carries the load and protects the cable.",
        "The fuse marked 50 A carries more than the cable may: that gets hot before the fuse blows. "
        "A fuse marked 25 A carries the load and protects the cable.",
    ] == [_verdict(fitted="35 A"), _verdict(fitted="15 A"), _verdict(fitted="50 A")]


def test_fuse__of_modern_marking_in_place_of_an_old_one_protects_nothing() -> None:
    """`A 35-amp American fuse would be roughly equivalent to a 70-amp Lucas fuse`,
    chicagolandmgclub.com, August 2017."""
    modern = answer_of("fuse-rating", OLD | {"marking": "continuous", "fitted": "35 A"}).worked
    assert modern.right is False
    assert "carries more than the cable may" in modern.verdict
    old = answer_of("fuse-rating", OLD).worked
    assert "one marked 35 A carries 17.5 A" in old.warnings[0]


def test_circuit__that_no_fuse_protects_is_said_to_need_another_cable() -> None:
    worked = answer_of("fuse-rating", {"power": "110 W", "cable": "1 mm2"}).worked
    assert worked.right is False
    assert "none" == {r.name: r.words for r in worked.results}["fuse"]
    assert (
        "No fuse known here both carries 13.8 A and protects a cable that carries 8.8 A: lay a thicker cable, or split the circuit."
        == worked.verdict
    )


def test_cable__that_is_not_given_is_asked_for() -> None:
    worked = answer_of("fuse-rating", {"power": "110 W"}).worked
    assert (
        "No cable is given. A fuse protects the cable: give the thinnest one behind it, or this says nothing of fire."
        == worked.warnings[0]
    )


@given(st.integers(1, 300), st.sampled_from(["0.65", "1", "2", "3", "4.5", "8.5", "25"]), st.sampled_from(["steady", "lamps", "motor"]), st.sampled_from(["blow", "continuous"]))  # fmt: skip
def test_fuse__that_is_named_lies_between_load_and_cable(
    tenths: int, area: str, kind: str, marking: str
) -> None:
    written = {"current": f"{tenths / 10} A", "cable": f"{area} mm2", "kind": kind, "marking": marking}  # fmt: skip
    from journal.bench import SUM_NAMED
    from journal.bench.base.working import Answer, work_out

    answer = work_out(SUM_NAMED["fuse-rating"], written.items())
    if not isinstance(answer, Answer):
        assert "split the circuit" in answer[0].words
        return
    told = {r.name: r.exact for r in answer.worked.results}
    if "carries" in told:
        least, carries, most = (Fraction(told[name] or 0) for name in ("least", "carries", "most"))
        assert least <= carries <= most


@pytest.mark.parametrize(
    ("wrong", "mistake"),
    [
        ({"cable": "2 mm2"}, "power is missing; give the power of the load in W, as stamped on the bulb, or its current in A"),
        ({"power": "-3 W"}, 'power must be between 0.1 W and 5 kW, found "-3 W"; read it again'),
        ({"power": "3 W", "cable": "0.1 mm2"}, "cable is thinner than any known here, 0.65 mm2; ask its maker what it carries"),
        ({"current": "200 A"}, "current asks for a fuse that carries 300 A, more than any known here; split the circuit"),
    ],
)  # fmt: skip
def test_mistake__is_one_sentence(wrong: dict[str, str], mistake: str) -> None:
    assert [mistake] == mistakes_of("fuse-rating", wrong)

"""Measured: limits, side against side, before against after."""

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from journal.ledgers.measured import Measurements, fold_measured
from journal.words.sides import Side
from tests.writing import a_car, a_sheet

SIDES = {
    "brakes/front-near-side": "first-fit",
    "brakes/front-off-side": "first-fit",
    "brakes/drums": "first-fit",
    "body/sill-left": "first-fit",
    "body/sill-right": "first-fit",
}


def _measured(*days: dict[str, Any]) -> Measurements:
    sheets = [a_sheet(f"2024-01-{n:02d}", measured=day) for n, day in enumerate(days, 1)]
    return fold_measured(a_car(SIDES, sheets))


def _mm(read: Any, on: str | None = "brakes/drums", **more: Any) -> dict[str, Any]:
    return {"read": read, "unit": "mm", **({"on": on} if on else {}), **more}


# Side against side


def test_sides__are_paired_by_the_component() -> None:
    measured = _measured(
        {"lining": _mm(["4.8", "4.6"], "brakes/front-near-side")},
        {"lining": _mm("4.5", "brakes/front-off-side")},
    )
    (pair,) = measured.pairs
    assert (Side.NEAR, Side.OFF) == pair.sides
    # The mean of 4.8 and 4.6 is 4.7; 4.7 - 4.5 = 0.2.
    assert Fraction("0.2") == pair.apart
    assert pair.share is None


def test_sides__are_paired_by_the_name_of_the_dimension() -> None:
    (pair,) = _measured(
        {"door gap, near side": _mm("4.5", None), "door gap, off side": _mm("4.0", None)}
    ).pairs
    assert ("door gap", Fraction("0.5")) == (pair.name, pair.apart)


def test_sides__are_paired_within_a_reading_whose_note_names_them() -> None:
    (pair,) = _measured({"height": _mm(["176", "174"], note="Off side, near side; settled")}).pairs
    assert (Decimal(174),) == pair.one.values
    assert (Decimal(176),) == pair.other.values


def test_sides__may_be_left_and_right() -> None:
    (pair,) = _measured(
        {"depth": _mm("60", "body/sill-right")}, {"depth": _mm("61", "body/sill-left")}
    ).pairs
    assert (Side.LEFT, Side.RIGHT) == pair.sides
    assert (Decimal(61),) == pair.one.values


def test_sides__of_another_dimension_or_another_component_stand_alone() -> None:
    assert () == _measured(
        {
            "lining": _mm("4.8", "brakes/front-near-side"),
            "drum": _mm("255", "brakes/front-off-side"),
            "depth": _mm("60", "body/sill-left"),
        }
    ).pairs  # fmt: skip


def test_sides__are_compared_in_the_unit_of_the_first() -> None:
    (pair,) = _measured(
        {
            "run-out, near side": _mm("0.50", None),
            "run-out, off side": {"read": "10", "unit": "thou"},
        }
    ).pairs
    # 10 thou are 0.254 mm; 0.5 - 0.254 = 0.246.
    assert ("mm", Fraction("0.246")) == (pair.unit, pair.apart)


def test_sides__in_units_of_different_things_are_not_compared() -> None:
    assert (
        ()
        == _measured(
            {"x, near side": _mm("1", None), "x, off side": {"read": "10", "unit": "psi"}}
        ).pairs
    )


# Common practice at a roller tester: (greater - smaller) / greater, (182 - 141) / 182 = 22.5 %.
def test_sides__of_a_brake_are_judged_by_the_share_of_the_greater() -> None:
    effort = {"effort": {"read": ["182", "141"], "unit": "kgf", "note": "Near side, off side"}}
    (pair,) = _measured(effort).pairs
    assert Fraction(41, 182) == pair.share


def test_sides__read_on_several_days_stand_as_each_sheet_read_them_and_as_they_are_last() -> None:
    both = {"gap, near side": _mm("5.5", None), "gap, off side": _mm("4.5", None)}
    measured = _measured(both, {"gap, near side": _mm("4.5", None)})
    assert [Fraction(1), Fraction(0)] == [pair.apart for pair in measured.pairs]


# Before against after


def test_course__is_the_same_dimension_on_the_same_component_on_several_days() -> None:
    measured = _measured(
        {"End float": _mm(["0.22", "0.24"], limit=["0.05", "0.15"])},
        {"end float": _mm("9", "body/sill-left")},
        {"end float": _mm(["0.10", "0.11"], limit=["0.05", "0.15"])},
    )
    (course,) = measured.courses
    assert [False, True] == [point.inside for point in course.points]
    # 0.105 - 0.23.
    assert Fraction("-0.125") == course.change


def test_course__of_one_reading_whose_note_says_before_and_after() -> None:
    (course,) = _measured(
        {"hollow": _mm(["2.1", "0.3"], note="Before, after", limit={"most": "0.5"})}
    ).courses
    assert [False, True] == [point.inside for point in course.points]
    assert Fraction("-1.8") == course.change


def test_course__is_reckoned_in_the_last_unit() -> None:
    (course,) = _measured(
        {"play": _mm("0.254")}, {"play": {"read": "4", "unit": "thou", "on": "brakes/drums"}}
    ).courses
    assert Fraction(-6) == course.change


def test_course__in_units_of_different_things_is_told() -> None:
    measured = _measured(
        {"play": _mm("0.2")}, {"play": {"read": "4", "unit": "psi", "on": "brakes/drums"}}
    )
    assert () == measured.courses
    assert ["unit-differs"] == [p.code for p in measured.problems]


def test_reading__is_judged_in_the_unit_in_which_it_was_written() -> None:
    (reading,) = _measured({"bore": _mm(["3.15", "3.05"], limit=["3.1", "3.2"])}).readings
    assert [True, False] == [reading.keeps(value) for value in reading.values]


@pytest.mark.parametrize("note", [None, "Cold", "One, two, three", "Near side"])
def test_note__that_does_not_name_the_values_pairs_nothing(note: str | None) -> None:
    more = {"note": note} if note else {}
    measured = _measured({"height": _mm(["1", "2"], **more)})
    assert ((), ()) == (measured.pairs, measured.courses)

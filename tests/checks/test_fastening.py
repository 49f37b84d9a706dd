"""Locking and ageing: warnings of the trade. Common practice, no source."""

from typing import Any

import pytest

from journal.checks.fastening import check_fastening
from journal.records.problem import Severity
from journal.records.sheet import Sheet
from tests.writing import a_car, a_sheet

HOSES = "brakes/hoses"
REGISTER = {HOSES: {"as-found": "first-fit", "life": "6"}, "trim/seat": "first-fit"}


def _codes(*sheets: Sheet) -> list[str]:
    found = list(check_fastening(a_car(REGISTER, sheets)))
    return [problem.code for problem in found]


def _hoses(day: str = "2024-03-05", **work: Any) -> Sheet:
    return a_sheet(day, work={HOSES: work})


@pytest.mark.parametrize(
    ("locking", "codes"),
    [
        ("compound", ["threads-not-degreased"]),
        ({"by": "compound", "degreased": "no"}, ["threads-not-degreased"]),
        ({"by": "compound", "degreased": "yes"}, []),
        ("split-pin", ["locking-used-again"]),
        ({"by": "split-pin", "new": "no"}, ["locking-used-again"]),
        ({"by": "split-pin", "new": "yes"}, []),
        ("tab-washer", ["locking-used-again"]),
        ({"by": "tab-washer", "new": "yes"}, []),
        ("locking-nut", []),
        ("wire", []),
        (["compound", "split-pin"], ["threads-not-degreased", "locking-used-again"]),
    ],
)
def test_locking__is_warned_of_where_it_may_let_go(locking: Any, codes: list[str]) -> None:
    assert codes == _codes(_hoses(did="fitted", locking=locking))


def test_warnings__leave_everything_in_the_archive() -> None:
    (problem,) = check_fastening(a_car(REGISTER, [_hoses(did="fitted", locking="compound")]))
    assert Severity.WARNING is problem.severity


@pytest.mark.parametrize(
    ("dated", "codes"),
    [
        ("2018-03-05", []),  # six years to the day
        ("2018-03-04", ["too-old-to-fit"]),  # six years and a day
        ("2018", []),  # 2024 - 2018 is six
        ("2017", ["too-old-to-fit"]),
        ("2024-03-06", []),  # made after it was fitted: no age, and no guess
        ("week 14", ["bad-date"]),
        ("0000", ["bad-date"]),
    ],
)
def test_age__is_reckoned_on_the_day_of_fitting(dated: str, codes: list[str]) -> None:
    assert codes == _codes(_hoses(did="fitted", dated=dated))


def test_age__is_no_matter_where_the_register_sets_no_life() -> None:
    assert [] == _codes(
        a_sheet("2024-03-05", work={"trim/seat": {"did": "fitted", "dated": "1958"}})
    )


def test_age_told_before__counts_when_the_thing_is_fitted() -> None:
    told = _hoses("2024-01-01", did="inspected", dated="2010")
    assert ["too-old-to-fit"] == _codes(told, _hoses(did="fitted"))


def test_age_of_the_old_item__is_not_that_of_the_new_one() -> None:
    told = _hoses("2024-01-01", did="inspected", dated="2010")
    assert [] == _codes(told, _hoses(did="fitted", now="pattern"))


def test_age__is_that_of_the_day_on_which_it_was_true() -> None:
    assert [] == _codes(_hoses(did="fitted", dated="2018-03-04", since="2024-03-04"))

"""Proofs as written: other eyes, one result, own proofs in order. Common practice, no source."""

from typing import Any

import pytest

from journal.checks.names import check_names
from journal.checks.privacy import check_privacy
from journal.checks.proving import check_proving
from tests.writing import WORKSHOP, a_car, a_sheet

REGISTER = {"brakes/pipes": "first-fit"}


def _codes(**front: Any) -> list[str]:
    car = a_car(REGISTER, [a_sheet("2024-03-05", **front)])
    return [problem.code for problem in (*check_proving(car), *check_names(car))]


@pytest.mark.parametrize(("checked", "codes"), [("MT", ["same-eyes"]), ("JB", [])])
def test_second_pair_of_eyes__is_another_hand(checked: str, codes: list[str]) -> None:
    hands = {"by": "MT", "checked": checked}
    assert codes == _codes(work={"brakes/pipes": {"did": "fitted", **hands}})
    assert codes == _codes(proving={"no-weep": {"found": "dry", **hands}})


@pytest.mark.parametrize("field", ["by", "checked"])
def test_hands__are_those_who_work_here(field: str) -> None:
    assert ["unknown-hand"] == _codes(proving={"no-weep": {"found": "dry", field: "XX"}})
    assert ["unknown-hand"] == _codes(work={"brakes/pipes": {"did": "fitted", field: "XX"}})


@pytest.mark.parametrize(
    "result", [{"found": "dry"}, {"read": "3", "unit": "psi"}, {"passed": "no"}]
)
def test_proof_that_does_not_apply__has_no_result(result: dict[str, str]) -> None:
    assert ["proof-says-both"] == _codes(proving={"no-weep": {"does-not-apply": "rods", **result}})
    assert [] == _codes(proving={"no-weep": {"does-not-apply": "rods"}})


@pytest.mark.parametrize(
    ("key", "codes"),
    [
        ("brakes/servo-holds", []),
        ("engine/oil-pressure", []),
        ("servo-holds", ["bad-name"]),
        ("brakes/Servo holds", ["bad-name"]),
        ("braces/servo-holds", ["unknown-subsystem"]),
        ("brakes/road-test", ["proof-asked-already"]),
    ],
)
def test_own_proof__is_named_by_its_subsystem(key: str, codes: list[str]) -> None:
    car = a_car(REGISTER, workshop={**WORKSHOP, "proving": {key: "As we do it"}})
    assert codes == [problem.code for problem in check_proving(car)]


def test_proof_in_a_sheet_for_the_workshop_alone__would_be_missing_for_the_owner() -> None:
    sheet = a_sheet("2024-03-05", for_="workshop", proving={"no-weep": "dry"})
    assert ["private-work"] == [p.code for p in check_privacy(a_car(REGISTER, [sheet]))]

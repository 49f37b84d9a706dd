"""Proving: what is asked for, what is recorded, what stops the handover. Common practice, no source."""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from msgspec.structs import replace

from journal.ledgers.proving import ProofLine, ProofState, Proving, fold_proving
from journal.readers import car_for
from journal.records.sheet import Sheet
from journal.words.proving import PROVING
from journal.words.vocabulary import Reader
from tests.writing import WORKSHOP, a_car, a_sheet

REGISTER = {"brakes/pipes": "first-fit", "trim/seat": "first-fit"}
GOOD = {"found": "dry", "by": "MT", "checked": "JB"}


def _fold(*sheets: Sheet, **car: Any) -> Proving:
    return fold_proving(a_car(car.pop("register", REGISTER), sheets, **car))


def _weep(*sheets: Sheet, **car: Any) -> ProofLine:
    return next(x for x in _fold(*sheets, **car).lines if x.key == "brakes/no-weep")


def _proved(day: str, *, name: str = "", **proof: Any) -> Sheet:
    return a_sheet(day, name=name, proving={"no-weep": {**GOOD, **proof}})


# What is asked for


def test_list__is_asked_of_every_safety_critical_subsystem_of_the_register() -> None:
    proving = _fold()
    assert ("brakes",) == proving.subsystems
    assert [p.name for p in PROVING["brakes"]] == [line.name for line in proving.lines]
    assert {ProofState.MISSING} == {line.state for line in proving.lines}
    assert proving.lines == proving.holds


def test_list__is_asked_as_well_where_only_a_sheet_tells_of_the_subsystem() -> None:
    sheet = a_sheet("2024-01-01", subsystem="fuel")
    assert ("brakes", "fuel") == _fold(sheet).subsystems


def test_list__is_extended_by_the_workshop_and_never_shortened() -> None:
    own = {
        "brakes/servo-holds": "Servo holds its vacuum",
        "engine/oil-pressure": "Oil pressure hot",
    }
    workshop = {**WORKSHOP, "proving": own, "subsystems": {"brakes": {"label": "Brakes"}}}
    register = {**REGISTER, "engine/block": "first-fit"}
    proving = _fold(workshop=workshop, register=register)
    assert [*(p.name for p in PROVING["brakes"]), "servo-holds"] == [
        line.name for line in proving.of("brakes")
    ]
    assert [("oil-pressure", True)] == [(x.name, x.own) for x in proving.of("engine")]


def test_subsystem_of_the_workshop_on_which_safety_hangs__is_asked_for_at_least_one_proof() -> None:
    workshop = {**WORKSHOP, "subsystems": {"gas": {"label": "Gas", "safety": "yes"}}}
    proving = _fold(workshop=workshop, register={"gas/tank": "first-fit"})
    assert ["gas/looked-over"] == [line.key for line in proving.holds]


# What is recorded


def test_proof__tells_day_hand_second_pair_of_eyes_and_reading() -> None:
    proof = {"read": ["700", "698"], "unit": "psi", "by": "MT", "checked": "JB"}
    sheet = a_sheet("2024-03-05", proving={"pressure-held": proof})
    line = next(x for x in _fold(sheet).lines if x.name == "pressure-held")
    told = line.latest
    assert told is not None
    assert (date(2024, 3, 5), ("MT",), "JB") == (told.day, told.by, told.checked)
    assert ((Decimal(700), Decimal(698)), "psi") == (told.read, told.unit)
    assert (ProofState.PROVED, False) == (line.state, line.holds)


def test_proof_that_failed__holds_until_it_is_proved_again() -> None:
    failed = _proved("2024-03-05", passed="no", found="damp at the rear tee")
    again = _proved("2024-03-06", found="dry after ten minutes")
    assert (ProofState.FAILED, True) == (_weep(failed).state, _weep(failed).holds)
    line = _weep(failed, again)
    assert ProofState.PROVED is line.state
    assert [False, True] == [record.passed for record in line.records]


def test_proof_that_fails_later__holds_again() -> None:
    line = _weep(_proved("2024-03-05"), _proved("2024-03-06", passed="no"))
    assert ProofState.FAILED is line.state


def test_proof_that_does_not_apply__lets_the_car_go_with_its_reason() -> None:
    sheet = a_sheet(
        "2024-03-05",
        proving={"no-weep": {"does-not-apply": "rods throughout", "by": "MT", "checked": "JB"}},
    )
    line = _weep(sheet)
    assert (ProofState.NOT_ASKED, False) == (line.state, line.holds)
    assert line.latest is not None
    assert "rods throughout" == line.latest.reason


def test_proof_that_says_both__stays_unrecorded() -> None:
    both = a_sheet("2024-03-05", proving={"no-weep": {**GOOD, "does-not-apply": "rods"}})
    assert ProofState.MISSING is _weep(both).state


@pytest.mark.parametrize(
    ("proof", "lacks"),
    [
        ({"by": "MT", "checked": "JB"}, ("what was found",)),
        ({"found": "dry", "by": "MT"}, ("a second pair of eyes",)),
        ({"found": "dry", "checked": "JB"}, ("by whom",)),
        (
            {"found": "dry", "by": "JB", "checked": "JB"},
            ("eyes other than those of the hand that did it",),
        ),
        ({"read": "3", "by": "MT", "checked": "JB"}, ("the unit of the reading",)),
    ],
)
def test_proof_told_in_part__holds_and_says_what_is_left_out(
    proof: dict[str, str], lacks: tuple[str, ...]
) -> None:
    line = _weep(a_sheet("2024-03-05", proving={"no-weep": proof}))
    assert (ProofState.INCOMPLETE, True) == (line.state, line.holds)
    assert line.latest is not None
    assert lacks == line.latest.lacks


def test_proof_whose_result_is_a_figure__lacks_it_when_there_are_words_alone() -> None:
    sheet = a_sheet("2024-03-05", subsystem="electrical", proving={"insulation": GOOD})
    line = next(x for x in _fold(sheet).lines if x.name == "insulation")
    assert line.latest is not None
    assert ("the reading",) == line.latest.lacks


def test_hands_with_hours_that_day__did_it_when_nobody_is_named() -> None:
    proof = {"no-weep": {"found": "dry", "checked": "JB"}}
    sheet = a_sheet("2024-03-05", hours={"MT": "1", "JB": "1"}, proving=proof)
    line = _weep(sheet)
    assert line.latest is not None
    assert (("MT",), ProofState.PROVED) == (line.latest.by, line.state)


def test_only_hand_with_hours__cannot_be_its_own_second_pair_of_eyes() -> None:
    proof = {"no-weep": {"found": "dry", "checked": "JB"}}
    line = _weep(a_sheet("2024-03-05", hours={"JB": "1"}, proving=proof))
    assert ProofState.INCOMPLETE is line.state


# Work after a proof


def _work(day: str, *, name: str = "later", **work: Any) -> Sheet:
    return a_sheet(day, name=name, work={"brakes/pipes": work})


@pytest.mark.parametrize("act", ["removed", "adjusted", "fitted", "welded", "trial-fitted"])
def test_work_after_a_proof__puts_it_out_of_date(act: str) -> None:
    line = _weep(_proved("2024-03-05"), _work("2024-03-06", did=act))
    assert (ProofState.OUT_OF_DATE, True) == (line.state, line.holds)
    assert line.overtaken is not None
    assert ("brakes/pipes", date(2024, 3, 6)) == (line.overtaken.component, line.overtaken.day)


@pytest.mark.parametrize("act", ["inspected", "measured", "cleaned", "painted", "proved"])
def test_looking_cleaning_and_coating__leave_a_proof_as_it_is(act: str) -> None:
    assert ProofState.PROVED is _weep(_proved("2024-03-05"), _work("2024-03-06", did=act)).state


def test_another_item_in_the_place__puts_a_proof_out_of_date_without_an_act() -> None:
    line = _weep(_proved("2024-03-05"), _work("2024-03-06", now="pattern"))
    assert ProofState.OUT_OF_DATE is line.state


def test_work_of_the_day_of_the_proof__is_what_was_proved() -> None:
    assert (
        ProofState.PROVED is _weep(_proved("2024-03-05"), _work("2024-03-05", did="fitted")).state
    )


def test_work_told_later_but_done_before__leaves_a_proof_as_it_is() -> None:
    told = _work("2024-03-06", did="fitted", since="2024-03-04")
    assert ProofState.PROVED is _weep(_proved("2024-03-05"), told).state


def test_work_on_another_subsystem__leaves_a_proof_as_it_is() -> None:
    trim = a_sheet("2024-03-06", name="trim", work={"trim/seat": "fitted"})
    assert ProofState.PROVED is _weep(_proved("2024-03-05"), trim).state


def test_proof_recorded_again__is_up_to_date_again() -> None:
    line = _weep(
        _proved("2024-03-05"),
        _work("2024-03-06", did="fitted"),
        _proved("2024-03-07", name="again"),
    )
    assert ProofState.PROVED is line.state


# Names


def test_short_name__is_looked_for_in_the_subsystems_of_the_sheet() -> None:
    two = a_sheet("2024-03-05", subsystem=["fuel", "brakes"], proving={"no-weep": GOOD})
    proving = _fold(two)
    assert () == proving.problems
    assert ["brakes/no-weep"] == [x.key for x in proving.lines if not x.holds]


def test_short_name_that_two_lists_have__proves_neither() -> None:
    two = a_sheet("2024-03-05", subsystem=["steering", "brakes"], proving={"road-test": GOOD})
    proving = _fold(two)
    assert ["whose-proof"] == [p.code for p in proving.problems]
    assert proving.lines == proving.holds


def test_unknown_name__is_told_with_the_nearest() -> None:
    (problem,) = _fold(a_sheet("2024-03-05", proving={"parking-break": GOOD})).problems
    assert "unknown-proof" == problem.code
    assert problem.help is not None
    assert "brakes/parking-brake" in problem.help


# Locking


def test_fitting_without_a_word_on_locking__is_listed_where_locking_is_to_be_recorded() -> None:
    plain = _work("2024-03-05", did="fitted")
    locked = _work("2024-03-06", did="inspected", locking="wire")
    trim = a_sheet("2024-03-05", name="trim", work={"trim/seat": "fitted"})
    assert ("brakes/pipes",) == _fold(plain, trim).unlocked
    assert () == _fold(plain, locked, trim).unlocked


# Readers


def test_public__sees_that_it_was_proved_and_no_hands() -> None:
    car = a_car(REGISTER, [_proved("2024-03-05")])
    line = next(x for x in fold_proving(car_for(Reader.PUBLIC, car)).lines if x.name == "no-weep")
    assert line.latest is not None
    assert (ProofState.PROVED, (), None) == (line.state, line.latest.by, line.latest.checked)


def test_owner__sees_who_proved_it_and_who_checked() -> None:
    car = a_car(REGISTER, [_proved("2024-03-05")])
    assert fold_proving(car).lines == fold_proving(car_for(Reader.OWNER, car)).lines


def test_day_in_the_past__knows_no_later_proof() -> None:
    car = a_car(REGISTER, [_proved("2024-03-05")])
    earlier = fold_proving(car.as_of(date(2024, 3, 4)))
    assert earlier.lines == earlier.holds
    assert fold_proving(replace(car, sheets=())) == earlier


def test_does_not_apply__still_does_not_after_later_work() -> None:
    absent = {"does-not-apply": "no such union on this car", "by": "MT", "checked": "JB"}
    recorded = a_sheet("2024-01-01", proving={"no-weep": absent})
    later = a_sheet("2024-02-01", work={"brakes/pipes": {"did": "fitted"}})
    assert ProofState.NOT_ASKED is _weep(recorded, later).state
    assert ProofState.OUT_OF_DATE is _weep(_proved("2024-01-01"), later).state

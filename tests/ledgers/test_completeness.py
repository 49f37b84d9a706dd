"""Completeness of the record, after the model of the maintenance entry of 14 CFR 43.9(a): a
description of the work, the day it was done, who did it, and who answers for it."""

from typing import Any

import pytest

from journal.ledgers.completeness import Gap, SafetyAct, fold_completeness
from journal.readers import car_for
from journal.records.sheet import Sheet
from journal.words.vocabulary import Reader
from tests.writing import WORKSHOP, a_car, a_sheet

REGISTER = {
    "brakes/hoses": {"as-found": "first-fit", "life": "6"},
    "trim/seat": "first-fit",
    "trim/runner": {"as-found": "first-fit", "safety": "yes"},
}
HOSES = "brakes/hoses"


def _acts(*sheets: Sheet, **car: Any) -> tuple[SafetyAct, ...]:
    return fold_completeness(a_car(REGISTER, sheets, **car)).acts


def _hoses(day: str = "2024-01-01", *, hours: Any = (), name: str = "", **work: Any) -> Sheet:
    more = {"hours": hours} if hours else {}
    return a_sheet(day, name=name, work={HOSES: work}, **more)


def test_entry__is_whole_with_what_when_by_whom_and_checked_by_whom() -> None:
    (act,) = _acts(_hoses(did="fitted", found="two new", by="MT", checked="JB"))
    assert (("fitted",), "two new", ("MT",), "JB", ()) == (
        act.acts, act.words, act.by, act.checked, act.gaps,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("work", "gaps"),
    [
        ({"did": "fitted", "checked": "JB"}, (Gap.BY,)),
        ({"did": "fitted", "by": "MT"}, (Gap.CHECKED,)),
        ({"did": "fitted", "by": "MT", "checked": "MT"}, (Gap.SAME_EYES,)),
        ({"now": "pattern", "by": "MT", "checked": "JB"}, (Gap.WHAT,)),
        ({"did": "removed", "by": "MT"}, ()),
        ({"did": ["removed", "fitted"], "by": "MT"}, (Gap.CHECKED,)),
        (
            {"did": "fitted", "now": "pattern", "by": "MT", "checked": "JB"},
            (Gap.MADE,),
        ),
        ({"did": "fitted", "now": "pattern", "dated": "2023", "by": "MT", "checked": "JB"}, ()),
    ],
)
def test_entry__says_what_it_leaves_out(work: dict[str, Any], gaps: tuple[Gap, ...]) -> None:
    (act,) = _acts(_hoses(**work))
    assert gaps == act.gaps


@pytest.mark.parametrize("act", ["inspected", "measured", "cleaned", "painted", "proved"])
def test_looking_and_coating__are_no_entries(act: str) -> None:
    assert () == _acts(_hoses(did=act))


def test_entries__are_asked_for_only_where_safety_hangs_on_the_work() -> None:
    sheet = a_sheet("2024-01-01", work={"trim/seat": "fitted", "trim/runner": "fitted"})
    assert ["trim/runner"] == [act.component for act in _acts(sheet)]


# By whom


def test_hands_with_hours__did_it_when_nobody_is_named() -> None:
    (act,) = _acts(_hoses(hours={"MT": "2", "JB": "1"}, did="fitted"))
    assert ("MT", "JB") == act.by


def test_hands_with_hours_on_the_subsystem__go_before_those_on_another() -> None:
    hours = {"brakes": {"MT": "1"}, "trim": {"JB": "2"}}
    (act,) = _acts(_hoses(hours=hours, did="fitted"))
    assert ("MT",) == act.by


def test_checker_with_hours__is_not_the_one_who_did_it() -> None:
    (act,) = _acts(_hoses(hours={"MT": "2", "JB": "1"}, did="fitted", checked="JB"))
    assert (("MT",), ()) == (act.by, act.gaps)


def test_checker_who_alone_has_hours__checked_his_own_work() -> None:
    (act,) = _acts(_hoses(hours={"JB": "1"}, did="fitted", checked="JB"))
    assert (Gap.SAME_EYES,) == act.gaps


def test_hours_without_a_hand__are_those_of_the_only_one_who_works_here() -> None:
    alone = {**WORKSHOP, "hands": {"MT": "Margit Tolland"}}
    (act,) = _acts(_hoses(hours="2", did="fitted"), workshop=alone)
    assert (("MT",), (Gap.CHECKED,)) == (act.by, act.gaps)


# A later look


def test_later_look_with_a_second_pair_of_eyes__is_the_check_of_what_went_before() -> None:
    (act,) = _acts(
        _hoses(did="fitted", by="MT"),
        _hoses("2024-02-01", did="proved", by="MT", checked="JB"),
    )
    assert ("JB", "2024-02-01-day", ()) == (act.checked, act.checked_in, act.gaps)


def test_later_look__counts_by_whichever_of_its_two_did_not_do_the_work() -> None:
    (act,) = _acts(
        _hoses(did="fitted", by="MT"),
        _hoses("2024-02-01", did="proved", by="JB", checked="MT"),
    )
    assert ("JB", ()) == (act.checked, act.gaps)


def test_look_before_the_work__checks_nothing() -> None:
    acts = _acts(
        _hoses(did="inspected", by="MT", checked="JB"), _hoses("2024-02-01", did="fitted", by="MT")
    )
    assert [(Gap.CHECKED,)] == [act.gaps for act in acts]


# Readers


def test_owner__sees_the_same_record_as_the_workshop() -> None:
    car = a_car(REGISTER, [_hoses(did="fitted", by="MT", checked="JB")])
    assert fold_completeness(car) == fold_completeness(car_for(Reader.OWNER, car))


def test_public__sees_none_since_no_hand_may_be_named() -> None:
    car = a_car(REGISTER, [_hoses(did="fitted", by="MT", checked="JB")])
    assert () == fold_completeness(car_for(Reader.PUBLIC, car)).acts

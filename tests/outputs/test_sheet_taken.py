"""What a line that was heard puts into the sheet when it is taken over, and what it leaves."""

from itertools import permutations
from typing import Any

import pytest

from journal.outputs.sheets.draft import Clash, accept, clashes, draft_told
from journal.words.wrong import WrongCall
from tests.outputs.drafting import DRUMS, FRONT, LAYGEAR, heard, places_of, taken

# What a line puts


def test_line__goes_into_its_section_and_out_of_the_draft() -> None:
    told = heard({"words": "drums off", "work": {DRUMS: "removed"}}, {"ask": "Which shoes?"})
    assert {
        **FRONT, "work": {DRUMS: {"did": "removed"}}, "draft": [{"ask": "Which shoes?"}],
    } == accept(told, 0)  # fmt: skip


def test_acts_of_one_component__stand_once_each_in_the_order_of_acceptance() -> None:
    lines = [{"work": {DRUMS: ["removed", "cleaned"]}}, {"work": {DRUMS: ["cleaned", "measured"]}}]
    assert {"work": {DRUMS: {"did": ["removed", "cleaned", "measured"]}}} == taken(*lines)


def test_findings_of_one_component__stand_side_by_side() -> None:
    lines = [{"work": {DRUMS: {"found": found}}} for found in ("scored", "cracked", "scored")]
    assert {"work": {DRUMS: {"found": "scored; cracked"}}} == taken(*lines)


def test_what_is_told_key_by_key__is_one_line() -> None:
    lines = [
        {"work": {DRUMS: {"did": "fitted"}}},
        {"work": {DRUMS: {"now": "pattern", "part": "drum"}}},
        {"work": {DRUMS: {"locking": {"by": "split-pin", "new": "yes"}}}},
    ]
    assert {
        "work": {
            DRUMS: {"did": "fitted", "now": "pattern", "part": "drum",
                    "locking": {"by": "split-pin", "new": "yes"}},
        }
    } == taken(*lines)  # fmt: skip


def test_hours_of_one_hand__are_added_up_exactly() -> None:
    lines = [{"hours": {"MT": "0.1"}}, {"hours": {"MT": "0.2", "JB": "1"}}]
    assert {"hours": {"MT": "0.3", "JB": "1"}} == taken(*lines)


def test_hours__are_added_to_those_that_the_sheet_has() -> None:
    assert {"hours": {"MT": "3.5"}} == taken({"hours": {"MT": "2"}}, hours={"MT": "1.5"})


def test_hours_of_another_kind_or_subsystem__stand_by_themselves() -> None:
    lines = [
        {"hours": {"MT": "1"}},
        {"hours": {"MT": {"hours": "2", "kind": "rework"}}},
        {"hours": {"MT": {"hours": "0.5", "kind": "rework"}}},
        {"hours": {"gearbox": {"MT": "4"}}},
    ]
    assert {
        "hours": {"MT": ["1", {"hours": "2.5", "kind": "rework"}], "gearbox": {"MT": "4"}}
    } == taken(*lines)


def test_hours_of_more_than_a_day__are_kept_apart_for_the_check_to_tell() -> None:
    assert {"hours": {"MT": ["20", "5"]}} == taken({"hours": {"MT": "20"}}, {"hours": {"MT": "5"}})


def test_hours_with_and_without_a_hand__are_not_guessed_to_be_the_same() -> None:
    with pytest.raises(WrongCall, match="the sheet has hours without a hand"):
        taken({"hours": {"MT": "1"}}, hours="2")


def test_work_on_another_subsystem__adds_it_to_the_sheet() -> None:
    assert ["brakes", "gearbox"] == taken({"work": {LAYGEAR: "removed"}})["subsystem"]
    assert ["brakes", "fuel"] == taken({"subsystem": ["fuel", "brakes"]})["subsystem"]


@pytest.mark.parametrize(
    ("kind", "one", "other"),
    [
        ("parts", {"what": "cylinder kit", "qty": "2"}, {"what": "bleed nipple kit"}),
        ("snags", {"raise": "it weeps"}, {"raise": "it rattles"}),
        ("outwork", {"sent": "2", "to": "northgate"}, {"sent": "4"}),
        ("measured", {"read": "0.22", "unit": "mm"}, {"read": "0.24", "unit": "mm"}),
        ("rechecks", {"after": "1 week"}, {"after": "1 year"}),
    ],
)
def test_new_things_of_one_name__are_two(kind: str, one: Any, other: Any) -> None:
    two = {kind: {"kit": one}}, {kind: {"kit": other}}
    assert {kind: {"kit": one, "kit-2": other}} == taken(*two)
    assert {kind: {"kit": one}} == taken({kind: {"kit": one}}, {kind: {"kit": one}})
    # Also where somebody wrote it into the sheet after the talk was heard.
    told = {**heard({kind: {"kit": other}}), kind: {"kit": one}}
    assert {"kit": one, "kit-2": other} == accept(told, 0)[kind]


def test_thing_of_a_name_that_is_used_elsewhere__has_another() -> None:
    lines = [{"snags": {"leak": "it weeps"}}, {"snags": {"leak": "it weeps"}}]
    told = draft_told(FRONT, lines, {"snags": {"leak", "leak-2"}})
    assert [{"leak-3": {"raise": "it weeps"}}] * 2 == [line["snags"] for line in told["draft"]]


def test_line_that_goes_on_with_a_thing__keeps_its_name() -> None:
    lines = [
        {"parts": {"kit": {"received": "2024-05-14", "outcome": "rejected"}}},
        {"parts": {"kit": {"why": "too long"}}},
        {"snags": {"leak": {"clear": "dry"}}},
    ]
    told = draft_told(FRONT, lines, {"parts": {"kit"}, "snags": {"leak"}})
    for _ in lines:
        told = accept(told, 0)
    assert {"kit": {"received": "2024-05-14", "outcome": "rejected", "why": "too long"}} == told[
        "parts"
    ]
    assert {"leak": {"clear": "dry"}} == told["snags"]


def test_part_that_is_called_otherwise__is_so_wherever_its_line_names_it() -> None:
    line = {
        "parts": {"kit": {"what": "hose kit"}},
        "work": {DRUMS: {"did": "fitted", "part": "kit"}},
        "hours": {"MT": {"hours": "1", "kind": "rework", "because": "kit"}},
    }
    (told,) = draft_told(FRONT, [line], {"parts": {"kit"}})["draft"]
    assert ({"kit-2": {"what": "hose kit"}}, "kit-2", "kit-2") == (
        told["parts"], told["work"][DRUMS]["part"], told["hours"]["MT"]["because"],
    )  # fmt: skip


def test_changed_line__is_taken_over_in_place_of_the_one_that_was_heard() -> None:
    told = heard({"work": {DRUMS: "removed"}}, {"ask": "x"})
    made = accept(told, 0, {"words": "drums off", "work": {DRUMS: "fitted"}})
    assert ({DRUMS: {"did": "fitted"}}, [{"ask": "x"}]) == (made["work"], made["draft"])


def test_question__leaves_nothing_when_it_is_taken_out() -> None:
    recording = ["talk.mp4"]
    told = heard({"ask": "Which?", "at": "0:12", "words": "that one"}, recording=recording)
    assert {**FRONT, "recording": "talk.mp4"} == accept(told, 0)


def test_today__is_the_day_of_the_sheet() -> None:
    line = {"parts": {"kit": {"what": "kit", "received": "today"}}}
    assert "2024-05-14" == taken(line)["parts"]["kit"]["received"]


# What the sheet says otherwise


def test_line_that_contradicts_the_sheet__is_told_before_and_counts_after() -> None:
    line = {"work": {DRUMS: {"did": "fitted", "now": "made", "found": "scored"}}}
    told = heard(line, work={DRUMS: {"now": "pattern", "found": "cracked"}})
    assert (Clash(DRUMS, "now", "pattern", "made"),) == clashes(told, line)
    assert {"did": "fitted", "now": "made", "found": "cracked; scored"} == accept(told, 0)["work"][
        DRUMS
    ]


def test_line_that_only_says_more__contradicts_nothing() -> None:
    line = {
        "work": {DRUMS: "removed"}, "snags": {"leak": "it weeps"}, "parts": {"kit": {"what": "a kit"}},
        "hours": {"MT": "2"}, "proving": {"no-leaks": "dry"},
    }  # fmt: skip
    told = heard(
        line, work={DRUMS: "cleaned"}, snags={"leak": "it rattles"}, hours={"MT": "1"},
        proving={"no-leaks": {"found": "dry", "by": "MT"}},
    )  # fmt: skip
    assert () == clashes(told, line)


# Moments


def test_moment__is_kept_with_its_words_and_components() -> None:
    line = {"words": "drums off", "at": "0:12", "work": {DRUMS: "removed"},
            "measured": {"bore": {"on": LAYGEAR, "read": "1", "unit": "mm"}}}  # fmt: skip
    assert [
        "talk.mp4",
        {"file": "talk.mp4", "at": "0:12", "of": [DRUMS, LAYGEAR], "words": "drums off"},
    ] == taken(line, recording="talk.mp4")["recording"]


def test_moments__stand_in_the_order_of_the_recording_whatever_the_order_of_acceptance() -> None:
    lines = [{"at": at, "hours": {"MT": "1"}} for at in ("0:12", "1:00:00", "0:59", "0:12.5")]
    for order in permutations(range(4)):
        told = heard(*lines, recording=["talk.mp4", {"file": "film.mov", "at": "0:01"}])
        for place in places_of(order):
            told = accept(told, place)
        assert [None, "0:01", "0:12", "0:12.5", "0:59", "1:00:00"] == [
            m.get("at") if isinstance(m, dict) else None for m in told["recording"]
        ]


def test_moment__that_stands_there_already_is_not_told_twice() -> None:
    line = {"at": "0:12", "words": "off", "work": {DRUMS: "removed"}}
    assert 2 == len(taken(line, line, recording="talk.mp4")["recording"])


@pytest.mark.parametrize(
    ("line", "front"),
    [
        ({"words": "off", "work": {DRUMS: "removed"}}, {"recording": "talk.mp4"}),
        ({"words": "off", "at": "0:12", "work": {DRUMS: "removed"}}, {}),
    ],
)
def test_line_without_a_time_or_a_recording__keeps_no_moment(line: Any, front: Any) -> None:
    assert front.get("recording") == taken(line, **front).get("recording")

"""A line that was heard, as fields of a form, and what no field shows of it."""

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.outputs.sheets.form import FIELDS, form_of, told_of
from journal.outputs.sheets.formline import beside, piece_of, with_lines
from journal.outputs.sheets.print import front_told
from journal.records.sheet import SheetFront
from journal.words.wrong import WrongCall

FRONT = {"date": "2024-05-14", "subsystem": "brakes"}
DRUMS = "brakes/drums"


def read(told: dict[str, Any]) -> dict[str, Any]:
    """What a sheet says that tells this."""
    front = SheetFront.model_validate({**FRONT, **told}, context=date(2024, 5, 14))
    return front_told(front)


def through_a_form(line: dict[str, Any]) -> dict[str, Any]:
    """What a sheet says once a line was taken over in an empty form and saved."""
    form = {**form_of({}, ""), **piece_of(line)}
    return read(with_lines(told_of({}, {}, form), [beside(line)]))


@pytest.mark.parametrize(
    ("line", "piece"),
    [
        ({"ask": "Front or rear?"}, {}),
        ({"words": "and off", "at": "0:12", "work": {DRUMS: "removed"}},
         {"work": [{"name": DRUMS, "did": ["removed"]}]}),
        ({"hours": {"MT": "3.5"}}, {"hours": {"MT": "3.5"}}),
        ({"hours": "3.5"}, {"hours": {"": "3.5"}}),
        ({"subsystem": "brakes"}, {"subsystem": ["brakes"]}),
        ({"snags": {"leak": "it weeps"}}, {"snags": [{"name": "leak", "raise": "it weeps"}]}),
        ({"measured": {"bore": {"read": ["1", "2"], "unit": "mm", "limit": {"least": "1"}}}},
         {"measured": [{"name": "bore", "read": "1, 2", "unit": "mm", "least": "1"}]}),
        ({"parts": {"kit": {"what": "kit", "of": DRUMS}}},
         {"parts": [{"name": "kit", "what": "kit", "of": [DRUMS]}]}),
    ],
)  # fmt: skip
def test_line__fills_the_fields_that_a_form_has_for_it(
    line: dict[str, Any], piece: dict[str, Any]
) -> None:
    assert piece == piece_of(line)
    assert {} == beside(line)


@pytest.mark.parametrize(
    ("line", "left"),
    [
        ({"proving": {"no-leaks": "dry"}}, {"proving": {"no-leaks": "dry"}}),
        ({"hours": {"MT": {"hours": "2", "kind": "rework"}, "JB": "1"}},
         {"hours": {"MT": {"hours": "2", "kind": "rework"}, "JB": "1"}}),
        ({"work": {DRUMS: {"did": "fitted", "locking": {"by": "split-pin"}}}},
         {"work": {DRUMS: {"locking": {"by": "split-pin"}}}}),
        ({"parts": {"kit": {"what": "kit", "fitted": "2024-05-14"}}},
         {"parts": {"kit": {"fitted": "2024-05-14"}}}),
    ],
)  # fmt: skip
def test_line__leaves_what_no_form_shows(line: dict[str, Any], left: dict[str, Any]) -> None:
    assert left == beside(line)


def test_lines_beside__do_not_mix_hours_of_a_hand_with_hours_of_nobody() -> None:
    with pytest.raises(WrongCall, match="the sheet has hours without a hand"):
        with_lines({"hours": "2"}, [{"hours": {"MT": {"hours": "1", "kind": "rework"}}}])


_entries = {
    "work": {"did": ["removed", "cleaned"], "found": "worn", "now": "pattern", "why": "worn",
             "decided": {"by": "owner", "on": "2024-05-01"}, "came-off": "first-fit", "retained": "0.6"},
    "parts": {"what": "kit", "number": "WC-114", "of": [DRUMS, "brakes/shoes"], "ordered": "2024-05-14",
              "fitted": "2024-05-14", "note": "in a tin", "price": "12.50"},
    "measured": {"on": DRUMS, "limit": ["8", "14"], "with": "a bore gauge", "note": "about"},
    "snags": {"raise": "it weeps", "hold": "yes", "on": DRUMS, "ask": "owner", "by": "MT"},
    "proving": {"found": "dry", "by": "MT"},
}  # fmt: skip
_needed = {"measured": {"read": "12", "unit": "thou"}, "work": {"did": "fitted"}}


@st.composite
def _lines(draw: st.DrawFn) -> dict[str, Any]:
    line: dict[str, Any] = {"words": "so it is off"}
    for kind in draw(st.lists(st.sampled_from([*_entries]), min_size=1, unique=True)):
        keys = draw(st.lists(st.sampled_from([*_entries[kind]]), min_size=1, unique=True))
        entry = {**_needed.get(kind, {}), **{key: _entries[kind][key] for key in keys}}
        line[kind] = {DRUMS if kind == "work" else "kit": entry}
    hours = st.sampled_from([{"MT": "1.5"}, {"MT": {"hours": "1", "kind": "rework"}, "JB": "2"}])
    return line | ({"hours": draw(hours)} if draw(st.booleans()) else {})


@given(_lines())
def test_line__taken_over_in_a_form_is_all_that_it_says(line: dict[str, Any]) -> None:
    assert read({key: value for key, value in line.items() if key != "words"}) == through_a_form(
        line
    )


def test_draft__is_shown_whole_and_written_back_as_it_was() -> None:
    told = read({"draft": [{"ask": "Front?"}, "so it is off"], "recording": "talk.mp4"})
    shown = form_of(told, "typed\n\n::: workshop\nsaid\n:::")
    assert [{"ask": "Front?"}, {"words": "so it is off"}] == shown["draft"]
    assert ("typed", {"text": "said", "for": "workshop"}) == (shown["body"], shown["talk"])
    assert told == told_of(told, shown, shown)


def test_draft__keeps_what_somebody_else_put_in_and_loses_what_was_confirmed() -> None:
    first, second, third = ({"words": words} for words in ("one", "two", "three"))
    shown = form_of(read({"draft": [first, second]}), "")
    theirs = read({"draft": [second, third]})
    assert [third] == told_of(theirs, shown, {**shown, "draft": [first]})["draft"]
    assert "draft" not in told_of(read({"draft": [first]}), shown, {**shown, "draft": []})


def test_form__that_tells_nothing_of_a_draft_leaves_it() -> None:
    told = read({"draft": [{"ask": "Front?"}]})
    shown = form_of(told, "")
    old = {key: value for key, value in shown.items() if key not in ("draft", "recording", "talk")}
    assert told == told_of(told, shown, old)


def test_fields__of_every_kind_are_known_to_lines() -> None:
    assert {"work", "parts", "measured", "snags", "photos"} == {*FIELDS}

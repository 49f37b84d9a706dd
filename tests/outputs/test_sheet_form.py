"""A sheet in a form: what is changed there is changed in the sheet, and not a byte besides."""

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.outputs.sheets.edit import body_of, edited, with_body
from journal.outputs.sheets.form import FIELDS, Form, form_of, spread, told_of
from journal.outputs.sheets.print import front_told
from journal.reading.sheet import sheet_of
from journal.reading.spans import loc_at
from tests.published import CONTENT
from tests.tern import sheet_text

DEMO = sorted(CONTENT.rglob("sheets/**/*.md"))


def opened(raw: bytes) -> tuple[dict[str, Any], Form]:
    sheet, _ = sheet_of(raw, "")
    assert sheet is not None
    told = front_told(sheet.front)
    # A form goes to a browser and comes back.
    return told, json.loads(json.dumps(form_of(told, body_of(raw))))


def saved(raw: bytes, form: Form) -> bytes:
    """The sheet once it was opened and saved with a form."""
    told, shown = opened(raw)
    sheet, problems = sheet_of(spread(told_of(told, shown, form)).encode(), "")
    assert sheet is not None
    assert [] == problems
    return with_body(edited(raw, sheet.front), form["body"])


def lines(raw: bytes) -> list[str]:
    return raw.decode().split("\n")


def test_round_trip__every_sheet_of_the_demonstration_opened_and_saved_is_the_same_bytes() -> None:
    assert len(DEMO) > 100
    for file in DEMO:
        raw = file.read_bytes()
        assert raw == saved(raw, opened(raw)[1]), file


def test_spread__says_the_same_as_the_sheet() -> None:
    for file in DEMO:
        told, _ = opened(file.read_bytes())
        sheet, problems = sheet_of(spread(told).encode(), "")
        assert sheet is not None
        assert ([], told) == (problems, front_told(sheet.front)), file


def test_spread__has_a_line_for_every_field() -> None:
    told = {
        "date": "2024-03-05", "subsystem": "gearbox", "hours": {"MT": "3.5", "JB": "2,5"},
        "work": {"gearbox/laygear": {"did": ["removed", "lost"], "now": "patern"}},
        "photos": [{"file": "a.jpg", "stage": "early"}],
    }  # fmt: skip
    raw = spread(told).encode()
    _, problems = sheet_of(raw, "")
    assert {
        ("hours", "JB"), ("work", "gearbox/laygear", "did", 1), ("work", "gearbox/laygear", "now"),
        ("photos", 0, "stage"),
    } == {loc_at(raw, problem.place.line) for problem in problems}  # fmt: skip


WRITTEN = sheet_text("""\
hours: {MT: 3.5, JB: [1, {hours: 0.5, kind: rework}]}   # JB later
work:
  gearbox/laygear: {did: removed, decided: {by: owner, on: 2024-03-04}, note: kept}
measured:
  laygear end float: {on: gearbox/laygear, read: [0.22, 0.24], unit: mm, limit: [0.05, 0.15], with: feelers}
snags:
  leak: weeps at the cover
photos: [laygear.jpg]
unheard-of: stays
""", "Split it.\n").encode()  # fmt: skip


def changed(change: Any) -> list[str]:
    """The lines of the sheet that are other ones after a change of its form."""
    _, form = opened(WRITTEN)
    change(form)
    return [line for line in lines(saved(WRITTEN, form)) if line not in lines(WRITTEN)]


def test_hours__of_one_hand_are_changed_and_those_with_a_kind_stay() -> None:
    _, form = opened(WRITTEN)
    assert ({"MT": "3.5"}, ["JB"]) == (form["hours"], form["otherwise"])
    told = changed(lambda form: form["hours"].update(MT="4"))
    assert ["hours: {MT: 4, JB: [1, {hours: 0.5, kind: rework}]}   # JB later"] == told


def test_hours__of_another_hand_are_added_beside() -> None:
    told = changed(lambda form: form["hours"].update(EP="1"))
    assert ["hours: {MT: 3.5, JB: [1, {hours: 0.5, kind: rework}], EP: 1}   # JB later"] == told


def test_bare_hours__stay_bare() -> None:
    raw = sheet_text("hours: 3.5").encode()
    _, form = opened(raw)
    form["hours"][""] = "4.25"
    assert sheet_text("hours: 4.25").encode() == saved(raw, form)


def test_work__keeps_what_the_form_does_not_show() -> None:
    def change(form: Form) -> None:
        form["work"][0] |= {"now": "pattern", "why": "teeth pitted", "decided": "workshop"}

    assert [
        "  gearbox/laygear: {did: removed, now: pattern, why: teeth pitted, "
        "decided: {by: workshop, on: 2024-03-04}, note: kept}"
    ] == changed(change)


def test_limit__has_two_ends_or_one() -> None:
    def without_most(form: Form) -> None:
        form["measured"][0]["most"] = ""

    assert [
        "  laygear end float: {on: gearbox/laygear, read: [0.22, 0.24], unit: mm, limit: {least: 0.05}, "
        "with: feelers}"
    ] == changed(without_most)


@pytest.mark.parametrize(
    ("typed", "readings"),
    [("0.22, 0.24", ["0.22", "0.24"]), ("0.22 0.24;0.25", ["0.22", "0.24", "0.25"]), ("0,22", "0,22")],
)  # fmt: skip
def test_readings__are_set_apart_by_blanks_and_a_comma_in_a_number_is_not_guessed_at(
    typed: str, readings: object
) -> None:
    told = told_of({}, {}, {"measured": [{"name": "float", "read": typed}]})
    assert {"measured": {"float": {"read": readings}}} == told


def test_short_forms__are_known_and_grow_only_when_they_must() -> None:
    def hold(form: Form) -> None:
        form["snags"][0]["hold"] = True

    def shows(form: Form) -> None:
        form["photos"][0]["of"] = ["gearbox/laygear"]

    assert ["  leak: {raise: weeps at the cover, hold: yes}"] == changed(hold)
    assert ["photos: [{file: laygear.jpg, of: gearbox/laygear}]"] == changed(shows)


def test_entries__are_taken_out_and_added() -> None:
    def other(form: Form) -> None:
        form["snags"] = [{"name": "noise", "raise": "whines in second", "hold": False}]

    _, form = opened(WRITTEN)
    other(form)
    told = lines(saved(WRITTEN, form))
    assert "  noise: {raise: whines in second}" in told
    assert "  leak: weeps at the cover" not in told
    assert "unheard-of: stays" in told


def test_pictures__come_in_under_the_name_they_lie_by_and_one_without_is_left_out() -> None:
    _, form = opened(WRITTEN)
    form["photos"] += [{"id": "a", "stage": "stripped"}, {"id": "nowhere"}]
    told, shown = opened(WRITTEN)
    assert ["laygear.jpg", {"file": "laygear-2.jpg", "stage": "stripped"}] == told_of(
        told, shown, form, {"a": "laygear-2.jpg"}
    )["photos"]


NAMES = st.sampled_from(["leak", "noise", "weld"])
TEXTS = st.text(st.characters(codec="utf-8", exclude_categories=["C"]), max_size=20)
SNAGS = st.lists(
    st.fixed_dictionaries({"name": NAMES, "raise": TEXTS, "hold": st.booleans()}),
    unique_by=lambda entry: str(entry["name"]), max_size=3,
)  # fmt: skip


@given(SNAGS, SNAGS, SNAGS)
def test_changes__of_two_people_are_both_there_when_they_are_of_different_things(
    base: list[Any], ours: list[Any], theirs: list[Any]
) -> None:
    """What a form changes is put into a sheet that somebody else has changed meanwhile."""
    empty: Form = {"snags": []}
    before = told_of({}, empty, {"snags": base})
    shown = form_of(before, "")
    onto = told_of(before, shown, {**shown, "snags": theirs})
    told = told_of(onto, shown, {**shown, "snags": ours})
    names = {entry["name"] for entry in [*base, *ours, *theirs]}

    def said(front: dict[str, Any], name: str) -> Any:
        return front.get("snags", {}).get(name)

    wanted = told_of(before, shown, {**shown, "snags": ours})
    for name in names:
        if said(wanted, name) == said(before, name):
            assert said(onto, name) == said(told, name)
        elif said(onto, name) == said(before, name):
            assert said(wanted, name) == said(told, name)


def test_fields__of_every_kind_are_keys_of_a_sheet() -> None:
    for kind, fields in FIELDS.items():
        said = {field.key: "x" for field in fields}
        entry = [{"file": "a.jpg", **said}] if kind == "photos" else {"name": said}
        _, problems = sheet_of(
            spread({"date": "2024-03-05", "subsystem": "a", kind: entry}).encode(), ""
        )
        assert [] == [p.message for p in problems if p.code == "unknown-key"]

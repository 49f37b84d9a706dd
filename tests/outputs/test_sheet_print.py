"""A new sheet is written as the workshop writes its sheets, and reads back as what was meant."""

from collections.abc import Mapping
from typing import Any

import yaml
from hypothesis import given, settings

from journal.outputs.sheets.print import ORDER, NewSheet, front_told, new_text
from journal.reading.content import read_content
from journal.reading.sheet import sheet_of
from journal.records.sheet import SheetFront
from tests.drawing import keys_of, record_of, texts
from tests.published import CONTENT


def front(**told: Any) -> SheetFront:
    return SheetFront.model_validate({"date": "2024-03-05", "subsystem": "gearbox", **told})


def test_new_sheet__in_house_form() -> None:
    new = NewSheet(
        front(
            title="Gearbox apart",
            hours={"MT": "3.5"},
            work={
                "gearbox/laygear": {"did": "inspected", "found": "pitted, second", "verdict": "replace"},
                "gearbox/casing": {"did": ["stripped", "cleaned"], "was": "first-fit"},
            },
            measured={"end float": {"read": ["0.22", "0.24"], "unit": "mm", "limit": ["0.05", "0.15"]}},
            snags={"weld": {"raise": "Old weld: dye-check it", "hold": "yes"}},
            photos=["laygear-1.jpg", {"file": "b.jpg", "of": "gearbox/laygear"}],
            corrects="2024-03-04-gearbox-out",
        ),
        "Split without trouble.\n",
    )  # fmt: skip
    assert """\
---
date: 2024-03-05
title: Gearbox apart
subsystem: gearbox
hours: {MT: 3.5}
work:
  gearbox/laygear: {did: inspected, found: "pitted, second", verdict: replace}
  gearbox/casing: {did: [stripped, cleaned], was: first-fit}
measured:
  end float: {read: [0.22, 0.24], unit: mm, limit: [0.05, 0.15]}
snags:
  weld: {raise: "Old weld: dye-check it", hold: yes}
photos:
  - laygear-1.jpg
  - {file: b.jpg, of: gearbox/laygear}
corrects: 2024-03-04-gearbox-out
---
Split without trouble.
""" == new_text(new)


def test_hours_of_the_only_hand__stand_bare() -> None:
    assert "hours: 3.5\n" in new_text(NewSheet(front(hours="3.5")))


def test_hours_by_subsystem__stand_on_one_line_as_people_write_them() -> None:
    hours = {"brakes": {"MT": "2"}, "fuel": {"MT": "1.5", "JB": "1"}}
    assert "hours: {brakes: {MT: 2}, fuel: {MT: 1.5, JB: 1}}\n" in new_text(
        NewSheet(front(hours=hours))
    )


def test_line_too_long_to_read__is_told_key_by_key() -> None:
    found = "the second-gear teeth are pitted on the drive side, and the needle track is brinelled"
    text = new_text(
        NewSheet(front(work={"gearbox/laygear": {"did": "inspected", "found": found, "by": "MT"}}))
    )
    assert f"  gearbox/laygear:\n    did: inspected\n    found: {found}\n    by: MT\n" in text


def test_line_that_says_for_whom_it_is__says_so_in_the_sheet() -> None:
    """Without `for:` it is read as for those that the snag was first raised for."""
    said = front(snags={"weld": {"clear": "ground out", "for": "keeper"}})
    unsaid = front(snags={"weld": {"clear": "ground out"}})
    assert "{clear: ground out, for: keeper}" in new_text(NewSheet(said))
    assert "{clear: ground out}" in new_text(NewSheet(unsaid))


def test_what_no_file_can_hold__is_left_out() -> None:
    """Half of a character that a browser sent, and a mark that turns the direction of writing."""
    text = new_text(
        NewSheet(front(title="Gear\ud800box \u202eapart"), "Done\u202e.\r\nHome.\ud83d")
    )
    assert "title: Gearbox apart\n" in text
    assert text.endswith("---\nDone.\nHome.\n")


def test_order_of_keys__has_every_key() -> None:
    assert {f.alias for f in SheetFront.model_fields.values()} == set(ORDER)
    assert len(ORDER) == len(set(ORDER))


def test_demonstration__printed_and_read_is_the_same_and_so_is_the_second_print() -> None:
    for car in read_content(CONTENT).cars:
        for sheet in car.sheets:
            text = new_text(NewSheet(sheet.front))
            again, problems = sheet_of(text.encode(), sheet.source.path)
            assert [] == problems
            assert again is not None
            assert sheet.front == again.front.model_copy(
                update={k: getattr(sheet.front, k) for k in ("parts", "outwork", "extras", "snags")}
            )
            assert text == new_text(NewSheet(again.front))


@settings(max_examples=80)
@given(keys_of(SheetFront), texts)
def test_any_sheet__reads_back_as_it_was_meant(told: Mapping[str, Any], body: str) -> None:
    record = record_of(SheetFront, told)
    again, problems = sheet_of(new_text(NewSheet(record, "x" + body)).encode(), "a.md")
    assert again is not None
    assert [] == [p for p in problems if p.code != "bad-block"]
    assert record == again.front
    assert front_told(record) == front_told(again.front)


@settings(max_examples=40)
@given(keys_of(SheetFront))
def test_any_sheet__is_the_same_to_another_reader_of_yaml(told: Mapping[str, Any]) -> None:
    """PyYAML's own loader, with every scalar as its text (YAML 1.1)."""
    record = record_of(SheetFront, told)
    text = new_text(NewSheet(record))
    assert front_told(record) == yaml.load(text.split("---\n")[1], Loader=yaml.BaseLoader)

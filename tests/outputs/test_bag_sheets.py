"""The written record in the bag: what is read of it is what the reader saw."""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from journal.outputs.bag.sheets import record_files
from journal.outputs.findings import problems_of_car
from journal.outputs.sheets.print import joined, sheet_text
from journal.outputs.sheets.yamlform import number, yaml_of
from journal.readers import car_for
from journal.reading.content import read_content
from journal.reading.sheet import read_sheet
from journal.reading.yamltext import read_yaml
from journal.records.carfile import CarFile
from journal.records.fields import Named
from journal.records.hours import HoursLine
from journal.records.place import Source
from journal.records.problem import Severity
from journal.records.sheet import Block, Sheet, SheetFront
from journal.words.vocabulary import Reader
from tests.drawing import keys_of, record_of, texts
from tests.published import CAR, CONTENT
from tests.tern import put_content, put_file
from tests.tern import sheet_text as written


def told(car: CarFile) -> dict[str, Any]:
    """What a car file tells, wherever it was written."""
    return {
        "workshop": car.workshop,
        "car": car.car,
        "register": car.register.components,
        "papers": car.papers,
        "statements": [(s.name, s.file) for s in car.statements],
        "sheets": [(s.name, s.front, _texts(s.body)) for s in car.sheets],
    }


def _texts(body: tuple[Block, ...]) -> list[tuple[Reader, str]]:
    return [(block.reader, block.text) for block in joined(body)]


def put_record(folder: Path, car: CarFile) -> CarFile:
    """Write a car's record and read it again."""
    for path, text in record_files(car):
        put_file(folder, path, text.encode())
    (again,) = read_content(folder).cars
    return again


def seen_of(root: Path, reader: Reader = Reader.OWNER, name: str = "tern") -> CarFile:
    cars = read_content(root).cars
    car = next(car for car in cars if car.name == name)
    return car_for(reader, car, tuple(other for other in cars if other is not car))


@pytest.mark.parametrize("name", [CAR, "pellmarsh-lapwing"])
def test_demonstration__is_read_back_as_its_owner_saw_it(name: str, tmp_path: Path) -> None:
    seen = seen_of(CONTENT, name=name)
    again = put_record(tmp_path, seen)
    for part, value in told(seen).items():
        assert value == told(again)[part], part


def test_record_in_the_bag__has_nothing_wrong_in_it_that_was_not_there_before(
    tmp_path: Path,
) -> None:
    seen = seen_of(CONTENT, name=CAR)
    again = replace(put_record(tmp_path, seen), photo_files=seen.photo_files)
    assert [] == [p for p in problems_of_car(again) if p.severity is Severity.ERROR]


def test_bag_made_of_a_bag__is_the_same(tmp_path: Path) -> None:
    seen = seen_of(CONTENT, name=CAR)
    again = put_record(tmp_path, seen)
    assert dict(record_files(seen)) == dict(record_files(again))


def test_sheet__is_written_as_a_person_would(tmp_path: Path) -> None:
    front = """\
title: Gearbox apart
hours: {MT: 3.5}
work:
  gearbox/laygear: {did: inspected, found: "teeth pitted: second", verdict: replace}
measured:
  end-float: {on: gearbox/laygear, read: [0.22, 0.24], unit: mm, limit: [0.05, 0.15]}
snags:
  old-weld: {raise: dye-check before refit, hold: yes}
"""
    body = "Split without trouble.\n\n::: workshop\nNever again.\n:::\n\n::: owner\nCome and see.\n:::\n"
    put_content(tmp_path, **{"tern/sheets/2024/2024-03-05-apart.md": written(front, body)})
    (sheet,) = seen_of(tmp_path).sheets
    assert """\
---
date: 2024-03-05
title: Gearbox apart
subsystem: gearbox
hours: {MT: 3.5}
work:
  gearbox/laygear: {did: inspected, found: "teeth pitted: second", verdict: replace}
measured:
  end-float: {on: gearbox/laygear, read: [0.22, 0.24], unit: mm, limit: [0.05, 0.15]}
snags:
  old-weld: {raise: dye-check before refit, hold: yes}
---
Split without trouble.

::: owner
Come and see.
:::
""" == sheet_text(sheet, {})


def test_line_for_fewer_readers__stays_for_those_in_later_sheets(tmp_path: Path) -> None:
    put_content(
        tmp_path,
        **{
            "tern/sheets/2024/2024-03-05-a.md": written("snags: {crack: {raise: a crack, for: owner}}"),
            "tern/sheets/2024/2024-03-06-b.md": written("snags: {crack: {clear: gone}}", date="2024-03-06"),
            "tern/sheets/2024/2024-03-07-c.md": written(
                "parts: {ring: {what: a ring, for: owner}}", date="2024-03-07"
            ),
            "tern/sheets/2024/2024-03-08-d.md": written(
                "parts: {ring: {got: 1, for: public}}", date="2024-03-08"
            ),
        },
    )  # fmt: skip
    seen = seen_of(tmp_path)
    again = put_record(tmp_path / "again", seen)
    assert told(seen) == told(again)
    assert Reader.OWNER is again.sheets[1].front.snags.get("crack").for_
    texts = dict(record_files(seen))
    assert "  crack: {clear: gone}\n" in texts["tern/sheets/2024/2024-03-06-b.md"]
    assert "for: public" in texts["tern/sheets/2024/2024-03-08-d.md"]


def test_parts_of_a_text_around_what_is_hidden__become_one(tmp_path: Path) -> None:
    put_content(
        tmp_path,
        **{
            "tern/sheets/2024/2024-03-05-a.md": written(
                "", "One.\n\n::: workshop\nHidden.\n:::\n\nTwo.\n"
            )
        },
    )
    (sheet,) = seen_of(tmp_path).sheets
    assert 2 == len(sheet.body)
    assert sheet_text(sheet, {}).endswith("---\nOne.\n\nTwo.\n")


def test_sheets_of_a_day__stay_in_their_order(tmp_path: Path) -> None:
    put_content(
        tmp_path,
        **{
            "tern/sheets/a/2024-03-05-second-by-name.md": written("title: One"),
            "tern/sheets/b/2024-03-05-first-by-name.md": written("title: Two"),
        },
    )
    seen = seen_of(tmp_path)
    again = put_record(tmp_path / "again", seen)
    assert ["One", "Two"] == [sheet.title for sheet in again.sheets]
    assert "sheets/2024/2024-03-05.002/2024-03-05-first-by-name.md" == (
        again.sheets[1].source.path.removeprefix("tern/")
    )


def test_hours_that_no_sheet_can_tell__are_told_as_their_sum() -> None:
    hours = Named(
        (name, Named([("", (HoursLine(hours=Decimal(n)),))]))
        for name, n in (("gearbox", 2), ("brakes", 1))
    )
    front = SheetFront.model_validate({"date": "2024-03-05", "subsystem": ["gearbox", "brakes"]})
    front = front.model_copy(update={"hours": hours})
    assert "hours: 3\n" in sheet_text(Sheet("2024-03-05-a", Source("a"), front), {})


@settings(max_examples=60, deadline=None)
@given(keys_of(SheetFront), st.lists(texts, max_size=3))
def test_any_sheet__is_read_back_as_it_was(front: Mapping[str, Any], lines: list[str]) -> None:
    record = record_of(SheetFront, front)
    # Empty lines around a text are no part of it.
    text = "\n".join(line for line in lines if ":" not in line).strip("\n")
    sheet = Sheet(
        "2024-03-05-any", Source("x"), record, (Block(Reader.PUBLIC, text, 1),) if text else ()
    )
    with TemporaryDirectory() as folder:
        put_file(Path(folder), "a/2024-03-05-any.md", sheet_text(sheet, {}).encode())
        again, problems = read_sheet(Path(folder), "a/2024-03-05-any.md")
    assert [] == problems
    assert again is not None
    known_lines = {
        kind: Named((n, e.model_copy(update={"for_": getattr(record, kind).get(n).for_}))
                    for n, e in getattr(again.front, kind))
        for kind in ("parts", "outwork", "extras", "snags", "rechecks")
    }  # fmt: skip
    assert record == again.front.model_copy(update=known_lines)
    assert text == "\n".join(block.text for block in again.body)


@given(
    st.dictionaries(texts.filter(bool), st.one_of(texts, st.lists(texts, max_size=4)), max_size=4)
)
def test_any_texts__come_back_from_their_file(plain: dict[str, Any]) -> None:
    text = yaml_of(plain)
    data, _, problems = read_yaml(text, "a.yaml", tuple(text.split("\n")))
    assert [] == problems
    assert plain == (data or {})


def test_shares__are_written_as_the_decimals_that_they_were() -> None:
    assert ["0", "1", "0.6", "0.125", "0.000000001"] == [
        number(Fraction(share)) for share in ("0", "1", "0.6", "0.125", "0.000000001")
    ]

"""What is read again and what is not: a desk must show what the disk says, and must be quick."""

import os
from pathlib import Path

import pytest

from journal.desk import memory
from journal.desk.memory import Memory
from journal.reading.content import read_content
from tests.tern import SHEET, put_content, put_file, sheet_text

OLD = 1_700_000_000_000_000_000


@pytest.fixture
def root(tmp_path: Path) -> Path:
    put_content(tmp_path, **{SHEET: sheet_text("hours: {MT: 3.5}")})
    for file in tmp_path.rglob("*"):
        os.utime(file, ns=(OLD, OLD))
    return tmp_path


def test_read__is_what_the_folder_says(root: Path) -> None:
    read, content = Memory(root).read(), read_content(root)
    (car,) = content.cars
    assert [car.name] == list(read.cars)
    told = read.cars[car.name].file
    assert told is not None
    assert [s.front for s in car.sheets] == [s.front for s in told.sheets]
    assert (car.car, car.register.components, car.papers, car.photo_files) == (
        told.car, told.register.components, told.papers, told.photo_files,
    )  # fmt: skip


def test_read__nothing_changed_nothing_is_made_anew(root: Path) -> None:
    kept = Memory(root)
    assert kept.read().cars["tern"] is kept.read().cars["tern"]


def test_read__a_changed_sheet_is_read_and_no_other(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_file(root, "tern/sheets/2024/2024-03-06-more.md", sheet_text("hours: {MT: 1}").encode())
    os.utime(root / "tern/sheets/2024/2024-03-06-more.md", ns=(OLD, OLD))
    kept = Memory(root)
    before = kept.read().cars["tern"].file
    asked: list[str] = []
    really = memory.read_sheet
    monkeypatch.setattr(
        memory, "read_sheet", lambda root, path: asked.append(path) or really(root, path)
    )
    put_file(root, SHEET, sheet_text("hours: {MT: 4.5}").encode())
    after = kept.read().cars["tern"].file
    assert [SHEET] == asked
    assert before is not None
    assert after is not None
    assert before.sheets[0] is not after.sheets[0]
    assert before.sheets[1] is after.sheets[1]


def test_read__same_size_within_one_tick_of_the_clock_is_seen_all_the_same(root: Path) -> None:
    """A file system whose clock ticks every two seconds shows both writings at one moment."""
    kept = Memory(root)
    moment = kept.read().cars["tern"].at
    for hours in ("3.5", "4.5", "5.5"):
        put_file(root, SHEET, sheet_text(f"hours: {{MT: {hours}}}").encode())
        os.utime(root / SHEET, ns=(moment, moment))
        file = kept.read().cars["tern"].file
        assert file is not None
        assert hours in "\n".join(file.sheets[0].source.lines)


def test_read__a_mistake_leaves_what_was_right_and_is_told(root: Path) -> None:
    kept = Memory(root)
    right = kept.read().cars["tern"].file
    put_file(root, SHEET, sheet_text("hours: {MT: 4,5}").encode())
    read = kept.read().cars["tern"]
    assert right is not None
    assert read.file is not None
    assert right.sheets == read.file.sheets
    assert [("bad-number", SHEET)] == [(p.code, p.place.path) for p in read.problems]
    put_file(root, SHEET, sheet_text("hours: {MT: 4.5}").encode())
    mended = kept.read().cars["tern"]
    assert () == mended.problems
    assert mended.file is not None
    assert right.sheets != mended.file.sheets


def test_read__a_sheet_that_was_never_right_is_as_in_any_reading(root: Path) -> None:
    put_file(root, SHEET, b"no sheet at all")
    car = Memory(root).read().cars["tern"]
    assert car.file is not None
    assert () == car.file.sheets
    assert ["no-front-matter"] == [p.code for p in car.problems]


@pytest.mark.parametrize("path", ["tern/car.yaml", "tern/register.yaml", "workshop.yaml"])
def test_read__a_broken_file_of_the_car_or_workshop_takes_no_page_away(
    root: Path, path: str
) -> None:
    kept = Memory(root)
    before = kept.read().cars["tern"].file
    put_file(root, path, b"name: [")
    read = kept.read()
    after = read.cars["tern"].file
    assert before is not None
    assert after is not None
    assert (before.car, before.register.components) == (after.car, after.register.components)
    told = (*read.problems, *read.cars["tern"].problems)
    assert {path} == {p.place.path for p in told}


def test_read__what_is_taken_away_is_gone_also_from_memory(root: Path) -> None:
    kept = Memory(root)
    kept.read()
    (root / SHEET).unlink()
    car = kept.read().cars["tern"]
    assert car.file is not None
    assert () == car.file.sheets
    put_file(root, SHEET, sheet_text("hours: {MT: 4,5}").encode())
    again = kept.read().cars["tern"].file
    assert again is not None
    assert ("2024-03-05-gearbox",) == tuple(sorted(again.partly))


def _put_another(root: Path) -> None:
    for file in ("car.yaml", "register.yaml"):
        put_file(root, f"plover/{file}", (root / "tern" / file).read_bytes())


def test_read__where_something_changed_looks_at_no_other_car(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _put_another(root)
    kept = Memory(root)
    kept.read()
    looked: list[str] = []
    really = memory.prints_below
    monkeypatch.setattr(
        memory,
        "prints_below",
        lambda root, name, *more: looked.append(name) or really(root, name, *more),
    )
    kept.read([str(root / SHEET)])
    assert ["tern"] == looked


@pytest.mark.parametrize("beside", ["workshop.yaml", "tern", "", "../elsewhere.md", "no-car/a.md"])
def test_read__where_no_car_alone_can_have_changed_looks_at_all(root: Path, beside: str) -> None:
    _put_another(root)
    kept = Memory(root)
    kept.read()
    (root / "plover/car.yaml").write_text("year: 1931\n", encoding="utf-8")
    before = kept.read([str(root / SHEET)]).cars["plover"]
    assert before is not kept.read([str(root / SHEET), str(root / beside)]).cars["plover"]


def test_read__new_car_is_read_whatever_changed(root: Path) -> None:
    kept = Memory(root)
    kept.read()
    _put_another(root)
    assert {"plover", "tern"} == set(kept.read([str(root / SHEET)]).cars)

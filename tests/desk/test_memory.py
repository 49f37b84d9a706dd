"""What is read again and what is not: a desk must show what the disk says, and must be quick."""

import os
from collections.abc import Iterable
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


def test_read__where_something_changed_looks_into_no_other_folder(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _put_another(root)
    kept = Memory(root)
    kept.read()
    looked: list[str] = []
    really = memory.look_below
    monkeypatch.setattr(
        memory,
        "look_below",
        lambda root, name, *more: looked.append(name) or really(root, name, *more),
    )
    kept.read([str(root / SHEET)])
    assert ["tern/sheets/2024"] == looked


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


def test_read__where_something_changed_shows_it_and_the_rest_as_it_was(root: Path) -> None:
    later = "tern/sheets/2025/2025-01-07-later.md"
    put_file(root, later, sheet_text("hours: {MT: 1}", date="2025-01-07").encode())
    os.utime(root / later, ns=(OLD, OLD))
    kept = Memory(root)
    kept.read()
    put_file(root, SHEET, sheet_text("hours: {MT: 4.5}").encode())
    put_file(root, later, sheet_text("hours: {MT: 2.5}", date="2025-01-07").encode())
    assert ["4.5", "1"] == _hours(kept, [SHEET])
    assert ["4.5", "2.5"] == _hours(kept)


def _hours(kept: Memory, where: Iterable[str] | None = None) -> list[str]:
    """The hours in the sheets of the car, when these paths are told of, or none in particular."""
    told = None if where is None else [str(kept._root / path) for path in where]
    file = kept.read(told).cars["tern"].file
    assert file is not None
    return [
        line.split()[2].rstrip("}") for s in file.sheets for line in s.source.lines if "MT:" in line
    ]


@pytest.mark.parametrize(
    "told", [["{new}"], ["tern/sheets/2025"], ["tern/sheets"], ["tern/sheets/2025", "{new}"]]
)
def test_read__where_a_file_or_its_folder_is_new_or_gone(root: Path, told: list[str]) -> None:
    """Systems tell of the file, of its folder, or of what holds that; each will do."""
    new = "tern/sheets/2025/2025-01-07-later.md"
    where = [path.format(new=new) for path in told]
    kept = Memory(root)
    assert ["3.5"] == _hours(kept)
    put_file(root, new, sheet_text("hours: {MT: 1}", date="2025-01-07").encode())
    assert ["3.5", "1"] == _hours(kept, where)
    (root / new).rename(root / "away.md")
    (root / new).parent.rmdir()
    assert ["3.5"] == _hours(kept, where)
    assert new not in kept.read().cars["tern"].prints


def test_read__where_a_picture_came_in_lists_it(root: Path) -> None:
    kept = Memory(root)
    kept.read()
    for day in ("2024-03-05", "2024-03-06"):
        put_file(root, f"tern/photos/{day}/new.jpg", b"a picture")
        file = kept.read([str(root / f"tern/photos/{day}/new.jpg")]).cars["tern"].file
        assert file is not None
        assert f"{day}/new.jpg" in file.photo_files


def test_read__where_a_link_leads_nowhere_is_told_with_the_next_change(root: Path) -> None:
    """It has no print by which a change would show."""
    kept = Memory(root)
    kept.read()
    link = root / "tern/photos/2024-03-05/broken.jpg"
    link.symlink_to(root / "tern/photos/none.jpg")
    kept.read([str(link)])
    put_file(root, SHEET, sheet_text("hours: {MT: 4.5}").encode())
    car = kept.read([str(root / SHEET)]).cars["tern"]
    assert ["link-not-followed"] == [problem.code for problem in car.problems]


def test_read__where_only_hidden_things_changed_changes_nothing(root: Path) -> None:
    kept = Memory(root)
    before = kept.read().cars["tern"]
    put_file(root, "tern/sheets/2024/.notes/a.md", b"mine")
    where = [root / "tern/sheets/2024/.notes/a.md", root / "tern/sheets/2024/.notes"]
    assert before is kept.read(map(str, where)).cars["tern"]


def test_read__where_it_was_told_within_one_tick_is_seen_again(root: Path) -> None:
    """The second writing shows the times of the first; both were told of."""
    kept = Memory(root)
    moment = kept.read().cars["tern"].at
    for hours in ("3.5", "4.5", "5.5"):
        put_file(root, SHEET, sheet_text(f"hours: {{MT: {hours}}}").encode())
        os.utime(root / SHEET, ns=(moment, moment))
        assert [hours] == _hours(kept, [SHEET])


def test_read__tells_in_which_folders_somebody_writes(root: Path) -> None:
    kept = Memory(root)
    assert frozenset() == kept.read().begun
    put_file(root, "tern/sheets/2024/.writing-4711-1", b"---\nda")
    put_file(root, "tern/photos/2024-03-05/.writing-4711-2", b"\xff\xd8")
    put_file(root, "tern/photos/2024-03-05/.hidden", b"")
    assert {"tern/sheets/2024", "tern/photos/2024-03-05"} == kept.read().begun

"""Publishing again: what has not changed is neither made nor touched, and what is kept is never believed
blindly."""

import errno
import os
import shutil
from collections.abc import Callable
from operator import attrgetter
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest

from journal.outputs import onecar, publishing, working
from journal.outputs.archive import Order
from journal.outputs.hands import Work, shared
from journal.outputs.kept import book as books
from journal.outputs.kept import tree
from journal.outputs.kept.store import Store
from journal.outputs.problems import problems_text
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall
from tests.benchmarks.edits import run
from tests.editing import put_small
from tests.plainly import publish
from tests.publishing import Publishing, a_publishing, published_again
from tests.swapping import state_of

DAY = "tern/sheets/2024/2024-03-05-day-1.md"
LATER = 10_000_000_000


@pytest.mark.parametrize("chain", range(4))
def test_archive__after_any_edits_is_what_one_from_nothing_would_be(chain: int) -> None:
    """The first sequences of `python -m tests.benchmarks.edits`."""
    assert [] == list(run(7, 1 + 8 * chain))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small workshop, published once, long before now."""
    root = put_small(tmp_path / "content")
    for file in root.rglob("*"):
        os.utime(file, ns=(1, 1))
    published_again(_now(tmp_path))
    for file in (tmp_path / "archive").rglob("*"):
        os.utime(file, ns=(1, 1))
    published_again(_now(tmp_path))
    return tmp_path


def _now(folder: Path, **more: object) -> Publishing:
    return a_publishing(folder, folder / "content", **more)  # type: ignore[arg-type]


def _plain(folder: Path) -> dict[str, bytes | None]:
    root, target = folder / "content", folder / "plain"
    shutil.rmtree(target, ignore_errors=True)
    publish(read_content(root), Order(root, target, Reader.WORKSHOP))
    return state_of(target)


def _stats(folder: Path) -> dict[str, tuple[int, int]]:
    return {
        f.relative_to(folder).as_posix(): (f.stat().st_ino, f.stat().st_mtime_ns)
        for f in folder.rglob("*")
        if f.is_file()
    }


def _worked_on(folder: Path, **more: object) -> list[str]:
    """Publish, and tell which cars it took work on."""
    names: list[str] = []

    def noting(task: onecar.Task) -> object:
        names.append(task.name)
        return onecar.work_on(task)

    with patch.object(working, "work_on", noting):
        published_again(_now(folder, **more))
    return names


def _edit(folder: Path, old: str = "---\n", new: str = "---\nNew words.\n") -> None:
    sheet = folder / "content" / DAY
    head, _, tail = sheet.read_text(encoding="utf-8").rpartition(old)
    sheet.write_text(f"{head}{new}{tail}", encoding="utf-8")


# What is done


def test_nothing_changed__nothing_is_done(folder: Path) -> None:
    before = _stats(folder)
    with patch.object(books, "write_book", side_effect=AssertionError("nothing is written")):
        assert [] == _worked_on(folder)
    assert before == _stats(folder)


def test_nothing_changed__the_same_is_told_as_from_nothing(tmp_path: Path) -> None:
    root = put_small(tmp_path / "content")
    _edit(tmp_path, "hours:", "hour:")
    wanted = problems_text(
        publish(read_content(root), Order(root, tmp_path / "p", Reader.WORKSHOP))
    )
    first, second = published_again(_now(tmp_path)), published_again(_now(tmp_path))
    assert (wanted, True, True) == (first.problems, first.errors, first.anew)
    assert (wanted, True, False) == (second.problems, second.errors, second.anew)
    assert first.pages == second.pages


def test_one_sheet_changed__one_car_is_worked_on_and_other_files_are_not_touched(
    folder: Path,
) -> None:
    before = _stats(folder / "archive")
    _edit(folder)
    assert ["tern"] == _worked_on(folder)
    after = _stats(folder / "archive")
    touched = {path for path in before if before[path] != after[path]}
    assert before.keys() == after.keys()
    assert {"tern/sheets/2024-03-05-day-1.html"} <= touched
    assert [] == [path for path in touched if not path.startswith("tern/")]
    assert "tern/style.css" not in touched
    assert len(touched) < len([path for path in before if path.startswith("tern/")]) / 3
    assert _plain(folder) == state_of(folder / "archive")


def test_sheet_touched_without_a_change__touches_nothing(folder: Path) -> None:
    before = _stats(folder / "archive")
    (folder / "content" / DAY).touch()
    published_again(_now(folder))
    assert before == _stats(folder / "archive")


def test_sheet_changed_under_its_old_date_and_size__is_seen(folder: Path) -> None:
    sheet = folder / "content" / DAY
    text = sheet.read_text(encoding="utf-8")
    before = sheet.stat()
    sheet.write_text(text.replace("Nobody", "Nybody"), encoding="utf-8")
    os.utime(sheet, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert before.st_size == sheet.stat().st_size
    assert ["tern"] == _worked_on(folder)
    assert _plain(folder) == state_of(folder / "archive")


def test_sheet_changed_while_it_is_first_published__is_seen_the_next_time(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where a disk tells no times finer than a second, nothing but its words shows such a change."""
    coarse = attrgetter("st_mtime_ns", "st_size", "st_ino", "st_mtime_ns", "st_mode")
    monkeypatch.setattr(tree, "_PRINT", coarse)
    shutil.rmtree(folder / "kept")
    sheet = folder / "content" / DAY
    sheet.touch()

    def changing(task: onecar.Task) -> object:
        made, before = onecar.work_on(task), sheet.stat()
        if task.name == "tern":
            sheet.write_text(sheet.read_text("utf-8").replace("Nobody", "Nybody"), "utf-8")
            os.utime(sheet, ns=(before.st_atime_ns, before.st_mtime_ns))
        return made

    with patch.object(working, "work_on", changing):
        published_again(_now(folder))
    assert _plain(folder) != state_of(folder / "archive")
    published_again(_now(folder))
    assert _plain(folder) == state_of(folder / "archive")


def test_folder_that_nobody_may_look_into__is_told_of_while_it_is_so(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (folder / "content" / "plover").mkdir()
    assert "plover" not in published_again(_now(folder)).problems
    look = os.lstat

    def closed(file: Path) -> os.stat_result:
        if Path(file).parent.name == "plover":
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
        return look(file)

    with monkeypatch.context() as meanwhile:
        meanwhile.setattr(os, "lstat", closed)
        assert "plover:1: error[unreadable-file]" in published_again(_now(folder)).problems
    assert "plover" not in published_again(_now(folder)).problems


def test_several_processes__come_to_the_same(folder: Path) -> None:
    (folder / "content" / "workshop.yaml").write_text(
        (folder / "content" / "workshop.yaml").read_text("utf-8").replace("Margit", "Mette"),
        "utf-8",
    )
    with patch.object(publishing, "_WORTH", 0):
        published_again(_now(folder, workers=2))
    assert _plain(folder) == state_of(folder / "archive")


@pytest.mark.parametrize(("workers", "taken"), [(3, 3), (128, 8)])
def test_one_car_on_several_hands__comes_to_the_same(
    folder: Path, workers: int, taken: int
) -> None:
    _edit(folder)
    hands: list[int] = []

    def noting(work: Work[object], count: int, asked: int) -> list[object]:
        hands.append(asked)
        return shared(work, count, asked)

    with patch.object(publishing, "_WORTH", 0), patch.object(onecar, "shared", noting):
        published_again(_now(folder, workers=workers))
    assert [taken] == hands
    assert _plain(folder) == state_of(folder / "archive")


def test_file_beside_the_cars__is_looked_at_whatever_it_is_called(folder: Path) -> None:
    (folder / "content" / "terms.yaml").write_text("no-such-key: yes\n", encoding="utf-8")
    first = published_again(_now(folder))
    assert first.anew
    assert "terms.yaml:1: error[unknown-key]" in first.problems
    (folder / "content" / "terms.yaml").unlink()
    assert "terms.yaml" not in published_again(_now(folder)).problems


# The archive itself


def _by_hand(file: Path) -> None:
    file.write_bytes(file.read_bytes() + b"by hand")


def _by_hand_under_its_old_date(file: Path) -> None:
    data, before = file.read_bytes(), file.stat()
    file.write_bytes(data[:-1] + b"?")
    os.utime(file, ns=(before.st_atime_ns, before.st_mtime_ns))


def _own_file(file: Path) -> None:
    (file.parent / "mine").mkdir()
    (file.parent / "mine" / "letter.txt").write_bytes(b"mine")


def _a_folder(file: Path) -> None:
    file.unlink()
    (file / "within").mkdir(parents=True)


def _a_link(file: Path) -> None:
    copy = file.parent.parent.parent / "copy"
    file.rename(copy)
    file.symlink_to(copy)


@pytest.mark.parametrize("path", ["tern/index.html", "index.html", "style.css", ".journal-archive"])
@pytest.mark.parametrize(
    "done", [_by_hand, _by_hand_under_its_old_date, Path.unlink, _own_file, _a_folder, _a_link]
)
def test_archive__changed_by_somebody_is_put_right(
    folder: Path, path: str, done: Callable[[Path], None]
) -> None:
    if path == ".journal-archive" and done in (Path.unlink, _a_folder):
        pytest.skip("without its mark the folder is not ours to change")
    before = state_of(folder / "archive")
    done(folder / "archive" / path)
    published_again(_now(folder))
    assert before == state_of(folder / "archive")
    assert not (folder / "archive" / path).is_symlink()


def test_archive__taken_away_is_there_again(folder: Path) -> None:
    before = state_of(folder / "archive")
    shutil.rmtree(folder / "archive")
    published_again(_now(folder))
    assert before == state_of(folder / "archive")


def test_archive__for_another_reader_in_the_same_folder_holds_nothing_of_the_one_before(
    folder: Path,
) -> None:
    published_again(_now(folder, reader=Reader.PUBLIC, car="tern"))
    root, target = folder / "content", folder / "plain"
    publish(read_content(root), Order(root, target, Reader.PUBLIC, "tern"))
    assert state_of(target) == state_of(folder / "archive")
    published_again(_now(folder))
    assert _plain(folder) == state_of(folder / "archive")


def test_nothing_to_publish__the_archive_stays(folder: Path) -> None:
    before = state_of(folder / "archive")
    for car in ("tern", "lapwing"):
        (folder / "content" / car / "car.yaml").write_text("name: [", encoding="utf-8")
    with pytest.raises(WrongCall, match="there is no car that can be read"):
        published_again(_now(folder))
    assert before == state_of(folder / "archive")


# What is kept

_DAMAGED = "What was kept of earlier publishing was damaged and is made again."
_ANOTHER = (
    "What was kept of earlier publishing is of another version of the program and is made again."
)


def _kept(folder: Path) -> list[Path]:
    return [file for file in sorted((folder / "kept").rglob("*")) if file.is_file()]


def _cut(file: Path) -> None:
    file.write_bytes(file.read_bytes()[:-20])


def _emptied(file: Path) -> None:
    file.write_bytes(b"")


def _one_bit(file: Path) -> None:
    data = bytearray(file.read_bytes())
    data[len(data) // 2] ^= 1
    file.write_bytes(bytes(data))


@pytest.mark.parametrize("damage", [_cut, _emptied, _one_bit])
def test_kept__damaged_is_made_again_and_said(folder: Path, damage: Callable[[Path], None]) -> None:
    before = _stats(folder / "archive")
    for file in _kept(folder):
        damage(file)
    now = _now(folder)
    published_again(now)
    assert [_DAMAGED] == now.said
    assert before == _stats(folder / "archive")
    again = _now(folder)
    assert not published_again(again).anew
    assert [] == again.said


def test_each_thing_kept__may_be_damaged_alone(folder: Path) -> None:
    wanted = state_of(folder / "archive")
    for file in _kept(folder):
        data = file.read_bytes()
        _one_bit(file)
        (folder / "content" / DAY).touch()
        now = _now(folder)
        published_again(now)
        assert now.said in ([_DAMAGED], []), file
        assert wanted == state_of(folder / "archive"), file
        file.write_bytes(data)


def test_kept__deleted_costs_time_alone(folder: Path) -> None:
    before = _stats(folder / "archive")
    shutil.rmtree(folder / "kept")
    now = _now(folder)
    assert published_again(now).anew
    assert [] == now.said
    assert before == _stats(folder / "archive")


def test_kept__of_another_version_is_made_again_and_said(folder: Path) -> None:
    before = _stats(folder / "archive")
    now = _now(folder)
    now.keeping = books.Keeping(Store(folder / "kept", "another"), now.keeping.clock)
    published_again(now)
    assert [_ANOTHER] == now.said
    assert before == _stats(folder / "archive")


@pytest.mark.parametrize(
    ("fault", "reason"),
    [
        (errno.ENOSPC, "no space left on device"),
        (errno.EROFS, "read-only file system"),
        (errno.EACCES, "permission denied"),
    ],
)
def test_kept__cannot_be_written_and_is_said(folder: Path, fault: int, reason: str) -> None:
    _edit(folder)
    opened = Path.open

    def refused(file: Path, mode: str = "r", **how: Any) -> Any:
        if mode == "wb" and file.is_relative_to(folder / "kept"):
            # A full disk takes what there is room for.
            with opened(file, mode) as begun:
                begun.write(b"kept by jo")
            raise OSError(fault, os.strerror(fault))
        return opened(file, mode, **how)

    with patch.object(Path, "open", refused):
        now = _now(folder)
        published_again(now)
    told = f"Nothing can be kept for the next publishing in {folder / 'kept'}: {reason}."
    assert [told] == now.said
    wanted = _plain(folder)
    assert wanted == state_of(folder / "archive")
    published_again(_now(folder))
    assert wanted == state_of(folder / "archive")
    assert [] == [file.name for file in _kept(folder) if file.name.endswith(".part")]


def test_kept__where_others_can_write_is_not_used_and_said(folder: Path) -> None:
    (folder / "kept").chmod(0o777)
    now = _now(folder)
    assert published_again(now).anew
    told = "Nothing is kept for the next publishing: others can write to"
    assert [f"{told} {folder / 'kept'}."] == now.said
    assert _plain(folder) == state_of(folder / "archive")


def test_kept__is_for_this_person_alone(folder: Path) -> None:
    assert {0o700} == {f.stat().st_mode & 0o777 for f in (folder / "kept").rglob("*") if f.is_dir()}


def test_kept__from_a_time_to_come_is_not_believed(folder: Path) -> None:
    """A clock that was wrong may have taken for long ago what was a moment before."""
    now = _now(folder).keeping.clock()
    _edit(folder)
    published_again(_now(folder, clock=now + LATER))
    assert not published_again(_now(folder, clock=now + LATER)).anew
    assert published_again(_now(folder, clock=now)).anew


def test_kept__for_many_archives_does_not_grow_without_bound(folder: Path) -> None:
    for number in range(60):
        one = _now(folder)
        one.keeping.store.put(f"other-{number}/book", b"")
    _edit(folder)
    published_again(_now(folder))
    assert 48 >= len([*(folder / "kept").iterdir()])

"""Publishing again: what has not changed is neither made nor touched."""

import errno
import os
import shutil
from collections import Counter
from collections.abc import Callable
from operator import attrgetter
from pathlib import Path
from unittest.mock import patch

import pytest

from journal.outputs import onecar, publishing, working
from journal.outputs.archive import Order
from journal.outputs.hands import Work, shared
from journal.outputs.kept import book as books
from journal.outputs.kept import tree
from journal.outputs.problems import problems_text
from journal.pages import view
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall
from tests.benchmarks.edits import run
from tests.editing import put_small
from tests.outputs.republishing import DAY, edit, now_of, plain, published_once, stats
from tests.plainly import publish
from tests.publishing import published_again
from tests.swapping import state_of

LATER = 10_000_000_000


@pytest.mark.parametrize("chain", range(4))
def test_archive__after_any_edits_is_what_one_from_nothing_would_be(chain: int) -> None:
    """The first sequences of `python -m tests.benchmarks.edits`."""
    assert [] == list(run(7, 1 + 8 * chain))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small workshop, published once, long before now."""
    return published_once(tmp_path)


def _worked_on(folder: Path, **more: object) -> list[str]:
    """Publish, and tell which cars it took work on."""
    names: list[str] = []

    def noting(task: onecar.Task) -> object:
        names.append(task.name)
        return onecar.work_on(task)

    with patch.object(working, "work_on", noting):
        published_again(now_of(folder, **more))
    return names


def test_nothing_changed__nothing_is_done(folder: Path) -> None:
    before = stats(folder)
    with patch.object(books, "write_book", side_effect=AssertionError("nothing is written")):
        assert [] == _worked_on(folder)
    assert before == stats(folder)


def test_nothing_changed_since_it_was_forgotten_what_was_made__nothing_is_done(
    folder: Path,
) -> None:
    shutil.rmtree(folder / "kept")
    assert ["lapwing", "tern"] == sorted(_worked_on(folder))
    assert [] == _worked_on(folder)


def test_nothing_changed_since_the_first_time__nothing_is_done(tmp_path: Path) -> None:
    put_small(tmp_path / "content")
    first = published_again(now_of(tmp_path))
    assert first.pages == len([*(tmp_path / "archive").rglob("*.html")])
    assert [] == _worked_on(tmp_path)


def test_nothing_changed__the_same_is_told_as_from_nothing(tmp_path: Path) -> None:
    root = put_small(tmp_path / "content")
    edit(tmp_path, "hours:", "hour:")
    wanted = problems_text(
        publish(read_content(root), Order(root, tmp_path / "p", Reader.WORKSHOP))
    )
    first, second = published_again(now_of(tmp_path)), published_again(now_of(tmp_path))
    assert (wanted, True, True) == (first.problems, first.errors, first.anew)
    assert (wanted, True, False) == (second.problems, second.errors, second.anew)
    assert first.pages == second.pages


def test_one_sheet_changed__one_car_is_worked_on_and_other_files_are_not_touched(
    folder: Path,
) -> None:
    before = stats(folder / "archive")
    edit(folder)
    assert ["tern"] == _worked_on(folder)
    after = stats(folder / "archive")
    touched = {path for path in before if before[path] != after[path]}
    assert before.keys() == after.keys()
    assert {"tern/sheets/2024-03-05-day-1.html"} <= touched
    assert [] == [path for path in touched if not path.startswith("tern/")]
    assert len(touched) < len([path for path in before if path.startswith("tern/")]) / 3
    assert plain(folder) == state_of(folder / "archive")


def test_one_sheet_changed__what_is_folded_for_its_problems_serves_for_its_pages(
    folder: Path,
) -> None:
    """Every ledger and digest of a car, by the functions that a view knows, is made once."""
    made: Counter[str] = Counter()

    def counting(name: str, make: Callable[..., object]) -> Callable[..., object]:
        def counted(*given: object, **more: object) -> object:
            made[name] += 1
            return make(*given, **more)

        return counted

    edit(folder)
    with pytest.MonkeyPatch.context() as patched:
        for name, make in vars(view).items():
            if name.startswith(("fold_", "digest_")):
                patched.setattr(view, name, counting(name, make))
        published_again(now_of(folder))
    assert {1} == {*made.values()}, made
    assert {"fold_originality", "fold_measured", "digest_sums", "digest_statement"} <= made.keys()


def test_sheet_touched_without_a_change__touches_nothing(folder: Path) -> None:
    before = stats(folder / "archive")
    (folder / "content" / DAY).touch()
    published_again(now_of(folder))
    assert before == stats(folder / "archive")


def test_sheet_changed_under_its_old_date_and_size__is_seen(folder: Path) -> None:
    sheet = folder / "content" / DAY
    text = sheet.read_text(encoding="utf-8")
    before = sheet.stat()
    sheet.write_text(text.replace("Nobody", "Nybody"), encoding="utf-8")
    os.utime(sheet, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert before.st_size == sheet.stat().st_size
    assert ["tern"] == _worked_on(folder)
    assert plain(folder) == state_of(folder / "archive")


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
        published_again(now_of(folder))
    assert plain(folder) != state_of(folder / "archive")
    published_again(now_of(folder))
    assert plain(folder) == state_of(folder / "archive")


def test_folder_that_nobody_may_look_into__is_told_of_while_it_is_so(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (folder / "content" / "plover").mkdir()
    assert "plover" not in published_again(now_of(folder)).problems
    look = os.lstat

    def closed(file: Path) -> os.stat_result:
        if Path(file).parent.name == "plover":
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
        return look(file)

    with monkeypatch.context() as meanwhile:
        meanwhile.setattr(os, "lstat", closed)
        assert "plover:1: error[unreadable-file]" in published_again(now_of(folder)).problems
    assert "plover" not in published_again(now_of(folder)).problems


def test_several_processes__come_to_the_same(folder: Path) -> None:
    (folder / "content" / "workshop.yaml").write_text(
        (folder / "content" / "workshop.yaml").read_text("utf-8").replace("Margit", "Mette"),
        "utf-8",
    )
    with patch.object(publishing, "_WORTH", 0):
        published_again(now_of(folder, workers=2))
    assert plain(folder) == state_of(folder / "archive")


@pytest.mark.parametrize(("workers", "taken"), [(3, 3), (128, 8)])
def test_one_car_on_several_hands__comes_to_the_same(
    folder: Path, workers: int, taken: int
) -> None:
    edit(folder)
    hands: list[int] = []

    def noting(work: Work[object], count: int, asked: int) -> list[object]:
        hands.append(asked)
        return shared(work, count, asked)

    with patch.object(publishing, "_WORTH", 0), patch.object(onecar, "shared", noting):
        published_again(now_of(folder, workers=workers))
    assert [taken] == hands
    assert plain(folder) == state_of(folder / "archive")


def test_file_beside_the_cars__is_looked_at_whatever_it_is_called(folder: Path) -> None:
    (folder / "content" / "terms.yaml").write_text("no-such-key: yes\n", encoding="utf-8")
    first = published_again(now_of(folder))
    assert first.anew
    assert "terms.yaml:1: error[unknown-key]" in first.problems
    (folder / "content" / "terms.yaml").unlink()
    assert "terms.yaml" not in published_again(now_of(folder)).problems


def test_nothing_to_publish__the_archive_stays(folder: Path) -> None:
    before = state_of(folder / "archive")
    for car in ("tern", "lapwing"):
        (folder / "content" / car / "car.yaml").write_text("name: [", encoding="utf-8")
    with pytest.raises(WrongCall, match="there is no car that can be read"):
        published_again(now_of(folder))
    assert before == state_of(folder / "archive")

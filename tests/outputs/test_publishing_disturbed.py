"""The archive and the content, changed by somebody else than the writer: before a publishing, and while it
is under way."""

import os
import shutil
from collections.abc import Callable, Iterable
from itertools import product
from pathlib import Path
from unittest.mock import patch

import pytest

from journal.outputs import publishing
from journal.outputs.archive import Order
from journal.outputs.swap import Swap
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall
from tests.outputs.republishing import DAY, edit, now_of, plain, published_once
from tests.plainly import publish
from tests.publishing import published_again
from tests.swapping import state_of


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small workshop, published once, long before now."""
    return published_once(tmp_path)


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
    published_again(now_of(folder))
    assert before == state_of(folder / "archive")
    assert not (folder / "archive" / path).is_symlink()


def test_archive__taken_away_is_there_again(folder: Path) -> None:
    before = state_of(folder / "archive")
    shutil.rmtree(folder / "archive")
    published_again(now_of(folder))
    assert before == state_of(folder / "archive")


@pytest.mark.parametrize("path", ["tern", "tern/components", "tern/find"])
def test_archive__in_which_a_folder_was_made_a_link_is_put_right(folder: Path, path: str) -> None:
    before, place = state_of(folder / "archive"), folder / "archive" / path
    place.rename(folder / "elsewhere")
    place.symlink_to(folder / "elsewhere")
    published_again(now_of(folder))
    assert before == state_of(folder / "archive")
    assert not place.is_symlink()


def _new_sheet(folder: Path) -> None:
    day = folder / "content" / DAY
    text = day.read_text(encoding="utf-8").replace("2024-03-05", "2024-03-09")
    day.with_name("2024-03-09-extra.md").write_text(text, encoding="utf-8")


def _other_workshop(folder: Path) -> None:
    file = folder / "content" / "workshop.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("Margit", "Mette"), encoding="utf-8")


def _forgotten(folder: Path) -> None:
    shutil.rmtree(folder / "kept")
    edit(folder)


def _strange(file: Path) -> None:
    file.with_name("strange.html").write_bytes(b"strange")


def _long_ago(file: Path) -> None:
    file.write_bytes(file.read_bytes()[:-1] + b"?")
    os.utime(file, ns=(1, 1))


_CHANGES = (edit, _new_sheet, _other_workshop, _forgotten)
_WHILE = (
    *product(["tern/find/terms-h.js"], _CHANGES, [Path.unlink, _strange, _long_ago]),
    ("lapwing/decisions.html", edit, Path.unlink),
    ("style.css", edit, _long_ago),
    ("style.css", _other_workshop, _long_ago),
    ("style.css", _forgotten, _long_ago),
)  # fmt: skip


@pytest.mark.parametrize("workers", [1, 2])
@pytest.mark.parametrize(("path", "change", "done"), _WHILE)
def test_archive__changed_by_somebody_while_it_is_published_is_put_right_the_next_time(
    folder: Path,
    change: Callable[[Path], None],
    done: Callable[[Path], None],
    path: str,
    workers: int,
) -> None:
    """In the last moment: all files have been compared, and are about to be moved."""
    commit = Swap.commit

    def disturbed(swap: Swap, put: Iterable[str], gone: Iterable[str]) -> None:
        laid = [*put]
        if path not in laid:
            done(folder / "archive" / path)
        commit(swap, laid, gone)

    change(folder)
    with patch.object(Swap, "commit", disturbed), patch.object(publishing, "_WORTH", 0):
        published_again(now_of(folder, workers=workers))
    published_again(now_of(folder, workers=workers))
    assert plain(folder) == state_of(folder / "archive")


def test_archive__taken_away_while_it_is_published_is_told_of_and_there_again_the_next_time(
    folder: Path,
) -> None:
    commit = Swap.commit

    def disturbed(swap: Swap, put: Iterable[str], gone: Iterable[str]) -> None:
        shutil.rmtree(swap.target)
        commit(swap, put, gone)

    edit(folder)
    with patch.object(Swap, "commit", disturbed), pytest.raises(WrongCall) as fault:
        published_again(now_of(folder))
    told = "archive was taken away while it was brought up to date; publish again"
    assert told == str(fault.value)
    published_again(now_of(folder))
    assert plain(folder) == state_of(folder / "archive")


@pytest.mark.parametrize("where", ["outside", "content/.inside"])
@pytest.mark.parametrize("what", ["papers", "sheets", "sheets/2024", "photos"])
def test_content__in_which_a_folder_was_made_a_link_is_read_as_from_nothing(
    folder: Path, what: str, where: str
) -> None:
    place = folder / "content" / "tern" / what
    place.rename(folder / where)
    place.symlink_to(folder / where)
    published_again(now_of(folder))
    assert plain(folder) == state_of(folder / "archive")


def test_archive__for_another_reader_in_the_same_folder_holds_nothing_of_the_one_before(
    folder: Path,
) -> None:
    published_again(now_of(folder, reader=Reader.PUBLIC, car="tern"))
    root, target = folder / "content", folder / "plain"
    publish(read_content(root), Order(root, target, Reader.PUBLIC, "tern"))
    assert state_of(target) == state_of(folder / "archive")
    published_again(now_of(folder))
    assert plain(folder) == state_of(folder / "archive")

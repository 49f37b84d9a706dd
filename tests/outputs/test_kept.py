"""What is kept from one publishing for the next is never believed blindly."""

import errno
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest

from journal.outputs.kept import book as books
from journal.outputs.kept.store import Store
from tests.outputs.republishing import DAY, edit, now_of, plain, published_once, stats
from tests.publishing import published_again
from tests.swapping import state_of

LATER = 10_000_000_000


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small workshop, published once, long before now."""
    return published_once(tmp_path)


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
    before = stats(folder / "archive")
    for file in _kept(folder):
        damage(file)
    now = now_of(folder)
    published_again(now)
    assert [_DAMAGED] == now.said
    assert before == stats(folder / "archive")
    again = now_of(folder)
    assert not published_again(again).anew
    assert [] == again.said


def test_each_thing_kept__may_be_damaged_alone(folder: Path) -> None:
    wanted = state_of(folder / "archive")
    for file in _kept(folder):
        data = file.read_bytes()
        _one_bit(file)
        (folder / "content" / DAY).touch()
        now = now_of(folder)
        published_again(now)
        assert now.said in ([_DAMAGED], []), file
        assert wanted == state_of(folder / "archive"), file
        file.write_bytes(data)


def test_kept__deleted_costs_time_alone(folder: Path) -> None:
    before = stats(folder / "archive")
    shutil.rmtree(folder / "kept")
    now = now_of(folder)
    assert published_again(now).anew
    assert [] == now.said
    assert before == stats(folder / "archive")


def test_kept__of_another_version_is_made_again_and_said(folder: Path) -> None:
    before = stats(folder / "archive")
    now = now_of(folder)
    now.keeping = books.Keeping(Store(folder / "kept", "another"), now.keeping.clock)
    published_again(now)
    assert [_ANOTHER] == now.said
    assert before == stats(folder / "archive")


@pytest.mark.parametrize(
    ("fault", "reason"),
    [
        (errno.ENOSPC, "no space left on device"),
        (errno.EROFS, "read-only file system"),
        (errno.EACCES, "permission denied"),
    ],
)
def test_kept__cannot_be_written_and_is_said(folder: Path, fault: int, reason: str) -> None:
    edit(folder)
    opened = Path.open

    def refused(file: Path, mode: str = "r", **how: Any) -> Any:
        if mode == "wb" and file.is_relative_to(folder / "kept"):
            # A full disk takes what there is room for.
            with opened(file, mode) as begun:
                begun.write(b"kept by jo")
            raise OSError(fault, os.strerror(fault))
        return opened(file, mode, **how)

    with patch.object(Path, "open", refused):
        now = now_of(folder)
        published_again(now)
    told = f"Nothing can be kept for the next publishing in {folder / 'kept'}: {reason}."
    assert [told] == now.said
    wanted = plain(folder)
    assert wanted == state_of(folder / "archive")
    published_again(now_of(folder))
    assert wanted == state_of(folder / "archive")
    assert [] == [file.name for file in _kept(folder) if file.name.endswith(".part")]


def test_kept__where_others_can_write_is_not_used_and_said(folder: Path) -> None:
    (folder / "kept").chmod(0o777)
    now = now_of(folder)
    assert published_again(now).anew
    told = "Nothing is kept for the next publishing: others can write to"
    assert [f"{told} {folder / 'kept'}."] == now.said
    assert plain(folder) == state_of(folder / "archive")


def test_kept__is_for_this_person_alone(folder: Path) -> None:
    assert {0o700} == {f.stat().st_mode & 0o777 for f in (folder / "kept").rglob("*") if f.is_dir()}


def test_kept__from_a_time_to_come_is_not_believed(folder: Path) -> None:
    """A clock that was wrong may have taken for long ago what was a moment before."""
    now = now_of(folder).keeping.clock()
    edit(folder)
    published_again(now_of(folder, clock=now + LATER))
    assert not published_again(now_of(folder, clock=now + LATER)).anew
    assert published_again(now_of(folder, clock=now)).anew


def test_kept__for_many_archives_does_not_grow_without_bound(folder: Path) -> None:
    for number in range(60):
        one = now_of(folder)
        one.keeping.store.put(f"other-{number}/book", b"")
    edit(folder)
    published_again(now_of(folder))
    assert 48 >= len([*(folder / "kept").iterdir()])

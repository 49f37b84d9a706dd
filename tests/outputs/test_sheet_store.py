"""Saving: whole or not at all, never over what nobody has seen, and nothing lost."""

import errno
import multiprocessing
import os
import re
import signal
from datetime import date
from pathlib import Path
from random import Random
from typing import Any

import pytest

from journal.outputs.sheets.store import (
    Conflict,
    NotSaved,
    Saved,
    hash_of,
    save_new,
    save_over,
)
from journal.words.wrong import WrongCall
from tests.tern import put_content

DAY = date(2024, 3, 5)
_FORK = multiprocessing.get_context("fork")


@pytest.fixture
def root(tmp_path: Path) -> Path:
    content = put_content(tmp_path / "content")
    (content / "tern/sheets").mkdir()
    return content


def new(root: Path, text: str, title: str = "Gearbox apart", **more: Any) -> Any:
    return save_new(root, "tern", DAY, title, text.encode(), **more)


def sheets(root: Path) -> dict[str, str]:
    return {p.name: p.read_text() for p in sorted((root / "tern/sheets").rglob("*.md"))}


def hidden(root: Path) -> list[Path]:
    return [p for p in root.rglob(".*") if p.is_file()]


# New sheets


def test_new_sheet__lies_in_the_folder_of_its_year_by_day_and_title(root: Path) -> None:
    path = "tern/sheets/2024/2024-03-05-gearbox-apart.md"
    assert Saved(path, hash_of(b"one")) == new(root, "one")
    assert b"one" == (root / path).read_bytes()
    assert [] == hidden(root)


def test_second_sheet_of_the_day__gets_its_own_name(root: Path) -> None:
    assert [
        "tern/sheets/2024/2024-03-05-gearbox-apart.md",
        "tern/sheets/2024/2024-03-05-gearbox-apart-2.md",
        "tern/sheets/2024/2024-03-05-gearbox-apart-3.md",
        "tern/sheets/2024/2024-03-05-ecrous.md",
        "tern/sheets/2024/2024-03-05.md",
    ] == [
        new(root, "one").path,
        new(root, "two").path,
        new(root, "three").path,
        new(root, "four", "Écrous").path,
        new(root, "five", "歯車").path,
    ]


def test_same_text_saved_again__is_the_same_sheet(root: Path) -> None:
    """A telephone that had no answer sends once more."""
    assert new(root, "one") == new(root, "one")


def test_name__is_taken_by_a_sheet_in_any_folder_and_in_capitals(root: Path) -> None:
    """Two sheets of one name are a mistake, wherever they lie."""
    (root / "tern/sheets/old").mkdir()
    (root / "tern/sheets/old/2024-03-05-GEARBOX-apart.md").write_text("there")
    assert "tern/sheets/2024/2024-03-05-gearbox-apart-2.md" == new(root, "one").path


def test_long_title__makes_no_name_that_a_system_refuses(root: Path) -> None:
    assert "2024-03-05-" + "a" * 60 + ".md" == Path(new(root, "one", "a" * 500).path).name


@pytest.mark.parametrize("car", ["", "..", "swan", "tern/sheets"])
def test_car_that_is_not_there__is_a_wrong_call(root: Path, car: str) -> None:
    with pytest.raises(WrongCall, match="there is no car"):
        save_new(root, car, DAY, "x", b"x")


# Sheets that are there


def test_sheet_read_and_changed__takes_the_place_of_what_was_read(root: Path) -> None:
    saved = new(root, "one")
    again = save_over(root, saved.path, b"two", read=saved.hash)
    assert Saved(saved.path, hash_of(b"two")) == again
    assert b"two" == (root / saved.path).read_bytes()
    assert again == save_over(root, saved.path, b"two", read=saved.hash), "tried once more"
    assert [] == hidden(root)


def test_sheet_changed_meanwhile__is_not_written_over_and_both_texts_are_told(root: Path) -> None:
    saved = new(root, "one")
    (root / saved.path).write_bytes(b"from an editor")
    made = save_over(root, saved.path, b"two", read=saved.hash)
    assert Conflict(saved.path, b"two", b"from an editor") == made
    assert b"from an editor" == (root / saved.path).read_bytes()


def test_sheet_gone_meanwhile__is_not_brought_back(root: Path) -> None:
    saved = new(root, "one")
    (root / saved.path).unlink()
    assert Conflict(saved.path, b"two", None) == save_over(
        root, saved.path, b"two", read=saved.hash
    )
    assert not (root / saved.path).exists()


def test_sheet__keeps_who_may_read_it_and_stays_a_link(root: Path) -> None:
    saved = new(root, "one")
    real = root / "tern/sheets/elsewhere.text"
    (root / saved.path).rename(real)
    real.chmod(0o640)
    (root / saved.path).symlink_to("../elsewhere.text")
    save_over(root, saved.path, b"two", read=saved.hash)
    assert (b"two", 0o640) == (real.read_bytes(), real.stat().st_mode & 0o777)
    assert (root / saved.path).is_symlink()


@pytest.mark.parametrize(
    "path",
    ["", "/etc/passwd", "tern/sheets/../car.yaml", "../x/sheets/a.md", "tern/car.yaml",
     "tern/photos/a.md", "tern/sheets/a.txt", "tern/sheets//a.md", "tern/sheets/out/a.md"],
)  # fmt: skip
def test_path_that_is_no_sheet__is_a_wrong_call(root: Path, tmp_path: Path, path: str) -> None:
    (tmp_path / "elsewhere").mkdir()
    (root / "tern/sheets/out").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(
        WrongCall, match=f'^"{re.escape(path)}" is no sheet of this content folder$'
    ):
        save_over(root, path, b"x", read="")


# The disk refuses


@pytest.mark.parametrize(
    ("number", "reason"),
    [(errno.ENOSPC, "the disk is full"), (errno.EROFS, "the disk can only be read")],
)
def test_disk_refuses__is_told_once_and_the_text_is_kept(
    root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int, reason: str
) -> None:
    saved = new(root, "one")
    before = sheets(root)
    real = os.fsync
    content = str(root)

    def refuse(handle: int) -> None:
        if os.readlink(f"/proc/self/fd/{handle}").startswith(content):
            raise OSError(number, os.strerror(number))
        real(handle)

    monkeypatch.setattr(os, "fsync", refuse)
    made = new(root, "two", rescue=tmp_path / "rescue")
    assert isinstance(made, NotSaved)
    kept = tmp_path / "rescue" / f"2024-03-05-gearbox-apart-{hash_of(b'two')[:8]}.md"
    assert (b"two", kept, b"two") == (made.data, made.rescued, kept.read_bytes())
    assert (
        f"tern/sheets/2024/2024-03-05-gearbox-apart.md is not saved: {reason}; the text is kept in {kept}"
        == made.sentence
    )
    over = save_over(root, saved.path, b"three", read=saved.hash)
    assert isinstance(over, NotSaved)
    assert f"{saved.path} is not saved: {reason}; the text is kept here" == over.sentence
    assert before == sheets(root)
    assert [] == hidden(root)


def test_stick_that_knows_no_second_names__is_written_all_the_same(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """FAT has no hard links; link(2) answers EPERM there."""

    def refuse(*_: object) -> None:
        raise OSError(errno.EPERM, os.strerror(errno.EPERM))

    monkeypatch.setattr(os, "link", refuse)
    assert ["2024-03-05-gearbox-apart.md", "2024-03-05-gearbox-apart-2.md"] == [
        Path(new(root, text).path).name for text in ("one", "two")
    ]
    assert [] == hidden(root)


# Many at once, and the power going


def _write_many(root: Path, who: int) -> None:
    for number in range(5):
        new(root, f"{who} {number}")
        while True:
            there = (root / "tern/sheets/2024/shared.md").read_bytes()
            line = f"{who} {number}\n".encode()
            made = save_over(root, "tern/sheets/2024/shared.md", there + line, read=hash_of(there))
            if isinstance(made, Saved):
                break


def test_twenty_writers_at_once__lose_nothing(root: Path) -> None:
    shared = root / "tern/sheets/2024/shared.md"
    shared.parent.mkdir(parents=True, exist_ok=True)
    shared.write_bytes(b"")
    there = len(sheets(root))
    writers = [_FORK.Process(target=_write_many, args=(root, who)) for who in range(20)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    told = sorted(f"{who} {number}" for who in range(20) for number in range(5))
    assert [0] * 20 == [writer.exitcode for writer in writers]
    assert told == sorted(shared.read_text().splitlines())
    made = [
        text for name, text in sheets(root).items() if name.startswith("2024-03-05-gearbox-apart")
    ]
    assert told == sorted(made)
    assert there + 100 == len(sheets(root))
    assert [] == hidden(root)


def _text(number: int) -> str:
    return f"{number}\n" * 20_000 + "end"


def _write_until_killed(root: Path, first: int, told: Any) -> None:
    for number in range(first, first + 10_000):
        made = new(root, _text(number), f"sheet {number}")
        told.send((made.path, number))
        made = save_over(root, made.path, (_text(number) + "!").encode(), read=made.hash)
        told.send((made.path, number))


def test_killed_at_any_moment__leaves_no_half_sheet_and_loses_none_that_was_told_saved(
    root: Path,
) -> None:
    moments = Random(5)
    told: dict[str, int] = {}
    for turn in range(25):
        ours, theirs = _FORK.Pipe(duplex=False)
        writer = _FORK.Process(target=_write_until_killed, args=(root, turn * 10_000, theirs))
        writer.start()
        theirs.close()
        ours.poll(10)
        writer.join(moments.uniform(0, 0.05))
        assert writer.pid
        os.kill(writer.pid, signal.SIGKILL)
        writer.join()
        while True:
            try:
                path, number = ours.recv()
            except (EOFError, OSError):
                break
            told[path] = number
    assert len(told) >= 25
    for path, number in told.items():
        assert (root / path).read_text().rstrip("!") == _text(number)
    for name, text in sheets(root).items():
        if "-sheet-" in name:
            number = int(re.findall(r"sheet-(\d+)", name)[0])
            assert text.rstrip("!") == _text(number)
    new(root, "after")
    assert [] == hidden(root), "what a killed writer left is cleared away by the next"

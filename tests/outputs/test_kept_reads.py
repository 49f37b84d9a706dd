"""What the files of a car said is kept: most days one sheet is written, and that one alone is read."""

import os
import time
from pathlib import Path
from unittest.mock import patch

import pytest

from journal.outputs.kept import reads
from journal.outputs.kept.reads import Reads
from journal.outputs.kept.store import Store
from journal.reading.sheet import sheet_of

SHEETS = tuple(f"tern/sheets/2024/2024-03-{day:02}-day.md" for day in range(1, 13))
_SAYS = "---\ntitle: {}\nsubsystem: engine\n---\n{}\n"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """A content folder with a dozen sheets, written long before now."""
    for path in SHEETS:
        _write(tmp_path / "content", path, "Nothing yet.")
    return tmp_path / "content"


def _write(root: Path, path: str, words: str) -> None:
    file = root / path
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(_SAYS.format(path[-13:-3], words), encoding="utf-8")
    # Each time another moment, and none of them lately.
    os.utime(file, ns=(1, len(words)))


def _read(root: Path, paths: tuple[str, ...] = SHEETS) -> list[str]:
    """Read these sheets with the memory beside their folder: which of them were read anew. What they
    say is what they say when they are read without it."""
    anew: list[str] = []

    def noting(raw: bytes, path: str) -> object:
        anew.append(path)
        return sheet_of(raw, path)

    # So late that no file counts as one that was changed a moment before.
    memory = Reads(_store(root), "reads/tern", time.time_ns() + 10_000_000_000)
    with patch.object(reads, "sheet_of", noting):
        told = [memory.ways.sheet(root, path) for path in paths]
    memory.close()
    assert told == [sheet_of((root / path).read_bytes(), path) for path in paths]
    return anew


def _store(root: Path) -> Store:
    return Store(root.parent / "kept", "this one")


def _kept(root: Path) -> dict[str, int]:
    """What is kept, each with the moment in which it was written."""
    return {file.name: file.stat().st_mtime_ns for file in (root.parent / "kept/reads").iterdir()}


def test_sheets__are_read_once(root: Path) -> None:
    assert [*SHEETS] == _read(root)
    assert [] == _read(root)


def test_one_sheet_written__is_kept_beside_the_rest(root: Path) -> None:
    _read(root)
    before = _kept(root)
    for words in ("The head is off.", "The head is off, and cracked."):
        _write(root, SHEETS[4], words)
        assert [SHEETS[4]] == _read(root)
        assert [] == _read(root)
    assert {"tern", "tern.later"} == _kept(root).keys()
    assert before["tern"] == _kept(root)["tern"]


def test_many_sheets_written__are_kept_with_the_rest(root: Path) -> None:
    _read(root)
    for path in SHEETS[:3]:
        _write(root, path, "The head is off.")
        assert [path] == _read(root)
    assert {"tern", "tern.later"} == _kept(root).keys()
    _write(root, SHEETS[3], "The head is off.")
    assert [SHEETS[3]] == _read(root)
    assert {"tern"} == _kept(root).keys()
    assert [] == _read(root)


def test_sheet_taken_away__is_kept_no_longer(root: Path) -> None:
    _read(root)
    _write(root, SHEETS[0], "The head is off.")
    _read(root)
    assert [] == _read(root, SHEETS[1:])
    assert {"tern"} == _kept(root).keys()
    assert [SHEETS[0]] == _read(root)


@pytest.mark.parametrize("lost", ["tern", "tern.later"])
def test_either_part__may_be_lost_alone(root: Path, lost: str) -> None:
    _read(root)
    _write(root, SHEETS[0], "The head is off.")
    _read(root)
    (root.parent / "kept/reads" / lost).unlink()
    assert len(_read(root)) == (1 if lost == "tern.later" else len(SHEETS) - 1)
    assert [] == _read(root)


def test_later_part__of_a_killed_run_is_believed_of_no_file_that_was_written_since(
    root: Path,
) -> None:
    _read(root)
    _write(root, SHEETS[0], "The head is off.")
    _read(root)
    later = (root.parent / "kept/reads/tern.later").read_bytes()
    for path in SHEETS:
        _write(root, path, "The head is off, and cracked.")
    _read(root)
    # As if it had been killed between writing the one and taking away the other.
    (root.parent / "kept/reads/tern.later").write_bytes(later)
    assert [SHEETS[0]] == _read(root)
    assert [] == _read(root)

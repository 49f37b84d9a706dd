"""Folders for a while: what a killed process left is taken away by the next, and nothing else."""

import os
import tempfile
from pathlib import Path

import pytest

from journal.outputs.held import held_for_a_while


@pytest.fixture
def temporary(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    return tmp_path


def test_folder__is_there_for_a_while(temporary: Path) -> None:
    with held_for_a_while() as folder:
        assert [folder] == [*temporary.iterdir()]
        assert 0o700 == folder.stat().st_mode & 0o777
    assert [] == [*temporary.iterdir()]


def test_folder_of_a_killed_process__is_taken_away_and_no_other(temporary: Path) -> None:
    (temporary / "restoration-journal-left").mkdir()
    (temporary / "restoration-journal-left" / "page.pdf").write_bytes(b"x")
    (temporary / "letters").mkdir()
    with held_for_a_while() as one, held_for_a_while() as other:
        assert {one, other, temporary / "letters"} == {*temporary.iterdir()}


def test_folder__of_a_process_that_is_killed_goes_with_the_next(temporary: Path) -> None:
    pid = os.fork()
    if not pid:
        with held_for_a_while():
            os._exit(9)
    os.waitpid(pid, 0)
    assert 1 == len([*temporary.iterdir()])
    with held_for_a_while() as folder:
        assert [folder] == [*temporary.iterdir()]

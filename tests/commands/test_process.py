"""The command as a process of its own: how it ends, and that all it said has gone out by then."""

import json
import os
import subprocess
import sys
from pathlib import Path
from subprocess import PIPE

import pytest

_FULL = Path("/dev/full")


# A command that leaves what it says to be written at the end.
_SAYS = """
import sys
from journal import __main__ as process
def main(**_):
    print("said")
    sys.exit(0)
process.main = main
process.run()
"""


def _run(*words: str) -> "subprocess.CompletedProcess[str]":
    call = [sys.executable, "-m", "journal", *words]
    return subprocess.run(call, capture_output=True, text=True, check=False)


def test_command__ends_with_nothing_wrong_and_all_of_its_words() -> None:
    done = _run("schema")
    assert (0, "") == (done.returncode, done.stderr)
    # More than a pipe holds at once.
    assert len(done.stdout) > 65_536
    json.loads(done.stdout)


def test_wrong_call__is_told_and_ends_with_two(tmp_path: Path) -> None:
    done = _run("check", str(tmp_path / "nowhere"))
    assert (2, "") == (done.returncode, done.stdout)
    assert f'Error: there is no folder "{tmp_path / "nowhere"}"\n' == done.stderr


@pytest.mark.skipif(not _FULL.exists(), reason="no file here takes nothing")
def test_words_that_cannot_be_written_at_the_end__are_told_of() -> None:
    env = {name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"}
    call = [sys.executable, "-c", _SAYS]
    with _FULL.open("w") as full:
        done = subprocess.run(call, stdout=full, stderr=PIPE, text=True, env=env, check=False)
    # How Python itself ends then (Py_RunMain, Python/C API Reference).
    assert 120 == done.returncode
    assert "No space left on device" in done.stderr


def test_whoever_was_there_before__has_their_turn_at_the_end(tmp_path: Path) -> None:
    (tmp_path / "sitecustomize.py").write_text(
        f"import atexit, pathlib\natexit.register(pathlib.Path({str(tmp_path / 'end')!r}).touch)\n"
    )
    env = {**os.environ, "PYTHONPATH": os.pathsep.join((str(tmp_path), *filter(None, sys.path)))}
    call = [sys.executable, "-m", "journal", "--version"]
    assert 0 == subprocess.run(call, stdout=PIPE, env=env, check=False).returncode
    assert (tmp_path / "end").exists()

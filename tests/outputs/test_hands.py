"""Work that is shared with copies of the process."""

import errno
import os
import select
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from unittest.mock import patch

import pytest

from journal.outputs.hands import MOST, meanwhile, shared


def _noted(folder: Path, numbers: Iterator[int]) -> tuple[int, list[int]]:
    """Who took which numbers; each is also written down, so that one taken twice is seen."""
    taken = []
    for number in numbers:
        with (folder / str(number)).open("a") as file:
            file.write("x")
        taken.append(number)
    return os.getpid(), taken


@pytest.mark.parametrize("hands", [1, 2, 3])
@pytest.mark.parametrize("count", [0, 1, 7, MOST])
def test_numbers__are_each_taken_once_by_one_hand(tmp_path: Path, count: int, hands: int) -> None:
    told = shared(lambda numbers: _noted(tmp_path, numbers), count, hands)
    assert hands == len({process for process, _ in told})
    assert list(range(count)) == sorted(number for _, taken in told for number in taken)
    assert {"x"} >= {file.read_text() for file in tmp_path.iterdir()}


def test_copy__begins_with_all_that_was_known_and_changes_nothing_here() -> None:
    known = {"told": 1}

    def work(numbers: Iterator[int]) -> int:
        known["told"] += len(list(numbers))
        return known["told"]

    (own, other) = shared(work, 5, 2)
    assert 5 == own - 1 + other - 1
    assert own == known["told"]


@pytest.mark.parametrize("end", [signal.SIGKILL, signal.SIGTERM])
def test_copy__that_is_ended_loses_nothing(end: int) -> None:
    here = os.getpid()

    def work(numbers: Iterator[int]) -> list[int]:
        if os.getpid() != here:
            os.kill(os.getpid(), end)
        return list(numbers)

    assert [list(range(9))] == shared(work, 9, 3)


def test_fault__in_a_copy_is_the_fault_of_the_work() -> None:
    here = os.getpid()
    asked: list[int] = []

    def work(numbers: Iterator[int]) -> None:
        asked.append(os.getpid())
        if os.getpid() != here or len(asked) > 1:
            raise ValueError("three is no crowd")

    with pytest.raises(ValueError, match="three is no crowd"):
        shared(work, 9, 2)


def test_fault__here_waits_for_the_copies_to_end(tmp_path: Path) -> None:
    here = os.getpid()

    def work(numbers: Iterator[int]) -> None:
        if os.getpid() == here:
            raise ValueError("not here")
        list(numbers)
        (tmp_path / str(os.getpid())).touch()

    with pytest.raises(ValueError, match="not here"):
        shared(work, 9, 3)
    assert 2 == len([*tmp_path.iterdir()])


def test_system_without_copies__does_it_all_by_itself(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delattr("os.fork")
    assert [[0, 1, 2]] == shared(list, 3, 2)


def test_work_done_meanwhile__is_done_by_another_process() -> None:
    with meanwhile(lambda: (os.getpid(), ["told"])) as begun:
        process, told = begun.answer()
    assert ["told"] == told
    assert os.getpid() != process


@pytest.mark.parametrize("end", [signal.SIGKILL, signal.SIGTERM])
def test_work_done_meanwhile__by_a_process_that_is_ended_is_done_here(end: int) -> None:
    here = os.getpid()

    def work() -> int:
        if os.getpid() != here:
            os.kill(os.getpid(), end)
        return os.getpid()

    with meanwhile(work) as begun:
        assert here == begun.answer()


def test_work_done_meanwhile__that_nobody_asks_for_leaves_no_process(tmp_path: Path) -> None:
    def work() -> None:
        (tmp_path / "begun").write_text(str(os.getpid()))
        (tmp_path / "begun").rename(tmp_path / "told")
        time.sleep(60)

    with meanwhile(work):
        while not (tmp_path / "told").exists():
            time.sleep(0.01)
    with pytest.raises(ProcessLookupError):
        os.kill(int((tmp_path / "told").read_text()), 0)


def test_work_done_meanwhile__ends_when_whoever_waits_for_it_is_interrupted(tmp_path: Path) -> None:
    def work() -> None:
        (tmp_path / "begun").write_text(str(os.getpid()))
        (tmp_path / "begun").rename(tmp_path / "told")
        time.sleep(60)

    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    def waiting() -> None:
        with meanwhile(work) as begun:
            while not (tmp_path / "told").exists():
                time.sleep(0.01)
            with patch("journal.outputs.hands.open", interrupted, create=True):
                begun.answer()

    with pytest.raises(KeyboardInterrupt):
        waiting()
    with pytest.raises(ProcessLookupError):
        os.kill(int((tmp_path / "told").read_text()), 0)


def test_work_done_meanwhile__is_done_here_where_no_process_is_copied(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.delattr(os, "fork")
    with meanwhile(os.getpid) as begun:
        assert os.getpid() == begun.answer()


def test_work_done_meanwhile__after_other_work_begins_when_that_is_done(tmp_path: Path) -> None:
    order = tmp_path / "order"

    def first() -> bytes:
        time.sleep(0.2)
        order.write_text("first ")
        # More than fits into a pipe: the copy lives on until it is asked.
        return bytes(1_000_000)

    def second() -> str:
        with order.open("a") as file:
            file.write("second")
        return order.read_text()

    with meanwhile(first) as before, meanwhile(second, after=before) as begun:
        assert "first second" == begun.answer()
        assert bytes(1_000_000) == before.answer()


@pytest.mark.parametrize("end", [signal.SIGKILL, signal.SIGTERM])
def test_work_done_meanwhile__after_work_that_was_ended_is_done(end: int) -> None:
    here = os.getpid()

    def first() -> int:
        if os.getpid() != here:
            os.kill(os.getpid(), end)
        return os.getpid()

    with meanwhile(first) as before, meanwhile(os.getpid, after=before) as begun:
        assert here != begun.answer()
        assert here == before.answer()


def test_work_done_meanwhile__by_no_copy_is_done_when_it_is_asked_for() -> None:
    done: list[int] = []
    with meanwhile(lambda: done.append(os.getpid()), copied=False) as begun:
        assert [] == done
        begun.answer()
    assert [os.getpid()] == done


_WAITING = """
import os, sys, time
from journal.outputs.hands import meanwhile, shared
here, large = os.getpid(), bytes(1_000_000)

def begun():
    print("begun", flush=True)
    time.sleep(60)

def work(numbers):
    if os.getpid() == here:
        begun()
    return large

if sys.argv[1] == "shared":
    shared(work, 4, 3)
with meanwhile(lambda: large) as one, meanwhile(lambda: large, after=one):
    begun()
"""


@pytest.mark.parametrize("how", ["shared", "meanwhile"])
def test_copies__of_a_process_that_is_killed_end(how: str) -> None:
    # What they inherit is open for as long as one of them lives.
    waiting, open_still = os.pipe()
    with subprocess.Popen(
        [sys.executable, "-c", _WAITING, how], stdout=subprocess.PIPE, pass_fds=[open_still]
    ) as process:
        os.close(open_still)
        assert process.stdout is not None
        assert b"begun\n" == process.stdout.readline()
        process.kill()
    ended, _, _ = select.select([waiting], [], [], 60)
    os.close(waiting)
    assert ended


def _none() -> int:
    raise BlockingIOError(errno.EAGAIN, "no more processes")


def test_system_that_grants_no_more_processes__does_it_all_by_itself(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(os, "fork", _none)
    assert [[0, 1, 2]] == shared(list, 3, 2)
    with meanwhile(os.getpid) as begun:
        assert os.getpid() == begun.answer()


def test_copies__of_whose_end_the_system_gives_no_account_lose_nothing() -> None:
    before = signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    try:
        assert [[0, 1, 2]] == shared(list, 3, 2)
        with meanwhile(list) as begun, meanwhile(list):
            assert [] == begun.answer()
    finally:
        signal.signal(signal.SIGCHLD, before)

"""Who does the work on pictures."""

import os
import signal
from concurrent.futures import Executor
from contextlib import suppress

import pytest

from journal.pictures.pool import Here, pool_of, standing


def _process(pool: Executor) -> int:
    return pool.submit(os.getpid).result()


def _is_there(process: int) -> bool:
    with suppress(ProcessLookupError):
        os.kill(process, 0)
        return True
    return False


def test_one_worker__is_this_process() -> None:
    with pool_of(1)() as pool:
        assert os.getpid() == _process(pool)


def test_several_workers__are_processes_of_their_own() -> None:
    with pool_of(2)() as pool:
        assert os.getpid() != _process(pool)


def test_standing__is_not_opened_before_there_is_work() -> None:
    with standing(lambda: pytest.fail("opened")):
        pass


def test_standing__does_one_work_after_the_other_by_the_same_processes() -> None:
    with standing(pool_of(2)) as opened:
        with opened() as first:
            pass
        with opened() as second:
            assert first is second
            process = _process(second)
        assert _is_there(process)
    assert not _is_there(process)


def test_standing__has_new_processes_once_one_was_ended() -> None:
    with standing(pool_of(2)) as opened:
        with opened() as first:
            first.submit(os.kill, _process(first), signal.SIGKILL).exception()
        with opened() as second:
            assert first is not second
            assert os.getpid() != _process(second)


def test_here__hands_on_what_goes_wrong() -> None:
    assert isinstance(Here().submit(int, "no number").exception(), ValueError)

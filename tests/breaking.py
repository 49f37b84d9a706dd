"""Something breaks off while files are written: before one file operation, or in the midst of one write.

The work is done in a process of its own, so that it really ends there: the fork of a small one, which has
loaded what the work needs and nothing else of the run. Operations are counted as the program asks for
them, so the moments are the same on every machine.
"""

import atexit
import builtins
import errno
import gc
import io
import os
import pickle
import subprocess
import sys
import traceback
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path
from typing import Any, BinaryIO

from journal.words.wrong import WrongCall

KILLED = 9
_MOVING = ("replace", "rename", "unlink", "rmdir")
_MAKING = ("mkdir", "link")


@dataclass(frozen=True)
class Ended:
    """How it ended: the exit code, 9 when it was killed, and what was said."""

    code: int
    said: str = ""


def killed(folder: Path, moment: int, do: Callable[..., object], *given: object) -> Ended:
    """Do something that is killed before the step of that number below a folder. It ends with 0 when
    there are no more steps. What is done is a function of a module, and given what can be pickled."""
    return _forked(partial(do, *given), _Steps(folder, moment, None))


def refused(
    folder: Path, moment: int, do: Callable[..., object], *given: object, fault: int = errno.ENOSPC
) -> Ended:
    """Do something while the disk takes nothing below a folder from the step of that number on; what is
    there may still be moved and taken away."""
    return _forked(partial(do, *given), _Steps(folder, moment, fault))


def telling(do: Callable[..., object], *given: object) -> None:
    """Do something, and end as a command does where the call is wrong."""
    try:
        do(*given)
    except WrongCall as fault:
        ended = SystemExit(2)
        ended.add_note(str(fault))
        raise ended from None


def _forked(do: Callable[[], object], steps: "_Steps") -> Ended:
    asked, told = _small_process()
    pickle.dump((do, steps, dict(os.environ)), asked)
    asked.flush()
    ended = pickle.load(told)
    assert isinstance(ended, Ended)
    return ended


@cache
def _small_process() -> tuple[BinaryIO, BinaryIO]:
    """What it is asked by and what it answers by; it ends with the process that asked first."""
    small = subprocess.Popen(
        [sys.executable, "-m", "tests.breaking"], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        cwd=Path(__file__).parents[1],
    )  # fmt: skip
    assert small.stdin
    assert small.stdout
    atexit.register(small.communicate)
    return small.stdin, small.stdout  # type: ignore[return-value]


def _serve(asked: BinaryIO, told: BinaryIO) -> None:
    """Do what is asked, each in a fork, until nobody is left to ask."""
    while asked.peek(1):  # type: ignore[attr-defined]
        pickle.dump(_done_apart(*pickle.load(asked)), told)
        told.flush()


def _done_apart(do: Callable[[], object], steps: "_Steps", surroundings: dict[str, str]) -> Ended:
    ours, theirs = os.pipe()
    pid = os.fork()
    if not pid:
        os.environ.clear()
        os.environ.update(surroundings)
        code, said = 0, ""
        try:
            with steps:
                do()
        except SystemExit as ended:
            code = int(ended.code or 0)
            said = "".join(getattr(ended, "__notes__", ()))
        except BaseException:
            code, said = 70, traceback.format_exc()
        os.write(theirs, said.encode()[:60_000])
        os._exit(code)
    os.close(theirs)
    with os.fdopen(ours, encoding="utf-8") as heard:
        said = heard.read()
    return Ended(os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]), said)


class _Steps:
    """Counts what is done below a folder, and breaks it off."""

    def __init__(self, folder: Path, left: int, fault: int | None) -> None:
        self._folder, self._left, self._fault = str(folder), left, fault

    def __enter__(self) -> None:
        for name in (*_MOVING, *_MAKING):
            setattr(os, name, self._counted(getattr(os, name), making=name in _MAKING))
        os.open = self._opened(os.open)  # type: ignore[assignment]
        io.open = builtins.open = self._written(io.open)  # type: ignore[assignment]

    def __exit__(self, *_: object) -> None:
        """The process ends here anyway."""

    def _step(self, path: object, *, making: bool) -> bool:
        """One more step; whether it is the one that breaks off."""
        told = os.fspath(path) if isinstance(path, str | os.PathLike) else ""
        if os.path.isabs(told) and not str(told).startswith(self._folder):
            return False
        if not making and self._fault is not None:
            return False
        self._left -= 1
        return self._left < 0

    def _break(self) -> None:
        if self._fault is None:
            os._exit(KILLED)
        raise OSError(self._fault, os.strerror(self._fault))

    def _counted(self, call: Callable[..., Any], *, making: bool) -> Callable[..., Any]:
        def one(path: object, *more: object, **how: object) -> Any:
            if self._step(path, making=making):
                self._break()
            return call(path, *more, **how)

        return one

    def _opened(self, call: Callable[..., Any]) -> Callable[..., Any]:
        def one(path: object, flags: int, *more: object, **how: object) -> Any:
            if flags & os.O_CREAT and self._step(path, making=True):
                self._break()
            return call(path, flags, *more, **how)

        return one

    def _written(self, call: Callable[..., Any]) -> Callable[..., Any]:
        def one(path: object, mode: str = "r", *more: object, **how: object) -> Any:
            if not set(mode) & set("wax+"):
                return call(path, mode, *more, **how)
            if self._step(path, making=True):
                self._break()
            file = call(path, mode, *more, **how)
            return _Half(file, self._break) if self._step(path, making=True) else file

        return one


class _Half:
    """A file that takes half of what is written to it, and then no more."""

    def __init__(self, file: Any, then: Callable[[], None]) -> None:
        self._file, self._then = file, then

    def write(self, data: Any) -> int:
        """Half of it."""
        self._file.write(data[: len(data) // 2])
        self._file.flush()
        self._then()
        return 0

    def __getattr__(self, name: str) -> Any:
        return getattr(self._file, name)

    def __enter__(self) -> "_Half":
        return self

    def __exit__(self, *_: object) -> None:
        self._file.close()


if __name__ == "__main__":
    # What is pickled names this module as those who ask know it.
    from tests import breaking

    # What is said on the way is for nobody: the answers have the output to themselves.
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    # A collector would touch, and so copy in every fork, all that was ever loaded.
    gc.disable()
    breaking._serve(sys.stdin.buffer, answers)

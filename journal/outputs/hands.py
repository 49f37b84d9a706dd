"""Work that is shared with copies of this process.

A copy begins with all that this process knows, so that nothing need be sent to it; it takes its share and
ends. Where a system makes no such copies, or one of them comes to nothing, all is done here.
"""

import gc
import os
import pickle
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from typing import Any, Generic, NamedTuple, TypeVar

R = TypeVar("R")
Work = Callable[[Iterator[int]], R]

# As many pieces as one byte can tell apart.
MOST = 256
# More hands than this wait for the disk and take memory, however many cores there are.
MOST_HANDS = 8


class _Copy(NamedTuple):
    """A copy at work, and where its answer is read."""

    process: int
    answer: int


def shared(work: Work[R], count: int, hands: int) -> list[R]:
    """What comes of `work` when so many `hands` take the numbers below `count`, at most `MOST`, by turns
    until none is left: an answer of each hand. An answer must be plain enough to be sent.

    `work` may be asked for a number again after a copy that took it came to nothing.
    """
    if hands < 2 or not hasattr(os, "fork"):
        return [work(iter(range(count)))]
    numbers = _laid_out(count)
    begun = [_copied(lambda: work(_taken(numbers))) for _ in range(hands - 1)]
    copies = [copy for copy in begun if copy is not None]
    try:
        own = work(_taken(numbers))
    finally:
        os.close(numbers)
        told = [_answer(copy) for copy in copies]
    if None in told:
        return [work(iter(range(count)))]
    return [own, *(pickle.loads(data) for data in told if data)]


class Meanwhile(Generic[R]):
    """Work that a copy of this process does while this one goes on. `answer` waits for what came of it;
    when it is not `copied`, it is done then.

    A copy begins `after` another one has done its work or has ended.
    """

    def __init__(
        self, work: Callable[[], R], *, copied: bool, after: "Meanwhile[Any] | None"
    ) -> None:
        self._work = work
        self._copy: _Copy | None = None
        self._ended, at_work = os.pipe()
        if copied and hasattr(os, "fork"):
            self._copy = _copied(lambda: self._in_turn(after, at_work))
        # It is open now in the copy alone.
        os.close(at_work)

    def _in_turn(self, after: "Meanwhile[Any] | None", at_work: int) -> R:
        if after is not None:
            # Nothing is ever told there; it is closed.
            os.read(after._ended, 1)
        try:
            return self._work()
        finally:
            # Before the answer is told, for which somebody may have to listen first.
            os.close(at_work)

    def answer(self) -> R:
        """What came of it; when no copy told it, it is done here. It is asked for once."""
        copy, self._copy = self._copy, None
        data = _answer(copy) if copy is not None else None
        if data is None:
            return self._work()
        answer: R = pickle.loads(data)
        return answer

    def leave(self) -> None:
        """End a copy that nobody has asked."""
        os.close(self._ended)
        if self._copy is not None:
            _killed(self._copy)
            _answer(self._copy)


@contextmanager
def meanwhile(
    work: Callable[[], R], *, copied: bool = True, after: Meanwhile[Any] | None = None
) -> Iterator[Meanwhile[R]]:
    """Work that is begun now, or `after` other work, and may be asked for while this is open."""
    begun = Meanwhile(work, copied=copied, after=after)
    try:
        yield begun
    finally:
        begun.leave()


def _laid_out(count: int) -> int:
    """The numbers in a pipe, from which each hand takes the next."""
    reading, writing = os.pipe()
    os.write(writing, bytes(range(count)))
    os.close(writing)
    return reading


def _taken(numbers: int) -> Iterator[int]:
    while number := os.read(numbers, 1):
        yield number[0]


def _copied(work: Callable[[], R]) -> _Copy | None:
    """A copy that is at work; None when the system grants no more processes."""
    reading, writing = os.pipe()
    # A look for what nothing holds any more goes over all that is there, and would copy it. What is left of
    # that now stays until the end, which is near: only a command that publishes makes copies.
    gc.freeze()
    try:
        process = os.fork()
    except OSError:
        os.close(reading)
        os.close(writing)
        return None
    if process:
        os.close(writing)
        return _Copy(process, reading)
    status = 1
    try:
        # While it could read its answer itself, it would wait for ever for one that was killed to do so.
        os.close(reading)
        with open(writing, "wb") as told:
            told.write(pickle.dumps(work()))
        status = 0
    finally:
        # Whatever became of it, what this process does at its end is not done twice. What failed here
        # fails again where it is done anew.
        os._exit(status)


def _answer(copy: _Copy) -> bytes | None:
    """What a copy told before it ended; None unless it is known to have come to its end."""
    try:
        with open(copy.answer, "rb") as told:
            data = told.read()
        _, status = os.waitpid(copy.process, 0)
    except ChildProcessError:
        # Whoever began this process wants no account of how those that it begins end.
        return None
    except BaseException:
        # Nobody waits for it any more, and nobody else would.
        _killed(copy)
        with suppress(ChildProcessError):
            os.waitpid(copy.process, 0)
        raise
    return data if status == 0 else None


def _killed(copy: _Copy) -> None:
    # Where nobody keeps account of processes, one that has ended is gone.
    with suppress(ProcessLookupError):
        os.kill(copy.process, signal.SIGKILL)

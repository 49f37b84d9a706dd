"""Work that is shared with copies of this process.

A copy begins with all that this process knows, so that nothing need be sent to it; it takes its share and
ends. Where a system makes no such copies, or one of them comes to nothing, all is done here.
"""

import os
import pickle
from collections.abc import Callable, Iterator
from typing import NamedTuple, TypeVar

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
    copies = [_copied(work, numbers) for _ in range(hands - 1)]
    try:
        own = work(_taken(numbers))
    finally:
        os.close(numbers)
        told = [_answer(copy) for copy in copies]
    if None in told:
        return [work(iter(range(count)))]
    return [own, *(pickle.loads(data) for data in told if data)]


def _laid_out(count: int) -> int:
    """The numbers in a pipe, from which each hand takes the next."""
    reading, writing = os.pipe()
    os.write(writing, bytes(range(count)))
    os.close(writing)
    return reading


def _taken(numbers: int) -> Iterator[int]:
    while number := os.read(numbers, 1):
        yield number[0]


def _copied(work: Work[R], numbers: int) -> _Copy:
    reading, writing = os.pipe()
    process = os.fork()
    if process:
        os.close(writing)
        return _Copy(process, reading)
    status = 1
    try:
        with open(writing, "wb") as told:
            told.write(pickle.dumps(work(_taken(numbers))))
        status = 0
    finally:
        # Whatever became of it, what this process does at its end is not done twice. What failed here
        # fails again where it is done anew.
        os._exit(status)


def _answer(copy: _Copy) -> bytes | None:
    """What a copy told before it ended; None unless it came to its end."""
    with open(copy.answer, "rb") as told:
        data = told.read()
    _, status = os.waitpid(copy.process, 0)
    return data if status == 0 else None

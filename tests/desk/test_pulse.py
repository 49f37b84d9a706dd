"""When the disk is still: so long after the last change, and not after a while that has to begin again."""

import asyncio
from collections.abc import Callable, Iterable
from typing import cast
from unittest.mock import patch

from journal.desk import pulse
from journal.desk.pulse import STILL, Pulse
from journal.desk.state import Live


class Clock:
    """A clock that goes on only while somebody sleeps; then what is due is done."""

    def __init__(self) -> None:
        self.now = 100.0
        self.due: list[tuple[float, Callable[[], None]]] = []

    def monotonic(self) -> float:
        return self.now

    async def sleep(self, seconds: float) -> None:
        until = self.now + seconds
        for when, what in sorted(self.due, key=lambda due: due[0]):
            if when <= until:
                self.now = when
                what()
        self.due = [due for due in self.due if due[0] > until]
        self.now = until


def waited(changes: Iterable[float]) -> float:
    """Seconds from the first change until the disk counts as still, with more after so many seconds."""
    clock = Clock()
    heard = Pulse(cast("Live", None), "start", lambda fault: None)
    with patch.object(pulse, "time", clock), patch.object(asyncio, "sleep", clock.sleep):
        heard.change("a.md")
        clock.due = [(100.0 + after, heard.change) for after in changes]
        asyncio.run(heard._still())
    return round(clock.now - 100.0, 6)


def test_still__one_change_is_waited_for_once() -> None:
    assert STILL == waited([])


def test_still__the_steps_of_one_writing_cost_no_second_while() -> None:
    """Emptied, written, closed: all told within two milliseconds."""
    assert round(0.002 + STILL, 6) == waited([0.001, 0.002])


def test_still__a_later_step_is_waited_for_from_then() -> None:
    assert round(0.04 + 0.04 + STILL, 6) == waited([0.04, 0.08])


def test_still__what_changes_on_and_on_is_read_all_the_same() -> None:
    assert 10 * STILL == waited(n * 0.03 for n in range(1, 100))

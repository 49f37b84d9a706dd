"""From a change on the disk to the pages that are open: read, tell, then ask the checks, and tell again."""

import asyncio
import json
import time
from collections.abc import AsyncIterator, Callable
from functools import partial
from typing import Any

from journal.desk.state import Live, State
from journal.outputs.problems import problem_text, summary
from journal.records.problem import Problem, Severity, left_words, shown_of

# An editor writes in several steps; the last one has been waited for when it was still this long.
STILL = 0.05
# A page that hears nothing for this long may take the desk for gone.
BEAT = 15.0


class Pulse:
    """Who is told of each new state, and when. All of it runs in one event loop; work is done in threads."""

    def __init__(self, live: Live, start: str, fault: Callable[[BaseException], None]) -> None:
        self.live = live
        self._fault = fault
        self._start = start
        self._told = asyncio.Condition()
        self._closed = False
        self._changed = asyncio.Event()
        self._last = 0.0
        self._where: set[str] | None = set()
        self._unchecked = asyncio.Event()

    def change(self, path: str | None = None) -> None:
        """Something changed on the disk, at a path when that is known. To be called in the loop."""
        if path is None:
            self._where = None
        elif self._where is not None:
            self._where.add(path)
        self._last = time.monotonic()
        self._changed.set()

    async def run(self) -> None:
        """Follow the disk until cancelled."""
        await asyncio.gather(self._read(), self._check())

    async def _read(self) -> None:
        while True:
            await self._changed.wait()
            await self._still()
            where, self._where = self._where, set()
            if await self._worked(partial(self.live.refresh, where)):
                await self._tell()
            self._unchecked.set()

    async def close(self) -> None:
        """Let every page go."""
        self._closed = True
        await self._tell()

    async def listen(self) -> AsyncIterator[str]:
        """What a page hears: the state at once, then every new one, as server-sent events."""
        number = -1
        while not self._closed:
            state = self.live.state
            if state.number != number:
                number = state.number
                yield f"event: state\ndata: {json.dumps(told(state, self._start))}\n\n"
                continue
            async with self._told:
                try:
                    await asyncio.wait_for(self._told.wait(), BEAT)
                except TimeoutError:
                    yield ": still here\n\n"

    async def _still(self) -> None:
        """Wait until nothing has changed for a while, but not for ever."""
        until = time.monotonic() + 10 * STILL
        while (left := min(until, self._last + STILL) - time.monotonic()) > 0:
            await asyncio.sleep(left)
        self._changed.clear()

    async def _check(self) -> None:
        """Ask the checks once the pages had the time to be shown; the longer they take, the later.

        What changes while they are asked is read and shown all the same, and asked about after it.
        """
        took = 0.0
        while True:
            await self._unchecked.wait()
            self._unchecked.clear()
            await asyncio.sleep(max(2 * STILL, took))
            if self._unchecked.is_set() or self._changed.is_set():
                continue
            start = time.monotonic()
            # What the system told of is shown; what it did not tell of is seen now.
            if await self._worked(self.live.refresh):
                await self._tell()
            if await self._worked(self.live.check):
                await self._tell()
            took = time.monotonic() - start

    async def _worked(self, work: Callable[[], bool]) -> bool:
        """Do work in a thread. A fault of ours is told in the terminal, and the desk goes on."""
        try:
            return await asyncio.to_thread(work)
        except Exception as fault:
            self._fault(fault)
            return False

    async def _tell(self) -> None:
        async with self._told:
            self._told.notify_all()


def told(state: State, start: str) -> dict[str, Any]:
    """A state as a page hears of it: the number of the whole and of each car, and what is wrong."""
    problems = state.problems
    return {
        "start": start,
        "number": state.number,
        "cars": {name: car.number for name, car in state.cars.items()},
        "problems": problems_told(problems),
        "summary": summary(problems) if problems else "",
    }


def problems_told(problems: tuple[Problem, ...]) -> list[dict[str, Any]]:
    """Problems in the words of the terminal, errors first."""
    shown, left = shown_of(problems)
    told = [
        {
            "text": problem_text(p),
            "error": p.severity is Severity.ERROR,
            "path": p.place.path,
            "line": p.place.line,
        }
        for p in sorted(shown, key=lambda p: p.severity is not Severity.ERROR)
    ]
    told += [
        {"text": f"{path}: {left_words(n)}", "error": False, "path": path, "line": 1}
        for path, n in left.items()
    ]
    return told

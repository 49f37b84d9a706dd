"""Who does the work on pictures: processes on all cores, or this one when there is little to do."""

from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import (
    BrokenExecutor,
    Executor,
    Future,
    as_completed,
)
from contextlib import AbstractContextManager, ExitStack, contextmanager
from typing import Any, TypeVar

T = TypeVar("T")
R = TypeVar("R")

# Told what is being done to pictures, how many are done and how many there are.
Progress = Callable[[str, int, int], None]
Pool = Callable[[], AbstractContextManager[Executor]]


class Ended(Exception):
    """Every process that took up one piece of work was ended over it; whose fault it was nobody knows."""


class Here(Executor):
    """An executor that does the work at once, in this process."""

    def submit(self, fn: Callable[..., T], /, *args: Any, **kwargs: Any) -> Future[T]:
        """Do it, and answer with what came of it."""
        future: Future[T] = Future()
        try:
            future.set_result(fn(*args, **kwargs))
        except Exception as fault:
            future.set_exception(fault)
        return future


def pool_of(workers: int) -> Pool:
    """Opens that many processes; with one, the work is done here.

    Processes start afresh, so that nothing of this one is shared with what reads strange files.
    """

    @contextmanager
    def opened() -> Iterator[Executor]:
        if workers < 2:
            yield Here()
            return
        # Loaded only where there is more to do than this process does at once.
        from concurrent.futures import ProcessPoolExecutor
        from multiprocessing import get_context

        with ProcessPoolExecutor(workers, get_context("spawn")) as pool:
            yield pool

    return opened


@contextmanager
def standing(opened: Pool) -> Iterator[Pool]:
    """A pool that is opened when it is first wanted, stays open for what comes after, and is opened anew
    when a process of it was ended."""
    with ExitStack() as open_now:
        pools: list[Executor] = []

        @contextmanager
        def lent() -> Iterator[Executor]:
            if not pools or not works(pools[-1]):
                pools.append(open_now.enter_context(opened()))
            yield pools[-1]

        yield lent


def works(pool: Executor) -> bool:
    """Whether no process of it was ended."""
    try:
        return pool.submit(int).result() == 0
    except BrokenExecutor:
        return False


def worked(
    opened: Pool, progress: Progress, what: str, work: Mapping[str, Callable[[], R]], *, of: int
) -> Iterator[tuple[str, R | None]]:
    """Do all work, in the order in which it is done. None stands for work that ended its process."""
    if not work:
        return
    left = dict(work)
    done = of - len(work)
    with opened() as pool:
        for name, answer in _submitted(pool, left):
            del left[name]
            done += 1
            progress(what, done, of)
            yield name, answer
    # Nobody can tell which of those that were under way did it: each is tried alone.
    for name in tuple(left):
        with opened() as pool:
            yield name, next((answer for _, answer in _submitted(pool, {name: left[name]})), None)
        done += 1
        progress(what, done, of)


def _submitted(pool: Executor, work: Mapping[str, Callable[[], R]]) -> Iterator[tuple[str, R]]:
    """Answers as they come, until all are there or the pool is broken; none of work that was ended."""
    try:
        futures: dict[Future[R], str] = {pool.submit(do): name for name, do in work.items()}
        for future in as_completed(futures):
            try:
                answer = future.result()
            except Ended:
                continue
            yield futures[future], answer
    except BrokenExecutor:
        return

"""Who does the work on pictures: processes on all cores, or this one when there is little to do."""

from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future, ProcessPoolExecutor
from contextlib import AbstractContextManager, contextmanager
from multiprocessing import get_context
from typing import Any, TypeVar

T = TypeVar("T")


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


def pool_of(workers: int) -> Callable[[], AbstractContextManager[Executor]]:
    """Opens that many processes; with one, the work is done here.

    Processes start afresh, so that nothing of this one is shared with what reads strange files.
    """

    @contextmanager
    def opened() -> Iterator[Executor]:
        if workers < 2:
            yield Here()
            return
        with ProcessPoolExecutor(workers, get_context("spawn")) as pool:
            yield pool

    return opened

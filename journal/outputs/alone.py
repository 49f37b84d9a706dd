"""Who writes to a folder does it alone: whoever comes second says so and waits."""

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

try:
    import fcntl
except ImportError:  # a system without these locks
    fcntl = None  # type: ignore[assignment]


@contextmanager
def alone(target: Path, notice: Callable[[str], None]) -> Iterator[None]:
    """The lock of a folder that need not be there, waited for; it is free again when the process that
    holds it ends, however."""
    if fcntl is None:
        yield
        return
    lock = target.with_name(f".{target.name}.lock")
    handle = _locked(
        lock, lambda: notice(f"{target.name} is being written already; waiting for that")
    )
    try:
        yield
    finally:
        with suppress(OSError):
            lock.unlink()
        os.close(handle)


def _locked(lock: Path, waiting: Callable[[], None]) -> int:
    """A handle on the lock's file, which nobody else has, and which still lies there: whoever had it
    before takes the file away."""
    while True:
        handle = os.open(lock, os.O_RDWR | os.O_CREAT, 0o666)
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            waiting()
            waiting = _untold
            fcntl.flock(handle, fcntl.LOCK_EX)
        except OSError:
            # A file system without locks; there is nobody to ask.
            return handle
        with suppress(FileNotFoundError):
            if os.path.samestat(os.fstat(handle), os.stat(lock)):
                return handle
        os.close(handle)


def _untold() -> None:
    """It has been said."""

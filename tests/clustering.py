"""A scheduler and its workers as processes of this machine, and work for them."""

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[1]
_QUIET = ("--no-dashboard", "--host", "127.0.0.1")
_PLAIN = ("--no-nanny", "--nthreads", "1", "--memory-limit", "0")
# Something is wrong with a process that takes longer to begin.
_LONGEST = 90.0


@dataclass(frozen=True)
class Running:
    """A scheduler's address and its workers."""

    address: str
    workers: tuple[subprocess.Popen[bytes], ...]


@contextmanager
def running(folder: Path, workers: int, *, allowed_failures: int = 3) -> Iterator[Running]:
    """A scheduler with so many workers of one thread, until the block ends; their files in a folder."""
    told = folder / "scheduler.json"
    env = {**os.environ, "DASK_DISTRIBUTED__SCHEDULER__ALLOWED_FAILURES": str(allowed_failures)}
    words = [("scheduler", "--port", "0", "--scheduler-file", str(told), *_QUIET)]
    words += [
        (
            "worker",
            "--scheduler-file",
            str(told),
            "--local-directory",
            str(folder),
            *_QUIET,
            *_PLAIN,
        )
    ] * workers
    started: list[subprocess.Popen[bytes]] = []
    try:
        for which, *more in words:
            command = [sys.executable, "-m", f"distributed.cli.dask_{which}", *more]
            with (folder / f"{len(started)}.log").open("wb") as log:
                started.append(subprocess.Popen(command, stderr=log, stdout=log, cwd=ROOT, env=env))
        wait_for(lambda: told.exists() and told.stat().st_size > 0)
        address = json.loads(told.read_text())["address"]
        wait_for(lambda: _registered(folder) == workers)
        yield Running(address, tuple(started[1:]))
    finally:
        for process in started:
            process.kill()
        for process in started:
            process.wait()


def wait_for(happened: Callable[[], bool]) -> None:
    """Wait until something is true."""
    end = time.monotonic() + _LONGEST
    while not happened():
        assert time.monotonic() < end, "it took too long"
        time.sleep(0.05)


def _registered(folder: Path) -> int:
    return (folder / "0.log").read_text().count("Register worker")


def slow(folder: str, number: int) -> int:
    """Work that tells who does it, and takes a while."""
    (Path(folder) / f"{number}.{os.getpid()}").touch()
    time.sleep(0.2)
    return number


def deadly(*_: object) -> None:
    """Work that ends whoever does it."""
    os.kill(os.getpid(), signal.SIGKILL)

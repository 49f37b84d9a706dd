"""How time, memory and size are measured; everything heavy runs in a process of its own.

A process that is started takes over the memory of the one that starts it in the system's count of its peak,
so the one that starts the others holds next to nothing.
"""

import importlib
import json
import os
import resource
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple

HERE = Path(__file__).parents[2]


class Run(NamedTuple):
    """A process that ended well: seconds on the clock and of the processor with its children, the
    MiB of the largest process among them, and what it printed."""

    wall: float
    processor: float
    peak: float
    out: str


def run(*words: str) -> Run:
    """Run Python with words after it, from the top of the repository."""
    start = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, *words], stdout=subprocess.PIPE, cwd=HERE, text=True
    )
    assert process.stdout
    out = process.stdout.read()
    _, status, used = os.wait4(process.pid, 0)
    wall = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    process.stdout.close()
    assert not process.returncode, (
        f"{' '.join(words)} ended with {process.returncode}: {out[-2000:]}"
    )
    return Run(wall, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, out)


def asked(name: str, **given: Any) -> Any:
    """What a function `module.name` of the benchmarks answers, called in a process of its own."""
    words = json.dumps({key: str(v) if isinstance(v, Path) else v for key, v in given.items()})
    return json.loads(run("-m", __name__, name, words).out)


def wall(do: Callable[[], Any]) -> float:
    """Seconds on the clock."""
    before = time.perf_counter()
    do()
    return time.perf_counter() - before


def processor(do: Callable[[], Any]) -> float:
    """Seconds of the processor that a piece of work takes, children included."""
    before = processor_of_own()
    do()
    return processor_of_own() - before


def processor_of_own() -> float:
    """Seconds of the processor so far, of this process and of those it started that have ended."""
    own = map(resource.getrusage, (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return sum(used.ru_utime + used.ru_stime for used in own)


class Work(NamedTuple):
    """Seconds since the machine started, over all its processors: all there were, those spent by anybody,
    and those spent by this process and what it started."""

    all: float
    spent: float
    own: float


def work_of_all() -> Work:
    """The work of this machine up to now (Linux, proc(5): user, nice, system, idle, waiting, ...)."""
    ticks = [int(word) for word in Path("/proc/stat").read_text().split("\n")[0].split()[1:9]]
    all_, idle = sum(ticks), ticks[3] + ticks[4]
    rate = os.sysconf("SC_CLK_TCK")
    return Work(all_ / rate, (all_ - idle) / rate, processor_of_own())


def share_of_others(before: Work) -> float:
    """How much of all processors the work of others has taken since then."""
    now = work_of_all()
    others = (now.spent - before.spent) - (now.own - before.own)
    return max(others, 0) / (now.all - before.all)


@contextmanager
def timed(what: str, told: dict[str, float]) -> Iterator[None]:
    """Add up in `told` how long a piece of work takes, in seconds on the clock."""
    start = time.perf_counter()
    yield
    told[what] = told.get(what, 0) + time.perf_counter() - start


def files_below(folder: Path) -> dict[str, int]:
    """The size of every file below a folder by its path in it."""
    found = (Path(at) / name for at, _, names in os.walk(folder) for name in names)
    return {file.relative_to(folder).as_posix(): file.stat().st_size for file in found}


if __name__ == "__main__":
    called, words = sys.argv[1:]
    module, _, function = called.rpartition(".")
    answer = getattr(importlib.import_module(f"tests.benchmarks.{module}"), function)
    print(json.dumps(answer(**json.loads(words))))

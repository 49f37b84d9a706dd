"""One moment of an operation: begun, killed, looked at, and run again."""

import re
import shutil
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from tests.benchmarks.killing.lying import State, differing, state_in, strays
from tests.benchmarks.killing.published import put_first
from tests.benchmarks.killing.running import Found, Running, need


@dataclass
class Operation:
    """One of them: `put` makes the place it works in as it is before moment n, `begin` starts it, `whole`
    looks at what a killed one left beside what there was before. There are so many `kinds` of places,
    each made once; with none, every moment goes on from the one before. `done` is what a run says that
    finds it done."""

    name: str
    put: Callable[[Path, int], None]
    begin: Callable[[Path], Running]
    whole: Callable[[Path, State, State], None]
    kinds: int = 1
    done: str = ""
    usual: float = 0.0
    moments: int = 0
    killed: int = 0
    whole_before: int = 0
    right_after: int = 0
    wrong: list[str] = field(default_factory=list)


def one_moment(op: Operation, work: Path, number: int, part: float) -> None:
    """One moment of an operation, from the place as it is before to what is there afterwards."""
    place = work / "place"
    before, wanted = put_before(op, work, number)
    running = op.begin(place)
    time.sleep(part * op.usual)
    op.moments += 1
    op.killed += running.kill()
    try:
        op.whole(place, before, wanted)
        op.whole_before += 1
        again(op, place, wanted)
        op.right_after += 1
    except Found as fault:
        told = f"{op.name}, moment {number} ({part:.3f} of {op.usual:.2f} s): {fault}"
        print(told, flush=True)
        op.wrong.append(told)
        shutil.rmtree(place)
        put_first(place, number)


def put_before(op: Operation, work: Path, number: int) -> tuple[State, State]:
    """Put the place there as it is before a moment: what lies in it then, and after a run in peace."""
    place, kind = work / "place", number % op.kinds if op.kinds else number
    kept = work / f"{op.name}-{kind}"
    if not kept.exists():
        if op.kinds:
            shutil.rmtree(place, ignore_errors=True)
        op.put(place, kind)
        shutil.copytree(place, kept, symlinks=True)
        _WANTED[kept.name] = in_peace(op, place)
    shutil.rmtree(place, ignore_errors=True)
    shutil.copytree(kept, place, symlinks=True)
    if not op.kinds:
        shutil.rmtree(kept)
    return state_in(place), _WANTED[kept.name]


_WANTED: dict[str, State] = {}


def in_peace(op: Operation, place: Path) -> State:
    """What a run comes to that nobody disturbs."""
    running = op.begin(place)
    began = time.monotonic()
    code = running.ended()
    took = time.monotonic() - began
    op.usual = 0.7 * op.usual + 0.3 * took if op.usual else took
    need(code in (0, 1), f"it ends with {code} in peace: {running.said.read_text()}")
    need(not strays(place), f"in peace it leaves {strays(place)}")
    return state_in(place)


def again(op: Operation, place: Path, wanted: State) -> None:
    """Run it once more, to its end."""
    code = op.begin(place).ended()
    said = (place / "said.txt").read_text(encoding="utf-8")
    finished = code == 2 and op.done and re.search(op.done, said)
    need(code in (0, 1) or bool(finished), f"the next run ends with {code}: {said[-600:]}")
    need("Traceback" not in said, f"the next run breaks: {said[-600:]}")
    now = state_in(place)
    need(now == wanted, f"after the next run: {differing(now, wanted)}")
    need(not strays(place), f"the next run leaves {strays(place)}")

"""Kill what writes at moments by chance, and see that nothing is lost: `python -m tests.benchmarks.killed`.

`--moments 5` for a look, `--only seal` for one operation; a hundred of all take some ten minutes.

Every operation runs in a process group of its own, on a small workshop, and is killed (SIGKILL) after a
part of its usual time that chance picks. What stood before must then be whole: every file as it was or
as it is to be, and no link that a reader of the archive comes to leads into nothing. Then it is run again,
as a person would, and what lies there must be, byte for byte, what a run in peace comes to, and no more.

A process is forked from this one, which has loaded the program and its templates already, so that the
moments fall into the work and not into the loading.
"""

import argparse
import os
import random
import signal
import sys
from collections.abc import Sequence
from importlib import import_module
from pathlib import Path
from tempfile import TemporaryDirectory
from types import CodeType

from jinja2 import Environment

from journal.outputs.archive import Order
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.benchmarks.killing.moments import Operation, one_moment
from tests.benchmarks.killing.published import publishing, put_changed, put_first, whole_archive
from tests.benchmarks.killing.running import ALIVE
from tests.benchmarks.killing.saved import saving
from tests.benchmarks.killing.sealed import (
    all_or_nothing,
    handing,
    put_handed,
    put_sealed,
    sealing,
    stating,
    whole_bag,
    whole_sheet,
)
from tests.editing import put_small
from tests.plainly import publish

_LOADED = ("publish", "publishing", "seal", "handover", "statement", "desk", "verify")


OPERATIONS = (
    Operation("publish, first", put_first, publishing, whole_archive),
    Operation("publish, changed", put_changed, publishing, whole_archive, kinds=0),
    Operation("desk save", put_first, saving, whole_sheet),
    Operation("seal", put_sealed, sealing, all_or_nothing, done="there is nothing new to seal"),
    Operation("statement", put_first, stating, all_or_nothing, done="are stated already"),
    Operation("handover", put_handed, handing, whole_bag, kinds=3),
)


def table(operations: Sequence[Operation]) -> str:
    """What came of it, a row each."""
    rows = [
        "| operation | moments | killed at work | whole before | right after | seconds a run |",
        "| --- | ---: | ---: | ---: | ---: | ---: |",
    ]
    rows += [
        f"| {op.name} | {op.moments} | {op.killed} | {op.whole_before} | {op.right_after} | {op.usual:.2f} |"
        for op in operations
    ]
    return "\n".join(rows)


def keep_templates() -> None:
    """Compile the templates here, once for all processes that are forked."""
    compiled: dict[tuple[str, str], CodeType] = {}
    real = Environment.compile

    def once(
        environment: Environment, source: str, name: str | None = None, file: str | None = None
    ) -> CodeType:
        key = (name or "", source)
        if key not in compiled:
            compiled[key] = real(environment, source, name, file)
        return compiled[key]

    Environment.compile = once  # type: ignore[method-assign, assignment]
    with TemporaryDirectory() as folder:
        content = read_content(put_small(Path(folder) / "content"))
        publish(content, Order(Path(folder) / "content", Path(folder) / "out", Reader.WORKSHOP))


def main() -> None:
    """Kill each so often and say what came of it."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("--moments", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="", help="of operations whose names hold this")
    told = parser.parse_args()
    for name in _LOADED:
        import_module(f"journal.commands.{name}")
    keep_templates()
    chosen = [op for op in OPERATIONS if told.only in op.name]
    # Whoever ends it early sees how far it came.
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))
    try:
        for op in chosen:
            _run_all(op, told.moments, random.Random(f"{told.seed} {op.name}"))
    finally:
        for pid in ALIVE:
            os.killpg(pid, signal.SIGKILL)
        print(table(chosen), flush=True)
    raise SystemExit(any(op.wrong for op in chosen))


def _run_all(op: Operation, moments: int, chance: random.Random) -> None:
    with TemporaryDirectory() as work:
        for number in range(moments):
            # A little beyond the usual end, so that the last steps are met too.
            one_moment(op, Path(work), number, chance.uniform(0, 1.15))


if __name__ == "__main__":
    main()

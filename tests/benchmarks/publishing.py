"""`journal publish` as a person runs it: from nothing, with nothing changed, and after one sheet changed."""

import json
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from tests.benchmarks.measuring import Run, files_below, run

# As often as this, as long as it does not take longer than so many seconds in all.
TIMES, LONG = 9, 30.0

# Publishes, and tells which modules that took.
_TELL_MODULES = """\
import json, sys
from journal.commands import main
try:
    main(sys.argv[2:], prog_name="journal")
finally:
    names = sorted(name for name in sys.modules if name != "__main__")
    open(sys.argv[1], "w").write(json.dumps(names))
"""
# The same modules, and one look at every file.
_FLOOR = """\
import json, os, sys
from importlib import import_module
modules, files = json.load(open(sys.argv[1]))
for name in modules:
    try:
        import_module(name)
    except ImportError:
        pass
for file in files:
    os.stat(file)
"""


class Shop(NamedTuple):
    """A content folder, where its archive goes, and the cache of its pictures."""

    root: Path
    target: Path
    cache: Path

    @property
    def command(self) -> tuple[str, ...]:
        """What `journal` is told."""
        return ("publish", str(self.root), "--for", "workshop", "--to", str(self.target),
                "--cache", str(self.cache))  # fmt: skip


def cold(shop: Shop) -> Run:
    """Publish with nothing made before."""
    for folder in (shop.target, shop.cache):
        shutil.rmtree(folder, ignore_errors=True)
    return run("-m", "journal", *shop.command)


def again(shop: Shop) -> Run:
    """Publish as things stand."""
    return run("-m", "journal", *shop.command)


class Unchanged(NamedTuple):
    """The best of several publishings with nothing changed, and of as many floors: one look at each file of
    content and archive, since what was done to either is put right, and at those of the content alone."""

    ours: Run
    floor: Run
    content_alone: Run


def unchanged(shop: Shop) -> Unchanged:
    """Publish with nothing changed."""
    with tempfile.TemporaryDirectory() as made:
        told = Path(made) / "modules.json"
        run("-c", _TELL_MODULES, str(told), *shop.command)
        modules = json.loads(told.read_text())
        content, archive = (
            [str(folder / path) for path in files_below(folder)]
            for folder in (shop.root, shop.target)
        )
        floors = [
            _looked(Path(made) / "floor.json", modules, files)
            for files in ([*content, *archive], content)
        ]
    return Unchanged(_best(lambda _: again(shop)), *floors)


def _looked(asked: Path, modules: list[str], files: list[str]) -> Run:
    asked.write_text(json.dumps([modules, files]))
    return _best(lambda _: run("-c", _FLOOR, str(asked)))


def edited(shop: Shop) -> Run:
    """The best of several publishings, each after a sentence was added to the last sheet of a car."""
    sheet = last_sheet(shop.root)
    before = sheet.read_text(encoding="utf-8")

    def once(number: int) -> Run:
        sheet.write_text(f"{before}\nTold anew, for the time number {number}.\n", encoding="utf-8")
        return again(shop)

    best = _best(once)
    sheet.write_text(before, encoding="utf-8")
    return best


def _best(do: Callable[[int], Run]) -> Run:
    """The best of several runs; each is told its number."""
    runs: list[Run] = []
    while len(runs) < TIMES and sum(one.wall for one in runs) < LONG:
        runs.append(do(len(runs)))
    return min(runs)


def last_sheet(root: Path) -> Path:
    """The last sheet of the first car."""
    return max(sorted(root.glob("*/sheets"))[0].rglob("*.md"), key=lambda file: file.name)

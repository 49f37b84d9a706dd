"""Speed, memory and size of everything that is made, each beside its floor and its goal, in one run.

    python -m tests.benchmarks [PART ...] [--sheets 3000] [--cars 20] [--pictures 20000] [--growth] [--seed 1]

A floor is what the libraries alone need for the same bytes, measured in the same run. `--growth` publishes
workshops of 300, 1,000, 3,000 and 10,000 sheets besides, of as many cars and of one. Times of one process
are of the processor, those of commands on the clock: other work on the machine makes those longer.
"""

import argparse
from collections.abc import Callable, Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from journal.words.text import counted
from tests.benchmarks import growing
from tests.benchmarks.measuring import asked, files_below, share_of_others, work_of_all
from tests.benchmarks.publishing import Shop, cold, edited, unchanged
from tests.benchmarks.rows import Row, table


def main() -> None:
    """Measure, and print the table."""
    words = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    words.add_argument(
        "parts",
        nargs="*",
        metavar="PART",
        help=f"{', '.join(PARTS)}; all but growth when none is named",
    )
    words.add_argument("--sheets", type=int, default=3000)
    words.add_argument("--cars", type=int, default=20)
    words.add_argument("--pictures", type=int, default=20_000)
    words.add_argument("--seed", type=int, default=1)
    words.add_argument("--growth", action="store_true")
    words.add_argument("--below", type=Path, help="where the workshops are put meanwhile")
    wanted = words.parse_args()
    if unknown := {*wanted.parts} - PARTS.keys():
        words.error(f"there is no part {', '.join(sorted(unknown))}")
    before = work_of_all()
    rows: list[Row] = []
    try:
        with TemporaryDirectory(dir=wanted.below) as made:
            for row in _rows(Path(made), wanted):
                print(f"    {row.line}", flush=True)
                rows.append(row)
    finally:
        print(table(rows))
        print(f"Other work took {share_of_others(before):.0%} of the processors meanwhile.")


def _rows(folder: Path, wanted: argparse.Namespace) -> Iterator[Row]:
    usual = [part for part in PARTS if part != "growth"]
    parts = wanted.parts or usual
    for part in (*parts, *(("growth",) if wanted.growth and "growth" not in parts else ())):
        yield from PARTS[part](folder / part, wanted)


def _without_pictures(folder: Path, wanted: argparse.Namespace) -> Iterator[Row]:
    shop = Shop(folder / "content", folder / "archive", folder / "cache")
    growing.drawn(shop.root, wanted.seed, wanted.cars, wanted.sheets, 0)
    _say(f"{wanted.sheets:,} sheets, {counted(wanted.cars, 'car')}, no pictures")
    told = asked("floors.measured", root=shop.root)
    for what, spent in told.items():
        yield Row(f"{what}, of the processor", spent["ours"], "s", spent["floor"])
    _say("cold publish without pictures")
    floor = told["reading"]["floor"] + told["pages"]["floor"]
    spent = cold(shop)
    yield Row("cold publish without pictures", spent.wall, "s", floor, 1.5, worked=spent.processor)


def _pictures(folder: Path, wanted: argparse.Namespace) -> Iterator[Row]:
    _say("pictures of 12 megapixels")
    folder.mkdir()
    told = asked("pictures.measured", count=160, below=folder)
    yield Row("a picture, of the processor", told["ours"], "s", told["floor"], 1.1)
    yield Row(
        "pictures, two cores faster than one", told["speed-up"], "times", None, 1.9, least=True
    )
    yield Row("the same of those Pillow calls alone", told["most"], "times")


def _with_pictures(folder: Path, wanted: argparse.Namespace) -> Iterator[Row]:
    shop = Shop(folder / "content", folder / "archive", folder / "cache")
    growing.drawn(shop.root, wanted.seed, wanted.cars, wanted.sheets, wanted.pictures)
    size = f"{wanted.sheets:,} sheets and {wanted.pictures:,} pictures"
    _say(f"cold publish of {size}")
    first = cold(shop)
    files = files_below(shop.target)
    yield Row("cold publish with small pictures", first.wall, "s", worked=first.processor)
    yield Row("its largest process", first.peak, "MiB", goal=500)
    yield Row(f"its output, {len(files):,} files", sum(files.values()) / 1e6, "MB")
    _say("nothing changed")
    still = unchanged(shop)
    ours = still.ours
    yield Row(
        "publish with nothing changed", ours.wall, "s", still.floor.wall, 2, worked=ours.processor
    )
    yield Row(
        "the same, beside looking at the content alone", ours.wall, "s", still.content_alone.wall
    )
    yield Row("the same", ours.wall, "s", goal=1)
    _say("one sheet changed")
    after = edited(shop)
    yield Row("publish with one sheet changed", after.wall, "s", goal=1, worked=after.processor)
    told = asked("atdesk.edited", root=shop.root, cache=shop.cache)
    yield Row("one sheet changed, at the desk", told * 1000, "ms", goal=300)


def _growth(folder: Path, wanted: argparse.Namespace) -> Iterator[Row]:
    for cars in sorted({wanted.cars, 1}, reverse=True):
        grown = []
        for sheets in growing.SIZES:
            _say(f"{sheets:,} sheets, {counted(cars, 'car')}")
            grown.append(growing.grown(folder, wanted.seed, cars, sheets))
        print(growing.told(grown))
        yield from growing.rows(grown)


def _say(what: str) -> None:
    print(f"... {what}", flush=True)


PARTS: dict[str, Callable[[Path, argparse.Namespace], Iterator[Row]]] = {
    "work": _without_pictures,
    "pictures": _pictures,
    "publishing": _with_pictures,
    "growth": _growth,
}


if __name__ == "__main__":
    main()

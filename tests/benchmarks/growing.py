"""How time, memory, output and the largest page grow with the number of sheets."""

import shutil
from math import log
from pathlib import Path
from typing import NamedTuple

from journal.words.text import counted
from tests.benchmarks.measuring import files_below, run
from tests.benchmarks.publishing import Shop, cold
from tests.benchmarks.rows import Row

SIZES = (300, 1000, 3000, 10_000)
# No page is larger than so many kB, however many sheets there are: a list goes on over further ones.
_LARGEST = 256


class Grown(NamedTuple):
    """A workshop of so many cars and sheets, published without pictures: seconds of the processor and on
    the clock, MiB of the largest process, bytes and files of the archive, and its largest page."""

    cars: int
    sheets: int
    processor: float
    wall: float
    peak: float
    size: int
    files: int
    page: str
    page_size: int


def grown(folder: Path, seed: int, cars: int, sheets: int) -> Grown:
    """Publish one workshop below a folder that is gone afterwards."""
    shop = Shop(folder / "content", folder / "archive", folder / "cache")
    drawn(shop.root, seed, cars, sheets, 0)
    spent = cold(shop)
    files = files_below(shop.target)
    page, size = max(
        ((path, size) for path, size in files.items() if path.endswith(".html")), key=lambda p: p[1]
    )
    shutil.rmtree(folder)
    return Grown(
        cars,
        sheets,
        spent.processor,
        spent.wall,
        spent.peak,
        sum(files.values()),
        len(files),
        page,
        size,
    )


def drawn(
    root: Path, seed: int, cars: int, sheets: int, pictures: int, megapixels: float = 0.05
) -> None:
    """Write a workshop, in a process of its own."""
    sizes = {
        "seed": seed,
        "cars": cars,
        "sheets": sheets,
        "pictures": pictures,
        "megapixels": megapixels,
    }
    options = (word for name, size in sizes.items() for word in (f"--{name}", str(size)))
    run("-m", "tests.benchmarks.generate", str(root), *options)


def told(all_: list[Grown]) -> str:
    """One line a size."""
    return "\n".join(map(_told, all_))


def _told(one: Grown) -> str:
    return (
        f"{counted(one.cars, 'car'):>8}, {one.sheets:>6,} sheets: {one.wall:6.1f} s on the clock, "
        f"{one.processor:6.1f} s of the processor, {one.peak:5.0f} MiB, {one.size / 1e6:6.1f} MB in "
        f"{one.files:,} files, largest page {one.page_size / 1000:,.0f} kB ({one.page})"
    )


def rows(all_: list[Grown]) -> list[Row]:
    """The exponents between the two largest sizes, where what is slow at first does not count."""
    *_, before, last = all_
    who = counted(last.cars, "car")

    def row(what: str, field: str, goal: float | None) -> Row:
        return Row(f"{who}, growth of {what}, exponent", _exponent(before, last, field), goal=goal)

    return [
        row("time", "processor", 1.1),
        row("output", "size", 1.1),
        row("memory", "peak", None),
        row("the largest page", "page_size", None),
        Row(
            f"{who}, the largest page of any size",
            max(one.page_size for one in all_) / 1000,
            "kB",
            goal=_LARGEST,
        ),
        Row(f"{who}, memory with {last.sheets:,} sheets", last.peak, "MiB", goal=500),
    ]


def _exponent(before: Grown, last: Grown, what: str) -> float:
    """e where twice the sheets are 2 to the power of e as much of it."""
    return log(getattr(last, what) / getattr(before, what)) / log(last.sheets / before.sheets)

"""Pictures: what one costs, as a ratio to the same Pillow calls alone, and what was tried.

    python -m tests.benchmarks.pictures [--count 60] [--tried] [--many 5000]

The photographs are of 12 megapixels, drawn from a seed, with grain, so that they cost what those of
a phone cost. Times are of the processor, the floor and ours by turns, and the best of each counts.
"""

import argparse
import io
import os
import resource
import tempfile
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Any

from PIL import Image

from journal.pictures.cache import PictureCache
from journal.pictures.derive import recipe
from journal.pictures.make import Job, Studio, finish_pictures, make_pictures
from journal.pictures.pool import pool_of, standing
from tests.benchmarks.measuring import processor, wall
from tests.benchmarks.workshop.photographs import photograph as drawn_photograph
from tests.benchmarks.workshop.photographs import stamped

SIZE = (4000, 3000)
WIDEST, MIDDLE, NARROW = (1600, 1200), (800, 600), (400, 300)
# How many are drawn; more are these again under other camera data.
_DRAWN = 12
# Times on the clock are taken so often.
_TURNS = 3


def photograph(seed: int) -> bytes:
    """A picture of shapes and light with the grain of a small sensor, as a phone would write it."""
    return drawn_photograph(seed, SIZE, grain=5, quality=90)


def floor(data: bytes) -> None:
    """The same Pillow calls as ours, alone: no files, no hash, no metadata, no cache."""
    image = Image.open(io.BytesIO(data))
    image.draft(None, WIDEST)
    image.load()
    wide = image.resize(WIDEST, Image.Resampling.LANCZOS)
    wide.save(io.BytesIO(), "JPEG", quality=80, optimize=True)
    for size in (WIDEST, MIDDLE, NARROW):
        if size != WIDEST:
            wide = wide.resize(size, Image.Resampling.LANCZOS)
        wide.save(io.BytesIO(), "WEBP", quality=80, method=2)


@contextmanager
def a_studio(root: Path, workers: int) -> Iterator[Studio]:
    """A studio with an empty cache."""
    with tempfile.TemporaryDirectory() as folder:
        cache = PictureCache(Path(folder), recipe())
        try:
            with standing(pool_of(workers)) as pool:
                yield Studio(root, cache, pool, lambda *_: None)
        finally:
            cache.close()


def ours(root: Path, names: list[str], workers: int) -> None:
    """Publish the photographs as `journal publish` does."""
    with tempfile.TemporaryDirectory() as target, a_studio(root, workers) as studio:
        make_pictures(studio, [Job(name, "", "files") for name in names], Path(target))


def finished(root: Path, names: list[str], workers: int) -> None:
    """Make the photographs as `journal publish` does."""
    with a_studio(root, workers) as studio:
        finish_pictures(studio, names)


def measured(count: int, below: str | None = None) -> dict[str, float]:
    """Seconds of the processor a picture, ours and the floor, and how many times faster two processes
    are than one, ours and those that do nothing but the floor's calls; the photographs lie below a folder
    meanwhile."""
    with tempfile.TemporaryDirectory(dir=below) as folder:
        names = _put(Path(folder), count)
        base, cost = _costs(Path(folder), names)
        one, two = _walls(Path(folder), names)
        alone, beside = _floor_walls([(Path(folder) / name).read_bytes() for name in names])
    return {"floor": base, "ours": cost, "speed-up": one / two, "most": alone / beside}


def _put(root: Path, count: int) -> list[str]:
    """So many photographs, of which every one has its own bytes."""
    drawn = [photograph(seed) for seed in range(min(count, _DRAWN))]
    names = [f"{number}.jpg" for number in range(count)]
    for number, name in enumerate(names):
        picture = stamped(drawn[number % len(drawn)], number, date(2024, 3, 5))
        (root / name).write_bytes(picture)
    return names


def _costs(root: Path, names: list[str]) -> tuple[float, float]:
    """Seconds of the processor a picture of the floor and of ours, by turns; the best of each."""
    some = names[:_DRAWN]
    data = [(root / name).read_bytes() for name in some]
    spent = [
        (processor(lambda: [floor(one) for one in data]), processor(lambda: ours(root, some, 1)))
        for _ in range(3)
    ]
    return min(f for f, _ in spent) / len(some), min(o for _, o in spent) / len(some)


def _walls(root: Path, names: list[str]) -> tuple[float, float]:
    """Seconds on the clock until all that can be made of them lies in the cache, by one process, and by
    two; from there each car's process copies its own. Both by turns, and the best of each."""
    told = [[wall(lambda n=n: finished(root, names, n)) for n in (1, 2)] for _ in range(_TURNS)]
    one, two = map(min, zip(*told, strict=True))
    return one, two


def _floor_walls(data: list[bytes]) -> tuple[float, float]:
    """The same for the floor's calls alone, by processes that have begun already: what this machine gives."""
    told = []
    for workers in (1, 2):
        with ProcessPoolExecutor(workers) as pool:
            list(pool.map(floor, data[:workers]))
            spent = [wall(lambda pool=pool: list(pool.map(floor, data))) for _ in range(_TURNS)]
            told.append(min(spent))
    return told[0], told[1]


def tried(data: bytes) -> None:
    """Print the time and size of every way that was tried."""

    def read(size: tuple[int, int] | None) -> Image.Image:
        image = Image.open(io.BytesIO(data))
        if size:
            image.draft(None, size)
        image.load()
        return image

    def row(what: str, do: Callable[[], Any]) -> None:
        spent = min(processor(do) for _ in range(5))
        made = do()
        size = f"{len(made) / 1000:7.0f} kB" if isinstance(made, bytes) else ""
        print(f"{what:44}{spent * 1000:6.0f} ms {size}")

    def encoded(image: Image.Image, form: str, **how: Any) -> Callable[[], bytes]:
        def do() -> bytes:
            out = io.BytesIO()
            image.save(out, form, **how)
            return out.getvalue()

        return do

    lanczos = Image.Resampling.LANCZOS
    whole, half = read(None), read(WIDEST)
    wide = half.resize(WIDEST, lanczos)
    row("decode whole", lambda: read(None))
    row("decode at half size (draft)", lambda: read(WIDEST))
    row("whole to 1600", lambda: whole.resize(WIDEST, lanczos))
    row("half to 1600", lambda: half.resize(WIDEST, lanczos))
    row(
        "800 and 400, each from the half",
        lambda: [half.resize(s, lanczos) for s in (MIDDLE, NARROW)],
    )
    row("800 from 1600, 400 from 800", lambda: wide.resize(MIDDLE, lanczos).resize(NARROW, lanczos))
    for how in ({}, {"optimize": True}, {"optimize": True, "progressive": True}):
        row(f"JPEG 80 {' '.join(how)}", encoded(wide, "JPEG", quality=80, **how))
    for method in (0, 1, 2, 4):
        row(f"WebP 80 method {method}", encoded(wide, "WEBP", quality=80, method=method))
    for speed in (10, 8, 6):
        row(f"AVIF 55 speed {speed}", encoded(wide, "AVIF", quality=55, speed=speed, max_threads=1))


def many(root: Path, count: int) -> None:
    """Print the peak of memory over many pictures, ours and that of the largest process."""
    data = (root / "0.jpg").read_bytes()
    for n in range(count):
        # A byte after the end makes it another file and the same picture.
        (root / f"many-{n}.jpg").write_bytes(data + n.to_bytes(4, "big"))
    spent = wall(lambda: ours(root, [f"many-{n}.jpg" for n in range(count)], os.cpu_count() or 1))
    here, there = (
        resource.getrusage(who).ru_maxrss / 1024
        for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
    )
    print(
        f"{count} pictures: {spent:.0f} s; peak {here:.0f} MiB here, {there:.0f} MiB in a process"
    )


def main() -> None:
    """Draw the photographs and print what was asked for."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--count", type=int, default=60)
    asked.add_argument("--tried", action="store_true")
    asked.add_argument("--many", type=int, default=0)
    options = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "0.jpg").write_bytes(photograph(0))
        if options.tried:
            tried((Path(folder) / "0.jpg").read_bytes())
        if options.many:
            many(Path(folder), options.many)
    told = measured(options.count)
    for who in ("floor", "ours"):
        print(f"{who:<6}{told[who] * 1000:6.0f} ms of the processor a picture")
    print(f"ratio {told['ours'] / told['floor']:.2f}; two processes are {told['speed-up']:.2f} times "
          f"as fast as one on {options.count} pictures")  # fmt: skip


if __name__ == "__main__":
    main()

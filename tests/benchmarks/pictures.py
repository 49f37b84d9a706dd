"""Pictures: what one costs, as a ratio to the same Pillow calls alone, and what was tried.

    python -m tests.benchmarks.pictures [--count 12] [--tried] [--many 5000]

The photographs are of 12 megapixels, drawn from a seed, with grain, so that they cost what those of
a phone cost. Times are of the processor, the floor and ours by turns, and the best of each counts.
"""

import argparse
import io
import os
import resource
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image

from journal.pictures.cache import PictureCache
from journal.pictures.derive import recipe
from journal.pictures.make import Job, Studio, make_pictures
from journal.pictures.pool import pool_of

SIZE = (4000, 3000)
WIDEST, MIDDLE, NARROW = (1600, 1200), (800, 600), (400, 300)


def photograph(seed: int) -> bytes:
    """A picture of shapes and light with the grain of a small sensor, as a phone would write it."""
    chance = np.random.default_rng(seed)
    small = chance.integers(0, 255, (30, 40, 3), dtype=np.uint8)
    shapes = Image.fromarray(small).resize(SIZE, Image.Resampling.BICUBIC)
    grain = chance.normal(0, 5, (SIZE[1], SIZE[0], 1)).astype(np.int16)
    pixels = (np.asarray(shapes).astype(np.int16) + grain).clip(0, 255).astype(np.uint8)
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "JPEG", quality=90)
    return out.getvalue()


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
            yield Studio(root, cache, pool_of(workers), lambda *_: None)
        finally:
            cache.close()


def ours(root: Path, names: list[str], workers: int) -> None:
    """Publish the photographs as `journal publish` does."""
    with tempfile.TemporaryDirectory() as target, a_studio(root, workers) as studio:
        make_pictures(studio, [Job(name, "", "files") for name in names], Path(target))


def processor(do: Callable[[], Any]) -> float:
    """Seconds of the processor, children included."""

    def spent() -> float:
        return sum(
            used.ru_utime + used.ru_stime
            for used in map(resource.getrusage, (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
        )

    before = spent()
    do()
    return spent() - before


def wall(do: Callable[[], Any]) -> float:
    """Seconds on the clock."""
    before = time.perf_counter()
    do()
    return time.perf_counter() - before


def ratio(root: Path, names: list[str]) -> None:
    """Print what a picture costs beside its floor, and what a second core brings."""
    data = [(root / name).read_bytes() for name in names]
    floors, costs = [], []
    for _ in range(3):
        floors.append(processor(lambda: [floor(one) for one in data]))
        costs.append(processor(lambda: ours(root, names, 1)))
    base, cost = min(floors) / len(names), min(costs) / len(names)
    print(f"floor {base * 1000:6.0f} ms of the processor a picture")
    print(f"ours  {cost * 1000:6.0f} ms of the processor a picture, ratio {cost / base:.2f}")
    one, two = (min(wall(lambda n=n: ours(root, names, n)) for _ in range(2)) for n in (1, 2))
    print(f"two processes are {one / two:.2f} times as fast as one on {len(names)} pictures")


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
    asked.add_argument("--count", type=int, default=12)
    asked.add_argument("--tried", action="store_true")
    asked.add_argument("--many", type=int, default=0)
    options = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        names = [f"{n}.jpg" for n in range(options.count)]
        for n, name in enumerate(names):
            (root / name).write_bytes(photograph(n))
        if options.tried:
            tried((root / "0.jpg").read_bytes())
        if options.many:
            many(root, options.many)
        ratio(root, names)


if __name__ == "__main__":
    main()

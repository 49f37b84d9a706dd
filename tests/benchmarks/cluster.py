"""Publishing from nothing by two workers of a scheduler, beside the same by two processes without one.

    python -m tests.benchmarks.cluster [--cars 4] [--sheets 100] [--pictures 80] [--megapixels 0.3]

Cars are timed without pictures, pictures in two cars with a sheet each. Each line gives seconds on the
clock, so that other work on the machine makes both longer, and what that is a minute; those of the
processor and the size of the archive are of the run without a scheduler. A scheduler and its workers take
some seconds to begin, which do not count.
"""

import argparse
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks.generate import Size, generate
from tests.benchmarks.measuring import Run, files_below, run, share_of_others, work_of_all
from tests.clustering import running


def main() -> None:
    """Measure, and print."""
    words = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    words.add_argument("--cars", type=int, default=4)
    words.add_argument("--sheets", type=int, default=100, help="in all cars together")
    words.add_argument("--pictures", type=int, default=80)
    words.add_argument("--megapixels", type=float, default=0.3)
    words.add_argument("--below", type=Path, help="where everything is put meanwhile")
    told = words.parse_args()
    before = work_of_all()
    with TemporaryDirectory(dir=told.below) as made:
        folder = Path(made)
        _measured(folder / "cars", Size(1, told.cars, told.sheets, 0), "car", told.cars)
        pictured = Size(1, 2, 2, told.pictures, told.megapixels)
        _measured(folder / "pictures", pictured, "picture", told.pictures)
    print(f"Other work took {share_of_others(before):.0%} of the processors meanwhile.")


def _measured(folder: Path, size: Size, what: str, count: int) -> None:
    generate(folder / "content", size)
    print(
        f"{size.cars} cars, {size.sheets} sheets, {size.pictures} pictures of {size.megapixels} megapixels"
    )
    here = _published(folder, "here")
    _say("two processes here", here, what, count)
    with running(folder, 2) as there:
        by_workers = _published(folder, "there", "--on", there.address)
    _say("two workers", by_workers, what, count)
    assert _bytes(folder / "here") == _bytes(folder / "there"), "the archives differ"
    size_ = sum(files_below(folder / "here").values())
    print(
        f"    one {what}: {here.processor / count:.2f} s of a core, {size_ / count / 1e6:.2f} MB of archive"
    )


def _published(folder: Path, name: str, *more: str) -> Run:
    words = (
        "--for",
        "workshop",
        "--to",
        str(folder / name),
        "--cache",
        str(folder / f"{name}-cache"),
    )
    return run("-m", "journal", "publish", str(folder / "content"), *words, *more)


def _bytes(folder: Path) -> dict[str, bytes]:
    return {path: (folder / path).read_bytes() for path in files_below(folder)}


def _say(by: str, told: Run, what: str, count: int) -> None:
    print(
        f"    by {by}: {told.wall:.1f} s, {60 * count / told.wall:.1f} {what}s a minute", flush=True
    )


if __name__ == "__main__":
    main()

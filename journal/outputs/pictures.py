"""Pictures of an archive: which ones a reader's car needs, and with what they are made."""

import shutil
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from journal.pictures.cache import PictureCache
from journal.pictures.make import Job, Studio, look_at
from journal.pictures.pool import Pool, Progress, pool_of, standing
from journal.pictures.published import Published
from journal.records.carfile import CarFile, Content
from journal.records.photofacts import PhotoFacts
from journal.records.problem import Problem
from journal.records.sheet import photo_path
from journal.words.text import counted

Notice = Callable[[str], None]


def untold(*_: object) -> None:
    """Nobody is told."""


class Means(Struct, frozen=True):
    """How pictures and cars are worked on: by so many `workers` of this machine or by those of a `pool`,
    with a cache, and who is told."""

    cache: Path
    workers: int = 1
    progress: Progress = untold
    notice: Notice = untold
    pool: Pool | None = None


@contextmanager
def studio_of(root: Path, means: Means) -> Iterator[Studio]:
    """A studio for one piece of work; what it made is remembered even when the work fails."""
    from journal.pictures.derive import recipe

    cache = PictureCache(means.cache, recipe())
    try:
        with standing(means.pool or pool_of(means.workers)) as pool:
            yield Studio(root, cache, pool, means.progress)
    finally:
        cache.close()
    if cache.damaged:
        means.notice(
            f"{counted(cache.damaged, 'thing')} in the cache of pictures was damaged and made again"
        )


@contextmanager
def passing_cache(beside: Path) -> Iterator[Path]:
    """A cache beside a folder that is gone when the work is done."""
    folder = beside.with_name(f"{beside.name}.pictures")
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def told_pictures(seen: CarFile) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The photographs and the scans that are there and that a car tells of, in order of their paths."""
    told = {photo_path(s.date, p.file) for s in seen.sheets for p in s.front.photos}
    if seen.car.cover:
        told.add(seen.car.cover)
    papers = {paper.file for _, paper in seen.papers if paper.file}
    return tuple(sorted(told & seen.photo_files)), tuple(sorted(papers & seen.paper_files))


def jobs_of(seen: CarFile, base: str) -> tuple[Job, ...]:
    """The pictures of a car that holds what its reader may see: photographs told of, and scans."""
    photos, scans = told_pictures(seen)
    return (
        *(Job(photo_at(seen, p), base, "pictures/files") for p in photos),
        *(Job(scan_at(seen, p), base, "papers/files") for p in scans),
    )


def hung(
    seen: CarFile, made: Mapping[str, Published]
) -> tuple[dict[str, Published], dict[str, Published]]:
    """What was made of a car's photographs and papers, by the names that the car file knows."""
    return (
        {p: made[photo_at(seen, p)] for p in seen.photo_files if photo_at(seen, p) in made},
        {p: made[scan_at(seen, p)] for p in seen.paper_files if scan_at(seen, p) in made},
    )


def looked(content: Content, root: Path, means: Means) -> Content:
    """A content folder with the facts of all its photographs, and what is wrong with them."""
    paths = [photo_at(car, path) for car in content.cars for path in sorted(car.photo_files)]
    paths += [
        scan_at(car, paper.file)
        for car in content.cars
        for _, paper in car.papers
        if paper.file in car.paper_files
    ]
    with studio_of(root, means) as studio:
        facts, problems = look_at(studio, paths)
    return with_facts(content, facts, problems)


def with_facts(
    content: Content, facts: Mapping[str, PhotoFacts], problems: tuple[Problem, ...] = ()
) -> Content:
    """A content folder whose cars know the facts of these photographs."""
    cars = tuple(
        replace(
            car,
            photo_facts={
                p: facts[photo_at(car, p)] for p in car.photo_files if photo_at(car, p) in facts
            },
        )
        for car in content.cars
    )
    return replace(content, cars=cars, problems=(*content.problems, *problems))


def photo_at(car: CarFile, path: str) -> str:
    """Where a photograph lies in the content folder."""
    return f"{car.name}/photos/{path}"


def scan_at(car: CarFile, path: str) -> str:
    """Where the scan of a paper lies in the content folder."""
    return f"{car.name}/papers/{path}"

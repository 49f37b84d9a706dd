"""A studio for tests, with a cache of its own."""

from collections.abc import Callable, Iterator
from concurrent.futures import Executor
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

from journal.pictures.cache import PictureCache
from journal.pictures.derive import recipe
from journal.pictures.make import Job, Studio, make_pictures
from journal.pictures.pool import pool_of
from journal.pictures.published import Published
from journal.records.problem import Problem

ROOT, CACHE, TARGET = "content", "cache", "archive"


@contextmanager
def a_studio(
    folder: Path,
    *,
    pool: Callable[[], AbstractContextManager[Executor]] | None = None,
    told: list[tuple[str, int, int]] | None = None,
    made_by: str = "",
) -> Iterator[Studio]:
    """A studio over `content/` below a folder, with its cache beside it."""
    cache = PictureCache(folder / CACHE, made_by or recipe())
    seen = told if told is not None else []
    try:
        yield Studio(folder / ROOT, cache, pool or pool_of(1), lambda *words: seen.append(words))
    finally:
        cache.close()


def put(folder: Path, name: str, data: bytes) -> Path:
    """A file of the content folder."""
    file = folder / ROOT / name
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(data)
    return file


def made(
    folder: Path, *names: str, **how: object
) -> tuple[dict[str, Published], tuple[Problem, ...]]:
    """Publish photographs of the content folder."""
    with a_studio(folder, **how) as studio:  # type: ignore[arg-type]
        return make_pictures(studio, [Job(n, "", "files") for n in names], folder / TARGET)


def files_in(folder: Path) -> dict[str, bytes]:
    """Every file below a folder by relative path."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }

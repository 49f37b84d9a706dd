"""Pictures of the desk: looked at when a car changes, made when a page asks for them."""

import os
import signal
from collections.abc import Iterator
from concurrent.futures import BrokenExecutor, Executor, ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_context, parent_process
from pathlib import Path
from threading import Lock, Thread

from journal.outputs.pictures import Means, photo_at, scan_at
from journal.pictures.cache import PictureCache
from journal.pictures.decode import Unreadable
from journal.pictures.derive import recipe
from journal.pictures.make import Glance, Job, Studio, glance, look_at, rendition_of
from journal.records.carfile import CarFile
from journal.records.photofacts import PhotoFacts
from journal.records.problem import Problem


class Darkroom:
    """Photographs of one content folder, worked on by processes that stand ready once there was work.

    A file that brings down the process that reads it costs that file; the next work has a new one.
    """

    def __init__(self, root: Path, means: Means) -> None:
        self._root = root
        self._means = means
        self._pool: Executor | None = None
        self._opening = Lock()
        self._making: dict[str, Lock] = {}

    def look(self, car: CarFile) -> tuple[dict[str, PhotoFacts], tuple[Problem, ...]]:
        """The facts of every file of a car that pages show, by its path in the content folder, and what
        is wrong with them."""
        paths = [photo_at(car, path) for path in sorted(car.photo_files)]
        paths += [
            scan_at(car, paper.file)
            for _, paper in car.papers
            if paper.file and paper.file in car.paper_files
        ]
        if not paths:
            return {}, ()
        with self._studio() as studio:
            return look_at(studio, paths)

    def rendition(self, job: Job, path: str) -> bytes | Unreadable | None:
        """The bytes of a rendition by its path in the car's folder, made when it is not there."""
        with self._opening:
            one_at_a_time = self._making.setdefault(job.path, Lock())
        with one_at_a_time, self._studio() as studio:
            return rendition_of(studio, job, path)

    def glance(self, file: Path) -> Glance | Unreadable:
        """What a picture shows that is not in the content folder yet."""
        with self._studio() as studio:
            return glance(studio, file)

    def close(self) -> None:
        """Send away the processes that stand ready."""
        with self._opening:
            if self._pool is not None:
                self._pool.shutdown(wait=False, cancel_futures=True)
                self._pool = None

    @contextmanager
    def _studio(self) -> Iterator[Studio]:
        cache = PictureCache(self._means.cache, recipe())
        try:
            yield Studio(self._root, cache, self._ready, self._means.progress)
        finally:
            cache.close()

    @contextmanager
    def _ready(self) -> Iterator[Executor]:
        """Processes that work: those that stand ready, or new ones where a file ended one of them."""
        with self._opening:
            if self._pool is None or not _works(self._pool):
                self._pool = ProcessPoolExecutor(
                    self._means.workers, get_context("spawn"), _end_with_the_desk
                )
            pool = self._pool
        yield pool


def _end_with_the_desk() -> None:
    """A desk that is killed leaves no process behind that waits for its work; Ctrl-C ends the desk,
    and the desk them."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    desk = parent_process()
    assert desk is not None

    def wait() -> None:
        desk.join()
        os._exit(1)

    Thread(target=wait, daemon=True).start()


def _works(pool: Executor) -> bool:
    try:
        return pool.submit(int).result() == 0
    except BrokenExecutor:
        return False

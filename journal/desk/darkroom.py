"""Pictures of the desk: looked at when a car changes, made when a page asks for them."""

import os
import signal
from collections.abc import Iterator, Mapping
from concurrent.futures import Executor, ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_context, parent_process
from pathlib import Path
from threading import Lock, Thread

from msgspec import Struct

from journal.outputs.pictures import Means, photo_at, scan_at
from journal.pictures.cache import PictureCache
from journal.pictures.derive import recipe
from journal.pictures.forms import Unreadable
from journal.pictures.make import Glance, Job, Studio, glance, look_at, rendition_of
from journal.pictures.pool import works
from journal.reading.prints import Print, is_fresh
from journal.records.carfile import CarFile
from journal.records.photofacts import PhotoFacts
from journal.records.problem import Problem


class Lying(Struct, frozen=True):
    """The files of a car as they lay there: the print of each by its path in the content folder, none of
    them taken before `at`."""

    prints: Mapping[str, Print]
    at: int

    def settled(self, path: str) -> Print | None:
        """The print of a file by which a later change of it shows; None for one that may change again
        under the same print. Either of its times may be the one that tells of the change."""
        now = self.prints.get(path)
        return None if now is None or is_fresh(max(now.changed, now.moved), self.at) else now


class _Seen(Struct, frozen=True):
    """What was seen in a photograph whose file had this print, and what was wrong with it."""

    print: Print
    facts: PhotoFacts
    wrong: tuple[Problem, ...]


class Look(Struct, frozen=True):
    """A look at the photographs of a car: the facts of each by its path in the content folder, and what is
    wrong with them; `settled` are those that need no other look while their files stay as they are."""

    facts: Mapping[str, PhotoFacts]
    wrong: tuple[Problem, ...]
    settled: Mapping[str, _Seen]


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

    def look(self, car: CarFile, lying: Lying, before: Look | None = None) -> Look:
        """What is seen in every file of a car that pages show. A file that lies there as it did when it
        was looked at before is not looked at again."""
        known, paths = before.settled if before else {}, _shown(car)
        same = {
            path: seen
            for path in paths
            if (seen := known.get(path)) and seen.print == lying.prints.get(path)
        }
        facts, wrong = self._asked([path for path in paths if path not in same])
        return Look(
            {path: seen.facts for path, seen in same.items()} | facts,
            (*(problem for seen in same.values() for problem in seen.wrong), *wrong),
            same | _settled(facts, wrong, lying),
        )

    def _asked(self, paths: list[str]) -> tuple[dict[str, PhotoFacts], tuple[Problem, ...]]:
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
            if self._pool is None or not works(self._pool):
                self._pool = ProcessPoolExecutor(
                    self._means.workers, get_context("spawn"), _end_with_the_desk
                )
            pool = self._pool
        yield pool


def _shown(car: CarFile) -> list[str]:
    """The photographs of a car, and the scans of its papers that are there."""
    scans = (paper.file for _, paper in car.papers if paper.file in car.paper_files)
    return [
        *(photo_at(car, path) for path in sorted(car.photo_files)),
        *(scan_at(car, file) for file in scans if file),
    ]


def _settled(
    facts: Mapping[str, PhotoFacts], wrong: tuple[Problem, ...], lying: Lying
) -> dict[str, _Seen]:
    """What need not be looked at again. What cannot be shown is, since that may have been the
    computer's fault."""
    told: dict[str, list[Problem]] = {}
    for problem in wrong:
        told.setdefault(problem.place.path, []).append(problem)
    return {
        path: _Seen(settled, seen, tuple(told.get(path, ())))
        for path, seen in facts.items()
        if (settled := lying.settled(path))
    }


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

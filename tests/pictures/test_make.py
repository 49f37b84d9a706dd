"""Publishing photographs: one bad file costs one problem, and the originals stay as they are."""

import os
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from journal.pictures.make import look_at
from journal.pictures.pool import Here, pool_of
from journal.pictures.published import Published
from journal.records.problem import Severity
from tests.pictures.images import encoded, halves
from tests.pictures.studios import TARGET, a_studio, files_in, made, put


def _paths(published: Published) -> list[str]:
    return [r.path for r in (*published.webp, published.jpeg)]


def test_photograph__is_published_in_its_renditions(tmp_path: Path) -> None:
    put(tmp_path, "a.jpg", encoded(halves(2000, 1000)))
    published, problems = made(tmp_path, "a.jpg")
    assert () == problems
    shown = published["a.jpg"]
    assert [(400, 200), (800, 400), (1600, 800)] == [(r.width, r.height) for r in shown.webp]
    assert (1600, 800) == (shown.jpeg.width, shown.jpeg.height)
    assert set(_paths(shown)) == set(files_in(tmp_path / TARGET))


def test_names__tell_nothing_of_the_file(tmp_path: Path) -> None:
    name = "Mrs Harrow TD 58-0417.jpg"
    put(tmp_path, name, encoded(halves(500, 300)))
    published, _ = made(tmp_path, name)
    for path in _paths(published[name]):
        assert "Harrow" not in path
        assert "0417" not in path


def test_bad_file__costs_one_problem_with_its_name_and_the_others_are_made(tmp_path: Path) -> None:
    put(tmp_path, "tern/good.jpg", encoded(halves(500, 300)))
    put(tmp_path, "tern/short.jpg", encoded(halves(2000, 1000))[:3000])
    put(tmp_path, "tern/empty.jpg", b"")
    put(tmp_path, "tern/really.jpg", encoded(halves(64, 64), "PNG"))
    names = ["tern/good.jpg", "tern/short.jpg", "tern/empty.jpg", "tern/really.jpg"]
    published, problems = made(tmp_path, *names)
    assert {"tern/good.jpg", "tern/really.jpg"} == set(published)
    save = "save it again as JPEG, HEIC, PNG, WebP or TIFF"
    assert [
        ("tern/short.jpg", "bad-picture", "the picture cannot be shown: it is cut short", save),
        ("tern/empty.jpg", "bad-picture", "the picture cannot be shown: it is empty", save),
        (
            "tern/really.jpg", "misnamed-picture",
            'the name "really.jpg" does not tell what the file is: a PNG picture',
            "name it really.png, and the same in its sheet",
        ),
    ] == [(p.place.path, p.code, p.message, p.help) for p in problems]  # fmt: skip
    assert {Severity.WARNING} == {p.severity for p in problems}


def test_originals__are_left_as_they_are(tmp_path: Path) -> None:
    file = put(tmp_path, "a.jpg", encoded(halves(500, 300)))
    os.utime(file, ns=(1_700_000_000_123_456_789, 1_700_000_000_123_456_789))
    before = (file.read_bytes(), file.stat().st_mtime_ns, file.stat().st_mode)
    made(tmp_path, "a.jpg")
    assert before == (file.read_bytes(), file.stat().st_mtime_ns, file.stat().st_mode)


def test_processes__make_the_same_bytes_as_this_one(tmp_path: Path) -> None:
    names = [f"{n}.jpg" for n in range(5)]
    for folder in (tmp_path / "here", tmp_path / "there"):
        for n, name in enumerate(names):
            put(folder, name, encoded(halves(500 + n, 300)))
    here, _ = made(tmp_path / "here", *names)
    there, _ = made(tmp_path / "there", *names, pool=pool_of(2))
    assert here == there
    assert files_in(tmp_path / "here" / TARGET) == files_in(tmp_path / "there" / TARGET)


def test_progress__tells_what_is_done_and_how_many_are_done(tmp_path: Path) -> None:
    for name in ("a.jpg", "b.jpg"):
        put(tmp_path, name, encoded(halves(500 + ord(name[0]), 300)))
    told: list[tuple[str, int, int]] = []
    made(tmp_path, "a.jpg", "b.jpg", told=told)
    assert [("looking at", 1, 2), ("looking at", 2, 2), ("making", 1, 2), ("making", 2, 2)] == told
    told.clear()
    put(tmp_path, "c.jpg", encoded(halves(480, 300)))
    made(tmp_path, "a.jpg", "b.jpg", "c.jpg", told=told)
    assert ("making", 3, 3) == told[-1]
    assert 1 == sum(what == "making" for what, _, _ in told)


class _Mortal(Here):
    """An executor whose process dies, with all its work, of a file that is called `deadly`."""

    def __init__(self) -> None:
        self._dead = False

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        self._dead = self._dead or "deadly" in repr(fn)
        if not self._dead:
            return super().submit(fn, *args, **kwargs)
        future: Future[Any] = Future()
        future.set_exception(BrokenProcessPool("a process was ended"))
        return future


@contextmanager
def _mortals() -> Iterator[Executor]:
    yield _Mortal()


def test_file_that_ends_its_process__costs_one_problem_and_the_others_are_made(
    tmp_path: Path,
) -> None:
    names = ["a.jpg", "deadly.jpg", "z.jpg"]
    for n, name in enumerate(names):
        put(tmp_path, name, encoded(halves(500 + n, 300)))
    published, problems = made(tmp_path, *names, pool=_mortals)
    assert {"a.jpg", "z.jpg"} == set(published)
    assert [
        ("deadly.jpg", "the picture cannot be shown: reading it ended the process that read it")
    ] == [(p.place.path, p.message) for p in problems]


def _end_this_process(*_: object) -> None:
    os._exit(3)


def test_ended_process__is_noticed_by_the_pool_that_is_really_used() -> None:
    with pool_of(2)() as pool:
        assert isinstance(pool.submit(_end_this_process).exception(), BrokenProcessPool)


def test_looking__tells_the_facts_and_makes_nothing(tmp_path: Path) -> None:
    put(tmp_path, "a.jpg", encoded(halves(500, 300)))
    put(tmp_path, "b.jpg", b"no picture")
    with a_studio(tmp_path) as studio:
        facts, problems = look_at(studio, ["a.jpg", "b.jpg"])
    assert [("a.jpg", 500, 300)] == [(p, f.width, f.height) for p, f in facts.items()]
    assert ["b.jpg"] == [p.place.path for p in problems]
    assert not (tmp_path / TARGET).exists()

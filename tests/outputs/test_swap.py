"""The swap: killed at any moment, an archive is as it was or the next run brings it to its end."""

import os
import shutil
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Event, Thread
from unittest.mock import patch

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.outputs.staging import MARK
from journal.outputs.swap import Swap, swapping
from tests.breaking import KILLED, Ended, killed, refused, telling
from tests.swapping import GONE, LAID, NEW, OLD, bring_up, lay, put_old, state_of, untold


def _files(folder: Path) -> dict[str, bytes]:
    return {p: data for p, data in state_of(folder).items() if data is not None and p != MARK}


def test_swap__puts_what_is_new_and_takes_away_what_is_gone(tmp_path: Path) -> None:
    put_old(tmp_path)
    same = (tmp_path / "archive" / "same.html").stat()
    bring_up(tmp_path)
    assert _files(tmp_path / "archive") == NEW
    now = (tmp_path / "archive" / "same.html").stat()
    assert (same.st_ino, same.st_mtime_ns) == (now.st_ino, now.st_mtime_ns)
    assert {"new", "new/deep", "was-file"} == {
        p for p, data in state_of(tmp_path / "archive").items() if data is None
    }
    assert ["archive"] == [p.name for p in tmp_path.iterdir()]


def test_swap__killed_at_any_moment(tmp_path: Path) -> None:
    """At every file operation: the archive is as it was, or the next run does the rest before anything
    else; never is a file half written."""
    seen = set()
    for moment in range(200):
        folder = tmp_path / str(moment)
        folder.mkdir()
        put_old(folder)
        ended = killed(folder, moment, bring_up, folder)
        if ended.code == 0:
            break
        assert Ended(KILLED) == ended
        committed = (folder / ".archive.staging" / "swap.json").exists()
        there = _files(folder / "archive")
        assert committed or there in (OLD, NEW)
        assert all(data in (OLD.get(path), NEW.get(path)) for path, data in there.items())
        with swapping(folder / "archive", keep_out_of=folder / "content", notice=untold):
            seen.add(committed)
            assert _files(folder / "archive") == (NEW if committed or there == NEW else OLD)
        assert ["archive"] == [p.name for p in folder.iterdir()]
    else:
        raise AssertionError("it never came to its end")
    assert {True, False} == seen
    assert moment > 40


Site = dict[str, frozenset[str]]

_PATHS = ["a.html", "b.html", "B.html", "c/d.html", "c/e/f.html", "p.webp", "c/q.webp", "style.css"]


@st.composite
def sites(draw: st.DrawFn) -> Site:
    """Files with what each leads to; all lead to files of the same site, and only pages lead anywhere."""
    paths = ["index.html", *draw(st.lists(st.sampled_from(_PATHS), unique=True))]
    leads = st.frozensets(st.sampled_from(paths))
    return {path: draw(leads) if path.endswith(".html") else frozenset() for path in paths}


def _written(site: Site) -> dict[str, bytes]:
    return {path: "\n".join(sorted(leads)).encode() for path, leads in site.items()}


def _leading_nowhere(archive: Path) -> list[str]:
    """What a reader who opens the front page comes to, from link to link, and does not find."""
    wanting, seen = [], {"index.html"}
    left = ["index.html"] if (archive / "index.html").is_file() else []
    while left:
        path = left.pop()
        if not (archive / path).is_file():
            wanting.append(path)
        elif path.endswith(".html"):
            more = {*(archive / path).read_text().splitlines()} - seen
            seen |= more
            left += more
    return wanting


@contextmanager
def _before_every_step(look: Callable[[], None]) -> Iterator[None]:
    """Look at what there is before each file is moved or taken away: what a kill would leave."""

    def looking(call: Callable[..., object]) -> Callable[..., object]:
        def one(*given_: object, **how: object) -> object:
            look()
            return call(*given_, **how)

        return one

    steps = {name: looking(getattr(os, name)) for name in ("replace", "unlink", "mkdir", "rmdir")}
    with patch.multiple(os, **steps):
        yield


@given(old=sites(), new=sites())
@settings(max_examples=60)
def test_swap__at_every_moment_every_link_leads_to_a_file(old: Site, new: Site) -> None:
    with TemporaryDirectory() as place:
        folder = Path(place) / "archive"
        folder.mkdir()
        source = Path(place) / "content"

        def look() -> None:
            assert [] == _leading_nowhere(folder)

        for before, now in ((Site(), old), (old, new)):
            files = {**_written(now), MARK: b""}
            put = [path for path in files if _written(before).get(path) != files[path]]
            with swapping(folder, keep_out_of=source, notice=untold) as swap:
                lay(swap.new, {path: files[path] for path in put})
                with _before_every_step(look):
                    swap.commit(put, [path for path in before if path not in now])
            assert _written(now) == _files(folder)


def test_swap__shows_a_front_page_when_all_else_is_there(tmp_path: Path) -> None:
    """Pages come after what they show, what changes after what is new, and what is gone goes last."""
    steps: list[str] = []
    put_old(tmp_path)
    real = os.replace

    def noting(new: Path, file: Path) -> None:
        steps.append(file.relative_to(tmp_path / "archive").as_posix())
        real(new, file)

    put = ["index.html", "same.html", "z.html", "z.webp", "z/index.html"]
    with swapping(tmp_path / "archive", keep_out_of=tmp_path / "content", notice=untold) as swap:
        lay(swap.new, dict.fromkeys(put, b"new"))
        with patch.object(os, "replace", noting):
            swap.commit(put, [])
    assert ["z.webp", "z.html", "z/index.html", "same.html", "index.html"] == steps


def test_swap__where_a_file_has_one_name_alone(tmp_path: Path) -> None:
    """A memory stick knows no second names; it takes longer there and comes to the same."""
    put_old(tmp_path)
    with patch.object(os, "link", side_effect=PermissionError(1, "Operation not permitted")):
        bring_up(tmp_path)
    assert _files(tmp_path / "archive") == NEW


def test_swap__frees_nothing_while_files_are_moved(tmp_path: Path) -> None:
    """What is replaced or gone has another name until all is in its place: freeing it takes time."""
    put_old(tmp_path)
    leaving = {(tmp_path / "archive" / path).stat().st_ino for path in OLD if path != "same.html"}
    held: set[int] = set()
    real = shutil.rmtree

    def looking(folder: Path, **how: bool) -> None:
        if (folder / "old").exists():
            held.update(file.stat().st_ino for file in (folder / "old").iterdir())
            assert _files(tmp_path / "archive") == NEW
        real(folder, **how)

    with patch("journal.outputs.swap.shutil.rmtree", looking):
        bring_up(tmp_path)
    assert leaving == held


@pytest.mark.parametrize("asked", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_swap__that_is_asked_to_end_puts_the_rest_in_place_first(
    tmp_path: Path, asked: signal.Signals
) -> None:
    """Ctrl-C, a system that shuts down, a terminal that is closed."""
    put_old(tmp_path)
    real, heard = os.replace, list[int]()

    def asking(new: Path, file: Path) -> None:
        real(new, file)
        signal.raise_signal(asked)

    before = signal.signal(asked, lambda number, _: heard.append(number))
    try:
        with patch.object(os, "replace", asking):
            bring_up(tmp_path)
        signal.raise_signal(asked)
    finally:
        signal.signal(asked, before)
    assert [asked, asked] == heard
    assert _files(tmp_path / "archive") == NEW


def test_swap__killed_at_any_moment_in_a_folder_that_was_empty(tmp_path: Path) -> None:
    """A folder that somebody made for it is known for ours as soon as anything lies in it, not before."""
    for moment in range(200):
        folder = tmp_path / str(moment)
        (folder / "archive").mkdir(parents=True)
        ended = killed(folder, moment, put_old, folder)
        there = {*_files(folder / "archive")}
        assert not there or (folder / "archive" / MARK).exists()
        put_old(folder)
        assert _files(folder / "archive") == OLD
        assert ["archive"] == [p.name for p in folder.iterdir()]
        if ended.code == 0:
            return
    raise AssertionError("it never came to its end")


def test_swap__that_comes_to_nothing_leaves_an_empty_folder_empty(tmp_path: Path) -> None:
    """Else what somebody puts there afterwards would be taken for ours."""
    (tmp_path / "archive").mkdir()
    with swapping(tmp_path / "archive", keep_out_of=tmp_path / "content", notice=untold):
        pass
    assert [] == [*(tmp_path / "archive").iterdir()]


def test_swap__of_which_the_disk_takes_no_more(tmp_path: Path) -> None:
    """From whatever step on: it is told in a sentence, nothing is lost, and the next run does it all."""
    told = set()
    for moment in range(200):
        folder = tmp_path / str(moment)
        folder.mkdir()
        put_old(folder)
        ended = refused(folder, moment, telling, bring_up, folder)
        if ended.code == 0:
            break
        told.add(ended.said)
        there = _files(folder / "archive")
        assert ended.code == 2, ended.said
        assert all(data in (OLD.get(path), NEW.get(path)) for path, data in there.items())
        assert there == OLD or "the next run does the rest" in ended.said
        bring_up(folder)
        assert _files(folder / "archive") == NEW
        assert ["archive"] == [p.name for p in folder.iterdir()]
    assert {
        "archive is not written: the disk is full; what was there is as it was",
        "archive is not written: the disk is full; a part of it is new, and the next run does the rest",
    } == told


def test_swap__that_fails_leaves_the_archive_as_it_was(tmp_path: Path) -> None:
    put_old(tmp_path)

    def half() -> None:
        with swapping(
            tmp_path / "archive", keep_out_of=tmp_path / "content", notice=untold
        ) as swap:
            lay(swap.new, NEW)
            raise RuntimeError("withheld")

    with pytest.raises(RuntimeError, match="withheld"):
        half()
    assert _files(tmp_path / "archive") == OLD
    assert ["archive"] == [p.name for p in tmp_path.iterdir()]


def test_swap__at_the_same_time_one_waits_and_says_so(tmp_path: Path) -> None:
    put_old(tmp_path)
    said: list[str] = []
    waiting, inside = Event(), Event()

    def other() -> None:
        def notice(words: str) -> None:
            said.append(words)
            waiting.set()

        with swapping(tmp_path / "archive", keep_out_of=tmp_path / "content", notice=notice):
            inside.set()

    thread = Thread(target=other)
    with swapping(tmp_path / "archive", keep_out_of=tmp_path / "content", notice=untold) as swap:
        thread.start()
        assert waiting.wait(20)
        assert not inside.is_set()
        lay(swap.new, {path: NEW[path] for path in LAID})
        swap.commit(LAID, GONE)
    thread.join(20)
    assert ["archive is being written already; waiting for that"] == said
    assert inside.is_set()
    assert _files(tmp_path / "archive") == NEW
    assert ["archive"] == [p.name for p in tmp_path.iterdir()]


def test_swap__takes_up_after_an_older_version_killed_between_its_two_renames(
    tmp_path: Path,
) -> None:
    put_old(tmp_path)
    (tmp_path / "archive").rename(tmp_path / ".archive.previous")
    with swapping(tmp_path / "archive", keep_out_of=tmp_path / "content", notice=untold):
        assert _files(tmp_path / "archive") == OLD


def test_swap__a_list_that_is_not_whole_is_not_followed(tmp_path: Path) -> None:
    put_old(tmp_path)
    swap = Swap(tmp_path / "archive")
    lay(swap.new, NEW)
    (swap.staging / "swap.json").write_text('0000\n[["index.html"], []]', encoding="utf-8")
    with swapping(tmp_path / "archive", keep_out_of=tmp_path / "content", notice=untold):
        assert _files(tmp_path / "archive") == OLD

"""The swap: killed at any moment, an archive is as it was or the next run brings it to its end."""

from pathlib import Path
from threading import Event, Thread

import pytest

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

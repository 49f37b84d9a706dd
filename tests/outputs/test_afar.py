"""An archive that lies elsewhere is the one that would lie here, and only what has changed travels to it."""

import errno
import os
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from unittest.mock import patch

import fsspec
import pytest
from fsspec.implementations.local import LocalFileSystem

from journal.outputs.afar.copies import fetch, list_of, send, settled, standing
from journal.outputs.afar.places import Mark, Place
from journal.outputs.afar.underway import UNDERWAY
from journal.words.wrong import WrongCall
from tests.commands.running import files, run
from tests.editing import put_small

LATER = 10**19


@pytest.fixture
def memory() -> Iterator[Any]:
    system = fsspec.filesystem("memory")
    yield system
    system.store.clear()
    system.pseudo_dirs[:] = [""]


@pytest.fixture
def content(tmp_path: Path) -> Path:
    root = put_small(tmp_path / "content")
    for file in root.rglob("*"):
        os.utime(file, ns=(10**18, 10**18))
    return root


def _publish(tmp_path: Path, content: object, target: object, *more: str) -> str:
    words = ("--for", "workshop", "--to", target, "--cache", tmp_path / "cache", *more)
    done = run("publish", content, *words)
    # Three sheets of each car name a photograph that is not there.
    assert 1 == done.exit_code, done.output
    return done.output


def _archive(folder: Path) -> dict[str, bytes]:
    return {p: data for p, data in files(folder).items() if not p.startswith(".journal-lies/")}


def test_archive__at_an_address_has_the_bytes_of_one_made_here(
    tmp_path: Path, content: Path, memory: Any
) -> None:
    here = _publish(tmp_path, content, tmp_path / "here").splitlines()
    there = _publish(tmp_path, content.as_uri(), "memory://there").splitlines()
    assert here[:-1] == there[:-1]
    memory.get("/there", str(tmp_path / "got"), recursive=True)
    assert _archive(tmp_path / "here") == _archive(tmp_path / "got")


def test_archive__of_an_owner_at_an_address_is_made_beside_what_other_cars_tell(
    tmp_path: Path, content: Path, memory: Any
) -> None:
    for target in (tmp_path / "here", "memory://there"):
        words = ("--for", "owner", "--car", "tern", "--to", target, "--cache", tmp_path / "cache")
        run("publish", content, *words)
    memory.get("/there", str(tmp_path / "got"), recursive=True)
    assert _archive(tmp_path / "here") == _archive(tmp_path / "got")
    assert [] == list((tmp_path / "cache").glob("afar/*/content/lapwing/**/*.jpg"))


def test_archive__with_nothing_changed_takes_no_file_across(
    tmp_path: Path, content: Path, memory: Any
) -> None:
    first = _publish(tmp_path, content, "memory://there").splitlines()
    with patch.object(Place, "write", autospec=True, side_effect=Place.write) as written:
        again = _publish(tmp_path, content, "memory://there").splitlines()
    assert [UNDERWAY] == [call.args[1] for call in written.call_args_list]
    assert first[:-1] == again[:-1]
    assert again[-1].endswith("at memory://there; 0 files sent.")


def test_archive__after_a_change_is_what_one_from_nothing_would_be(
    tmp_path: Path, content: Path, memory: Any
) -> None:
    _publish(tmp_path, content, "memory://there")
    car = content / "tern" / "car.yaml"
    car.write_text(car.read_text().replace("1958", "1959"), encoding="utf-8")
    shutil.rmtree(content / "lapwing" / "photos")
    with patch.object(Place, "write", autospec=True, side_effect=Place.write) as written:
        _publish(tmp_path, content, "memory://there")
    assert not [c for c in written.call_args_list if c.args[1].endswith((".css", ".webp"))]
    _publish(tmp_path, content, tmp_path / "here")
    memory.get("/there", str(tmp_path / "got"), recursive=True)
    assert _archive(tmp_path / "here") == _archive(tmp_path / "got")


def test_archive__of_a_car_that_is_gone_is_taken_away_and_one_car_has_it_all(
    tmp_path: Path, content: Path, memory: Any
) -> None:
    _publish(tmp_path, content, "memory://there")
    shutil.move(content / "lapwing", tmp_path / "away")
    _publish(tmp_path, content, "memory://there")
    _publish(tmp_path, content, tmp_path / "here")
    memory.get("/there", str(tmp_path / "one"), recursive=True)
    assert _archive(tmp_path / "here") == _archive(tmp_path / "one")
    shutil.move(tmp_path / "away", content / "lapwing")
    _publish(tmp_path, content, "memory://there")
    _publish(tmp_path, content, tmp_path / "here")
    memory.get("/there", str(tmp_path / "two"), recursive=True)
    assert _archive(tmp_path / "here") == _archive(tmp_path / "two")


def test_archive__that_was_killed_half_way_is_mended_by_the_next_run(
    tmp_path: Path, content: Path, memory: Any
) -> None:
    """Killed before every tenth file; what was written last is half a file, as some places leave it."""
    whole = Place.write
    left = [10]

    def failing(place: Place, path: str, data: bytes) -> None:
        left[0] -= 1
        whole(place, path, data if left[0] else data[: len(data) // 2])
        if not left[0]:
            raise KeyboardInterrupt

    ended = 0
    with patch.object(Place, "write", failing):
        while ended < 40:
            left[0] = 10 + 10 * ended
            try:
                words = (
                    "--for",
                    "workshop",
                    "--to",
                    "memory://there",
                    "--cache",
                    tmp_path / "cache",
                )
                done = run("publish", content, *words)
            except AssertionError:
                ended += 1
                continue
            if "sent." in done.output:
                break
            ended += 1
    assert 2 < ended < 40
    _publish(tmp_path, content, tmp_path / "here")
    memory.get("/there", str(tmp_path / "got"), recursive=True)
    assert _archive(tmp_path / "here") == _archive(tmp_path / "got")


def test_pages__are_put_after_what_they_show_and_the_front_page_last(memory: Any) -> None:
    place, written = Place("memory://there"), []
    send(place, "", {"a.html": "0", "style.css": "0"}, "", lambda path: b"")
    files_ = {
        "index.html": "1",
        "a.html": "2",
        "b.html": "2",
        "style.css": "3",
        "pictures/p.webp": "4",
    }
    with patch.object(Place, "write", lambda _, path, data: written.append(path)):
        send(place, "", files_, "", lambda path: b"")
    first, *between, last = written
    assert ["pictures/p.webp", "b.html", "index.html", "style.css", "a.html"] == between
    assert list_of("") == first == last


def test_list__that_is_not_ours_costs_that_all_is_put_again(memory: Any) -> None:
    place = Place("memory://there")
    place.write(list_of("tern"), b"[1")
    assert ({}, "") == standing(place, "tern")


def test_copy__fetches_what_changed_and_nothing_else(tmp_path: Path, memory: Any) -> None:
    place, folder, note = Place("memory://there"), tmp_path / "copy", tmp_path / "note.json"
    for path in ("car/a.md", "car/b/c.md"):
        place.write(path, b"first")
    fetch(place, place.files("car/"), "car/", folder, note, LATER)
    place.write("car/a.md", b"other")
    place.remove("car/b/c.md")
    place.write("car/d.md", b"first")
    with patch.object(Place, "read", autospec=True, side_effect=Place.read) as read:
        fetch(place, place.files("car/"), "car/", folder, note, LATER)
    assert [["car/a.md"], ["car/d.md"]] == [call.args[1] for call in read.call_args_list]
    assert {"car/a.md": b"other", "car/d.md": b"first"} == files_of(folder)
    assert not (folder / "car" / "b").exists()


def files_of(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*.md")}


def test_mark__is_believed_when_the_place_tells_the_content_or_it_is_long_since() -> None:
    assert settled(Mark(3, "tag", None), 0)
    assert settled(Mark(3, "", 1_000_000_000), 4_000_000_000)
    assert not settled(Mark(3, "", 3_000_000_000), 4_000_000_000)
    assert not settled(Mark(3, "", None), 4_000_000_000)


def test_file__at_an_address_appears_whole(tmp_path: Path) -> None:
    place = Place(tmp_path.as_uri())
    place.write("deep/page.html", b"new")
    assert b"new" == (tmp_path / "deep" / "page.html").read_bytes()
    assert ["page.html"] == os.listdir(tmp_path / "deep")
    place.remove("deep/page.html")
    place.remove("deep/page.html")
    assert {} == place.read(["deep/page.html"])


def test_path__that_leads_out_of_a_folder_is_refused(memory: Any) -> None:
    memory.store["/there/car/../../x.md"] = memory.store.get("x") or _file(memory)
    with pytest.raises(WrongCall) as told:
        Place("memory://there").files("car/")
    assert "memory://there holds 'car/../../x.md', which names no file here; rename it" == str(
        told.value
    )


def _file(memory: Any) -> Any:
    memory.pipe_file("/other/x", b"x")
    return memory.store["/other/x"]


def test_link__at_an_address_is_refused(tmp_path: Path) -> None:
    (tmp_path / "content" / "car").mkdir(parents=True)
    (tmp_path / "secret").write_bytes(b"secret")
    (tmp_path / "content" / "car" / "a.md").symlink_to(tmp_path / "secret")
    place = (tmp_path / "content").as_uri()
    with pytest.raises(WrongCall) as told:
        Place(place).files("car/")
    assert f"{place}/car/a.md is a link; put the file itself in its place" == str(told.value)


@pytest.mark.parametrize(
    ("content_", "target", "says"),
    [
        ("memory://nothing", "memory://there", "there is nothing at memory://nothing"),
        ("memory://c", "memory://c/archive",
         "memory://c/archive lies inside the content; choose a place outside it"),
        ("memory://c/inside", "memory://c", "memory://c holds the content; choose an empty place"),
        ("memory://c", "memory://c", "memory://c lies inside the content; choose a place outside it"),
        ("memory://c", "memory://full",
         "memory://full holds files that journal did not write; choose an empty place"),
        ("memory://full", "memory://there",
         "memory://full is no content folder: it holds no workshop.yaml"),
        ("nosuch://c", "memory://there", "nosuch://c cannot be reached: Protocol not known: nosuch"),
    ],
)  # fmt: skip
def test_address__that_cannot_be_used_is_told_in_a_sentence(
    tmp_path: Path, content: Path, memory: Any, content_: str, target: str, says: str
) -> None:
    memory.put(str(content), "/c", recursive=True)
    memory.pipe_file("/full/a.txt", b"mine")
    before = _bytes_in(memory)
    words = ("--for", "workshop", "--to", target, "--cache", tmp_path / "cache", "--full")
    done = run("publish", content_, *words)
    assert (2, f"Error: {says}\n") == (done.exit_code, done.output)
    assert before == _bytes_in(memory)


def _bytes_in(memory: Any) -> dict[str, bytes]:
    return {path: memory.cat_file(path) for path in memory.find("/")}


def test_address__of_the_content_by_another_name_is_refused(tmp_path: Path, content: Path) -> None:
    (tmp_path / "link").symlink_to(content)
    words = ("--for", "workshop", "--cache", tmp_path / "cache")
    for inside in (tmp_path / "link" / "archive", content / "archive"):
        done = run("publish", content.as_uri(), "--to", inside.as_uri(), *words)
        told = f"{inside.as_uri()} lies inside the content; choose a place outside it"
        assert (2, f"Error: {told}\n") == (done.exit_code, done.output)


def test_address__that_takes_no_more_is_told_and_the_next_run_puts_the_rest(
    tmp_path: Path, content: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target, real = tmp_path / "there", LocalFileSystem.pipe_file
    left = [9]

    def full(system: object, path: str, data: bytes) -> None:
        left[0] -= 1
        if left[0] < 0:
            raise OSError(errno.ENOSPC, "No space left on device")
        real(system, path, data)

    monkeypatch.setattr(LocalFileSystem, "pipe_file", full)
    words = ("--for", "workshop", "--to", target.as_uri(), "--cache", tmp_path / "cache")
    done = run("publish", content, *words)
    assert 2 == done.exit_code
    assert re.fullmatch(
        rf"Error: {target.as_uri()}/\S+ cannot be written: the disk is full\n", done.output
    )
    monkeypatch.undo()
    _publish(tmp_path, content, target.as_uri())
    _publish(tmp_path, content, tmp_path / "here")
    assert _archive(tmp_path / "here") == _archive(target)
    assert [".journal-lies/cars/lapwing.json", ".journal-lies/cars/tern.json",
            ".journal-lies/rest.json"] == sorted(p for p in files(target) if "lies" in p)  # fmt: skip


def test_archive__of_a_car_that_came_first_keeps_a_front_page_while_others_come(
    tmp_path: Path, content: Path, memory: Any
) -> None:
    """The place of the front page is never empty, whether it is that of a car or of all."""
    shutil.move(content / "lapwing", tmp_path / "away")
    _publish(tmp_path, content, "memory://there")
    shutil.move(tmp_path / "away", content / "lapwing")
    with patch.object(Place, "remove", autospec=True, side_effect=Place.remove) as removed:
        _publish(tmp_path, content, "memory://there")
    gone = [call.args[1] for call in removed.call_args_list]
    assert "ledger.html" in gone
    assert "index.html" not in gone

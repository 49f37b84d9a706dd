"""The cache of pictures: nothing is made twice, and nothing damaged is believed."""

import os
import sqlite3
import sys
from pathlib import Path

import pytest
from msgspec.structs import replace

from journal.pictures.cache import PictureCache, Stat
from journal.pictures.make import Job, finish_pictures, make_pictures
from journal.words.wrong import WrongCall
from tests.pictures.images import encoded, halves
from tests.pictures.studios import CACHE, ROOT, TARGET, a_studio, files_in, made, put

LONG_AGO = 1_700_000_000_000_000_000


def _old(file: Path, moment: int = LONG_AGO) -> None:
    os.utime(file, ns=(moment, moment))


def _work(told: list[tuple[str, int, int]]) -> list[str]:
    return [what for what, _, _ in told]


def _published_again(folder: Path, name: str = "a.jpg", **how: object) -> list[str]:
    """What had to be done to publish a photograph once more."""
    told: list[tuple[str, int, int]] = []
    made(folder, name, told=told, **how)
    return _work(told)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A content folder with one photograph of long ago, published once."""
    _old(put(tmp_path, "a.jpg", encoded(halves(500, 300))))
    made(tmp_path, "a.jpg")
    return tmp_path


def test_photograph_that_has_not_changed__is_neither_read_nor_made_again(folder: Path) -> None:
    assert [] == _published_again(folder)


def test_photograph_that_has_not_changed__is_known_however_its_folder_is_told(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    monkeypatch.chdir(folder / ROOT)
    for _ in range(2):
        with a_studio(folder) as studio:
            here = replace(studio, root=Path(), progress=lambda what, *_: told.append(what))
            finish_pictures(here, ["a.jpg"])
    assert ["looking at"] == told


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere names of folders are text")
def test_photograph_below_a_folder_whose_name_is_no_text__is_known_again(tmp_path: Path) -> None:
    folder = tmp_path / os.fsdecode(b"m\xfcller")
    _old(put(folder, "a.jpg", encoded(halves(500, 300))))
    assert ["looking at", "making"] == _published_again(folder)
    assert [] == _published_again(folder)


def test_renamed_photograph__is_looked_at_and_not_made_again(folder: Path) -> None:
    (folder / ROOT / "a.jpg").rename(folder / ROOT / "b.jpg")
    assert ["looking at"] == _published_again(folder, "b.jpg")


def test_same_photograph_twice__is_made_once(folder: Path) -> None:
    told: list[tuple[str, int, int]] = []
    put(folder, "c.jpg", encoded(halves(700, 300)))
    put(folder, "d.jpg", encoded(halves(700, 300)))
    made(folder, "c.jpg", "d.jpg", told=told)
    assert 1 == _work(told).count("making")


def test_changed_photograph__is_made_again(folder: Path) -> None:
    _old(put(folder, "a.jpg", encoded(halves(640, 300))), LONG_AGO + 1)
    assert ["looking at", "making"] == _published_again(folder)


def test_photograph_changed_a_moment_ago__is_not_known_by_its_date(folder: Path) -> None:
    # Two changes within one tick of the file system's clock leave the same date behind.
    put(folder, "a.jpg", encoded(halves(500, 300)))
    assert ["looking at"] == _published_again(folder)
    assert ["looking at"] == _published_again(folder)


def test_another_recipe__makes_its_own(folder: Path) -> None:
    assert "making" in _published_again(folder, made_by="another")
    assert [] == _published_again(folder)


def test_cache__may_be_deleted_at_any_time(folder: Path) -> None:
    before = files_in(folder / TARGET)
    for file in (folder / CACHE).rglob("*"):
        if file.is_file():
            file.unlink()
    assert ["looking at", "making"] == _published_again(folder)
    assert before == files_in(folder / TARGET)


@pytest.mark.parametrize("damage", ["cut", "changed", "gone"])
def test_damaged_rendition__is_made_again_and_said(folder: Path, damage: str) -> None:
    before = files_in(folder / TARGET)
    rendition = next((folder / CACHE).rglob("*-400.webp"))
    data = rendition.read_bytes()
    if damage == "gone":
        rendition.unlink()
    else:
        rendition.write_bytes(data[:50] if damage == "cut" else data[:-1] + b"?")
    told: list[tuple[str, int, int]] = []
    made(folder, "a.jpg", told=told)
    assert ["making"] == _work(told)
    assert before == files_in(folder / TARGET)
    assert data == rendition.read_bytes()


@pytest.mark.parametrize("text", [b"nonsense" * 1000, b""])
def test_damaged_database__is_started_afresh(folder: Path, text: bytes) -> None:
    (folder / CACHE / "pictures.sqlite3").write_bytes(text)
    assert ["looking at", "making"] == _published_again(folder)
    assert [] == _published_again(folder)


def test_strange_entry_in_the_database__is_thrown_away_and_counted(folder: Path) -> None:
    base = sqlite3.connect(folder / CACHE / "pictures.sqlite3")
    base.execute("update pictures set told = '{\"facts\": 7}'")
    base.commit()
    base.close()
    with a_studio(folder) as studio:
        make_pictures(studio, [Job("a.jpg", "", "files")], folder / TARGET)
    assert 1 == studio.cache.damaged
    assert [] == _published_again(folder)


def test_database_damaged_within__is_started_afresh_and_said(folder: Path) -> None:
    file = folder / CACHE / "pictures.sqlite3"
    pages = bytearray(file.read_bytes())
    # The first page, of 4,096 bytes, says what tables there are; those behind it are what is asked.
    pages[4096:] = b"?" * (len(pages) - 4096)
    file.write_bytes(bytes(pages))
    with a_studio(folder) as studio:
        make_pictures(studio, [Job("a.jpg", "", "files")], folder / TARGET)
    assert 1 == studio.cache.damaged
    assert [] == _published_again(folder)


def test_photograph_changed_under_its_old_date__is_seen(folder: Path) -> None:
    before = (folder / ROOT / "a.jpg").read_bytes()
    other = encoded(halves(500, 300)) + b"?"
    put(folder, "a.jpg", other[: len(before)].ljust(len(before), b"?"))
    _old(folder / ROOT / "a.jpg")
    assert "looking at" in _published_again(folder)


def test_photographs_that_change_places__are_known_by_their_numbers(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of one size, of one date, and noted by the file system in one tick, as files of one copy may be."""
    one = folder / ROOT / "a.jpg"
    other = put(folder, "b.jpg", encoded(halves(300, 500))[: one.stat().st_size])
    size = max(file.stat().st_size for file in (one, other))
    for file in (one, other):
        file.write_bytes(file.read_bytes().ljust(size, b"?"))
        _old(file)
    look = Stat.of

    def in_one_tick(file: str) -> Stat:
        return replace(look(file), moved=LONG_AGO)

    monkeypatch.setattr(Stat, "of", in_one_tick)
    with a_studio(folder) as studio:
        before = finish_pictures(studio, ["a.jpg", "b.jpg"])
    one.rename(folder / "c")
    other.rename(one)
    (folder / "c").rename(other)
    with a_studio(folder) as studio:
        after = finish_pictures(studio, ["a.jpg", "b.jpg"])
    assert (before["a.jpg"].sha256, before["b.jpg"].sha256) == (
        after["b.jpg"].sha256,
        after["a.jpg"].sha256,
    )


@pytest.mark.parametrize(
    "earlier",
    [
        "files (path text primary key, size integer, changed integer, sha256 text)",
        "seen (path text primary key, size integer, changed integer, moved integer, sha256 text)",
    ],
)
def test_cache__of_an_earlier_form_is_used_on(tmp_path: Path, earlier: str) -> None:
    _old(put(tmp_path, "a.jpg", encoded(halves(500, 300))))
    (tmp_path / CACHE).mkdir()
    base = sqlite3.connect(tmp_path / CACHE / "pictures.sqlite3")
    base.execute(f"create table {earlier}")
    base.commit()
    base.close()
    assert ["looking at", "making"] == _published_again(tmp_path)
    assert [] == _published_again(tmp_path)


def test_damage__is_counted(folder: Path) -> None:
    next((folder / CACHE).rglob("*.jpg")).write_bytes(b"?")
    with a_studio(folder) as studio:
        make_pictures(studio, [Job("a.jpg", "", "files")], folder / TARGET)
    assert 1 == studio.cache.damaged


def test_folder_that_cannot_be_a_cache__is_a_wrong_call(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(WrongCall) as fault:
        PictureCache(tmp_path / "file", "r")
    told = f"the cache {tmp_path / 'file'} cannot be written; choose another folder with --cache"
    assert told == str(fault.value)

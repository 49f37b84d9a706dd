"""Pictures of the day come from the inbox into the car file, and none is ever lost on the way."""

import multiprocessing
import os
from datetime import date, datetime
from pathlib import Path
from random import Random
from typing import Any

import pytest

from journal.outputs.sheets import inbox as module
from journal.outputs.sheets.inbox import (
    Inbox,
    arrived,
    give_back,
    inbox_folder,
    let_go,
    look_into,
    take_in,
)
from journal.reading.content import read_workshop
from journal.words.wrong import WrongCall
from tests.pictures.images import camera, corners, encoded
from tests.tern import FILES, put_content, put_file

DAY = date(2024, 3, 5)
PHOTOS = "tern/photos/2024-03-05"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return put_content(tmp_path / "content")


def a_photo(root: Path, name: str, taken: str = "2024:03:05 10:00:00", form: str = "JPEG") -> bytes:
    """A picture in the inbox; its marker makes its bytes its own."""
    data = encoded(corners(), form, exif=camera(taken=taken, marker=f"{name} {taken}"))
    put_file(root, f"inbox/{name}", data)
    return data


def seen(root: Path) -> Inbox:
    return look_into(root / "inbox")


# Where it is


def test_inbox__lies_beside_the_cars_or_where_the_workshop_says(root: Path, tmp_path: Path) -> None:
    workshop, _, _ = read_workshop(root)
    assert workshop is not None
    assert inbox_folder(root, workshop) is None
    (root / "inbox").mkdir()
    assert root / "inbox" == inbox_folder(root, workshop)
    (tmp_path / "phone").mkdir()
    for said in ("../phone", str(tmp_path / "phone")):
        put_file(root, "workshop.yaml", f"{FILES['workshop.yaml']}inbox: {said}\n".encode())
        own, _, problems = read_workshop(root)
        assert own is not None
        assert [] == problems
        folder = inbox_folder(root, own)
        assert folder is not None
        assert folder.samefile(tmp_path / "phone")


def test_inbox_that_is_named_and_not_there__is_told(root: Path) -> None:
    put_file(root, "workshop.yaml", f"{FILES['workshop.yaml']}inbox: pictures\n".encode())
    workshop, _, _ = read_workshop(root)
    assert workshop is not None
    with pytest.raises(
        WrongCall, match=r'there is no folder "pictures", which workshop\.yaml names'
    ):
        inbox_folder(root, workshop)


# What lies in it


def test_pictures__in_the_order_in_which_they_were_taken(root: Path) -> None:
    a_photo(root, "c.jpg", "2024:03:05 08:00:00")
    a_photo(root, "a.jpg", "2024:03:05 17:30:00")
    a_photo(root, "b.jpg", "2024:03:04 12:00:00")
    found = seen(root)
    assert ["b.jpg", "c.jpg", "a.jpg"] == [p.file.name for p in found.pictures]
    assert ["c.jpg", "a.jpg"] == [p.file.name for p in found.of(DAY)]
    assert all(p.by_camera for p in found.pictures)


def test_picture_without_a_camera_s_day__has_that_of_its_file_and_is_told_so(root: Path) -> None:
    put_file(root, "inbox/scan.png", encoded(corners(), "PNG"))
    noon = datetime(2024, 3, 5, 12, 0)
    os.utime(root / "inbox/scan.png", (noon.timestamp(), noon.timestamp()))
    (picture,) = seen(root).of(DAY)
    assert (noon, False) == (picture.taken, picture.by_camera)


def test_what_is_no_picture__is_told_and_stays(root: Path) -> None:
    put_file(root, "inbox/list.txt", b"milk")
    put_file(root, "inbox/broken.jpg", b"\xff\xd8 not much more")
    put_file(root, "inbox/empty.jpg", b"")
    put_file(root, "inbox/.hidden.jpg", b"x")
    put_file(root, "inbox/folder/deep.jpg", b"x")
    (root / "inbox/link.jpg").symlink_to(root / "tern/photos/2024-03-05/laygear.jpg")
    assert [
        ("broken.jpg", "it cannot be read as a picture"),
        ("empty.jpg", "it is empty"),
        ("list.txt", "it has not the ending of a photograph"),
    ] == [(u.file.name, u.reason) for u in seen(root).unusable]
    assert () == seen(root).pictures


# Taking them in


def test_picture__is_copied_under_a_safe_name_and_then_leaves_the_inbox(root: Path) -> None:
    data = a_photo(root, "IMG 4711 (Große).JPG")
    taken = take_in(root, "tern", DAY, seen(root).pictures)
    assert ["img-4711-grosse.jpg"] == [t.name for t in taken]
    assert data == (root / PHOTOS / "img-4711-grosse.jpg").read_bytes()
    assert (root / "inbox/IMG 4711 (Große).JPG").exists()
    let_go(taken)
    assert [] == list((root / "inbox").iterdir())


def test_names__are_those_of_no_other_picture_in_capitals_either(root: Path) -> None:
    there = (root / PHOTOS / "laygear.jpg").read_bytes()
    a_photo(root, "LAYGEAR.jpg")
    a_photo(root, "laygear.jpeg", "2024:03:05 11:00:00")
    a_photo(root, "齿轮.png", "2024:03:05 12:00:00", "PNG")
    taken = take_in(root, "tern", DAY, seen(root).pictures)
    assert ["laygear-2.jpg", "laygear.jpeg", "picture.png"] == [t.name for t in taken]
    assert there == (root / PHOTOS / "laygear.jpg").read_bytes()


def test_picture_in_another_form_than_its_name_says__gets_the_right_ending(root: Path) -> None:
    a_photo(root, "a.jpg", form="PNG")
    assert ["a.png"] == [t.name for t in take_in(root, "tern", DAY, seen(root).pictures)]


def test_picture_from_elsewhere__may_be_named_by_its_path(root: Path, tmp_path: Path) -> None:
    put_file(tmp_path, "desk/gear.jpg", encoded(corners()))
    picture = arrived(tmp_path / "desk/gear.jpg")
    assert not isinstance(picture, module.Unusable)
    (taken,) = take_in(root, "tern", DAY, [picture])
    assert "gear.jpg" == taken.name


def test_picture_that_lies_in_its_place_already__stays_there(root: Path) -> None:
    picture = arrived(root / PHOTOS / "laygear.jpg")
    assert not isinstance(picture, module.Unusable)
    taken = take_in(root, "tern", DAY, [picture])
    let_go(taken)
    give_back(taken)
    assert ["laygear.jpg"] == [p.name for p in (root / PHOTOS).iterdir()]


# When it is broken off


def test_broken_off_between_copy_and_leaving__is_known_again(root: Path) -> None:
    a_photo(root, "gear.jpg")
    first = take_in(root, "tern", DAY, seen(root).pictures)
    again = take_in(root, "tern", DAY, seen(root).pictures)
    assert ["gear.jpg"] == [t.name for t in first] == [t.name for t in again]
    let_go(again)
    assert ["gear.jpg", "laygear.jpg"] == sorted(os.listdir(root / PHOTOS))
    assert [] == os.listdir(root / "inbox")


def _move_all(root: Path, told: Any) -> None:
    told.send("started")
    let_go(take_in(root, "tern", DAY, seen(root).pictures))


def test_killed_at_any_moment__every_picture_is_whole_in_one_place_or_in_both(root: Path) -> None:
    made = {a_photo(root, f"p{n}.jpg", f"2024:03:05 10:00:{n:02}") for n in range(30)}
    moments = Random(7)
    fork = multiprocessing.get_context("fork")
    for _ in range(15):
        ours, theirs = fork.Pipe(duplex=False)
        mover = fork.Process(target=_move_all, args=(root, theirs))
        mover.start()
        ours.recv()
        mover.join(moments.uniform(0, 0.06))
        mover.kill()
        mover.join()
        there = {p.read_bytes() for p in (root / "inbox").iterdir()}
        hung = {p.read_bytes() for p in (root / PHOTOS).glob("p*.jpg")}
        assert made == there | hung
    let_go(take_in(root, "tern", DAY, seen(root).pictures))
    assert [] == os.listdir(root / "inbox")
    assert made == {p.read_bytes() for p in (root / PHOTOS).glob("p*.jpg")}
    assert 30 == len(list((root / PHOTOS).glob("p*.jpg"))), "each of them once"


def test_copy_that_differs__keeps_the_picture_in_the_inbox(root: Path) -> None:
    data = a_photo(root, "gear.jpg")
    taken = take_in(root, "tern", DAY, seen(root).pictures)
    (root / PHOTOS / "gear.jpg").write_bytes(data[:-1])
    with pytest.raises(OSError, match=r"gear\.jpg is not what was copied; it stays in the inbox"):
        let_go(taken)
    assert data == (root / "inbox/gear.jpg").read_bytes()


def test_sheet_that_is_dropped__gives_its_copies_back_and_no_others(root: Path) -> None:
    a_photo(root, "gear.jpg")
    a_photo(root, "casing.jpg", "2024:03:05 11:00:00")
    take_in(root, "tern", DAY, seen(root).pictures[:1])
    taken = take_in(root, "tern", DAY, seen(root).pictures)
    give_back(taken)
    assert ["gear.jpg", "laygear.jpg"] == sorted(os.listdir(root / PHOTOS)), "gear was there before"
    assert ["casing.jpg", "gear.jpg"] == sorted(os.listdir(root / "inbox"))

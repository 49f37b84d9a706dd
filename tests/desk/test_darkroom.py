"""What is known of a photograph from one look to the next, and when it is looked at again."""

import os
from collections.abc import Iterator
from pathlib import Path
from unittest.mock import patch

import pytest

from journal.desk import darkroom
from journal.desk.darkroom import Darkroom, Look, Lying
from journal.outputs.pictures import Means
from journal.reading.content import read_content
from journal.reading.prints import TICK_NS, Print
from journal.records.carfile import CarFile
from tests.desk.asking import asking, pictures_looked_at_here
from tests.pictures.images import encoded, halves
from tests.tern import put_content, put_file

OLD = 1_700_000_000_000_000_000
PHOTO = "tern/photos/2024-03-05/laygear.jpg"
BYTES = 2_000


def picture(width: int) -> bytes:
    """A JPEG so wide; all are of one size in bytes, since nobody reads what follows their end."""
    return encoded(halves(width, 40)).ljust(BYTES, b"\0")


@pytest.fixture
def root(tmp_path: Path) -> Iterator[Path]:
    root = put_content(tmp_path / "content")
    put_file(root, PHOTO, picture(60))
    with pictures_looked_at_here():
        yield root


@pytest.fixture
def room(root: Path, tmp_path: Path) -> Darkroom:
    return Darkroom(root, Means(tmp_path / "cache"))


def car_in(root: Path) -> CarFile:
    (car,) = read_content(root).cars
    return car


def lying(root: Path, at: int | None = None) -> Lying:
    """The photograph as it lies there, looked at long after it was changed unless it is said when."""
    now = Print.of((root / PHOTO).stat())
    return Lying({PHOTO: now}, now.moved + 2 * TICK_NS if at is None else at)


def width_in(look: Look) -> int:
    return look.facts[PHOTO].width


def test_look__a_file_that_lies_as_before_is_asked_about_once(root: Path, room: Darkroom) -> None:
    first = room.look(car_in(root), lying(root))
    with patch.object(darkroom, "look_at", side_effect=AssertionError("it was looked at")):
        again = room.look(car_in(root), lying(root), first)
    assert (60, {PHOTO}) == (width_in(first), set(first.settled))
    assert first == again
    assert first.facts[PHOTO] is again.facts[PHOTO]


def test_look__another_picture_under_the_old_date_and_size_is_seen(
    root: Path, room: Darkroom
) -> None:
    os.utime(root / PHOTO, ns=(OLD, OLD))
    first = room.look(car_in(root), lying(root))
    for write in (_in_place, _put_over):
        before = (root / PHOTO).stat()
        write(root / PHOTO, picture(80))
        os.utime(root / PHOTO, ns=(OLD, OLD))
        after = (root / PHOTO).stat()
        assert (before.st_mtime_ns, before.st_size) == (after.st_mtime_ns, after.st_size)
        assert 80 == width_in(room.look(car_in(root), lying(root), first))


def _in_place(file: Path, data: bytes) -> None:
    file.write_bytes(data)


def _put_over(file: Path, data: bytes) -> None:
    part = file.with_name(".part")
    part.write_bytes(data)
    part.replace(file)


@pytest.mark.parametrize("put_back", [False, True])
def test_look__changed_within_one_tick_before_the_look_is_looked_at_again(
    root: Path, room: Darkroom, put_back: bool
) -> None:
    """Such a file may change once more and show the same times; also one whose date was put back."""
    if put_back:
        os.utime(root / PHOTO, ns=(OLD, OLD))
    moment = (root / PHOTO).stat().st_ctime_ns
    there = lying(root, at=moment + TICK_NS // 2)
    first = room.look(car_in(root), there)
    assert {} == first.settled
    (root / PHOTO).write_bytes(picture(80))
    assert 80 == width_in(room.look(car_in(root), there, first))


def test_look__what_could_not_be_shown_is_looked_at_again(root: Path, room: Darkroom) -> None:
    put_file(root, PHOTO, b"no picture")
    first = room.look(car_in(root), lying(root))
    assert ({}, {}) == (first.facts, first.settled)
    assert ["bad-picture"] == [problem.code for problem in first.wrong]
    assert first == room.look(car_in(root), lying(root), first)


def test_look__what_is_wrong_with_a_picture_stays_wrong(root: Path, room: Darkroom) -> None:
    put_file(root, PHOTO, encoded(halves(60, 40), "PNG"))
    first = room.look(car_in(root), lying(root))
    again = room.look(car_in(root), lying(root), first)
    assert {PHOTO} == set(first.settled)
    assert ["misnamed-picture"] == [problem.code for problem in again.wrong]
    assert first == again


def test_look__a_picture_that_is_gone_is_no_longer_known(root: Path, room: Darkroom) -> None:
    first = room.look(car_in(root), lying(root))
    there = lying(root)
    (root / PHOTO).unlink()
    assert Look({}, (), {}) == room.look(car_in(root), there, first)


def test_desk__shows_another_picture_under_the_old_date_and_size(
    root: Path, tmp_path: Path
) -> None:
    os.utime(root / PHOTO, ns=(OLD, OLD))
    with asking(root, tmp_path / "keep") as asked:
        live = asked.desk.live
        before = live.state.cars["tern"]
        (root / PHOTO).write_bytes(picture(80))
        os.utime(root / PHOTO, ns=(OLD, OLD))
        assert live.refresh([str(root / PHOTO)])
        after = live.state.cars["tern"]
    at = "2024-03-05/laygear.jpg"
    assert (60, 80) == (before.file.photo_facts[at].width, after.file.photo_facts[at].width)
    assert not set(before.pictures) & set(after.pictures)

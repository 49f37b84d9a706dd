"""What a reader may not see is in no byte of their bag, and in no name of a file in it."""

from pathlib import Path

import pytest

from journal.digests.gate import Gate
from journal.outputs.bag.close import close_bag
from journal.outputs.bag.contents import Cargo, bag_info, fill_bag
from journal.outputs.bag.sheets import record_files
from journal.outputs.pictures import Means
from journal.outputs.seal import write_seal
from journal.pages.view import view_of
from journal.readers import car_for
from journal.reading.content import read_content
from journal.reading.signatures import key_hash
from journal.words.vocabulary import Reader
from tests.outputs.packing import KEY, an_archive
from tests.outputs.test_bag_sheets import put_record, told
from tests.pictures.telling import telling_pictures
from tests.planting import DAY, PLAIN, Planter, every_text, plant
from tests.tern import a_picture, put_file

READERS = [reader for reader in Reader if reader not in (Reader.WORKSHOP, Reader.PUBLIC)]


def bag_of(root: Path, folder: Path, reader: Reader) -> str:
    """Every byte and every file name of a sealed car's bag, as one text."""
    (car,) = read_content(root).cars
    last = car.sheets[-1].date
    write_seal(root, car, KEY, up_to=last, sealed_on=last)
    view = view_of(car_for(reader, car), reader, pictures={})
    cargo = Cargo(
        root, b"", an_archive, key_hash(KEY.public_key()), Means(folder.parent / "cache"), Gate()
    )
    fill_bag(folder, view, cargo)
    close_bag(folder, bag_info(view), KEY)
    return "\n".join(every_text(folder))


@pytest.mark.parametrize("reader", READERS)
def test_field_that_no_list_names__is_nowhere_in_the_bag(reader: Reader, tmp_path: Path) -> None:
    planter = Planter(reader)
    text = bag_of(plant(tmp_path / "content", planter), tmp_path / "bag", reader)
    assert {} == planter.leaks(text)
    assert PLAIN in text
    assert len(planter.planted) > 10


@pytest.mark.parametrize("reader", READERS)
def test_lines_for_the_workshop__are_nowhere_in_the_bag(reader: Reader, tmp_path: Path) -> None:
    planter = Planter(reader, lines=Reader.WORKSHOP)
    body = f"::: workshop\n{planter.mark('block')}\n:::\n"
    text = bag_of(plant(tmp_path / "content", planter, body), tmp_path / "bag", reader)
    assert {} == planter.leaks(text)


@pytest.mark.parametrize("reader", READERS)
def test_names_of_files_and_what_cameras_write__are_nowhere_in_the_bag(
    reader: Reader, tmp_path: Path
) -> None:
    planter = Planter(reader)
    root = plant(tmp_path / "content", planter)
    pictures = telling_pictures(planter.mark)
    for name, data in pictures.items():
        put_file(root, f"tern/photos/{DAY}/{name}", data)
    private, loose = planter.mark("private photo"), planter.mark("photo told of nowhere")
    for name in (private, loose):
        put_file(root, f"tern/photos/{DAY}/{name}.jpg", a_picture())
    photos = ", ".join([*pictures, f"{{file: {private}.jpg, for: workshop}}"])
    sheet = f"---\ndate: {DAY}\nsubsystem: brakes\nphotos: [{photos}]\n---\n"
    put_file(root, f"tern/sheets/{DAY}-more.md", sheet.encode())
    text = bag_of(root, tmp_path / "bag", reader)
    assert {} == planter.leaks(text)
    assert f"photos/{DAY}/one.jpg" in text


@pytest.mark.parametrize("reader", [Reader.WORKSHOP, *READERS])
def test_every_key_that_can_be_written__comes_back_from_the_record(
    reader: Reader, tmp_path: Path
) -> None:
    root = plant(tmp_path / "content", Planter(Reader.OWNER))
    (car,) = read_content(root).cars
    seen = car_for(reader, car)
    again = put_record(tmp_path / "again", seen)
    for part, value in told(seen).items():
        assert value == told(again)[part], part
    assert dict(record_files(seen)) == dict(record_files(again))

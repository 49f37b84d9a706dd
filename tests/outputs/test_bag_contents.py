"""The whole bag: filled, closed, checked by another library and by the commands on its own page."""

import hashlib
import re
import shutil
from pathlib import Path

import bagit
import pytest

from journal.digests.gate import Gate
from journal.outputs.archive import Order
from journal.outputs.bag.close import close_bag
from journal.outputs.bag.contents import Cargo, bag_info, fill_bag
from journal.outputs.bag.layout import info_in
from journal.outputs.bag.verify import verify_bag
from journal.outputs.pictures import Means
from journal.reading.content import read_content
from journal.reading.signatures import key_hash
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall
from tests.outputs.packing import KEY, OPEN, an_archive, files, pack, put_car, view_in
from tests.outputs.small_dossier import root_of_last_seal, small_dossier
from tests.pictures.images import corners, encoded
from tests.plainly import publish
from tests.tern import put_content, put_file, sheet_text


def test_bag__holds_everything_that_is_handed_over(bag: Path) -> None:
    there = [path.removeprefix("data/") for path in files(bag) if path.startswith("data/")]
    tables = [path for path in there if path.startswith("tables/")]
    assert [
        "archive/index.html", "dossier.pdf", "provenance.json", "record/tern/car.yaml",
        "record/tern/papers/book.png", "record/tern/papers/papers.yaml",
        "record/tern/photos/2024-03-05/one.jpg", "record/tern/register.yaml",
        "record/tern/sheets/2024/2024-03-05-open.md", "record/tern/sheets/2024/2024-03-08-off.md",
        "record/workshop.yaml", "seals/0001/entries.sha256", "seals/0001/statement.sig",
        "seals/0001/statement.txt", "seals/0001/workshop.pem", "seals/as-sealed.sha256",
        "vehicle.jsonld",
    ] == [path for path in there if path not in tables]  # fmt: skip
    assert {"tables/ledger.csv", "tables/columns.csv", "tables/pictures.csv"} <= set(tables)


def test_bag__is_valid_for_the_reference_library_and_for_us(bag: Path) -> None:
    assert bagit.Bag(str(bag)).validate()
    verified = verify_bag(bag)
    assert () == verified.findings
    assert 1 == len(verified.seals.statements)


def test_sheet_that_says_nothing_private__lies_in_the_bag_as_it_was_sealed(
    bag: Path, tmp_path: Path
) -> None:
    root = tmp_path / "content"
    off = "tern/sheets/2024/2024-03-08-off.md"
    assert (root / off).read_bytes() == (bag / "data/record" / off).read_bytes()
    # The other one has a block for the workshop.
    assert (root / OPEN).read_bytes() != (bag / "data/record" / OPEN).read_bytes()
    listed = (bag / "data/seals/as-sealed.sha256").read_text()
    assert f"data/record/{off}\n" in listed
    assert OPEN not in listed
    verified = verify_bag(bag)
    # car.yaml, register.yaml, papers.yaml, the scan, the photograph and two sheets are named; that for
    # the workshop alone is not.
    assert (listed.count("\n"), 7) == (verified.as_sealed, verified.sealed)


@pytest.mark.parametrize("line", ["# she drove a hard bargain", "title: Off  # and good riddance"])
def test_comment_of_the_writer__keeps_a_sheet_from_being_handed_over_as_it_is(
    line: str, tmp_path: Path
) -> None:
    root = put_car(tmp_path / "content")
    off = "tern/sheets/2024/2024-03-08-off.md"
    text = (root / off).read_text().replace("title: Delivered", line)
    (root / off).write_text(text)
    bag = pack(root, tmp_path / "tern")
    assert line not in (bag / "data/record" / off).read_text()


def test_bag__is_the_same_bytes_however_many_pack_it(tmp_path: Path) -> None:
    root = put_car(tmp_path / "content")
    assert files(pack(root, tmp_path / "one")) == files(pack(root, tmp_path / "two", workers=2))


def test_what_the_reader_may_not_see__is_nowhere_in_the_bag(bag: Path) -> None:
    for path, data in files(bag).items():
        assert "quarrel" not in path
        for secret in (b"quarrel", b"QZ"):
            assert secret not in data, path


def test_record_in_the_bag__reads_as_what_the_owner_saw(bag: Path, tmp_path: Path) -> None:
    (again,) = read_content(bag / "data" / "record").cars
    seen = view_in(tmp_path / "content").car
    assert [(s.name, s.front) for s in seen.sheets] == [(s.name, s.front) for s in again.sheets]
    assert (seen.car, seen.papers) == (again.car, again.papers)
    assert {"2024-03-05/one.jpg"} == again.photo_files
    assert {"book.png"} <= again.paper_files


def test_tables_and_bag__agree_on_every_picture(bag: Path) -> None:
    rows = (bag / "data" / "tables" / "pictures.csv").read_text(encoding="utf-8").splitlines()
    columns = rows[0].split(",")
    told = [dict(zip(columns, row.split(","), strict=True)) for row in rows[1:]]
    assert ["photograph", "scan of a paper"] == [row["kind"] for row in told]
    for row in told:
        data = (bag / "data" / "record" / row["file"]).read_bytes()
        assert (str(len(data)), hashlib.sha256(data).hexdigest()) == (row["bytes"], row["sha-256"])
    # The hash of the original is the one that was sealed.
    entries = (bag / "data" / "seals" / "0001" / "entries.sha256").read_text()
    assert all(f"{row['original sha-256']}  " in entries for row in told)


def test_labels__tell_from_whom_of_what_and_of_which_day(bag: Path) -> None:
    info = info_in((bag / "bag-info.txt").read_text(encoding="utf-8"))
    assert {
        "source-organization": "Saltmarsh Lane Workshop",
        "external-description": "Aldermoor Tern, drophead, 1958: record of the work on the car for the "
        "owner, 2 day sheets and 1 photograph, up to 2024-03-08",
        "bagging-date": "2024-03-08",
        "external-identifier": "tern-2024-03-08",
        "bag-count": "1 of ?",
    } == {k: v for k, v in info.items() if k not in ("bag-group-identifier", "payload-oxum")}
    assert re.fullmatch(r"urn:uuid:[0-9a-f-]{36}", info["bag-group-identifier"])


def test_labels_of_a_supplement__are_dated_by_its_last_day_and_name_the_same_group(
    tmp_path: Path,
) -> None:
    root = put_car(tmp_path / "content")
    put_file(
        root, "tern/sheets/2024/2024-05-01-first-service.md",
        sheet_text("title: First service", date="2024-05-01").encode(),
    )  # fmt: skip
    first, later = dict(bag_info(view_in(root))), dict(bag_info(view_in(root), 2))
    assert "2024-03-08" == first["Bagging-Date"]
    assert ("2024-05-01", "2 of ?") == (later["Bagging-Date"], later["Bag-Count"])
    assert first["Bag-Group-Identifier"] == later["Bag-Group-Identifier"]


def test_public__is_handed_nothing(tmp_path: Path) -> None:
    root = put_car(tmp_path / "content")
    cargo = Cargo(root, b"", an_archive, "00" * 32, Means(tmp_path / "cache"), Gate())
    with pytest.raises(WrongCall) as fault:
        fill_bag(tmp_path / "bag", view_in(root, Reader.PUBLIC), cargo)
    assert "a bag is handed to the owner of the car, not to the public" == str(fault.value)
    assert not (tmp_path / "bag").exists()


def test_broken_picture__is_told_and_the_bag_is_good(tmp_path: Path) -> None:
    root = put_car(tmp_path / "content")
    put_file(root, "tern/photos/2024-03-05/one.jpg", b"no picture")
    folder = tmp_path / "tern"
    dossier = small_dossier(root_of_last_seal(root / "tern" / "seals"))
    cargo = Cargo(
        root, dossier, an_archive, key_hash(KEY.public_key()), Means(tmp_path / "cache"), Gate()
    )
    view = view_in(root)
    filled = fill_bag(folder, view, cargo)
    close_bag(folder, bag_info(view), KEY)
    assert ["tern/photos/2024-03-05/one.jpg"] == [p.place.path for p in filled.problems]
    assert ["tern/papers/book.png"] == [p.source for p in filled.pictures]
    assert verify_bag(folder).good


def test_car_with_nothing_but_its_car_file__makes_a_good_bag(tmp_path: Path) -> None:
    root = put_content(tmp_path / "content")
    bag = pack(root, tmp_path / "tern")
    assert verify_bag(bag).good
    assert isinstance(read_content(bag / "data" / "record").cars[0], CarFile)


def test_archive_made_of_the_record_in_a_bag__is_the_one_that_lies_beside_it(
    tmp_path: Path,
) -> None:
    root = put_car(tmp_path / "content")
    # Pictures are called by their bytes, and those in the bag are cleaned: it needs one that is clean.
    clean = encoded(corners(300, 200), quality=90)
    put_file(root, "tern/photos/2024-03-05/one.jpg", clean)
    shutil.rmtree(root / "tern" / "seals")
    record = pack(root, tmp_path / "tern") / "data" / "record"
    assert clean == (record / "tern/photos/2024-03-05/one.jpg").read_bytes()
    archives = [tmp_path / "from-content", tmp_path / "from-record"]
    for source, target in zip((root, record), archives, strict=True):
        publish(read_content(source), Order(source, target, Reader.OWNER, "tern"))
    assert files(archives[0]) == files(archives[1])

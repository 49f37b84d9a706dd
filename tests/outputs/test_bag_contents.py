"""The whole bag: filled, closed, checked by another library and by the commands on its own page."""

import base64
import hashlib
import json
import random
import re
import shutil
import subprocess
from collections.abc import Callable
from datetime import date
from pathlib import Path

import bagit
import html5lib
import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from journal.digests.gate import Gate
from journal.outputs.archive import Order
from journal.outputs.bag.close import close_bag
from journal.outputs.bag.contents import Cargo, bag_info, fill_bag
from journal.outputs.bag.layout import info_in
from journal.outputs.bag.verify import Kind, verify_bag
from journal.outputs.pictures import Means
from journal.outputs.seal import write_seal
from journal.pages.view import CarView, view_of
from journal.readers import car_for
from journal.reading.content import read_content
from journal.reading.signatures import key_hash
from journal.records.carfile import CarFile
from journal.words.spoken import spoken
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall
from tests.outputs.small_dossier import root_of_last_seal, small_dossier
from tests.pictures.images import camera, corners, encoded
from tests.plainly import publish
from tests.tern import put_content, put_file, sheet_text

KEY = Ed25519PrivateKey.from_private_bytes(b"\x07" * 32)
OPEN, HIDDEN = "tern/sheets/2024/2024-03-05-open.md", "tern/sheets/2024/2024-03-06-quarrel.md"
MORE = """\
name: Aldermoor Tern
year: 1958
body: drophead
booked-in: 2024-03-01
delivered: 2024-03-08
owner: Mrs Eleanor Harrow
"""
PAPERS = "papers:\n  book: {title: Registration book, file: book.png, for: owner}\n"


def put_car(root: Path) -> Path:
    """A car with two sheets, one of them for the workshop alone, a photograph, a scan and a seal."""
    overlay = {
        "tern/car.yaml": MORE,
        "tern/papers/papers.yaml": PAPERS,
        OPEN: sheet_text(
            "title: Apart\nhours: {MT: 2}\nphotos: [one.jpg]\nwork: {gearbox/laygear: cleaned}",
            "Split.\n\n::: workshop\nThe quarrelsome part.\n:::\n",
        ),
        HIDDEN: sheet_text("for: workshop", "All about the quarrel.\n", date="2024-03-06"),
        "tern/sheets/2024/2024-03-08-off.md": sheet_text("title: Delivered", date="2024-03-08"),
    }
    put_content(root, **overlay)
    photo = encoded(corners(300, 200), exif=camera(marker="QZ").tobytes())
    put_file(root, "tern/photos/2024-03-05/one.jpg", photo)
    put_file(root, "tern/papers/book.png", encoded(corners(), "PNG"))
    (car,) = read_content(root).cars
    write_seal(root, car, KEY, up_to=date(2024, 3, 8), sealed_on=date(2024, 3, 8))
    return root


def view_in(root: Path, reader: Reader = Reader.OWNER) -> CarView:
    (car,) = read_content(root).cars
    return view_of(car_for(reader, car), reader, pictures={})


def an_archive(folder: Path) -> None:
    put_file(folder, "index.html", b"<!doctype html><title>Archive</title>")


def pack(root: Path, folder: Path, workers: int = 1) -> Path:
    dossier = small_dossier(root_of_last_seal(root / "tern" / "seals"))
    means = Means(root.parent / "cache", workers)
    cargo = Cargo(root, dossier, an_archive, key_hash(KEY.public_key()), means, Gate())
    folder.mkdir(parents=True)
    view = view_in(root)
    fill_bag(folder, view, cargo)
    close_bag(folder, bag_info(view), KEY)
    return folder


@pytest.fixture
def bag(tmp_path: Path) -> Path:
    return pack(put_car(tmp_path / "content"), tmp_path / "tern")


def files(folder: Path) -> dict[str, bytes]:
    found = (path for path in sorted(folder.rglob("*")) if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in found}


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


def _remove(bag: Path) -> None:
    (bag / "data/record/tern/sheets/2024/2024-03-05-open.md").unlink()


def _add(bag: Path) -> None:
    put_file(bag, "data/record/tern/sheets/2024/2024-03-07-new.md", sheet_text().encode())


def _swap(bag: Path) -> None:
    one, two = sorted((bag / "data/record/tern/sheets/2024").iterdir())
    first, second = one.read_bytes(), two.read_bytes()
    one.write_bytes(second)
    two.write_bytes(first)


def _back_date(bag: Path) -> None:
    sheet = bag / "data/record/tern/sheets/2024/2024-03-08-off.md"
    sheet.write_text(sheet.read_text().replace("2024-03-08", "2024-03-04"))


@pytest.mark.parametrize(
    ("spoil", "kind", "name"),
    [
        (_remove, Kind.MISSING, "2024-03-05-open.md"),
        (_add, Kind.UNEXPECTED, "2024-03-07-new.md"),
        (_swap, Kind.CHANGED, "2024-03-05-open.md"),
        (_back_date, Kind.CHANGED, "2024-03-08-off.md"),
    ],
)
def test_sheet_that_is_tampered_with__is_found(
    bag: Path, spoil: Callable[[Path], None], kind: Kind, name: str
) -> None:
    spoil(bag)
    path = f"data/record/tern/sheets/2024/{name}"
    assert (kind, path) in {(f.kind, f.path) for f in verify_bag(bag).findings}


def test_seal_rewritten_with_another_key__is_found(bag: Path, tmp_path: Path) -> None:
    other = Ed25519PrivateKey.from_private_bytes(b"\x08" * 32)
    root = tmp_path / "content"
    shutil.rmtree(root / "tern" / "seals")
    (car,) = read_content(root).cars
    write_seal(root, car, other, up_to=date(2024, 3, 8), sealed_on=date(2024, 3, 8))
    for file in (root / "tern" / "seals" / "0001").iterdir():
        shutil.copy(file, bag / "data" / "seals" / "0001" / file.name)
    close_again(bag)
    # The bag's own lists are right again, and the root is that of the same files, but the key of the bag
    # is not the one of the seal.
    assert {(Kind.UNSEALED, "data/seals")} == {(f.kind, f.path) for f in verify_bag(bag).findings}


def close_again(bag: Path) -> None:
    shutil.rmtree(bag / "signed")
    for file in bag.glob("*.txt"):
        file.unlink()
    close_bag(bag, (), KEY)


# The page


def page_of(bag: Path) -> str:
    return (bag / "READ-ME-FIRST.html").read_text(encoding="utf-8")


def test_page__is_whole_in_itself_and_every_link_leads_somewhere(bag: Path) -> None:
    text = page_of(bag)
    tree = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(text)
    assert [] == list(tree.iter("script"))
    links = [a.get("href") for a in tree.iter("a")]
    assert {"data/dossier.pdf", "data/archive/index.html"} <= set(links)
    assert [] == [link for link in links if not (bag / link).exists()]
    assert "http:" not in text
    assert "https:" not in text


def test_page__allows_its_own_style_and_nothing_else(bag: Path) -> None:
    text = page_of(bag)
    (style,) = re.findall(r"<style>(.*?)</style>", text, re.DOTALL)
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    assert (
        f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
        == re.search(r'Security-Policy" content="([^"]*)"', text)[1]
    )


def commands(bag: Path) -> list[str]:
    """The commands for Linux, in the order of the page."""
    tree = html5lib.parse(page_of(bag), namespaceHTMLElements=False)
    return [code.text for code in tree.iter("code") if code.get("data-on") == "linux"]


def run(command: str, bag: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["bash", "-o", "pipefail", "-c", command], cwd=bag, capture_output=True, text=True
    )


def test_commands_of_the_page__bear_out_a_good_bag(bag: Path) -> None:
    lists, signature, signed, key, seal, as_sealed = commands(bag)
    assert "Good.\n" == run(lists, bag).stdout
    assert "Signature Verified Successfully" in run(signature, bag).stdout
    checked = run(signed, bag)
    assert (0, 5) == (checked.returncode, checked.stdout.count(": OK"))
    assert "READ-ME-FIRST.html: OK" in checked.stdout
    assert run(key, bag).stdout.rstrip().endswith(key_hash(KEY.public_key()))
    assert "Signature Verified Successfully" in run(seal, bag).stdout
    assert "Good.\n" == run(as_sealed, bag).stdout


def test_commands_of_the_page__find_what_was_changed(bag: Path) -> None:
    lists, signature, signed, _, seal, as_sealed = commands(bag)
    _back_date(bag)
    assert "2024-03-08-off.md: FAILED" in run(as_sealed, bag).stdout
    assert "2024-03-08-off.md: FAILED" in run(lists, bag).stdout
    with (bag / "bag-info.txt").open("a") as file:
        file.write("Bag-Size: large\n")
    assert "bag-info.txt: FAILED" in run(signed, bag).stdout
    for command, file in ((signature, "signed/bag.txt"), (seal, "data/seals/0001/statement.txt")):
        (bag / file).write_text((bag / file).read_text() + "\n")
        assert 0 != run(command, bag).returncode


def test_words_on_the_page__are_those_of_the_key_by_the_rule_that_stands_there(bag: Path) -> None:
    tree = html5lib.parse(page_of(bag), namespaceHTMLElements=False)
    groups = [li for ol in tree.iter("ol") if ol.get("class") == "words" for li in ol.iter("li")]
    told = tuple(" ".join("".join(li.itertext()).split()) for li in groups)
    digest = key_hash(KEY.public_key())
    assert spoken(bytes.fromhex(digest)) == told[:16]
    (text,) = (p.text for p in tree.iter("p") if p.get("class") == "soft")
    words = {int(n): word for n, word in re.findall(r"(\d+) (\w+)", text)}
    by_hand = [int(digest[n : n + 4], 16) for n in range(0, 64, 4)]
    assert [f"{words[n // 1024]} {n % 1024:04}" for n in by_hand] == list(told[:16])


def test_page_of_a_car_without_seals__tells_of_none(tmp_path: Path) -> None:
    root = put_car(tmp_path / "content")
    shutil.rmtree(root / "tern" / "seals")
    bag = pack(root, tmp_path / "tern")
    assert "data/seals" not in page_of(bag)
    assert 4 == len(commands(bag))
    assert verify_bag(bag).good


def test_what_is_written_in_the_car_file__cannot_break_the_page(tmp_path: Path) -> None:
    root = put_car(tmp_path / "content")
    hostile = MORE.replace("Aldermoor Tern", '"</title><script>alert(1)</script>"')
    put_file(root, "tern/car.yaml", hostile.encode())
    shutil.rmtree(root / "tern" / "seals")
    bag = pack(root, tmp_path / "tern")
    assert "<script" not in page_of(bag)
    json.loads((bag / "data/vehicle.jsonld").read_text())
    json.loads((bag / "data/provenance.json").read_text())


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


def test_one_byte_changed_anywhere_in_the_bag__is_found(bag: Path) -> None:
    chance = random.Random(8493)
    paths = [path for path in sorted(bag.rglob("*")) if path.is_file()]
    sizes = [path.stat().st_size for path in paths]
    for _ in range(200):
        (path,) = chance.choices(paths, sizes)
        good = path.read_bytes()
        spoilt = bytearray(good)
        spoilt[chance.randrange(len(spoilt))] ^= 1 << chance.randrange(8)
        path.write_bytes(spoilt)
        assert not verify_bag(bag).good, path
        path.write_bytes(good)
    assert verify_bag(bag).good


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

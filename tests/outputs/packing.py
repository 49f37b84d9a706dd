"""A small sealed car, and the bag of it."""

from datetime import date
from pathlib import Path

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from journal.digests.gate import Gate
from journal.outputs.bag.close import close_bag
from journal.outputs.bag.contents import Cargo, bag_info, fill_bag
from journal.outputs.pictures import Means
from journal.outputs.seal import write_seal
from journal.pages.view import CarView, view_of
from journal.readers import car_for
from journal.reading.content import read_content
from journal.reading.signatures import key_hash
from journal.words.vocabulary import Reader
from tests.outputs.small_dossier import root_of_last_seal, small_dossier
from tests.pictures.images import camera, corners, encoded
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


def files(folder: Path) -> dict[str, bytes]:
    found = (path for path in sorted(folder.rglob("*")) if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in found}


def back_date(bag: Path) -> None:
    """A sheet of the record is told to be of an earlier day."""
    sheet = bag / "data/record/tern/sheets/2024/2024-03-08-off.md"
    sheet.write_text(sheet.read_text().replace("2024-03-08", "2024-03-04"))

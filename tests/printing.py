"""What tests need to print the demonstration and small cars, and to read a PDF by other means."""

import io
import subprocess
from collections.abc import Iterator
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import mkdtemp
from typing import Any

import pikepdf
from PIL import Image

from journal.digests.gate import Gate
from journal.ledgers.seals import Seals
from journal.outputs.archive import Order, view_with_pictures
from journal.outputs.dossier import dossier_pdf
from journal.outputs.sealed import seals_of
from journal.outputs.tables_gate import gate_of
from journal.pages.view import CarView, view_of
from journal.reading.content import read_content
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.pages.picturing import published
from tests.published import CAR, CONTENT, MEANS

PHOTO = "2024-03-05/pipes.jpg"
# What would be markup, code, a reference or a comment to a typesetter, and what is hard to set at all.
HOSTILE = (
    "plain", "#panic()", "#import \"x.typ\"", "$x^2$", "[a](b) ]]", "\\", "\\u{41}", "*bold* _so_",
    "@sheet-1", "<line-1>", "// not said", "/* nor this */", "`code` ```", "= Heading", "+ item",
    "~ -- --- ...", "#{1+1}", "http://example.org/#x", "Pneumonoultramicroscopic" * 12,
    "שלום עולם", "مرحبا", "中文車", "🚗🔧", "a\u202eb", "e\u0301\u0335", "\x07\x1b[31m", "\ufffd", "％＃",
)  # fmt: skip


@cache
def demonstration(reader: Reader, as_of: date | None = None) -> tuple[CarView, Path]:
    """The demonstration car for a reader, and the folder with its pictures."""
    content = read_content(CONTENT)
    car = next(c for c in content.cars if c.name == CAR)
    folder = Path(mkdtemp(prefix="journal-print-"))
    order = Order(CONTENT, folder, reader, CAR, as_of, MEANS)
    return view_with_pictures(content, car, order, folder), folder


@cache
def demonstration_gate(as_of: date | None = None) -> Gate:
    car = next(c for c in read_content(CONTENT).cars if c.name == CAR)
    return gate_of(car.as_of(as_of) if as_of else car, Seals())


@cache
def demonstration_dossier(reader: Reader = Reader.OWNER, as_of: date | None = None) -> bytes:
    """The dossier of the demonstration, printed once a test process."""
    view, folder = demonstration(reader, as_of)
    content = read_content(CONTENT)
    car = next(c for c in content.cars if c.name == CAR)
    return dossier_pdf(view, demonstration_gate(as_of), seals_of(CONTENT, car), folder)


def small_view(car: CarFile, reader: Reader = Reader.WORKSHOP) -> CarView:
    """A view of a written car, with one photograph published."""
    return view_of(car, reader, pictures={PHOTO: published()})


def small_pictures(folder: Path) -> Path:
    """A folder with the picture that `small_view` speaks of."""
    file = folder / published().jpeg.path
    file.parent.mkdir(parents=True, exist_ok=True)
    out = io.BytesIO()
    Image.new("RGB", (80, 53), "darkgreen").save(out, "JPEG")
    file.write_bytes(out.getvalue())
    return folder


def small_dossier(
    car: CarFile, folder: Path, *, gate: Gate | None = None, seals: Seals | None = None
) -> bytes:
    """The dossier of a written car for the workshop."""
    pictures = small_pictures(folder)
    return dossier_pdf(
        small_view(car), gate or gate_of(car, seals or Seals()), seals or Seals(), pictures
    )


def text_in(pdf: bytes, *options: str) -> str:
    """The text of a PDF as poppler's pdftotext gives it, in one line."""
    done = subprocess.run(
        ["pdftotext", "-enc", "UTF-8", *options, "-", "-"],
        input=pdf,
        capture_output=True,
        check=True,
    )
    return " ".join(done.stdout.decode("utf-8").split())


def pages_in(pdf: bytes) -> tuple[str, ...]:
    """The text of every page, each in one line."""
    done = subprocess.run(
        ["pdftotext", "-enc", "UTF-8", "-raw", "-", "-"], input=pdf, capture_output=True, check=True
    )
    return tuple(" ".join(page.split()) for page in done.stdout.decode("utf-8").split("\f")[:-1])


def outline_of(pdf: pikepdf.Pdf) -> Iterator[str]:
    """The bookmarks of the first level, in order."""
    with pdf.open_outline() as outline:
        yield from (item.title for item in outline.root)


def mappings_in(value: Any) -> Iterator[dict[str, Any]]:
    """Every mapping in plain values, however deep."""
    if isinstance(value, dict):
        yield value
    for item in (
        value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    ):
        yield from mappings_in(item)


def elements_of(pdf: pikepdf.Pdf, kind: str) -> list[pikepdf.Dictionary]:
    """Elements of the structure tree of one type (ISO 32000-1, 14.8.4)."""
    return [
        o for o in pdf.objects
        if isinstance(o, pikepdf.Dictionary) and o.get("/S") == kind and "/P" in o
    ]  # fmt: skip

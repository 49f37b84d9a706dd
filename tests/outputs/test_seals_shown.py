"""Seals in a whole archive: of real files, up to the day it speaks of, and nothing private with them."""

from datetime import date
from pathlib import Path
from shutil import copytree, ignore_patterns

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from journal.outputs.archive import Order
from journal.outputs.seal import write_seal
from journal.outputs.sealed import seals_of
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.plainly import publish
from tests.planting import every_text
from tests.published import CAR, CONTENT
from tests.sealing_demo import PERIODS, seal_demonstration
from tests.tern import FILES, put_content, put_file, sheet_text

KEY = Ed25519PrivateKey.from_private_bytes(b"\x07" * 32)
MARCH, APRIL = date(2024, 3, 31), date(2024, 4, 30)
SHEET, KEPT = "sheets/2024/2024-03-05-gearbox.md", "sheets/2024/2024-03-06-quarrelsome-visitor.md"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """Two sheets, one of them the workshop's own, sealed at the end of March."""
    root = put_content(
        tmp_path / "content",
        **{
            "tern/car.yaml": FILES["tern/car.yaml"] + "public: yes\n",
            f"tern/{SHEET}": sheet_text("", "Out in one piece."),
            f"tern/{KEPT}": sheet_text("for: workshop", date="2024-03-06"),
        },
    )
    _seal(root, MARCH)
    return root


def _seal(root: Path, up_to: date) -> None:
    write_seal(root, read_content(root).cars[0], KEY, up_to=up_to, sealed_on=up_to)


def _append(root: Path, path: str) -> None:
    with (root / "tern" / path).open("a", encoding="utf-8") as file:
        file.write("A word more.\n")


def _archive(root: Path, reader: Reader, as_of: date | None = None) -> Path:
    target = root.parent / f"{reader.value}-{as_of}"
    publish(read_content(root), Order(root, target, reader, "tern", as_of))
    return target


def _page(folder: Path, path: str = "seals.html") -> str:
    return (folder / path).read_text(encoding="utf-8")


def test_change_in_silence__shows_on_the_sheet_and_on_the_page_of_seals(root: Path) -> None:
    _append(root, SHEET)
    archive = _archive(root, Reader.OWNER)
    assert "The record is not what was sealed." in _page(archive)
    assert "Changed after it was sealed on 31 March 2024" in _page(
        archive, "sheets/2024-03-05-gearbox.html"
    )


def test_change_that_is_sealed_again__is_honest(root: Path) -> None:
    _append(root, SHEET)
    _seal(root, APRIL)
    archive = _archive(root, Reader.OWNER)
    assert "The record holds: up to 30 April 2024" in _page(archive)
    assert "amended openly and sealed again on 30 April 2024" in _page(
        archive, "sheets/2024-03-05-gearbox.html"
    )


@pytest.mark.parametrize("reader", [Reader.OWNER, Reader.PUBLIC])
def test_sheet_of_the_workshop__is_counted_and_named_nowhere(reader: Reader, root: Path) -> None:
    _append(root, KEPT)
    archive = _archive(root, reader)
    assert "One file that is not named in this archive." in _page(archive)
    assert not any("quarrelsome" in text for text in every_text(archive))
    assert "quarrelsome" in _page(_archive(root, Reader.WORKSHOP))


def test_archive_as_of_a_day__has_the_seals_up_to_then(root: Path) -> None:
    put_file(root, "tern/sheets/2024/2024-04-09-later.md", sheet_text(date="2024-04-09").encode())
    _seal(root, APRIL)
    early = _page(_archive(root, Reader.OWNER, date(2024, 4, 10)))
    assert ('id="seal-1"' in early, 'id="seal-2"' in early) == (True, False)
    assert "one not sealed yet" in early
    assert 'id="seal-2"' in _page(_archive(root, Reader.OWNER))
    assert "Nothing is sealed" in _page(_archive(root, Reader.OWNER, date(2024, 3, 30)))


def test_sheet_that_cannot_be_read__is_changed_and_not_gone(root: Path) -> None:
    put_file(root, f"tern/{SHEET}", b"no front matter at all\n")
    shown = _page(_archive(root, Reader.WORKSHOP))
    assert ("Changed after it was sealed" in shown, "Removed after" in shown) == (True, False)


def test_same_content__gives_the_same_pages_of_seals(root: Path) -> None:
    first = _page(_archive(root, Reader.OWNER))
    assert first == _page(_archive(root, Reader.OWNER))


def test_demonstration__is_sealed_the_same_every_time_and_holds(tmp_path: Path) -> None:
    root = tmp_path / "content"
    copytree(CONTENT, root, ignore=ignore_patterns("seals"))
    first = [made.statement for made in seal_demonstration(root)]
    assert first == [made.statement for made in seal_demonstration(root)]
    assert [up_to for up_to, _ in PERIODS] == [stated.up_to for stated in first]
    seals = seals_of(root, next(car for car in read_content(root).cars if car.name == CAR))
    assert seals.intact
    assert 4 == len(seals.statements)

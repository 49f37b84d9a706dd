"""Seals in the bag: the same roots and signatures, and nothing named that the reader may not see."""

from datetime import date
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from journal.ledgers.seals import fold_seals
from journal.outputs.bag.seals import seals_for
from journal.outputs.seal import write_seal
from journal.readers import car_for
from journal.reading.content import read_content
from journal.reading.seals import read_seals
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall
from tests.tern import put_content, put_file, sheet_text

KEY = Ed25519PrivateKey.from_private_bytes(b"\x07" * 32)


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """Two sealed periods: an open sheet with a photograph, and a sheet for the workshop alone."""
    root = put_content(
        tmp_path / "content",
        **{"tern/sheets/2024/2024-03-05-open.md": sheet_text("photos: [laygear.jpg]")},
    )
    _seal(root, date(2024, 3, 5))
    secret = sheet_text("for: workshop", date="2024-03-06")
    put_file(root, "tern/sheets/2024/2024-03-06-quarrel.md", secret.encode())
    _seal(root, date(2024, 3, 6))
    return root


def _seal(root: Path, day: date) -> None:
    write_seal(root, _car(root), KEY, up_to=day, sealed_on=day)


def _car(root: Path) -> CarFile:
    (car,) = read_content(root).cars
    return car


def _files(root: Path, reader: Reader) -> dict[str, bytes]:
    return dict(seals_for(reader, car_for(reader, _car(root)), root / "tern" / "seals"))


def test_seals__hold_in_the_bag_with_entries_hidden(root: Path, tmp_path: Path) -> None:
    for path, data in _files(root, Reader.OWNER).items():
        put_file(tmp_path / "bag", path, data)
    before, after = (
        fold_seals(read_seals(folder), {}, {})
        for folder in (root / "tern" / "seals", tmp_path / "bag")
    )
    assert () == after.faults
    assert before.statements == after.statements
    assert 2 == len(after.statements)


def test_what_the_reader_may_not_see__is_not_named(root: Path) -> None:
    seen = _files(root, Reader.OWNER)
    assert b"quarrel" not in b"".join(seen.values())
    (line,) = seen["0002/entries.sha256"].decode().splitlines()
    assert line.startswith("leaf ")
    assert b"quarrel" in _files(root, Reader.WORKSHOP)["0002/entries.sha256"]


def test_what_the_reader_sees__is_named_with_its_hash(root: Path) -> None:
    lines = _files(root, Reader.OWNER)["0001/entries.sha256"].decode().splitlines()
    assert [
        "car.yaml", "papers/papers.yaml", "photos/2024-03-05/laygear.jpg", "register.yaml",
        "sheets/2024/2024-03-05-open.md",
    ] == [line[66:] for line in lines]  # fmt: skip


def test_statement_signature_and_key__are_the_very_bytes(root: Path) -> None:
    for path, data in _files(root, Reader.OWNER).items():
        if not path.endswith("entries.sha256"):
            assert (root / "tern" / "seals" / path).read_bytes() == data


def test_seal_that_does_not_hold__is_not_packed(root: Path) -> None:
    statement = root / "tern" / "seals" / "0002" / "statement.txt"
    statement.write_text(statement.read_text().replace("2024-03-06", "2024-03-05"))
    with pytest.raises(WrongCall) as fault:
        _files(root, Reader.OWNER)
    assert (
        "the seal 0002 does not hold: the signature is not that of the key that it names; "
        "journal verify says more"
    ) == str(fault.value)


def test_car_without_seals__has_none(tmp_path: Path) -> None:
    assert {} == _files(put_content(tmp_path), Reader.OWNER)

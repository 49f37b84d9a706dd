"""What is changed in a bag by anybody is found."""

import random
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from journal.outputs.bag.close import close_bag
from journal.outputs.bag.verify import Kind, verify_bag
from journal.outputs.seal import write_seal
from journal.reading.content import read_content
from tests.outputs.packing import KEY, back_date
from tests.tern import put_file, sheet_text


def _remove(bag: Path) -> None:
    (bag / "data/record/tern/sheets/2024/2024-03-05-open.md").unlink()


def _add(bag: Path) -> None:
    put_file(bag, "data/record/tern/sheets/2024/2024-03-07-new.md", sheet_text().encode())


def _swap(bag: Path) -> None:
    one, two = sorted((bag / "data/record/tern/sheets/2024").iterdir())
    first, second = one.read_bytes(), two.read_bytes()
    one.write_bytes(second)
    two.write_bytes(first)


@pytest.mark.parametrize(
    ("spoil", "kind", "name"),
    [
        (_remove, Kind.MISSING, "2024-03-05-open.md"),
        (_add, Kind.UNEXPECTED, "2024-03-07-new.md"),
        (_swap, Kind.CHANGED, "2024-03-05-open.md"),
        (back_date, Kind.CHANGED, "2024-03-08-off.md"),
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

"""Bags against RFC 8493, checked by the library of the Library of Congress, and its bags by us."""

import os
import random
import shutil
import stat
import zipfile
from datetime import date
from pathlib import Path

import bagit
import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from hypothesis import given
from hypothesis import strategies as st

from journal.outputs.bag.close import close_bag
from journal.outputs.bag.layout import (
    decoded,
    encoded,
    info_in,
    info_text,
    is_safe,
    manifest_in,
    manifest_text,
)
from journal.outputs.bag.verify import Finding, Kind, verify_bag
from journal.outputs.bag.zip import read_zip, write_zip
from journal.words.wrong import WrongCall

KEY = Ed25519PrivateKey.from_private_bytes(b"\x07" * 32)
INFO = (("Source-Organization", "Saltmarsh Lane Workshop"), ("Bagging-Date", "2025-06-20"))


@pytest.fixture
def bag(tmp_path: Path) -> Path:
    """The payload of which reference values are known: a.txt and ten bytes below a folder."""
    folder = tmp_path / "tern"
    (folder / "data" / "sub").mkdir(parents=True)
    (folder / "data" / "a.txt").write_bytes(b"hello\n")
    (folder / "data" / "sub" / "c.bin").write_bytes(bytes(range(10)))
    close_bag(folder, INFO, KEY)
    return folder


def test_bag__has_the_published_form(bag: Path) -> None:
    # RFC 8493, section 2.1.1: exactly these two lines.
    assert (
        "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
        == (bag / "bagit.txt").read_text()
    )
    # Hashes worked with sha256sum.
    assert (
        "5891b5b522d5df086d0ff0b110fbd9d21bb4fc7163af34d08286a2e846f6be03  data/a.txt\n"
        "1f825aa2f0020ef7cf91dfa30da4668d791c5d4824fc8e41354b89ec05795ab3  data/sub/c.bin\n"
    ) == (bag / "manifest-sha256.txt").read_text()
    # RFC 8493, section 2.2.2: octets, a dot, files: 6 + 10 bytes in two files.
    assert "Payload-Oxum: 16.2" in (bag / "bag-info.txt").read_text().splitlines()
    tags = (bag / "tagmanifest-sha256.txt").read_text()
    assert "tagmanifest" not in tags
    assert "data/" not in tags
    assert "manifest-sha256.txt" in tags


def test_bag__is_valid_for_the_reference_library(bag: Path) -> None:
    assert bagit.Bag(str(bag)).validate()
    assert (1, 0) == bagit.Bag(str(bag)).version_info


def test_bag__is_the_same_bytes_every_time(bag: Path, tmp_path: Path) -> None:
    again = tmp_path / "again"
    shutil.copytree(bag / "data", again / "data")
    close_bag(again, INFO, KEY)
    files = [p.relative_to(bag) for p in bag.rglob("*") if p.is_file()]
    assert [(bag / f).read_bytes() for f in files] == [(again / f).read_bytes() for f in files]


def test_good_bag__verifies(bag: Path) -> None:
    verified = verify_bag(bag)
    assert () == verified.findings
    assert 2 == verified.files


def _kinds(bag: Path) -> set[tuple[Kind, str]]:
    return {(f.kind, f.path) for f in verify_bag(bag).findings}


def test_bytes_flipped_anywhere_in_the_payload__are_found(bag: Path) -> None:
    chance = random.Random(8493)
    (bag / "data" / "a.txt").write_bytes(chance.randbytes(5000))
    shutil.rmtree(bag / "signed")
    for file in bag.glob("*.txt"):
        file.unlink()
    close_bag(bag, INFO, KEY)
    assert verify_bag(bag).good
    for _ in range(200):
        file = chance.choice([bag / "data" / "a.txt", bag / "data" / "sub" / "c.bin"])
        data = bytearray(file.read_bytes())
        data[chance.randrange(len(data))] ^= 1 << chance.randrange(8)
        good = file.read_bytes()
        file.write_bytes(data)
        assert {(Kind.CHANGED, file.relative_to(bag).as_posix())} == _kinds(bag)
        file.write_bytes(good)


def test_changed_file__is_told_with_both_hashes(bag: Path) -> None:
    (bag / "data" / "a.txt").write_bytes(b"Hello\n")
    sha256 = next(f for f in verify_bag(bag).findings if len(f.expected) == 64)
    assert Finding(
        Kind.CHANGED, "data/a.txt",
        "5891b5b522d5df086d0ff0b110fbd9d21bb4fc7163af34d08286a2e846f6be03",
        # printf 'Hello\n' | sha256sum
        "66a045b452102c59d840ec097d59d9467e13a3f34f6494e539ffd32c1bb35f18",
    ) == sha256  # fmt: skip


def test_every_blind_spot_of_the_reference_library__is_seen(bag: Path) -> None:
    (bag / "data" / "extra.txt").write_bytes(b"x")
    assert (Kind.UNEXPECTED, "data/extra.txt") in _kinds(bag)
    (bag / "data" / "extra.txt").unlink()
    (bag / "data" / "a.txt").unlink()
    assert (Kind.MISSING, "data/a.txt") in _kinds(bag)
    (bag / "data" / "a.txt").write_bytes(b"hello\n")
    assert verify_bag(bag).good
    (bag / "note.txt").write_bytes(b"x")
    assert {(Kind.UNEXPECTED, "note.txt")} == _kinds(bag)
    (bag / "note.txt").unlink()
    info = (bag / "bag-info.txt").read_text()
    (bag / "bag-info.txt").write_text(info.replace("Saltmarsh", "Northmarsh"))
    assert (Kind.CHANGED, "bag-info.txt") in _kinds(bag)
    for name in ("tagmanifest-sha256.txt", "tagmanifest-sha512.txt"):
        (bag / name).unlink()
    assert {(Kind.MISSING, f"tagmanifest-sha{n}.txt") for n in (256, 512)} == _kinds(bag)


def test_bag_closed_again_after_a_change__is_not_signed_by_the_workshop(bag: Path) -> None:
    key = verify_bag(bag).key
    (bag / "data" / "a.txt").write_bytes(b"Hello\n")
    for file in [*bag.glob("*.txt"), *(bag / "signed").iterdir()]:
        file.unlink()
    close_bag(bag, INFO, Ed25519PrivateKey.from_private_bytes(b"\x08" * 32))
    assert verify_bag(bag).good
    assert key != verify_bag(bag).key


def test_signature_of_another_bag__does_not_do(bag: Path, tmp_path: Path) -> None:
    other = tmp_path / "other"
    (other / "data").mkdir(parents=True)
    (other / "data" / "b.txt").write_bytes(b"b")
    close_bag(other, INFO, KEY)
    shutil.copytree(other / "signed", bag / "signed", dirs_exist_ok=True)
    assert (Kind.UNSIGNED, "signed/bag.txt") in _kinds(bag)


def test_link_in_a_bag__is_unsafe(bag: Path) -> None:
    (bag / "data" / "a.txt").unlink()
    os.symlink("/etc/hostname", bag / "data" / "a.txt")
    assert (Kind.UNSAFE, "data/a.txt") in _kinds(bag)


def test_manifest_that_leads_outside__is_refused_before_anything_is_read(bag: Path) -> None:
    with (bag / "manifest-sha256.txt").open("a") as file:
        file.write(f"{'0' * 64}  data/../../etc/passwd\n")
    assert (Finding(Kind.UNSAFE, "data/../../etc/passwd"),) == verify_bag(bag).findings


@pytest.mark.parametrize("algorithms", [["sha256", "sha512"], ["md5"], ["sha1"]])
def test_bag_of_the_reference_library__is_whole_and_not_signed(
    tmp_path: Path, algorithms: list[str]
) -> None:
    bag = tmp_path / "b"
    bag.mkdir()
    (bag / "a.txt").write_bytes(b"hello\n")
    # The library declares version 0.97 and these checksums, as many bags of archives do.
    bagit.make_bag(str(bag), checksums=algorithms)
    verified = verify_bag(bag)
    assert (
        Finding(Kind.UNSIGNED, "signed/bag.txt", "a signature of the workshop", "nothing"),
    ) == (verified.findings)
    assert verified.whole
    assert not verified.good
    (bag / "data" / "a.txt").write_bytes(b"Hello\n")
    (bag / "data" / "b.txt").write_bytes(b"")
    (bag / "note.txt").write_bytes(b"a note beside the payload is no part of it")
    assert {
        (Kind.CHANGED, "data/a.txt"), (Kind.UNEXPECTED, "data/b.txt"),
        (Kind.CHANGED, "bag-info.txt: Payload-Oxum"), (Kind.UNSIGNED, "signed/bag.txt"),
    } == _kinds(bag)  # fmt: skip
    assert not verify_bag(bag).whole


def test_bag_without_any_manifest__is_none(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    (tmp_path / "bagit.txt").write_text("BagIt-Version: 0.97\nTag-File-Character-Encoding: UTF-8\n")
    assert {(Kind.MISSING, "manifest-sha256.txt")} == _kinds(tmp_path)


def test_bag_whose_signature_was_taken_away__does_not_pass_for_signed(bag: Path) -> None:
    shutil.rmtree(bag / "signed")
    verified = verify_bag(bag)
    assert not verified.good
    assert (Kind.UNSIGNED, "signed/bag.txt") in {(f.kind, f.path) for f in verified.findings}


def test_page_for_people__is_signed_with_the_rest(bag: Path) -> None:
    shutil.rmtree(bag / "signed")
    for file in bag.glob("*.txt"):
        file.unlink()
    (bag / "READ-ME-FIRST.html").write_text("<!doctype html><title>Read me</title>")
    close_bag(bag, INFO, KEY)
    assert verify_bag(bag).good
    (bag / "READ-ME-FIRST.html").write_text("<!doctype html><title>Read you</title>")
    assert {(Kind.CHANGED, "READ-ME-FIRST.html"), (Kind.UNSIGNED, "signed/bag.txt")} == _kinds(bag)


@given(st.text(st.characters(codec="utf-8"), min_size=1))
def test_path__comes_back_from_a_manifest_as_it_was(path: str) -> None:
    assert path == decoded(encoded(path))
    assert not set("\n\r") & set(encoded(path))


def test_path__is_encoded_as_the_standard_says_and_no_further() -> None:
    # RFC 8493, section 2.1.3: LF, CR and % only.
    assert "data/100%25 caf\u00e9%0A.txt" == encoded("data/100% caf\u00e9\n.txt")


def test_manifest__reads_capital_letters_tabs_and_stars() -> None:
    assert {"data/a": "ab"} == manifest_in("AB\t*data/a\n")
    assert manifest_in("ab data/a\nab data/a\n") is None
    assert manifest_in("no hash here\n") is None
    assert "00  data/a\n11  data/b\n" == manifest_text(
        {"data/b": {"sha256": "11"}, "data/a": {"sha256": "00"}}, "sha256"
    )


@pytest.mark.parametrize(
    ("path", "safe"),
    [
        ("data/a.txt", True), ("data/a..b", True), ("data/../a", False), ("/etc/passwd", False),
        ("~root/a", False), ("C:/a", False), ("data\\..\\..\\a", False), ("", False), ("a\0b", False),
    ],
)  # fmt: skip
def test_path__must_stay_inside(path: str, safe: bool) -> None:
    assert safe is is_safe(path)


def test_labels__are_folded_and_read_back() -> None:
    long = "word " * 40 + "end"
    text = info_text([("External-Description", long), ("Bagging-Date", "2025-06-20")])
    assert max(map(len, text.splitlines())) <= 79
    assert {"external-description": long, "bagging-date": "2025-06-20"} == info_in(text)
    assert "two lines" == info_in(info_text([("A", "two\nlines")]))["a"]


def test_zip__is_the_same_bytes_every_time_and_comes_out_whole(bag: Path, tmp_path: Path) -> None:
    for name in ("one.zip", "two.zip"):
        write_zip(bag, tmp_path / name, date(2025, 6, 20))
        os.utime(bag / "data" / "a.txt", (1, 1))
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()
    out = read_zip(tmp_path / "one.zip", tmp_path / "out")
    assert tmp_path / "out" / "tern" == out
    assert verify_bag(out).good


@pytest.mark.parametrize("name", ["../evil", "tern/../../evil", "/tern/evil", "tern/data/link"])
def test_zip_that_leads_outside__is_refused_before_anything_is_written(
    tmp_path: Path, name: str
) -> None:
    with zipfile.ZipFile(tmp_path / "a.zip", "w") as file:
        file.writestr("tern/good.txt", "good")
        entry = zipfile.ZipInfo(name)
        entry.external_attr = (
            (stat.S_IFLNK if name.endswith("link") else stat.S_IFREG) | 0o777
        ) << 16
        file.writestr(entry, "/etc/passwd")
    with pytest.raises(WrongCall) as fault:
        read_zip(tmp_path / "a.zip", tmp_path / "out")
    assert f'a.zip is not safe to open: it holds "{name}"' == str(fault.value)
    assert not (tmp_path / "out").exists()


def test_zip__that_is_none_or_holds_no_one_bag_is_refused(tmp_path: Path) -> None:
    (tmp_path / "a.zip").write_bytes(b"no zip")
    with pytest.raises(WrongCall) as fault:
        read_zip(tmp_path / "a.zip", tmp_path / "out")
    assert "a.zip is no zip file that can be read" == str(fault.value)
    with zipfile.ZipFile(tmp_path / "b.zip", "w") as file:
        file.writestr("one/a.txt", "a")
        file.writestr("two/a.txt", "a")
    with pytest.raises(WrongCall) as fault:
        read_zip(tmp_path / "b.zip", tmp_path / "out")
    assert "b.zip does not hold one bag" == str(fault.value)

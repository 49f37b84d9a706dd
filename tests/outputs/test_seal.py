"""Sealing a real folder: what is closed, what is refused, and that plain tools can check it."""

import os
import stat
import subprocess
from datetime import date
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from journal.ledgers.seals import Seals, Standing
from journal.outputs.keys import make_key, read_key
from journal.outputs.proof import Proven, check_proof, proof_of
from journal.outputs.seal import write_seal
from journal.outputs.sealed import seals_of
from journal.reading.content import read_content
from journal.reading.signatures import is_signed, key_hash, public_key_in
from journal.records.carfile import CarFile
from journal.words.wrong import WrongCall
from tests.tern import put_content, put_file, sheet_text

KEY = Ed25519PrivateKey.from_private_bytes(b"\x07" * 32)
MARCH, APRIL, MAY = date(2024, 3, 31), date(2024, 4, 30), date(2024, 5, 31)
SHEET, LATER = "sheets/2024/2024-03-05-gearbox.md", "sheets/2024/2024-04-09-hood.md"
PHOTO = "photos/2024-03-05/a b.jpg"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """A content folder with a sheet of March, two photographs of its day, and a sheet of April."""
    root = put_content(
        tmp_path / "content",
        **{
            f"tern/{SHEET}": sheet_text("", "Out in one piece."),
            f"tern/{LATER}": sheet_text(date="2024-04-09"),
        },
    )
    put_file(root, f"tern/{PHOTO}", b"a photograph")
    return root


def _car(root: Path) -> CarFile:
    return read_content(root).cars[0]


def _seal(root: Path, up_to: date = MARCH, key: Ed25519PrivateKey = KEY) -> list[str]:
    made = write_seal(root, _car(root), key, up_to=up_to, sealed_on=up_to)
    return [entry.path for entry in made.added]


def _held(root: Path) -> Seals:
    return seals_of(root, _car(root))


def _standing(root: Path, path: str) -> Standing:
    file = _held(root).of(path)
    assert file is not None
    return file.standing


def _append(root: Path, path: str, words: str) -> None:
    with (root / "tern" / path).open("a", encoding="utf-8") as file:
        file.write(words)


def test_seal__holds_everything_of_its_days_and_nothing_of_later_ones(root: Path) -> None:
    first = [
        "car.yaml", "papers/papers.yaml", PHOTO, "photos/2024-03-05/laygear.jpg", "register.yaml", SHEET,
    ]  # fmt: skip
    assert first == _seal(root)
    assert [LATER] == _seal(root, APRIL)
    held = _held(root)
    assert held.intact
    assert [6, 7] == [stated.entries for stated in held.statements]
    assert {Standing.SEALED} == {file.standing for file in held.files}


def test_sheet_changed_after_it_was_sealed__shows_and_is_honest_once_sealed_again(
    root: Path,
) -> None:
    _seal(root)
    _append(root, SHEET, "\nOne stud broke.")
    assert Standing.CHANGED is _standing(root, SHEET)
    assert [SHEET, LATER] == _seal(root, APRIL)
    assert Standing.AMENDED is _standing(root, SHEET)
    assert _held(root).intact


def test_photograph_removed_and_sheet_dated_back__show(root: Path) -> None:
    _seal(root)
    (root / "tern" / PHOTO).unlink()
    put_file(root, "tern/sheets/2024/2024-03-07-late.md", sheet_text(date="2024-03-07").encode())
    assert Standing.REMOVED is _standing(root, PHOTO)
    assert Standing.LATE is _standing(root, "sheets/2024/2024-03-07-late.md")


def test_list_of_a_seal__is_checked_by_sha256sum_alone(root: Path) -> None:
    _seal(root)
    order = ["sha256sum", "--check", "--strict", "seals/0001/entries.sha256"]
    assert (
        0 == subprocess.run(order, cwd=root / "tern", capture_output=True, check=False).returncode
    )
    _append(root, SHEET, "x")
    told = subprocess.run(order, cwd=root / "tern", capture_output=True, text=True, check=False)
    assert 1 == told.returncode
    assert f"{SHEET}: FAILED" in told.stdout


def test_signature__is_checked_by_openssl_alone(root: Path) -> None:
    _seal(root)
    folder = root / "tern" / "seals" / "0001"
    order = [
        "openssl", "pkeyutl", "-verify", "-pubin", "-inkey", "workshop.pem", "-rawin",
        "-in", "statement.txt", "-sigfile", "statement.sig",
    ]  # fmt: skip
    assert 0 == subprocess.run(order, cwd=folder, capture_output=True, check=False).returncode
    with (folder / "statement.txt").open("a") as file:
        file.write(" ")
    assert 0 != subprocess.run(order, cwd=folder, capture_output=True, check=False).returncode


def test_seal_rewritten_with_another_key__does_not_hold(root: Path) -> None:
    _seal(root)
    _seal(root, APRIL)
    other = Ed25519PrivateKey.from_private_bytes(b"\x08" * 32)
    stated = (root / "tern/seals/0002/statement.txt").read_bytes()
    (root / "tern/seals/0002/statement.sig").write_bytes(other.sign(stated))
    assert ["the signature is not that of the key that it names"] == [
        fault.what for fault in _held(root).faults
    ]


def test_seal_made_anew_with_another_key__does_not_follow_the_first(root: Path) -> None:
    _seal(root)
    other = Ed25519PrivateKey.from_private_bytes(b"\x08" * 32)
    with pytest.raises(WrongCall) as fault:
        _seal(root, APRIL, other)
    assert "this is not the key that the earlier seals are signed with" == str(fault.value)


def test_seal__is_not_made_over_one_that_does_not_hold(root: Path) -> None:
    _seal(root)
    (root / "tern/seals/0001/entries.sha256").write_bytes(b"")
    with pytest.raises(WrongCall) as fault:
        _seal(root, APRIL)
    told = (
        "the seal 0001 does not hold: it counts other entries than its list; "
        "journal verify says more"
    )
    assert told == str(fault.value)


@pytest.mark.parametrize(
    ("up_to", "sealed_on", "told"),
    [
        (APRIL, MARCH, "2024-04-30 is still to come; a seal closes days that are over"),
        (MARCH, APRIL, "there is nothing new to seal up to 2024-03-31"),
        (
            date(2024, 3, 6), APRIL,
            "days up to 2024-03-31 are closed already; name that day or a later one",
        ),
    ],
)  # fmt: skip
def test_days__that_cannot_be_closed_are_refused(
    root: Path, up_to: date, sealed_on: date, told: str
) -> None:
    _seal(root)
    with pytest.raises(WrongCall) as fault:
        write_seal(root, _car(root), KEY, up_to=up_to, sealed_on=sealed_on)
    assert told == str(fault.value)


def test_sheet_that_cannot_be_read__is_not_sealed_over(root: Path) -> None:
    put_file(root, "tern/sheets/2024/2024-03-06-broken.md", b"---\ndate: [\n---\n")
    with pytest.raises(WrongCall) as fault:
        _seal(root)
    told = "not all that is written can be read (2024-03-06-broken); journal check says why"
    assert told == str(fault.value)


def test_lines_that_nobody_confirmed__are_not_sealed(root: Path) -> None:
    put_file(root, f"tern/{SHEET}", sheet_text("draft: it weeps").encode())
    with pytest.raises(WrongCall) as fault:
        _seal(root)
    assert (
        "lines that were heard are not confirmed yet (2024-03-05-gearbox); confirm them first, "
        "with journal write CONTENT --confirm 2024-03-05-gearbox"
    ) == str(fault.value)
    assert not (root / "tern/seals").exists()


def test_lines_of_later_days__do_not_keep_a_period_from_being_sealed(root: Path) -> None:
    put_file(root, f"tern/{LATER}", sheet_text("draft: it weeps", date="2024-04-09").encode())
    assert SHEET in _seal(root)


def test_recordings__are_not_sealed(root: Path) -> None:
    """They are the workshop's own means, large, and may go once what was said is confirmed."""
    put_file(root, "tern/recordings/talk.mp4", b"a talk")
    assert not [path for path in _seal(root) if "talk" in path]
    (root / "tern/recordings/talk.mp4").unlink()
    assert _held(root).intact


def test_seal_that_was_being_written_when_the_machine_stopped__is_none(root: Path) -> None:
    part = root / "tern" / "seals" / ".0001.part"
    part.mkdir(parents=True)
    (part / "statement.txt").write_bytes(b"half a sen")
    assert not _held(root).faults
    assert 6 == len(_seal(root))
    assert not part.exists()


def test_key__is_made_for_its_owner_alone_and_never_written_over(tmp_path: Path) -> None:
    file = tmp_path / "keys" / "workshop.key"
    key = make_key(file)
    assert 0o600 == stat.S_IMODE(file.stat().st_mode)
    again = read_key(file, keep_out_of=tmp_path / "content")
    assert key_hash(key.public_key()) == key_hash(again.public_key())
    with pytest.raises(WrongCall) as fault:
        make_key(file)
    assert f"{file} is there already; a key is never written over" == str(fault.value)


def test_key__that_cannot_be_trusted_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "content" / "workshop.key"
    make_key(file)
    cases = {
        f"the key {file} lies inside the content folder; keep it elsewhere": file.parent,
        f"others may read the key {file}; take that away with chmod 600": tmp_path / "elsewhere",
    }
    os.chmod(file, 0o640)
    for told, content in cases.items():
        with pytest.raises(WrongCall) as fault:
            read_key(file, keep_out_of=content)
        assert told == str(fault.value)
    file.write_bytes(b"no key")
    os.chmod(file, 0o600)
    with pytest.raises(WrongCall) as fault:
        read_key(file, keep_out_of=tmp_path / "elsewhere")
    assert f"{file} holds no key for seals; make one with journal make-key" == str(fault.value)
    with pytest.raises(WrongCall) as fault:
        read_key(tmp_path / "none", keep_out_of=tmp_path / "elsewhere")
    assert f"there is no key at {tmp_path / 'none'}; make one with journal make-key" == str(
        fault.value
    )


# RFC 8032, section 7.1, tests 1 to 3: secret seed, public key, message, signature.
_RFC_8032 = (
    (
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46b"
        "d25bf5f0595bbe24655141438e7a100b",
    ),
    (
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c"
        "387b2eaeb4302aeeb00d291612bb0c00",
    ),
    (
        "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        "af82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc659"
        "4a7c15e9716ed28dc027beceea1ec40a",
    ),
)


@pytest.mark.parametrize(("seed", "public", "message", "signature"), _RFC_8032)
def test_signing__is_the_published_one(
    seed: str, public: str, message: str, signature: str
) -> None:
    key = Ed25519PrivateKey.from_private_bytes(bytes.fromhex(seed))
    assert public == key.public_key().public_bytes_raw().hex()
    assert signature == key.sign(bytes.fromhex(message)).hex()
    assert is_signed(key.public_key(), bytes.fromhex(message), bytes.fromhex(signature))
    assert not is_signed(key.public_key(), bytes.fromhex(message) + b"x", bytes.fromhex(signature))


def test_key_of_another_kind__is_none() -> None:
    assert public_key_in(b"-----BEGIN PUBLIC KEY-----\nAAAA\n-----END PUBLIC KEY-----\n") is None
    assert public_key_in(b"") is None


def test_proof_for_one_sheet__is_checked_alone(root: Path, tmp_path: Path) -> None:
    _seal(root)
    _seal(root, APRIL)
    text = proof_of(root, _car(root), SHEET)
    proven = check_proof(text, root / "tern" / SHEET)
    assert isinstance(proven, Proven)
    assert (SHEET, 2) == (proven.path, proven.statement.seal)
    other = tmp_path / "other.md"
    other.write_bytes(b"another sheet")
    told = "other.md is not the file that was sealed; its SHA-256 is another one"
    assert told == check_proof(text, other)


@pytest.mark.parametrize(
    ("written", "other", "told"),
    [
        ('"index": ', '"index": 1', "the hashes do not lead to the root of the statement"),
        (SHEET, LATER, "the hashes do not lead to the root of the statement"),
        ('"size": 6', '"size": 5', "the hashes do not lead to the root of the statement"),
        ("up to: 2024-03-31", "up to: 2023-03-31", "the statement is not signed by the key that it names"),
        ('"index": ', '"indices": ', "it is no proof that this program wrote"),
        ("{", "[", "it is no proof that this program wrote"),
    ],
)  # fmt: skip
def test_proof__that_was_touched_proves_nothing(
    root: Path, written: str, other: str, told: str
) -> None:
    _seal(root)
    text = proof_of(root, _car(root), SHEET)
    assert written in text
    assert told == check_proof(text.replace(written, other, 1), None)


def test_proof_for_a_file_that_no_seal_knows__is_refused(root: Path) -> None:
    with pytest.raises(WrongCall) as fault:
        proof_of(root, _car(root), SHEET)
    assert "there are no seals that hold; journal verify says more" == str(fault.value)
    _seal(root)
    with pytest.raises(WrongCall) as fault:
        proof_of(root, _car(root), SHEET.replace("gearbox", "gearbax"))
    told = f'no seal knows a file "{SHEET.replace("gearbox", "gearbax")}"; write {SHEET}'
    assert told == str(fault.value)

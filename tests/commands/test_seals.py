"""Sealing and verifying as a person does it: one verdict first, then everything that is not as it was."""

import json
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from journal.outputs.bag.close import close_bag
from tests.commands.running import DAY, run

SHEET = DAY.removeprefix("tern/")


@pytest.fixture
def key(tmp_path: Path) -> Path:
    file = tmp_path / "workshop.key"
    result = run("make-key", "--to", file)
    assert 0 == result.exit_code
    assert f"wrote {file}; keep a copy where nobody else finds it" in result.stdout
    return file


@pytest.fixture
def sealed(content: Path, key: Path) -> Path:
    """A content folder with one seal."""
    result = run("seal", content, "--up-to", "2024-03-31", "--sealed", "2024-04-01", "--key", key)
    assert 0 == result.exit_code
    # car.yaml, register.yaml, papers.yaml, the photograph and the sheet.
    first = result.stdout.splitlines()[0]
    assert "seal 1 closes the record up to 2024-03-31: 5 entries added, 5 in all" == first
    return content


def test_verify__says_that_the_record_holds(sealed: Path) -> None:
    result = run("verify", sealed)
    told = "The record holds: 5 files as sealed, up to 2024-03-31, 1 seal.\n"
    assert (0, told) == (result.exit_code, result.stdout)


def test_verify__tells_a_changed_sheet_with_both_hashes(sealed: Path) -> None:
    before = json.loads(run("verify", sealed, "--of", SHEET).stdout)["sha256"]
    (sealed / DAY).write_bytes(b"---\ndate: 2024-03-05\nsubsystem: gearbox\n---\n")
    # printf -- '---\ndate: 2024-03-05\nsubsystem: gearbox\n---\n' | sha256sum
    after = "ef0d0855241b1be2d6e9d787f38739244527e3936efdec2b6bfcb0268f5e7886"
    result = run("verify", sealed)
    assert 1 == result.exit_code
    assert [
        "The record does not hold.", f"changed  {SHEET}: expected {before}, found {after}",
    ] == result.stdout.splitlines()  # fmt: skip


def test_verify__tells_what_is_gone_and_what_came_too_late(sealed: Path) -> None:
    (sealed / "tern/photos/2024-03-05/laygear.jpg").unlink()
    late = sealed / "tern/sheets/2024/2024-03-06-late.md"
    late.write_text("---\ndate: 2024-03-06\nsubsystem: gearbox\n---\n")
    result = run("verify", sealed)
    assert 1 == result.exit_code
    verdict, gone, came = result.stdout.splitlines()
    assert "The record does not hold." == verdict
    assert gone.startswith("removed  photos/2024-03-05/laygear.jpg: expected ")
    assert gone.endswith(", found nothing")
    told = "late  sheets/2024/2024-03-06-late.md: of a closed day, and in no seal"
    assert told == came


def test_amended_sheet__is_told_and_the_record_holds(sealed: Path, key: Path) -> None:
    with (sealed / DAY).open("a") as file:
        file.write("\nOne stud broke.\n")
    run("seal", sealed, "--up-to", "2024-04-30", "--sealed", "2024-05-01", "--key", key)
    result = run("verify", sealed)
    assert (0, [
        "The record holds: 5 files as sealed, up to 2024-04-30, 2 seals.",
        f"amended  {SHEET}: changed and sealed again",
    ]) == (result.exit_code, result.stdout.splitlines())  # fmt: skip


def test_verify__tells_a_seal_that_was_touched(sealed: Path) -> None:
    file = sealed / "tern/seals/0001/statement.txt"
    file.write_text(file.read_text().replace("up to: 2024-03-31", "up to: 2024-03-30"))
    result = run("verify", sealed)
    assert (1, [
        "The record does not hold.",
        "seal 0001: the signature is not that of the key that it names",
    ]) == (result.exit_code, result.stdout.splitlines())  # fmt: skip


def test_verify__without_seals_says_how_to_make_one(content: Path) -> None:
    result = run("verify", content)
    told = "Nothing is sealed; close a period with journal seal.\n"
    assert (1, told) == (result.exit_code, result.stdout)


def test_proof__is_printed_and_checked_without_the_journal(sealed: Path, tmp_path: Path) -> None:
    proof = tmp_path / "proof.json"
    proof.write_text(run("verify", sealed, "--of", SHEET).stdout)
    result = run("verify", proof, "--file", sealed / DAY)
    assert 0 == result.exit_code
    assert (
        f"The proof holds: 2024-03-05-gearbox.md is the file {SHEET} that Saltmarsh Lane Workshop "
        "sealed with seal 1, up to 2024-03-31."
    ) == result.stdout.splitlines()[0]
    result = run("verify", proof, "--file", sealed / "tern/car.yaml")
    told = "car.yaml is not the file that was sealed; its SHA-256 is another one"
    assert (1, f"The proof does not hold: {told}.\n") == (result.exit_code, result.stdout)


def test_bag__gets_one_verdict_and_then_every_finding(tmp_path: Path) -> None:
    bag = tmp_path / "tern"
    (bag / "data").mkdir(parents=True)
    (bag / "data" / "a.txt").write_bytes(b"hello\n")
    close_bag(bag, (), Ed25519PrivateKey.from_private_bytes(b"\x07" * 32))
    result = run("verify", bag)
    assert 0 == result.exit_code
    assert "The bag holds: 1 file as packed, 0 seals." == result.stdout.splitlines()[0]
    (bag / "data" / "b.txt").write_bytes(b"")
    result = run("verify", bag)
    assert 1 == result.exit_code
    assert "The bag does not hold." == result.stdout.splitlines()[0]
    listed = "unexpected  data/b.txt: expected listed in manifest-sha256.txt, found not listed"
    assert listed in result.stdout.splitlines()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("verify", "nowhere"), 'there is nothing at "nowhere"'),
        (("seal", "CONTENT", "--up-to", "2024-03-31", "--key", "none"),
         "there is no key at none; make one with journal make-key"),
        (("verify", "CONTENT", "--of", "a.md"),
         "there are no seals that hold; journal verify says more"),
    ],
)  # fmt: skip
def test_wrong_calls__are_told_in_one_sentence(
    content: Path, words: tuple[str, ...], told: str
) -> None:
    result = run(*(content if word == "CONTENT" else word for word in words))
    assert (2, f"Error: {told}\n") == (result.exit_code, result.stderr)

"""Handing over as a person does it: everything that stands against it at once, or one whole bag."""

import os
import shutil
import signal
import subprocess
import sys
import time
from datetime import date
from pathlib import Path

import bagit
import pytest
from pypdf import PdfReader

from journal.outputs.bag.zip import read_zip
from tests.commands.running import run
from tests.outputs.packing import OPEN, files, put_car
from tests.tern import put_file, sheet_text

LATER = "tern/sheets/2024/2024-03-12-later.md"
NAME = "tern-2024-03-08"


@pytest.fixture
def root(tmp_path: Path, key: Path) -> Path:
    """A car file of three sheets that is not sealed yet, and of which nothing has to be proved."""
    root = put_car(tmp_path / "content")
    shutil.rmtree(root / "tern/seals")
    put_file(root, "tern/register.yaml", b"components: {gearbox: {laygear: first-fit}}\n")
    return root


def seal(root: Path, key: Path, up_to: str) -> None:
    call = ("seal", root, "--car", "tern", "--up-to", up_to, "--sealed", up_to, "--key", key)
    assert 0 == run(*call).exit_code


def hand_over(root: Path, key: Path, *more: object):
    target = root.parent / "out"
    return run("handover", root, "--car", "tern", "--to", target, "--key", key, *more)


@pytest.fixture
def ready(root: Path, key: Path) -> Path:
    seal(root, key, "2024-03-08")
    return root


@pytest.fixture
def held(root: Path, key: Path) -> Path:
    """A car with a snag that holds it, and a stand-in on it."""
    front = """\
work: {gearbox/laygear: {stand-in: a borrowed one}}
snags: {weeps: {raise: filler plug weeps, hold: yes}}
"""
    put_file(root, LATER, sheet_text(front, date="2024-03-12").encode())
    seal(root, key, "2024-03-12")
    return root


def test_handover__writes_a_bag_and_a_zip_file_that_hold(ready: Path, key: Path) -> None:
    result = hand_over(ready, key)
    out = ready.parent / "out"
    bag = out / NAME
    payload = sum(1 for path in (bag / "data").rglob("*") if path.is_file())
    assert (
        f"wrote {bag}, {payload} files, and {NAME}.zip beside it\n"
        f"Open {bag}/READ-ME-FIRST.html; check it with journal verify {bag}\n"
    ) == result.stdout
    assert 0 == result.exit_code
    assert 0 == run("verify", bag).exit_code
    assert 0 == run("verify", out / f"{NAME}.zip").exit_code
    assert bagit.Bag(str(bag)).validate()
    unpacked = read_zip(out / f"{NAME}.zip", ready.parent / "unpacked")
    assert files(bag) == files(unpacked)
    assert {".journal-archive", NAME, f"{NAME}.zip"} == {path.name for path in out.iterdir()}
    assert (bag / "data/archive/index.html").is_file()
    assert "Bagging-Date: 2024-03-08\n" in (bag / "bag-info.txt").read_text()


def test_handover__is_the_same_bytes_every_time(ready: Path, key: Path) -> None:
    zipped = ready.parent / "out" / f"{NAME}.zip"
    hand_over(ready, key)
    first = zipped.read_bytes()
    assert 0 == hand_over(ready, key).exit_code
    assert first == zipped.read_bytes()


def test_handover__tells_everything_that_stands_against_it_at_once(held: Path, key: Path) -> None:
    result = hand_over(held, key)
    assert (
        "The car is not handed over; 2 reasons stand against it:\n"
        "  hold  gearbox: open since 2024-03-12: filler plug weeps (sheet 2024-03-12-later)\n"
        "  stand-in  gearbox: a stand-in is on the car in the place of Laygear (sheet 2024-03-12-later)\n"
        "Put each right in a new sheet, or hand over --with-reservations: each then stands on the first"
        " page of the dossier.\n"
    ) == result.stderr
    assert ("", 1) == (result.stdout, result.exit_code)
    assert not (held.parent / "out").exists()


def test_handover_with_reservations__prints_each_on_the_first_page(held: Path, key: Path) -> None:
    result = hand_over(held, key, "--with-reservations")
    assert 0 == result.exit_code
    assert "It goes with 2 reservations, on the first page of the dossier.\n" in result.stdout
    (bag,) = (path for path in (held.parent / "out").iterdir() if path.is_dir())
    first = " ".join(PdfReader(bag / "data/dossier.pdf").pages[0].extract_text().split())
    assert "filler plug weeps" in first
    assert "a stand-in is on the car in the place of Laygear" in first


def test_dossier__is_bound_to_its_bag_by_the_root_of_the_seal(ready: Path, key: Path) -> None:
    hand_over(ready, key)
    bag = ready.parent / "out" / NAME
    information = PdfReader(bag / "data/dossier.pdf").metadata
    statement = (bag / "data/seals/0001/statement.txt").read_text()
    assert information is not None
    (root,) = (line[6:] for line in statement.splitlines() if line.startswith("root: "))
    assert f"seal root {root}" == information.keywords


@pytest.mark.parametrize(
    ("sealed", "told"),
    [
        ("", "Error: nothing is sealed; close the record first, with journal seal\n"),
        (
            "2024-03-05",
            "Error: the record is sealed up to 2024-03-05, without sheets/2024/2024-03-06-quarrel.md and 1"
            " other file; close the rest first, with journal seal\n",
        ),
    ],
)  # fmt: skip
def test_record_that_is_not_closed__is_not_handed_over(
    root: Path, key: Path, sealed: str, told: str
) -> None:
    if sealed:
        seal(root, key, sealed)
    result = hand_over(root, key)
    assert (2, told) == (result.exit_code, result.stderr)
    assert not (root.parent / "out").exists()


def test_sheet_changed_after_it_was_sealed__stands_against_the_handover(
    ready: Path, key: Path
) -> None:
    (ready / OPEN).write_text((ready / OPEN).read_text() + "\nIt never leaked.\n")
    result = hand_over(ready, key)
    assert (
        "  record  gearbox: sheets/2024/2024-03-05-open.md was changed after it was sealed, and not sealed"
        " again (sheet 2024-03-05-open)"
    ) in result.stderr
    assert 1 == result.exit_code


def test_lines_that_nobody_confirmed__stand_against_the_handover_and_go_to_nobody(
    ready: Path, key: Path
) -> None:
    sheet = (ready / OPEN).read_text()
    (ready / OPEN).write_text(
        sheet.replace("title: Apart\n", "title: Apart\ndraft: [it weeps at the plug]\n")
    )
    result = hand_over(ready, key)
    assert (
        "  unconfirmed  gearbox: 1 line of the sheet was heard and is not confirmed"
        " (sheet 2024-03-05-open)\n"
    ) in result.stderr
    assert 1 == result.exit_code
    assert 1 == hand_over(ready, key, "--with-reservations").exit_code
    bag = ready.parent / "out" / NAME
    assert not [*bag.rglob("*2024-03-05-open*")]
    held = b"".join(path.read_bytes() for path in bag.rglob("*.csv"))
    assert b"part of the record is not confirmed" in held
    assert b"weeps at the plug" not in held


def test_another_key__does_not_hand_over(ready: Path, key: Path) -> None:
    other = ready.parent / "other.key"
    run("make-key", "--to", other)
    result = hand_over(ready, other)
    told = "Error: this is not the key that the seals are signed with\n"
    assert (2, told) == (result.exit_code, result.stderr)


def test_target_that_holds_other_things__is_left_alone(ready: Path, key: Path) -> None:
    put_file(ready.parent, "out/letter.txt", b"mine")
    result = hand_over(ready, key)
    told = "Error: out holds files that journal did not write; choose an empty folder\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert b"mine" == (ready.parent / "out/letter.txt").read_bytes()


@pytest.mark.parametrize("wait", [0.0, 0.15, 0.4])
def test_handover_that_is_killed__leaves_the_bag_before_whole(
    ready: Path, key: Path, wait: float
) -> None:
    hand_over(ready, key)
    out = ready.parent / "out"
    before = files(out)
    call = (
        "-m", "journal", "handover", ready, "--car", "tern", "--to", out, "--key", key,
        "--cache", ready.parent / "cache",
    )  # fmt: skip
    started = subprocess.Popen([sys.executable, *map(str, call)], start_new_session=True)
    staging = out.with_name(".out.staging")
    while not staging.exists() and started.poll() is None:
        time.sleep(0.005)
    time.sleep(wait)
    os.killpg(started.pid, signal.SIGKILL)
    started.wait()
    assert before == files(out)
    assert 0 == hand_over(ready, key).exit_code
    assert before == files(out)
    assert not staging.exists()


def test_prices__are_in_the_bag_by_the_owners_leave_alone(root: Path, key: Path) -> None:
    front = """\
parts:
  ring: {what: Ring, from: northgate, price: 431.17, ordered: today, received: today, outcome: accepted}
"""
    put_file(root, LATER, sheet_text(front, date="2024-03-12").encode())
    seal(root, key, "2024-03-12")
    assert 0 == hand_over(root, key).exit_code
    assert b"431.17" not in b"".join(files(root.parent / "out").values())
    car = root / "tern/car.yaml"
    car.write_text(car.read_text() + "prices-shown: yes\n")
    seal(root, key, date(2024, 3, 13).isoformat())
    assert 0 == hand_over(root, key).exit_code
    assert b"431.17" in b"".join(files(root.parent / "out").values())

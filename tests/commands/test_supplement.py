"""A supplement as a person hands it over, and as whoever has both bags holds one against the other."""

import shutil
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat

from journal.outputs.bag.close import close_bag
from journal.outputs.bag.layout import info_in
from tests.commands.running import run
from tests.outputs.packing import KEY, files
from tests.supplementing import OFF, put_first, put_later, seal
from tests.tern import put_file, sheet_text

FIRST, LATER = "tern-2024-03-08", "tern-2024-05-01-supplement-1"


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the content, the key, and in `first` and `later` the two bags; to be left as it is."""
    place = tmp_path_factory.mktemp("handed")
    pem = KEY.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    put_file(place, "key", pem)
    (place / "key").chmod(0o600)
    put_first(place / "content")
    assert 0 == hand(place, "first").exit_code
    shutil.copytree(place / "content", place / "delivered")
    put_later(place / "content")
    assert 0 == hand(place, "later", place / "first" / FIRST).exit_code
    return place


def hand(place: Path, target: str, bag: Path | None = None, *more: str, content: str = "content"):
    follows = ("--supplement-to", bag) if bag else ()
    return run(
        "handover", place / content, "--car", "tern", "--to", place / target, "--key", place / "key",
        "--cache", place / "cache", *follows, *more,
    )  # fmt: skip


def test_supplement__is_written_and_says_how_it_is_checked(place: Path) -> None:
    bag = place / "first" / f"{FIRST}.zip"
    result = hand(place, "told", bag)
    made = place / "told" / LATER
    payload = sum(1 for path in (made / "data").rglob("*") if path.is_file())
    assert (
        f"wrote {made}, {payload} files, and {LATER}.zip beside it\n"
        f"Open {made}/READ-ME-FIRST.html; check it with journal verify {made} --follows {bag}\n"
    ) == result.stdout
    assert 0 == result.exit_code


def test_verify__says_that_one_bag_follows_the_other(place: Path) -> None:
    bag = place / "later" / f"{LATER}.zip"
    result = run("verify", bag, "--follows", place / "first" / FIRST)
    # Sealed first: car, register, papers, two photographs, two sheets. Then: four sheets, one photograph.
    assert (
        f"It follows {FIRST}: the 7 entries of seal 1 are the beginning of its own, to which 5 entries came"
        " up to seal 2."
    ) == result.stdout.splitlines()[-1]
    assert result.stdout.startswith("The bag holds: ")
    assert 0 == result.exit_code


def test_verify__holds_a_supplement_by_itself(place: Path) -> None:
    result = run("verify", place / "later" / LATER)
    assert 0 == result.exit_code
    # It names car, register, papers, two photographs and four sheets. The list of papers and the sheets
    # that keep nothing back are as they were written.
    assert (
        "Of 9 sealed files that it names, 3 lie in it exactly as sealed; the others lie in an earlier bag, or"
        " are without what their reader may not see."
    ) == result.stdout.splitlines()[-1]


def test_bags_the_wrong_way_round__do_not_follow(place: Path) -> None:
    result = run("verify", place / "first" / FIRST, "--follows", place / "later" / LATER)
    assert (1, [
        f"{FIRST} does not follow {LATER}, though each of them holds.",
        "does not follow  data/seals: expected seals after seal 2, found it ends with seal 1",
    ]) == (result.exit_code, result.stdout.splitlines())  # fmt: skip


def test_bag_of_a_record_that_was_written_anew__is_not_followed(
    place: Path, tmp_path: Path
) -> None:
    # The same car, key and seal number, and another sheet behind it.
    other = rewritten(place, tmp_path)
    result = run("verify", place / "later" / LATER, "--follows", other)
    roots = [root_in(bag) for bag in (other, place / "later" / LATER)]
    assert (1, [
        f"{LATER} does not follow {FIRST}, though each of them holds.",
        f"does not follow  data/seals/0001: expected {roots[0]}, found {roots[1]}",
    ]) == (result.exit_code, result.stdout.splitlines())  # fmt: skip


def rewritten(place: Path, folder: Path) -> Path:
    """The first bag of the same car, of a record of which one sheet says something else."""
    shutil.copytree(place / "delivered", folder / "content")
    (folder / "key").write_bytes((place / "key").read_bytes())
    (folder / "key").chmod(0o600)
    with (folder / "content" / OFF).open("a") as sheet:
        sheet.write("Eight boxes.\n")
    shutil.rmtree(folder / "content/tern/seals")
    seal(folder / "content", "2024-03-08")
    assert 0 == hand(folder, "first").exit_code
    return folder / "first" / FIRST


def root_in(bag: Path) -> str:
    lines = (bag / "data/seals/0001/statement.txt").read_text().splitlines()
    return next(line[6:] for line in lines if line.startswith("root: "))


def test_bag_that_does_not_hold__is_told_before_anything_else(place: Path, tmp_path: Path) -> None:
    bag = tmp_path / FIRST
    shutil.copytree(place / "first" / FIRST, bag)
    (bag / "data/vehicle.jsonld").unlink()
    result = run("verify", place / "later" / LATER, "--follows", bag)
    assert 1 == result.exit_code
    told = f"{FIRST}: missing  data/vehicle.jsonld: expected listed in manifest-sha256.txt"
    assert [f"{FIRST}: The bag does not hold.", told] == [
        line for line in result.stdout.splitlines() if "sha512" not in line and "Oxum" not in line
    ]


def test_what_stands_against_the_handover__is_told_of_the_supplement(
    place: Path, tmp_path: Path
) -> None:
    there = copy(place, tmp_path)
    front = "snags: {weeps: {raise: filler plug weeps, hold: yes}}"
    put_file(
        there,
        "content/tern/sheets/2024-06-01-weeps.md",
        sheet_text(front, date="2024-06-01").encode(),
    )
    seal(there / "content", "2024-06-01")
    result = hand(there, "out", place / "later" / LATER)
    assert (
        "The supplement is not handed over; 1 reason stands against it:\n"
        "  hold  gearbox: open since 2024-06-01: filler plug weeps (sheet 2024-06-01-weeps)\n"
        "Put each right in a new sheet, or hand over --with-reservations: each then stands on the first"
        " page of the dossier.\n"
    ) == result.stderr
    assert ("", 1) == (result.stdout, result.exit_code)
    assert not (there / "out").exists()


# Wrong calls


def copy(place: Path, folder: Path) -> Path:
    """Content and key in a folder of their own."""
    shutil.copytree(place / "content", folder / "content")
    shutil.copy(place / "key", folder / "key")
    return folder


def refused(result) -> str:
    assert (2, "") == (result.exit_code, result.stdout)
    return result.stderr


def test_nothing_sealed_since__hands_nothing_over(place: Path) -> None:
    result = hand(place, "out", place / "later" / LATER)
    assert (
        f"Error: nothing was sealed since {LATER}, which holds the record up to 2024-05-01; write what was"
        " done since and close it with journal seal\n"
    ) == refused(result)
    assert not (place / "out").exists()


def test_sheet_that_is_not_sealed_yet__is_told_by_its_name(place: Path, tmp_path: Path) -> None:
    there = copy(place, tmp_path)
    put_file(
        there, "content/tern/sheets/2024-06-01-next.md", sheet_text(date="2024-06-01").encode()
    )
    assert (
        "Error: the record is sealed up to 2024-05-01, without sheets/2024-06-01-next.md; close the rest"
        " first, with journal seal\n"
    ) == refused(hand(there, "out", place / "later" / LATER))


def test_bag_that_was_touched__is_followed_by_nothing(place: Path, tmp_path: Path) -> None:
    bag = tmp_path / "touched"
    shutil.copytree(place / "first" / FIRST, bag)
    with (bag / "data/tables/ledger.csv").open("a") as file:
        file.write("gearbox/crown-jewels,1\r\n")
    assert (
        "Error: touched does not hold (changed: bag-info.txt: Payload-Oxum, and 2 other things); name a copy"
        " of it that does\n"
    ) == refused(hand(place, "out", bag))


def test_bag_of_another_car__is_followed_by_nothing(place: Path, tmp_path: Path) -> None:
    there = copy(place, tmp_path)
    file = there / "content/workshop.yaml"
    file.write_text(file.read_text().replace("Saltmarsh Lane Workshop", "Fen Road Workshop"))
    assert 0 == hand(there, "first").exit_code
    (bag,) = (path for path in (there / "first").iterdir() if path.is_dir())
    assert (
        f"Error: {bag.name} is of another car; name the bag that was handed over with tern\n"
    ) == refused(hand(place, "out", bag))


def test_bag_of_a_record_written_anew__is_followed_by_nothing(place: Path, tmp_path: Path) -> None:
    other = rewritten(place, tmp_path)
    assert (
        f"Error: seal 1 of {FIRST} is none of this record; name a bag that was made of it\n"
    ) == refused(hand(place, "out", other))


def test_bag_without_the_tables_to_compare__is_followed_by_nothing(
    place: Path, tmp_path: Path
) -> None:
    bag = tmp_path / FIRST
    shutil.copytree(place / "first" / FIRST, bag)
    (bag / "data/tables/reservations.csv").unlink()
    info = info_in((bag / "bag-info.txt").read_text())
    labels = [(name.title(), info[name]) for name in info if name != "payload-oxum"]
    shutil.rmtree(bag / "signed")
    for file in bag.glob("*.txt"):
        file.unlink()
    close_bag(bag, labels, KEY)
    assert (
        f"Error: {FIRST} has no table data/tables/reservations.csv, by which a supplement tells what changed;"
        " hand over a whole bag\n"
    ) == refused(hand(place, "out", bag))


def test_target_in_which_the_bag_lies__is_left_alone(place: Path) -> None:
    before = files(place / "first")
    assert (
        f"Error: {FIRST} lies in first, whose place the supplement would take; choose another folder\n"
    ) == refused(hand(place, "first", place / "first" / FIRST))
    assert before == files(place / "first")


def test_nothing_where_the_bag_should_be__is_told(place: Path) -> None:
    told = f'Error: there is nothing at "{place / "nowhere"}"\n'
    assert told == refused(hand(place, "out", place / "nowhere"))
    assert told == refused(run("verify", place / "later" / LATER, "--follows", place / "nowhere"))
    zipped = place / "content/workshop.yaml"
    told = "Error: workshop.yaml is no zip file that can be read\n"
    assert told == refused(hand(place, "out", zipped))

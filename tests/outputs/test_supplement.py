"""The supplement: only what was sealed after a bag, in a bag of its own that follows it.

The chain is reckoned here once more, by the words of RFC 6962, section 2.1, and nothing of ours.
"""

import shutil
from hashlib import sha256
from pathlib import Path

import bagit
import pytest

from journal.outputs.bag.layout import info_in
from journal.outputs.bag.verify import verify_bag
from journal.outputs.handover import Barred, hand_over
from journal.outputs.supplement import hand_supplement
from journal.readers import car_for
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.outputs.packing import files
from tests.pictures.images import corners, encoded
from tests.planting import DAY, Planter, every_text, plant
from tests.printing import text_in
from tests.supplementing import Both, both_bags, order, put_first, seal, stated, table
from tests.tern import put_file, sheet_text


@pytest.fixture(scope="module")
def both() -> Both:
    return both_bags()


def test_supplement__holds_what_is_new_and_no_archive(both: Both) -> None:
    there = [path for path in files(both.later.bag / "data") if not path.startswith("tables/")]
    seals = [
        f"seals/{seal}/{file}" for seal in ("0001", "0002")
        for file in ("entries.sha256", "statement.sig", "statement.txt", "workshop.pem")
    ]  # fmt: skip
    assert [
        "dossier.pdf", "provenance.json", "record/tern/car.yaml", "record/tern/papers/papers.yaml",
        "record/tern/photos/2024-05-01/two.jpg", "record/tern/register.yaml",
        "record/tern/sheets/2024/2024-03-07-steel.md", "record/tern/sheets/2024/2024-03-08-off.md",
        "record/tern/sheets/2024/2024-05-01-first-service.md", "record/workshop.yaml",
        *seals, "seals/as-sealed.sha256", "vehicle.jsonld",
    ] == there  # fmt: skip


def test_supplement__is_valid_for_the_reference_library_and_for_us(both: Both) -> None:
    assert bagit.Bag(str(both.later.bag)).validate()
    assert verify_bag(both.later.bag).good
    assert () == both.later.problems


def test_labels__count_it_among_the_bags_of_the_car(both: Both) -> None:
    first, later = (
        info_in((made.bag / "bag-info.txt").read_text(encoding="utf-8"))
        for made in (both.first, both.later)
    )
    assert {
        "source-organization": "Saltmarsh Lane Workshop",
        "external-description": "Aldermoor Tern, drophead, 1958: supplement to the bag tern-2024-03-08, for "
        "the keeper: what was sealed after seal 1, up to 2024-05-01",
        "bagging-date": "2024-05-01",
        "external-identifier": "tern-2024-05-01-supplement-1",
        "bag-group-identifier": first["bag-group-identifier"],
        "bag-count": "2 of ?",
    } == {k: v for k, v in later.items() if k != "payload-oxum"}
    assert "tern-2024-05-01-supplement-1" == both.later.bag.name


def test_record_laid_over_that_of_the_first_bag__is_the_whole_record(
    both: Both, tmp_path: Path
) -> None:
    for made in (both.first, both.later):
        shutil.copytree(made.bag / "data/record", tmp_path / "record", dirs_exist_ok=True)
    (again,) = read_content(tmp_path / "record").cars
    (car,) = read_content(both.root).cars
    seen = car_for(Reader.KEEPER, car)
    assert 4 == len(seen.sheets)
    assert [(s.name, s.front) for s in seen.sheets] == [(s.name, s.front) for s in again.sheets]
    assert [b.text for s in seen.sheets for b in s.body] == [
        b.text for s in again.sheets for b in s.body
    ]
    assert (seen.car, seen.papers) == (again.car, again.papers)
    assert {"2024-03-05/one.jpg", "2024-05-01/two.jpg"} == again.photo_files


def test_tables__are_of_the_whole_car_as_it_stands(both: Both) -> None:
    ledger = {row["component"]: row["now"] for row in table(both.later.bag, "ledger")}
    assert {"gearbox/laygear": "first-fit", "gearbox/front-bearing": "pattern"} == ledger
    assert 4 == len(table(both.later.bag, "sheets"))
    pictures = [(p["file"], p["bag"]) for p in table(both.later.bag, "pictures")]
    assert [
        ("tern/photos/2024-03-05/one.jpg", "1"), ("tern/photos/2024-05-01/two.jpg", "2"),
    ] == pictures  # fmt: skip
    for made, row in zip((both.first, both.later), table(both.later.bag, "pictures"), strict=True):
        data = (made.bag / "data/record" / row["file"]).read_bytes()
        assert row["sha-256"] == sha256(data).hexdigest()


# The chain


def leaves_in(bag: Path) -> list[bytes]:
    """The leaf of every line of the lists of a bag, in order."""
    return [
        bytes.fromhex(line[5:])
        if line.startswith("leaf ")
        else sha256(b"\x00" + f"{line}\n".encode()).digest()
        for file in sorted((bag / "data/seals").glob("*/entries.sha256"))
        for line in file.read_text(encoding="utf-8").splitlines()
    ]


def tree_head(leaves: list[bytes]) -> bytes:
    """MTH of RFC 6962, section 2.1: split at the largest power of two below the number of leaves."""
    if len(leaves) == 1:
        return leaves[0]
    split = max(1 << n for n in range(20) if 1 << n < len(leaves))
    return sha256(b"\x01" + tree_head(leaves[:split]) + tree_head(leaves[split:])).digest()


def test_lists_of_the_supplement__give_the_roots_of_both_bags(both: Both) -> None:
    first, last = stated(both.first.bag, "0001"), stated(both.later.bag, "0002")
    leaves = leaves_in(both.later.bag)
    assert last["entries"] == str(len(leaves))
    assert last["root"] == tree_head(leaves).hex()
    assert first["root"] == tree_head(leaves[: int(first["entries"])]).hex()
    assert (first["root"], first["entries"]) == (last["root before"], last["entries before"])


def test_seal_of_the_first_bag__is_the_very_one_in_the_supplement(both: Both) -> None:
    seals = [files(made.bag / "data/seals/0001") for made in (both.first, both.later)]
    assert seals[0] == seals[1]


# Who sees what


def test_what_the_next_keeper_may_not_see__is_nowhere(both: Both) -> None:
    # A PDF is searched as it reads: chance can make anything of its packed bytes.
    told = files(both.later.bag) | {"data/dossier.pdf": text_in(both.pdf).encode()}
    for path, data in told.items():
        assert "quarrel" not in path
        for secret in (b"quarrel", b"QZ"):
            assert secret not in data, path


def test_field_that_no_list_names__is_nowhere_in_the_supplement(tmp_path: Path) -> None:
    planter = Planter(Reader.KEEPER)
    root = plant(tmp_path / "content", planter)
    seal(root, DAY)
    first = hand_over(read_content(root), order(root, "first", with_reservations=True))
    # The same sheet once more, on a later day and with marks of its own.
    later = Planter(Reader.KEEPER, start=len(planter.planted))
    plant(tmp_path / "again", later)
    sheet = (tmp_path / f"again/tern/sheets/{DAY}-day.md").read_text(encoding="utf-8")
    sheet = sheet.replace(f"date: '{DAY}'", "date: '2024-04-05'", 1)
    put_file(root, "tern/sheets/2024-04-05-later.md", sheet.encode())
    seal(root, "2024-04-05")
    made = hand_supplement(
        read_content(root), order(root, "later", with_reservations=True), first.bag
    )
    assert (made.bag / "data/record/tern/sheets/2024/2024-04-05-later.md").is_file()
    document = text_in((made.bag / "data/dossier.pdf").read_bytes())
    (made.bag / "data/dossier.pdf").unlink()
    text = "\n".join((*every_text(made.bag), document))
    assert {} == planter.leaks(text)
    assert {} == later.leaks(text)
    assert len(later.planted) > 10


# Once more


def test_same_supplement_twice__has_the_same_bytes_from_folder_or_zip_file(both: Both) -> None:
    again = hand_supplement(read_content(both.root), order(both.root, "again"), both.first.zip)
    assert both.later.zip.read_bytes() == again.zip.read_bytes()


@pytest.fixture
def grown(both: Both, tmp_path: Path) -> Path:
    """The content, with one more sheet that holds the car."""
    root = tmp_path / "content"
    shutil.copytree(both.root, root)
    front = "title: It weeps\nsnags: {weeps: {raise: filler plug weeps, hold: yes}}"
    put_file(
        root, "tern/sheets/2024/2024-06-01-weeps.md", sheet_text(front, date="2024-06-01").encode()
    )
    return seal(root, "2024-06-01")


def test_supplement_to_a_supplement__follows_it_and_says_so(both: Both, grown: Path) -> None:
    given = order(grown, "third", with_reservations=True)
    made = hand_supplement(read_content(grown), given, both.later.bag)
    assert "tern-2024-06-01-supplement-2" == made.bag.name
    assert "Bag-Count: 3 of ?\n" in (made.bag / "bag-info.txt").read_text(encoding="utf-8")
    sheets = sorted(p.name for p in (made.bag / "data/record/tern/sheets/2024").iterdir())
    assert ["2024-06-01-weeps.md"] == sheets
    assert ["1", "2"] == [row["bag"] for row in table(made.bag, "pictures")]
    page = text_in((made.bag / "data/dossier.pdf").read_bytes(), "-f", "1", "-l", "1")
    assert (
        "This is supplement 2. It belongs to supplement 1 of 1 May 2024, closed by seal 2, and with it to "
        "the first bag, and tells what seal 3 added since."
    ) in page
    assert "One reservation is new." in page
    assert "Gearbox: open since 1 June 2024: filler plug weeps (S 5)" in page
    assert [{
        "kind": "hold", "subsystem": "gearbox", "open since": "2024-06-01",
        "reservation": "filler plug weeps", "sheet": "2024-06-01-weeps",
    }] == table(made.bag, "reservations")  # fmt: skip


def test_supplement_to_the_first_bag__may_tell_of_several_seals(both: Both, grown: Path) -> None:
    given = order(grown, "wide", with_reservations=True)
    made = hand_supplement(read_content(grown), given, both.first.bag)
    page = text_in((made.bag / "data/dossier.pdf").read_bytes(), "-f", "1", "-l", "1")
    assert "closed by seal 1, and tells what seals 2 to 3 added since." in page
    assert 4 == len(list((made.bag / "data/record/tern/sheets/2024").iterdir()))


def test_what_stands_against_the_handover__bars_a_supplement_too(both: Both, grown: Path) -> None:
    with pytest.raises(Barred) as barred:
        hand_supplement(read_content(grown), order(grown, "barred"), both.later.bag)
    assert ["open since 2024-06-01: filler plug weeps"] == [
        reason.told() for reason in barred.value.gate.reasons
    ]
    assert not (grown.parent / "barred").exists()


def test_reservation_that_was_cleared__is_told_as_it_stood(both: Both, grown: Path) -> None:
    content, given = read_content(grown), order(grown, "held", with_reservations=True)
    held = hand_supplement(content, given, both.later.bag)
    front = "title: Dry\nsnags: {weeps: {clear: new washer, by: MT}}"
    put_file(
        grown, "tern/sheets/2024/2024-07-01-dry.md", sheet_text(front, date="2024-07-01").encode()
    )
    seal(grown, "2024-07-01")
    made = hand_supplement(read_content(grown), order(grown, "dry"), held.bag)
    text = text_in((made.bag / "data/dossier.pdf").read_bytes(), "-raw")
    assert "One reservation no longer stands; none is new." in text
    assert "Cleared Gearbox open since 1 June 2024: filler plug weeps 1 June 2024" in text


def test_picture_that_was_amended__takes_the_place_of_the_one_before(
    both: Both, tmp_path: Path
) -> None:
    root = tmp_path / "content"
    shutil.copytree(both.root, root)
    put_file(root, "tern/photos/2024-03-05/one.jpg", encoded(corners(320, 200)))
    seal(root, "2024-05-02")
    made = hand_supplement(read_content(root), order(root, "third"), both.later.bag)
    photos = sorted(path for path in files(made.bag) if "/photos/" in path)
    assert ["data/record/tern/photos/2024-03-05/one.jpg"] == photos
    assert ["3", "2"] == [row["bag"] for row in table(made.bag, "pictures")]
    page = text_in((made.bag / "data/dossier.pdf").read_bytes(), "-f", "1", "-l", "1")
    assert "No day sheet is new." in page
    assert "One photograph is new or amended." in page


def test_line_for_fewer_readers__says_so_in_a_supplement_that_is_read_alone(tmp_path: Path) -> None:
    root = put_first(tmp_path / "content")
    said = "parts: {ring: {what: Ring, ordered: today, for: keeper}}"
    put_file(
        root, "tern/sheets/2024/2024-03-08-ring.md", sheet_text(said, date="2024-03-08").encode()
    )
    seal(root, "2024-03-08")
    first = hand_over(read_content(root), order(root, "first"))
    # Nobody marks it again.
    came = sheet_text("parts: {ring: {received: today, outcome: accepted}}", date="2024-05-02")
    put_file(root, "tern/sheets/2024/2024-05-02-came.md", came.encode())
    seal(root, "2024-05-02")
    made = hand_supplement(read_content(root), order(root, "later"), first.bag)
    (alone,) = read_content(made.bag / "data/record").cars
    (sheet,) = alone.sheets
    assert Reader.KEEPER is sheet.front.parts.get("ring").for_
    assert not car_for(Reader.PUBLIC, alone).sheets[0].front.parts

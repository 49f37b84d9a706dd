"""The supplement: only what was sealed after a bag, in a bag of its own that follows it.

The chain is reckoned here once more, by the words of RFC 6962, section 2.1, and nothing of ours.
"""

import csv
import io
import re
import shutil
import subprocess
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from pathlib import Path

import bagit
import html5lib
import pikepdf
import pytest

from journal.outputs.bag.layout import info_in
from journal.outputs.bag.verify import verify_bag
from journal.outputs.handover import Barred, HandedOver, Handover, hand_over
from journal.outputs.pictures import Means
from journal.outputs.seal import write_seal
from journal.outputs.supplement import hand_supplement
from journal.readers import car_for
from journal.reading.content import read_content
from journal.words.spoken import spoken
from journal.words.vocabulary import Reader
from tests.outputs.test_bag_contents import KEY, MORE, files
from tests.pictures.images import camera, corners, encoded
from tests.planting import DAY, Planter, every_text, plant
from tests.printing import outline_of, text_in
from tests.tern import put_content, put_file, sheet_text

OFF = "tern/sheets/2024/2024-03-08-off.md"
SERVICE = "tern/sheets/2024/2024-05-01-first-service.md"
LATE = "tern/sheets/2024/2024-03-07-steel.md"
DELIVERED = """\
title: Delivered
odometer: 48000
rechecks:
  oil: {what: Gearbox oil, on: gearbox/laygear, after: 500 miles}
  bolts: {what: Bolts of the gearbox, on: gearbox/laygear, after: 6 weeks}
"""
SERVICED = """\
title: First service
hours: {MT: 2}
odometer: 48510
work:
  gearbox/front-bearing:
    {did: fitted, now: pattern, why: rumbled, decided: owner, original: scrapped, reversible: "no"}
rechecks:
  oil: {done: Clean and to the mark, by: MT, after: 1000 miles}
photos: [{file: two.jpg, of: gearbox/front-bearing, caption: The new bearing, alt: a bearing on a bench}]
"""
BODY = "The bearing went in cold.\n\n::: workshop\nThe quarrelsome bill.\n:::\n"


def put_first(root: Path) -> Path:
    """A car as it was delivered, sealed to its end, of which nothing has to be proved."""
    register = "components: {gearbox: {laygear: first-fit, front-bearing: first-fit}}\n"
    open_front = (
        "title: Apart\nphotos: [{file: one.jpg, alt: a gearbox}]\nwork: {gearbox/laygear: cleaned}"
    )
    put_content(
        root,
        **{
            "tern/car.yaml": MORE,
            "tern/register.yaml": register,
            "tern/sheets/2024/2024-03-05-open.md": sheet_text(open_front, "Split.\n"),
            OFF: sheet_text(DELIVERED, date="2024-03-08"),
        },
    )
    put_photo(root, "2024-03-05/one.jpg")
    return seal(root, "2024-03-08")


def put_later(root: Path) -> Path:
    """A service, a sheet for a day that was closed, one amended, and one for the workshop alone."""
    put_file(root, SERVICE, sheet_text(SERVICED, BODY, date="2024-05-01").encode())
    put_file(root, LATE, sheet_text("title: Steel weighed", date="2024-03-07").encode())
    own = sheet_text("for: workshop", "All about the quarrel.\n", date="2024-05-01")
    put_file(root, "tern/sheets/2024/2024-05-01-quarrel.md", own.encode())
    put_file(
        root, OFF, sheet_text(DELIVERED, "Seven boxes, not six.\n", date="2024-03-08").encode()
    )
    put_photo(root, "2024-05-01/two.jpg")
    return seal(root, "2024-05-01")


def put_photo(root: Path, path: str) -> None:
    photo = encoded(corners(300, 200), exif=camera(marker="QZ").tobytes())
    put_file(root, f"tern/photos/{path}", photo)


def seal(root: Path, up_to: str) -> Path:
    (car,) = read_content(root).cars
    day = date.fromisoformat(up_to)
    write_seal(root, car, KEY, up_to=day, sealed_on=day)
    return root


def order(root: Path, target: str, **more: bool) -> Handover:
    base = root.parent
    return Handover(root, base / target, KEY, Means(base / "cache"), "tern", **more)


@dataclass(frozen=True)
class Both:
    """A content folder with all that is written, the first bag, and the supplement."""

    root: Path
    first: HandedOver
    later: HandedOver


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> Both:
    root = put_first(tmp_path_factory.mktemp("supplement") / "content")
    first = hand_over(read_content(root), order(root, "first"))
    put_later(root)
    return Both(root, first, hand_supplement(read_content(root), order(root, "later"), first.bag))


@pytest.fixture(scope="module")
def pdf(both: Both) -> bytes:
    return (both.later.bag / "data/dossier.pdf").read_bytes()


def table(bag: Path, name: str) -> list[dict[str, str]]:
    text = (bag / f"data/tables/{name}.csv").read_bytes().decode()
    return list(csv.DictReader(io.StringIO(text, newline="")))


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


def stated(bag: Path, seal: str) -> dict[str, str]:
    lines = (bag / f"data/seals/{seal}/statement.txt").read_text(encoding="utf-8").splitlines()[1:]
    return dict(line.split(": ", 1) for line in lines)


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


# The document


def test_first_page__says_to_which_bag_it_belongs_and_what_changed(both: Both, pdf: bytes) -> None:
    page = text_in(pdf, "-f", "1", "-l", "1")
    assert (
        "This is supplement 1. It belongs to the bag of 8 March 2024, closed by seal 1, and tells what "
        "seal 2 added since. Neither replaces the other: keep them together."
    ) in page
    for group in spoken(bytes.fromhex(stated(both.first.bag, "0001")["root"])):
        assert group in page
    for sentence in (
        "One day sheet is new, one is added to days that were closed by then and one is amended openly.",
        "One photograph is new.",
        "One more file of the workshop’s own was sealed, which the seals count and this bag does not show.",
        "One line of the originality ledger is not what it was.",
        "Every proof stands as it did.",
        "One re-check was done; one is due.",
        "Nothing stands against the handover.",
    ):
        assert sentence in page, sentence


def test_sections__come_in_the_order_in_which_they_are_needed(pdf: bytes) -> None:
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        assert [
            "1 What changed since", "2 The sheets in full", "3 Running in and re-checks",
            "4 Evidence index", "5 Seal, and how to verify it", "6 Declaration",
        ] == list(outline_of(opened))  # fmt: skip


def test_document__claims_both_standards_and_names_its_seal(both: Both, pdf: bytes) -> None:
    """ISO 19005-2 level A and ISO 14289-1, as XMP tells them."""
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        with opened.open_metadata() as told:
            assert ("2A", "1") == (told.pdfa_status, told["pdfuaid:part"])
        assert f"seal root {stated(both.later.bag, '0002')['root']}" == opened.docinfo["/Keywords"]
        title = "Aldermoor Tern, 1958: supplement to the provenance dossier"
        assert title == str(opened.docinfo["/Title"])


def test_changes__stand_with_what_was_before(pdf: bytes) -> None:
    text = text_in(pdf, "-raw")
    for row in (
        "S 2 7 March 2024 Steel weighed Added to a day that was closed by then",
        "S 3 8 March 2024 Delivered Amended openly; as it was, it lies in an earlier bag",
        "S 4 1 May 2024 First service New",
        "Gearbox: Front bearing There now first-fit pattern S 4",
        "Material of its own 100 % 0 %",
        "Decided by – the owner",
    ):
        assert row in text, row
    told = text_in(pdf)
    assert "Clean and to the mark; done on 1 May 2024 after it was due, by Margit Tolland" in told
    assert "Past due, and not done" in told
    assert "at 49,510 miles" in told


def test_new_sheets__are_printed_in_full_and_no_other(pdf: bytes) -> None:
    text = text_in(pdf)
    assert "The bearing went in cold." in text
    assert "Seven boxes, not six." in text
    assert "Split." not in text


def test_evidence_index__has_the_hash_of_every_new_file_and_of_no_other(
    both: Both, pdf: bytes
) -> None:
    text = re.sub(r"[\s\u200b]", "", text_in(pdf, "-raw"))
    photos = (both.root / "tern/photos/2024-05-01/two.jpg").read_bytes()
    for data in (*((both.root / path).read_bytes() for path in (SERVICE, LATE, OFF)), photos):
        assert sha256(data).hexdigest() in text
    old = (both.root / "tern/sheets/2024/2024-03-05-open.md").read_bytes()
    assert sha256(old).hexdigest() not in text


def test_commands_of_the_document__bear_it_out_and_find_another_seal(
    both: Both, pdf: bytes, tmp_path: Path
) -> None:
    # A line may end within a path, at a sign at which nothing has to be put in.
    command = re.search(r"cmp (\S+/statement\.txt) (\S+/) ?(statement\.txt)", text_in(pdf, "-raw"))
    assert command is not None
    for made in (both.first, both.later):
        shutil.copytree(made.bag, tmp_path / made.bag.name)
    call = ["cmp", command[1], command[2] + command[3]]
    assert (0, b"") == _ran(call, tmp_path)
    other = tmp_path / both.first.bag.name / "data/seals/0001/statement.txt"
    other.write_text(other.read_text().replace("seal: 1", "seal: 7"))
    assert 1 == _ran(call, tmp_path)[0]


def _ran(call: list[str], folder: Path) -> tuple[int, bytes]:
    done = subprocess.run(call, cwd=folder, capture_output=True)
    return done.returncode, done.stdout


# The page


def test_page__names_the_earlier_bag_and_every_link_leads_somewhere(both: Both) -> None:
    text = (both.later.bag / "READ-ME-FIRST.html").read_text(encoding="utf-8")
    tree = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(text)
    links = [a.get("href") for a in tree.iter("a")]
    assert [] == [link for link in links if not (both.later.bag / link).exists()]
    assert "data/archive" not in text
    assert "This folder is supplement 1 to the record of the work on this car." in text
    assert "<strong>tern-2024-03-08</strong>" in text


def test_commands_of_the_page__bear_out_that_it_follows(both: Both, tmp_path: Path) -> None:
    for made in (both.first, both.later):
        shutil.copytree(made.bag, tmp_path / made.bag.name)
    tree = html5lib.parse(
        (both.later.bag / "READ-ME-FIRST.html").read_text(encoding="utf-8"),
        namespaceHTMLElements=False,
    )
    commands = [code.text for code in tree.iter("code") if code.get("data-on") == "linux"]
    bag = tmp_path / both.later.bag.name
    assert (0, b"Good.\n") == _ran(["bash", "-c", commands[-1]], bag)
    assert (0, b"Good.\n") == _ran(["bash", "-c", commands[0]], bag)
    shutil.rmtree(tmp_path / both.first.bag.name / "data/seals")
    assert b"Good.\n" != _ran(["bash", "-c", commands[-1]], bag)[1]


# Who sees what


def test_what_the_next_keeper_may_not_see__is_nowhere(both: Both, pdf: bytes) -> None:
    # A PDF is searched as it reads: chance can make anything of its packed bytes.
    told = files(both.later.bag) | {"data/dossier.pdf": text_in(pdf).encode()}
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

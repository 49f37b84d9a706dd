"""The document of a supplement and the page beside it: what they say, and that what they say to do works.

Read by tools that are not ours: poppler, pikepdf, html5lib, and the commands as they are printed.
"""

import io
import re
import shutil
import subprocess
from hashlib import sha256
from pathlib import Path

import html5lib
import pikepdf
import pytest

from journal.digests.gate import Gate
from journal.digests.since import Bag, digest_since
from journal.ledgers.seals import Seals
from journal.outputs.archive import Order, view_with_pictures
from journal.outputs.bag.earlier import told_now
from journal.outputs.dossier import supplement
from journal.outputs.sealed import seals_of
from journal.outputs.tables_gate import gate_of
from journal.pages.view import CarView
from journal.readers import files_told
from journal.reading.content import read_content
from journal.words.spoken import spoken
from journal.words.vocabulary import Reader
from tests.later import put_delivered, put_later
from tests.printing import outline_of, text_in
from tests.published import CAR, MEANS
from tests.supplementing import LATE, OFF, SERVICE, Both, both_bags, stated


@pytest.fixture(scope="module")
def both() -> Both:
    return both_bags()


@pytest.fixture(scope="module")
def pdf(both: Both) -> bytes:
    return both.pdf


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


# The demonstration after delivery


@pytest.fixture(scope="module")
def after(tmp_path_factory: pytest.TempPathFactory) -> str:
    """What the supplement to the demonstration says, set against how it stood at delivery."""
    root = put_delivered(tmp_path_factory.mktemp("after") / "content")
    view, gate, seals, _ = _standing(root, tmp_path_factory.mktemp("pictures"))
    assert seals.last is not None
    bag = Bag(1, "tern-2025-06-20", view.until, seals.last, told_now(view, gate))
    put_later(root)
    view, gate, seals, pictures = _standing(root, tmp_path_factory.mktemp("pictures"))
    told = files_told(view.reader, view.car, (file.path for file in seals.files))
    since = digest_since(bag, seals=seals, told=told, now=told_now(view, gate))
    return text_in(supplement(view, gate, seals, since, "tern-later").pdf(pictures), "-raw")


def _standing(root: Path, folder: Path) -> tuple[CarView, Gate, Seals, Path]:
    content = read_content(root)
    car = next(c for c in content.cars if c.name == CAR)
    view = view_with_pictures(
        content, car, Order(root, folder, Reader.KEEPER, CAR, means=MEANS), folder
    )
    seals = seals_of(root, car)
    return view, gate_of(car, seals), seals, folder


def test_demonstration__tells_every_change_of_the_first_service(after: str) -> None:
    for told in (
        "Two day sheets are new and one is amended openly.",
        "Chassis: Chassis number stamping Evidence stated proven S 98",
        "Cooling: Thermostat There now old-stock service S 98",
        "Conforms 100 % 50 %",
        "Decided by – the owner",
        "Brakes: Locking of every fastener recorded Proved Out of date; recorded before the work of 4 August"
        " 2025 on Front brake assembly, near side S 98",
        "All ten at 50 lbf ft; two had lost a little; done on 4 August 2025 after it was due, by Miriam"
        " Tallow",
        "Past due, and not done S 96",
        "Cleared Chassis the chassis-stamp number is stated in words alone; no photograph shows it 16 May"
        " 2024",
        "Ten reservations stand. Each holds until a later sheet clears it.",
        "asked for in the sheet of 22 May 2025",
    ):
        assert told in after, told


def test_demonstration__prints_the_new_sheets_whole_and_the_amended_one_as_it_is(
    after: str,
) -> None:
    assert "Ninety-one miles since she took it" in after
    assert "The axle hums no more than it did at delivery." in after
    assert "Put right on 3 July: the rivets are in the tool roll and not in the handbook." in after

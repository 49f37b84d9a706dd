"""The dossier of the demonstration as a file: its standards, its sections, and every line of the ledger.

Read by tools that are not ours: pikepdf and poppler's pdftotext.
"""

import io
import re
from collections import Counter
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from msgspec.structs import replace

from journal.digests.gate import Bar, Gate, Reason
from journal.ledgers.originality import Line
from journal.ledgers.seals import Seals
from journal.outputs.dossier import dossier_pdf
from journal.pages.dossier import SECTIONS, dossier_values
from journal.pages.dossier.book import Book
from journal.pages.dossier.places import Places
from journal.pages.partwords import part_name
from journal.pages.words import share_words, some
from journal.readers import car_for
from journal.words.vocabulary import Evidence, Origin, Reader
from tests.printing import (
    HOSTILE,
    PHOTO,
    demonstration,
    demonstration_dossier,
    demonstration_gate,
    elements_of,
    mappings_in,
    outline_of,
    pages_in,
    small_dossier,
    small_pictures,
    small_view,
    text_in,
)
from tests.writing import a_car, a_sheet


@pytest.fixture(scope="module")
def whole() -> Iterator[pikepdf.Pdf]:
    with pikepdf.open(io.BytesIO(demonstration_dossier())) as pdf:
        yield pdf


@pytest.fixture(scope="module")
def shown() -> str:
    return _unbroken(text_in(demonstration_dossier(), "-raw"))


def _unbroken(text: str) -> str:
    return re.sub(r"[\s\u200b]", "", text)


def _small() -> Any:
    sheet = a_sheet(
        "2024-03-05", name="pipes", title="Pipes off", body="Nine pipes.",
        work={"brakes/pipes": {"did": "fitted", "now": "upgrade", "original": "bin B-2",
                               "why": "rust", "decided": "owner", "reversible": "yes", "undo": "refit"}},
        photos={"file": "pipes.jpg", "of": "brakes/pipes", "alt": "nine bent pipes on a board"},
    )  # fmt: skip
    return a_car({"brakes/pipes": "first-fit", "trim/seat": "unknown"}, [sheet], photos=[PHOTO])


def test_file__claims_both_standards_and_keeps_what_can_be_checked_of_them(
    whole: pikepdf.Pdf,
) -> None:
    """ISO 19005-2 and ISO 14289-1, as reference values list what a reader can check of PDF/A."""
    with whole.open_metadata() as told:
        assert "2A" == told.pdfa_status
        assert "1" == told["pdfuaid:part"]
    root = whole.Root
    assert bool(root.MarkInfo.Marked)
    assert "/StructTreeRoot" in root
    assert "en-GB" == str(root.Lang)
    assert "/GTS_PDFA1" == str(root.OutputIntents[0].S)
    assert "/DestOutputProfile" in root.OutputIntents[0]
    assert "/ID" in whole.trailer
    assert "/Encrypt" not in whole.trailer
    assert "Aldermoor Tern, 1958: provenance dossier" == str(whole.docinfo["/Title"])
    assert "Saltmarsh Lane Workshop" == str(whole.docinfo["/Author"])
    assert bool(root.ViewerPreferences.DisplayDocTitle)


def test_fonts__are_all_in_the_file(whole: pikepdf.Pdf) -> None:
    fonts = [
        o for o in whole.objects
        if isinstance(o, pikepdf.Dictionary) and o.get("/Type") == "/FontDescriptor"
    ]  # fmt: skip
    assert 4 <= len(fonts)
    for font in fonts:
        assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(font.keys()), font


def test_pictures__each_say_in_words_what_they_show(whole: pikepdf.Pdf) -> None:
    figures = [
        o for o in whole.objects
        if isinstance(o, pikepdf.Dictionary) and o.get("/S") == "/Figure"
    ]  # fmt: skip
    assert 40 < len(figures)
    assert [] == [f for f in figures if not str(f.get("/Alt", "")).strip()]
    told = {str(f.Alt) for f in figures}
    assert (
        "The finished deep green drophead with wire wheels and chrome grille in a bright workshop"
        in told
    )


def test_pictures__of_the_values_are_all_printed_with_their_words(whole: pikepdf.Pdf) -> None:
    view, _ = demonstration(Reader.OWNER)
    values = dossier_values(view, demonstration_gate(), Seals(), paper="a4")
    meant = [value["alt"] for value in mappings_in(values) if "file" in value and "alt" in value]
    assert 40 < len(meant)
    told = [str(figure.Alt) for figure in elements_of(whole, "/Figure")]
    assert not Counter(meant) - Counter(told)


def test_tags__make_headings_tables_and_figures_of_what_looks_like_them(whole: pikepdf.Pdf) -> None:
    """ISO 14289-1, 7: real content is tagged as what it is; tables have header cells."""
    view, _ = demonstration(Reader.OWNER)
    assert 1 + len(SECTIONS) == len(elements_of(whole, "/H1"))
    rows = len(elements_of(whole, "/TR"))
    every = len(view.originality.lines) + len(view.car.sheets) + len(view.parts.parts)
    assert every + len(view.proving.lines) < rows
    tables = elements_of(whole, "/Table")
    assert 20 < len(tables)
    assert len(tables) <= len(elements_of(whole, "/TH"))


def test_outline__has_every_section_in_the_order_in_which_a_valuer_reads(
    whole: pikepdf.Pdf,
) -> None:
    view, folder = demonstration(Reader.OWNER)
    book = Book(view, demonstration_gate())
    titles = [section(book).title for section in SECTIONS]
    told = [re.sub(r"^\d+\s*", "", title) for title in outline_of(whole)]
    assert ["Contents", *titles] == told
    assert folder.is_dir()


def test_outline__has_every_subsystem_of_the_ledger_once_however_many_pages_it_takes(
    whole: pikepdf.Pdf,
) -> None:
    view, _ = demonstration(Reader.OWNER)
    places = Places(view)
    with whole.open_outline() as outline:
        (ledger,) = (item for item in outline.root if item.title.endswith("Originality ledger"))
        (lines,) = (item for item in ledger.children if item.title == "Line by line")
        told = [item.title for item in lines.children]
    assert [places.subsystem(name).text for name, _ in view.originality.subsystems] == told


def test_pages__are_all_numbered_and_carry_the_car_and_their_section(whole: pikepdf.Pdf) -> None:
    pages = pages_in(demonstration_dossier())
    count = len(whole.pages)
    assert (count, True) == (len(pages), 60 < count < 110)
    assert "Page 1 of" not in pages[0]
    for number, page in enumerate(pages[1:], 2):
        assert page.startswith("Aldermoor Tern, 1958 "), number
        assert page.endswith(f"Page {number} of {count}"), number
    assert pages[-1].startswith("Aldermoor Tern, 1958 Declaration")


def test_summary__is_one_page(whole: pikepdf.Pdf) -> None:
    assert 1 == _summary_pages(whole)


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_summary__is_one_page_however_much_there_is_to_tell(tmp_path: Path, paper: Any) -> None:
    change = {"did": "fitted", "now": "upgrade", "original": "bin B-2, on the shelf over the bench",
              "why": "rust", "decided": "owner", "reversible": "yes", "undo": "refit"}  # fmt: skip
    work = {f"brakes/a-part-with-quite-a-long-name-{n}": change for n in range(30)}
    car = a_car(dict.fromkeys(work, "first-fit"), [a_sheet("2024-03-05", work=work)])
    long = (
        "a hold that takes quite some words to tell, more than one line of the page has room for, "
        * 2
    )
    gate = Gate(tuple(Reason(Bar.HOLD, f"{long}{n}", "r", "brakes", None) for n in range(20)))
    pdf = dossier_pdf(small_view(car), gate, Seals(), small_pictures(tmp_path), paper=paper)
    with pikepdf.open(io.BytesIO(pdf)) as read:
        assert 1 == _summary_pages(read)
    (page,) = (p for p in pages_in(pdf) if " Summary 2 Summary " in p)
    shown = page.count("first-fit to upgrade")
    assert 5 < shown < 30
    assert f"and {some(30 - shown, 'more departure')}, further on" in page
    told = page.count("a hold that takes") // 2
    assert 2 <= told <= 6
    assert f"and {some(20 - told, 'more reservation')}, on the first page" in page


def _summary_pages(pdf: pikepdf.Pdf) -> int:
    pages = {}
    with pdf.open_outline() as outline:
        for item in outline.root:
            found = item.destination or item.action.D
            assert not isinstance(found, pikepdf.String | pikepdf.Name)
            pages[re.sub(r"^\d+\s*", "", item.title)] = pikepdf.Page(found[0]).index
    return pages["Condition as booked in"] - pages["Summary"]


def test_ledger__every_line_is_there_with_all_that_it_says(shown: str) -> None:
    """Cell after cell as the page has them: name, weight, origin and share as found, as delivered,
    conformity, evidence, sheets; nothing but notes between name and weight."""
    view, _ = demonstration(Reader.OWNER)
    places = Places(view)
    assert 150 < len(view.originality.lines)
    at = shown.index("Underthenameofacomponentstandswhattheworksfitted")
    at = shown.index("Linebyline", at)
    for line in view.originality.lines:
        found = _ledger_line(line, places).search(shown, at)
        assert found is not None, line.component.key
        # Nothing but heads, and names of groups, stands between one line and the next.
        assert found.start() - at < 260, line.component.key
        at = found.end()


def test_ledger__a_line_that_says_anything_else_would_not_be_found(shown: str) -> None:
    view, _ = demonstration(Reader.OWNER)
    places = Places(view)
    line = next(x for x in view.originality.lines if x.component.key == "engine/oil-filter")
    assert _ledger_line(line, places).search(shown)
    for other in (
        replace(line, as_found=replace(line.as_found, origin=Origin.PATTERN)),
        replace(line, now=replace(line.now, origin=Origin.FIRST_FIT)),
        replace(line, evidence=Evidence.DISPUTED),
        replace(line, biography=line.biography[:1]),
    ):
        assert not _ledger_line(other, places).search(shown)


def _ledger_line(line: Line, places: Places) -> re.Pattern[str]:
    sheets = ",".join(r.text for r in places.sheet_codes(e.sheet for e in line.biography))
    found, now = line.as_found, line.now
    cells = (
        line.component.label,
        r"\0",
        f"{float(line.weight):g}",
        found.origin.value,
        r"\0",
        share_words(found.material),
        now.origin.value,
        r"\0",
        share_words(now.material),
        share_words(now.conformity),
        line.evidence.value,
        sheets,
    )
    told = "".join(r".{0,400}?" if cell == r"\0" else re.escape(_unbroken(cell)) for cell in cells)
    return re.compile(told + r"(?!,S)")


def test_departures_parts_proofs_and_readings__are_all_there(shown: str) -> None:
    view, _ = demonstration(Reader.OWNER)
    for line in view.originality.lines:
        if line.departure is not None and line.departure.why:
            assert _unbroken(line.departure.why) in shown
    for part in view.parts.parts:
        assert _unbroken(part.number or part_name(part)) in shown, part.name
    for proof in view.proving.lines:
        assert _unbroken(proof.label) in shown
    for sheet in view.car.sheets:
        assert _unbroken(sheet.title) in shown
    for picture in view.gallery.pictures:
        if picture.facts is not None and picture.path in view.pictures:
            assert picture.facts.sha256 in shown


def test_reservations__each_stand_on_the_first_page() -> None:
    first = _unbroken(text_in(demonstration_dossier(), "-l", "1"))
    reasons = demonstration_gate().reasons
    assert 2 == len(reasons)
    for reason in reasons:
        assert _unbroken(reason.told()) in first


def test_reservations__however_many_there_are_none_is_left_out(tmp_path: Path) -> None:
    many = tuple(
        Reason(Bar.UNPROVED, f"proof {n} is not recorded", "a proof", "brakes", None)
        for n in range(200)
    )
    text = _unbroken(text_in(small_dossier(_small(), tmp_path, gate=Gate(many))))
    assert [] == [n for n in range(200) if f"proof{n}isnotrecorded" not in text]


def test_draft__says_so_on_every_page_until_the_car_is_delivered() -> None:
    day = date(2024, 3, 13)
    pdf = demonstration_dossier(Reader.OWNER, day)
    with pikepdf.open(io.BytesIO(pdf)) as read:
        count = len(read.pages)
    for page in (1, 2, count // 2, count):
        assert "Draft of 13 March 2024" in text_in(pdf, "-f", str(page), "-l", str(page)), page
    assert "This is a draft and not to be signed." in text_in(pdf, "-f", str(count))
    assert "Draft of" not in text_in(demonstration_dossier(), "-l", "3")


def test_money__is_not_in_the_dossier_of_who_sees_none(shown: str) -> None:
    assert "£" in shown
    assert "£" not in text_in(demonstration_dossier(Reader.PUBLIC))


@pytest.mark.parametrize("leave", ["no", "yes"])
def test_money__is_in_the_dossier_of_the_next_keeper_by_leave_of_the_owner_alone(
    tmp_path: Path, leave: str
) -> None:
    goods = {"from": "northgate", "ordered": "2024-03-01", "received": "2024-03-04",
             "outcome": "accepted", "fitted": "2024-03-05", "price": "48.50"}  # fmt: skip
    sheet = a_sheet(
        "2024-03-05", hours={"MT": "3"}, parts={"cylinder": goods},
        outwork={"plating": {"sent": "2", "back": "2", "to": "ravensdyke", "cost": "20"}},
        extras={"lamps": {"what": "Lamps", "price": "90", "decided": "owner"}},
    )  # fmt: skip
    paid = [{"on": "2024-01-01", "amount": "900"}]
    whole = a_car({"brakes/pipes": "first-fit"}, [sheet], prices_shown=leave, payments=paid)
    view = small_view(car_for(Reader.KEEPER, whole), Reader.KEEPER)
    text = text_in(dossier_pdf(view, Gate(), Seals(), small_pictures(tmp_path)))
    assert "Cylinder" in text
    assert {"no": [], "yes": ["£20.00", "£48.50"]}[leave] == sorted(
        {*re.findall(r"£[\d.,]+\d", text)}
    )


def test_same_car__same_bytes_and_nothing_of_the_machine(tmp_path: Path) -> None:
    car = _small()
    one, two = (small_dossier(car, small_pictures(tmp_path / name)) for name in ("a", "b"))
    assert one == two
    with pikepdf.open(io.BytesIO(one)) as read:
        held = b"".join(
            o.read_bytes()
            for o in read.objects
            if isinstance(o, pikepdf.Stream) and "/Width" not in o
        )
    assert str(tmp_path).encode() not in one + held


@pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("us-letter", (612, 792))])
def test_paper__is_a4_or_letter(tmp_path: Path, paper: Any, size: tuple[int, int]) -> None:
    car = _small()
    pdf = dossier_pdf(small_view(car), Gate(), Seals(), small_pictures(tmp_path), paper=paper)
    with pikepdf.open(io.BytesIO(pdf)) as read:
        boxes = {tuple(round(float(n)) for n in page.mediabox)[2:] for page in read.pages}
    assert {size} == boxes


def test_empty_car__prints_and_says_plainly_what_is_not_known(tmp_path: Path) -> None:
    text = text_in(small_dossier(a_car({}), tmp_path))
    for words in (
        "The register holds no components.",
        "No number of the car is written down.",
        "No papers are written down.",
        "No day of work is written.",
        "No parts are written down.",
        "No reading is written down.",
        "This record is not sealed.",
        "No item that came off the car is kept.",
        "The sheets leave nothing open and nothing to be watched.",
    ):
        assert words in text, words


@pytest.mark.parametrize("part", [HOSTILE[:14], HOSTILE[14:]])
def test_hostile_words__in_every_field_stay_words(tmp_path: Path, part: tuple[str, ...]) -> None:
    said = " ".join(part)
    sheet = a_sheet(
        "2024-03-05", name="pipes", title=said, body=said, hours={"MT": "3"},
        work={"brakes/pipes": {"did": "fitted", "now": "upgrade", "original": said, "why": said,
                               "decided": said, "reversible": "yes", "undo": said, "found": said,
                               "number": said, "note": said}},
        parts={"unions": {"what": said, "number": said, "from": "northgate", "price": "12.00"}},
        outwork={"clips": {"what": said, "to": "northgate", "sent": "9", "finish": said}},
        measured={said: {"on": "brakes/pipes", "read": "3.2", "unit": "mm", "with": said, "note": said}},
        snags={"bleed": {"raise": said, "hold": "yes"}},
        photos={"file": "pipes.jpg", "of": "brakes/pipes", "caption": said, "alt": said},
        papers="card",
    )  # fmt: skip
    car = a_car(
        {"brakes/pipes": {"as-found": "first-fit", "works": said, "condition": said, "name": said}},
        [sheet], photos=[PHOTO], name=said, body=said, brief=said, condition=said,
        papers={"card": {"title": said, "says": said, "numbers": {"chassis": said}}},
    )  # fmt: skip
    text = _unbroken(text_in(small_dossier(car, tmp_path), "-raw"))
    for words in part:
        if words.isascii() and words.isprintable():
            assert 5 < text.count(_unbroken(words)), words

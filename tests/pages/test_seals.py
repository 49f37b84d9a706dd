"""The page of seals and the line on each sheet: what is honest, what is not, for each reader."""

from datetime import date
from html import unescape
from typing import Any

import cv2
import html5lib
import numpy
import pytest

from journal.ledgers.seals import UNSEALED, Fault, SealedFile, Sealing, Seals, Standing, shown_seals
from journal.outputs.theme import environment, theme_folder
from journal.pages.qr import QUIET, Code, qr_code
from journal.pages.seals import page_seals
from journal.pages.sheet import page_sheet
from journal.pages.standing import standing_sentences
from journal.pages.view import CarView, view_of
from journal.readers import car_for, files_told
from journal.records.seal import Statement
from journal.words.spoken import spoken
from journal.words.vocabulary import Reader
from tests.writing import a_car, a_sheet

TEMPLATES = environment(theme_folder())
ROOT, KEY = "2ebc6492a7fd3ac3" * 4, "f0" * 32
ON, AGAIN = date(2024, 4, 1), date(2024, 5, 2)
SHEET = "sheets/2024-03-05-day.md"
FIRST, SECOND = Sealing(1, ON, "a" * 64), Sealing(2, AGAIN, "b" * 64)


def _statement(number: int, entries: int, before: int) -> Statement:
    return Statement(
        "tern", "Saltmarsh Lane Workshop", number, date(2024, 3, 31), ON, entries, ROOT, before,
        ROOT, KEY,
    )  # fmt: skip


def _seals(standing: Standing, *sealings: Sealing, path: str = SHEET) -> Seals:
    now = None if standing is Standing.REMOVED else "c" * 64
    return Seals((_statement(1, 1, 0),), (SealedFile(path, standing, sealings, now),))


def _view(seals: Seals, reader: Reader = Reader.OWNER) -> CarView:
    sheet = a_sheet("2024-03-05", title="Gearbox apart", photos="laygear.jpg")
    car = car_for(reader, a_car({}, [sheet], photos=["2024-03-05/laygear.jpg"]))
    told = files_told(reader, car, seals.by_path)
    shown = seals if reader is Reader.WORKSHOP else shown_seals(seals, told)
    return view_of(car, reader, pictures={}, seals=shown)


def _shown(make: Any, view: CarView) -> str:
    page = make(view)[0]
    printed = TEMPLATES.get_template(page.template).render(page.values)
    html5lib.HTMLParser(strict=True).parse(printed)
    return unescape(printed)


@pytest.mark.parametrize(
    ("standing", "sealings", "line", "grave"),
    [
        (Standing.SEALED, [FIRST], "Sealed on 1 April 2024, unchanged", False),
        (Standing.AMENDED, [FIRST, SECOND],
         "Sealed on 1 April 2024, amended openly and sealed again on 2 May 2024", False),
        (Standing.AMENDED, [FIRST], "Sealed on 1 April 2024, amended openly and sealed again later", False),
        (Standing.ADDED, [SECOND], "Added after its day was closed, and sealed openly on 2 May 2024", False),
        (Standing.CHANGED, [FIRST, SECOND], "Changed after it was sealed on 2 May 2024", True),
        (Standing.LATE, [], "Written after its day was closed, and not sealed", True),
        (Standing.OPEN, [], "Not sealed yet", False),
    ],
)  # fmt: skip
def test_sheet__says_how_it_stands_to_the_seals(
    standing: Standing, sealings: list[Sealing], line: str, grave: bool
) -> None:
    shown = _shown(page_sheet, _view(_seals(standing, *sealings)))
    tone = " hold" if grave else ""
    assert f'<p class="standing{tone}"><a href="../seals.html">{line}</a></p>' in shown


def test_sheet__tells_of_its_photographs_that_were_changed() -> None:
    view = _view(_seals(Standing.CHANGED, FIRST, path="photos/2024-03-05/laygear.jpg"))
    assert 'class="standing' not in _shown(page_sheet, view)
    sheet = SealedFile(SHEET, Standing.SEALED, (FIRST,), "a" * 64)
    photo = _seals(Standing.CHANGED, FIRST, path="photos/2024-03-05/laygear.jpg").files[0]
    shown = _shown(page_sheet, _view(Seals((_statement(1, 2, 0),), (sheet, photo))))
    assert "unchanged</a>. One photograph was changed after being sealed</p>" in shown


@pytest.mark.parametrize("seals", [UNSEALED, _seals(Standing.SEALED, FIRST)])
def test_sheet_without_a_seal_or_for_the_public__says_nothing_of_seals(seals: Seals) -> None:
    reader = Reader.PUBLIC if seals.statements else Reader.OWNER
    assert 'class="standing' not in _shown(page_sheet, _view(seals, reader))


def test_page__says_that_the_record_holds_with_its_words_its_code_and_its_key() -> None:
    shown = _shown(page_seals, _view(_seals(Standing.SEALED, FIRST)))
    assert "The record holds: up to 31 March 2024 everything is as it was sealed" in shown
    assert "1 file in all: one as sealed." in shown
    assert all(f"<li>{group}</li>" in shown for group in spoken(bytes.fromhex(ROOT)))
    assert ", ".join(spoken(bytes.fromhex(KEY))[:4]) in shown
    assert qr_code(ROOT.upper()).path in shown
    assert "sha256sum --check seals/*/entries.sha256" in shown


@pytest.mark.parametrize(
    ("standing", "heading", "grave"),
    [
        (Standing.CHANGED, "Changed after it was sealed", True),
        (Standing.LATE, "Written later for days that were closed", True),
        (Standing.AMENDED, "Amended openly", False),
        (Standing.ADDED, "Added openly", False),
    ],
)
def test_page__names_each_sheet_that_is_not_as_it_was_first_sealed(
    standing: Standing, heading: str, grave: bool
) -> None:
    shown = _shown(page_seals, _view(_seals(standing, FIRST, SECOND)))
    tone = ' class="hold"' if grave else ""
    assert f'<h2 id="{standing.value}"{tone}>{heading}</h2>' in shown
    assert 'href="sheets/2024-03-05-day.html">Gearbox apart</a>, 5 March 2024' in shown
    assert "Sealed on 1 April 2024, and again on 2 May 2024" in shown
    assert grave is ("The record is not what was sealed." in shown)


def test_page__counts_what_its_reader_is_not_told_of() -> None:
    seals = _seals(Standing.CHANGED, FIRST, path="sheets/2024-03-06-secret-talk.md")
    shop, owner = (_shown(page_seals, _view(seals, r)) for r in (Reader.WORKSHOP, Reader.OWNER))
    assert "sheets/2024-03-06-secret-talk.md" in shop
    assert "secret" not in owner
    assert "One file that is not named in this archive." in owner
    gone = _view(_seals(Standing.REMOVED, FIRST), Reader.PUBLIC)
    assert "One file that is not named, since it is gone." in _shown(page_seals, gone)


def test_page_for_the_public__has_the_counts_and_the_root_and_no_sheet() -> None:
    shown = _shown(page_seals, _view(_seals(Standing.AMENDED, FIRST, SECOND), Reader.PUBLIC))
    assert "1 file in all: one amended openly." in shown
    assert spoken(bytes.fromhex(ROOT))[0] in shown
    assert "Gearbox apart" not in shown


def test_page__says_what_is_wrong_with_a_seal_itself() -> None:
    seals = Seals(
        (_statement(1, 1, 0),), (), (Fault("0002", "its root is not that of its list", "aa", "bb"),)
    )
    owner, shop = (_shown(page_seals, _view(seals, r)) for r in (Reader.OWNER, Reader.WORKSHOP))
    assert "Seal 0002 does not hold: its root is not that of its list" in owner
    assert "Expected aa, found bb" in shop
    assert "Expected" not in owner


def test_page_of_a_record_without_seals__says_what_that_means() -> None:
    shown = _shown(page_seals, _view(UNSEALED))
    assert "that nothing was altered rests on the word of the workshop alone." in shown
    broken = _shown(
        page_seals, _view(Seals((), (), (Fault("0001", "the list of entries cannot be read"),)))
    )
    assert "There are seals, and none of them holds." in broken


def test_front__says_up_to_when_the_record_is_sealed_and_whether_it_holds() -> None:
    assert "The record is sealed up to 31 March 2024, and holds." in standing_sentences(
        _view(_seals(Standing.SEALED, FIRST))
    )
    assert "The record is not what was sealed." in standing_sentences(
        _view(_seals(Standing.CHANGED, FIRST))
    )
    assert not any("seal" in words for words in standing_sentences(_view(UNSEALED)))


def _drawn(code: Code, scale: int = 8) -> Any:
    """The picture that the path draws, white where it does not."""
    picture = numpy.full((code.side * scale, code.side * scale), 255, numpy.uint8)
    for run in code.path.split("M")[1:]:
        place, _, rest = run.partition("h")
        (x, y), length = map(int, place.split()), int(rest.partition("v")[0])
        picture[y * scale : (y + 1) * scale, x * scale : (x + length) * scale] = 0
    return picture


@pytest.mark.parametrize("text", [ROOT.upper(), "0123456789ABCDEF" * 4])
def test_code__is_read_by_another_reader(text: str) -> None:
    """Source: the QR reader of OpenCV, which shares no code with the writer."""
    read, *_ = cv2.QRCodeDetector().detectAndDecode(_drawn(qr_code(text)))
    assert text == read


def test_code__keeps_the_quiet_zone_of_four_modules() -> None:
    # Source: ISO/IEC 18004, the quiet zone of a QR code is four modules wide on all sides.
    code = qr_code(ROOT.upper())
    picture = _drawn(code, 1)
    assert QUIET == 4
    assert (
        255
        == picture[:4].min()
        == picture[-4:].min()
        == picture[:, :4].min()
        == picture[:, -4:].min()
    )

"""Names of files: blanks, quotes, signs of markup and of addresses, and both forms of an accent.

Unicode normal forms: UAX 15. `é` is U+00E9 in form C and `e` with U+0301 in form D; a disk keeps
whichever it was given.
"""

import os
import re
import unicodedata
from pathlib import Path
from urllib.parse import unquote

import pytest

from journal.outputs.findings import problems_of
from journal.reading.content import read_content
from journal.words.names import file_name
from journal.words.vocabulary import Reader
from tests.commands.running import files, run
from tests.hostile.parsing import elements, parsed
from tests.hostile.test_markup import archive_for, only_ours
from tests.published import pages
from tests.tern import SHEET, a_picture, put_content, put_file, sheet_text

ODD = (
    "laygear 1 (2).jpg", "o'clock.jpg", 'a "b" c.jpg', "<zqa zqb=1>.jpg", "a&b;c.jpg", "50% #2?.jpg",
    "a\\b.jpg", "-rf.jpg", "a:b|c*.jpg", "\U0001f527.jpg", "\u05d0\u05d1.jpg", "Coupe\u0301.jpg", "Ängel.jpg",
    "{{ zq }}.jpg", "a=b,c.jpg", "name.with.dots.jpg", "JPG",
)  # fmt: skip


def _quoted(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


def _told(content: Path) -> list[tuple[str, str, str]]:
    return [(p.place.path, p.code, p.message) for p in problems_of(read_content(content))]


def test_photograph_under_an_odd_name__is_found_and_shown(tmp_path: Path) -> None:
    front = "photos:\n" + "".join(
        f"  - {{file: {_quoted(name)}, of: gearbox/laygear, caption: Number {n}, alt: A gear}}\n"
        for n, name in enumerate(ODD)
    )
    content = put_content(tmp_path / "content", **{SHEET: sheet_text(front)})
    for n, name in enumerate(ODD):
        put_file(content, f"tern/photos/2024-03-05/{name}", a_picture() + bytes([n]))
    assert {"misnamed-picture"} >= {code for _, code, _ in _told(content)}
    archive = archive_for(content)
    shown = [e for page in pages(archive) for e in elements(parsed(page)) if e.tag == "img"]
    assert len(ODD) <= len({e.attrib["src"].rpartition("/")[2] for e in shown})
    for element in shown:
        assert re.fullmatch(r"[a-z0-9/.-]+", element.attrib["src"])
    for page in pages(archive):
        only_ours(parsed(page))


NAMES = (
    "two words", "o'clock", 'say "so"', "<zqa zqb=1>", "a&b;c", "50% #2?", "a\\b", "a:b|c*", "Coupe\u0301",
    "\U0001f527", "\u05d0\u05d1", "%2e%2e", "index", "con", "Capitals", "x" * 185, "javascript:zq()",
)  # fmt: skip


def test_sheet_under_an_odd_name__has_a_page_of_its_own_that_every_link_finds(
    tmp_path: Path,
) -> None:
    sheets = {
        f"tern/sheets/2024-03-05-{name}.md": sheet_text(f"title: Number {n}")
        for n, name in enumerate(NAMES)
    }
    index = {"tern/sheets/index.md": sheet_text("title: Number 99")}
    content = put_content(tmp_path / "content", **sheets, **index)
    assert [] == _told(content)
    archive = archive_for(content)
    own = {
        heading.text
        for page in pages(archive)
        if page.parent.name == "sheets" and (heading := parsed(page).find(".//h1")) is not None
    }
    assert {f"Number {n}" for n in (*range(len(NAMES)), 99)} <= {str(text).strip() for text in own}
    for page in pages(archive):
        root = parsed(page)
        only_ours(root)
        for element in elements(root):
            href = str(element.attrib.get("href", "#")).partition("#")[0]
            if href and not href.startswith("http"):
                assert re.fullmatch(r"[A-Za-z0-9/._-]+", href)
                assert (page.parent / unquote(href)).exists(), f"{page.name} leads to {href}"


@pytest.mark.parametrize("name", NAMES)
def test_name_of_a_page__is_safe_on_every_system(name: str) -> None:
    made = file_name(name)
    assert re.fullmatch(r"[A-Za-z0-9]+([-_.]{1,2}[A-Za-z0-9]+)*", made)
    assert len(made) <= 100
    assert made.casefold() not in ("index", "con", "nul", "aux", "prn")


def test_name_of_a_page__is_that_of_no_other() -> None:
    assert len(NAMES) == len({file_name(name) for name in NAMES})
    # What is made for an unsafe name is itself no safe one, so it is made for no other name.
    assert file_name("two words") != file_name(file_name("two words"))
    # SHA-256 of "two words", by sha256sum of the GNU coreutils.
    assert "two-words--a03f1d611645" == file_name("two words")


def _forms(name: str) -> tuple[str, str]:
    return unicodedata.normalize("NFC", name), unicodedata.normalize("NFD", name)


@pytest.mark.parametrize("turned", [False, True], ids=["C finds D", "D finds C"])
def test_name_in_one_form__finds_the_file_in_the_other(turned: bool, tmp_path: Path) -> None:
    (written, lies) = _forms("Coupé ñandú Åse")[:: -1 if turned else 1]
    front = f"""\
photos:
  - {{file: {written}.jpg, of: gearbox/laygear, alt: One}}
  - {{file: {written}/{written}.jpg, of: gearbox/laygear, alt: Two}}
papers: factory-record
corrects: 2024-03-04-{written}
"""
    body = f"As told [before](<2024-03-04-{written}>).\n"
    content = put_content(
        tmp_path / "content",
        **{
            SHEET: sheet_text(front, body),
            f"tern/sheets/2024-03-04-{lies}.md": sheet_text("title: Before", date="2024-03-04"),
            "tern/papers/papers.yaml": "papers: {factory-record: {title: Record, alt: A sheet of paper, "
            f"file: {written}.jpg}}}}\n",
        },
    )  # fmt: skip
    car = (content / "tern/car.yaml").read_text(encoding="utf-8")
    put_file(content, "tern/car.yaml", f"{car}cover: {written}/{written}.jpg\n".encode())
    for n, path in enumerate(
        (f"photos/2024-03-05/{lies}", f"photos/{lies}/{lies}", f"papers/{lies}")
    ):
        put_file(content, f"tern/{path}.jpg", a_picture() + bytes([n]))
    assert [] == _told(content)
    archive = archive_for(content, Reader.OWNER)
    sheet = parsed(archive / "sheets/2024-03-05-gearbox.html")
    assert {"One", "Two"} <= {str(e.attrib.get("alt")) for e in elements(sheet)}
    (link,) = [e for e in elements(sheet) if e.tag == "a" and e.text == "before"]
    before = archive / "sheets" / link.attrib["href"]
    assert f"{file_name(f'2024-03-04-{_forms(lies)[0]}')}.html" == before.name
    assert before.exists()
    assert "A sheet of paper" in {
        e.attrib.get("alt") for e in elements(parsed(archive / "papers.html"))
    }


def test_same_sheet_in_both_forms__is_one_name_twice(tmp_path: Path) -> None:
    one, other = (f"tern/sheets/2024-03-05-{form}.md" for form in _forms("coupé"))
    content = put_content(tmp_path / "content", **{one: sheet_text(), other: sheet_text()})
    assert ["sheet-name-twice"] == [code for _, code, _ in _told(content)]


def test_sheets_that_differ_in_capitals_alone__are_one_name_twice(tmp_path: Path) -> None:
    paths = ("tern/sheets/2024-03-05-A.md", "tern/sheets/2024-03-05-a.md")
    content = put_content(tmp_path / "content", **{path: sheet_text() for path in paths})
    assert ["sheet-name-twice"] == [code for _, code, _ in _told(content)]


UNTELLABLE = (
    b"coup\xe9", b"line\nend", b"tab\there", b"bell\x07", b"\x1b[31mred", b"gpj.\xe2\x80\xaecod",
    b"no\xe2\x80\x8bwidth", b"y" * 240,
)  # fmt: skip


@pytest.mark.parametrize("name", UNTELLABLE)
def test_name_that_cannot_be_printed__is_told_in_letters_that_can(
    name: bytes, tmp_path: Path
) -> None:
    content = put_content(tmp_path / "content")
    (content / "tern/sheets").mkdir()
    root = os.fsencode(content)
    for folder, ending in ((b"sheets", b".md"), (b"photos", b".jpg"), (b"papers", b".jpg")):
        with open(os.path.join(root, b"tern", folder, name + ending), "wb") as file:
            file.write(sheet_text().encode())
    os.mkdir(os.path.join(root, name))
    with open(os.path.join(root, name, b"car.yaml"), "wb") as file:
        file.write(b"name: x\n")
    assert ["bad-file-name"] * 4 == [code for _, code, _ in _told(content)]
    for form in ("text", "json"):
        told = run("check", content, "--as", form).output
        assert "\nend" not in told
        assert not re.search("[\x00-\x09\x0b-\x1f\x7f-\x9f\u200b\u202e\ud800-\udfff]", told)
    assert (archive_for(content) / "index.html").exists()


def test_folder_of_a_car__is_called_by_a_name_that_works_everywhere(tmp_path: Path) -> None:
    content = put_content(tmp_path / "content")
    car = (content / "tern/car.yaml").read_bytes()
    for name in ("My Car", "Plover", "co\u0301upe", "a'b", "x" * 101):
        put_file(content, f"{name}/car.yaml", car)
    assert ["bad-file-name"] * 5 == [code for _, code, _ in _told(content)]
    assert 'the folder "My Car" cannot name a car' in [message for _, _, message in _told(content)]
    assert ["tern"] == [car.name for car in read_content(content).cars]


@pytest.mark.parametrize(
    "data",
    [
        b"<svg xmlns='http://www.w3.org/2000/svg'><script>zq()</script></svg>",
        b"<?xml version='1.0'?><!DOCTYPE svg><svg onload='zq()'/>",
        b"<!doctype html><script>zq()</script>",
    ],
)
@pytest.mark.parametrize("name", ["drawing.svg", "drawing.jpg", "drawing.SVG.png"])
def test_drawing_in_place_of_a_photograph__is_told_and_in_no_archive(
    data: bytes, name: str, tmp_path: Path
) -> None:
    front = f"photos: [{{file: {name}, of: gearbox/laygear, alt: Zq}}]"
    content = put_content(tmp_path / "content", **{SHEET: sheet_text(front)})
    put_file(content, f"tern/photos/2024-03-05/{name}", data)
    result = run("publish", content, "--for", "workshop", "--to", tmp_path / "archive")
    assert f"tern/photos/2024-03-05/{name}:1: warning[bad-picture]" in result.output
    assert not [path for path, made in files(tmp_path / "archive").items() if b"zq()" in made]
    assert not [p for p in (tmp_path / "archive").rglob("*.svg") if p.name != "icon.svg"]

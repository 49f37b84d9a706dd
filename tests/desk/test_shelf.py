"""What lies under a path, and that nothing else does."""

import re
from html import unescape
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.desk.shelf import Shelf
from journal.outputs.archive import Order
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.desk.asking import Asked, asking
from tests.plainly import publish
from tests.published import MEANS
from tests.tern import SHEET, put_content, put_file, sheet_text

SECRET = "a word that lies beside the workshop and is nobody's business"


def _plain(text: str) -> str:
    """A page without what the desk adds to it."""
    text = re.sub(r'<meta name="journal-state".*?</script>\n', "", text, flags=re.DOTALL)
    text = re.sub(r'<div class="desk-bar">.*?</aside>\n', "", text, flags=re.DOTALL)
    text = re.sub(r'<p class="[^"]*desk-only">.*?</p>\n', "", text)
    return text.replace("; connect-src 'self'", "")


def test_answer__is_the_archive_that_publish_writes(tmp_path: Path) -> None:
    root = tmp_path / "content"
    put_content(root, **{SHEET: sheet_text("hours: {MT: 3.5}\nphotos: laygear.jpg")})
    for path in ("car.yaml", "register.yaml"):
        put_file(root, f"plover/{path}", (root / "tern" / path).read_bytes())
    publish(read_content(root), Order(root, tmp_path / "archive", Reader.WORKSHOP, means=MEANS))
    with asking(root, tmp_path / "keep") as asked:
        asked.desk.live.check()
        written = [p for p in (tmp_path / "archive").rglob("*") if p.is_file() and p.name[0] != "."]
        assert len(written) > 60
        for file in written:
            path = file.relative_to(tmp_path / "archive").as_posix()
            answer = asked.browser.get(f"/{path}")
            assert 200 == answer.status_code, path
            if path.endswith(".html"):
                assert file.read_text("utf-8") == _plain(answer.text), path
            else:
                assert file.read_bytes() == answer.content, path


def test_page_of_a_sheet__leads_to_where_it_is_changed(desk: Asked) -> None:
    (sheet,) = (s.name for s in desk.desk.live.state.cars["tern"].view.car.sheets[:1])
    page = desk.browser.get(f"/tern/sheets/{sheet}.html").text
    (href,) = re.findall(r'<a href="([^"]*)">Change this sheet</a>', page)
    change = desk.browser.get(unescape(href))
    assert (200, f"/day?car=tern&sheet={sheet}") == (change.status_code, unescape(href))
    ledger = desk.browser.get("/tern/ledger.html").text
    assert "Change this sheet" not in ledger
    assert '<a href="/day">Write the day</a>' in ledger


@pytest.mark.parametrize(
    "path",
    ["/tern", "/tern/car.yaml", "/tern/sheets/2024/2024-03-05-gearbox.md", "/workshop.yaml",
     "/tern/photos/2024-03-05/laygear.jpg", "/tern/sheets/", "/tern/pictures/files/", "/_/",
     "/_/live-head.html", "/base.html", "/%2e%2e/secret", "/tern/..%2f..%2fsecret",
     "/tern//index.html",
     "/tern/pictures/files/0000000000000000-400.webp", "/_/%2e%2e/style.css", "/tern/index.html%00"],
)  # fmt: skip
def test_answer__no_file_of_the_writer_no_listing_no_way_out(desk: Asked, path: str) -> None:
    answer = desk.browser.get(path)
    if path == "/tern/sheets/":
        # The folder of the sheets has a page, as in the archive.
        assert "<h1>Day sheets</h1>" in answer.text
        return
    assert 404 == answer.status_code
    assert "There is no page under this address." in answer.text


PIECES = st.sampled_from(
    ["..", ".", "", "tern", "sheets", "pictures", "files", "photos", "secret", "workshop.yaml", "_", "api",
     "index.html", "find", "statements", "\0", "%2e%2e", "..\\", "C:", "~", "style.css", "live"]
) | st.text(max_size=8)  # fmt: skip


@given(st.lists(PIECES, max_size=8))
def test_answer__any_path_is_a_known_name_or_nothing(
    tmp_path_factory: pytest.TempPathFactory, pieces: list[str]
) -> None:
    shelf, root = _shelf(tmp_path_factory)
    answer = shelf.answer("/".join(pieces))
    if answer is not None:
        assert SECRET.encode() not in answer.data
        raw = {p.read_bytes() for p in root.rglob("*") if p.is_file()}
        assert answer.data not in raw


_MADE: list[tuple[Shelf, Path]] = []


def _shelf(paths: pytest.TempPathFactory) -> tuple[Shelf, Path]:
    """One for all examples."""
    if not _MADE:
        folder = paths.mktemp("beside")
        (folder / "secret").write_text(SECRET)
        root = put_content(folder / "content", **{SHEET: sheet_text()})
        with asking(root, folder / "keep") as asked:
            _MADE.append((asked.desk.shelf, root))
    return _MADE[0]


def test_page__is_answered_not_again_when_the_browser_has_it(desk: Asked) -> None:
    first = desk.browser.get("/tern/ledger.html")
    told = {"if-none-match": first.headers["etag"]}
    again = desk.browser.get("/tern/ledger.html", headers=told)
    assert (304, b"") == (again.status_code, again.content)


def test_pictures__are_made_when_asked_for_and_kept_by_the_browser(tmp_path: Path) -> None:
    root = put_content(tmp_path / "content", **{SHEET: sheet_text("photos: laygear.jpg")})
    with asking(root, tmp_path / "keep") as asked:
        (path,) = set(
            re.findall(
                r"pictures/(files/\w+-\d+\.webp)", asked.browser.get("/tern/pictures/1.html").text
            )
        ) or {""}
        answer = asked.browser.get(f"/tern/pictures/{path}")
        assert (200, "image/webp") == (answer.status_code, answer.headers["content-type"])
        assert "private, max-age=31536000, immutable" == answer.headers["cache-control"]


def test_fault__is_told_in_words_and_shows_nothing_of_the_program(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = put_content(tmp_path / "content", **{SHEET: sheet_text()})
    with asking(root, tmp_path / "keep") as asked:

        def stumble(_self: Shelf, _path: str) -> None:
            raise RuntimeError("a word of the program")

        monkeypatch.setattr(Shelf, "answer", stumble)
        answer = asked.browser.get("/tern/index.html")
        assert 500 == answer.status_code
        assert "The desk has stumbled" in answer.text
        assert "nobody" not in answer.text
        assert "a word of the program" not in answer.text
        assert "Traceback" not in answer.text

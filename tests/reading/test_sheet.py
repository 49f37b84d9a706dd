"""One sheet: its bytes, its front matter and its text."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from journal.reading.sheet import read_sheet
from journal.records.codes import CODES
from journal.records.problem import Problem
from journal.records.sheet import Sheet
from tests.tern import sheet_text

PATH = "tern/sheets/2024-03-05-gearbox-apart.md"


def _read(root: Path, data: bytes) -> tuple[Sheet | None, list[Problem]]:
    file = root / PATH
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(data)
    return read_sheet(root, PATH)


def _told(root: Path, data: bytes) -> list[tuple[int, str, str]]:
    sheet, problems = _read(root, data)
    assert sheet is None
    return [(p.place.line, p.code, p.message) for p in problems]


def test_sheet__is_read_with_its_name_its_day_and_its_text(tmp_path: Path) -> None:
    sheet, problems = _read(tmp_path, sheet_text(body="\nOut whole.\n").encode())
    assert [] == problems
    assert sheet is not None
    assert ("2024-03-05-gearbox-apart", "2024-03-05") == (sheet.name, sheet.date.isoformat())
    assert "Gearbox apart" == sheet.title
    assert [("Out whole.", 6)] == [(b.text, b.line) for b in sheet.body]
    assert ("date: 2024-03-05", "---") == (sheet.source.text_at(2), sheet.source.text_at(1))


@pytest.mark.parametrize(
    "change",
    [
        lambda raw: b"\xef\xbb\xbf" + raw,
        lambda raw: raw.replace(b"\n", b"\r\n"),
        lambda raw: raw.replace(b"\n", b"\r"),
        lambda raw: b"\xef\xbb\xbf" + raw.replace(b"\n", b"\r\n"),
        lambda raw: raw.replace(b"---\n", b"---  \n"),
        lambda raw: raw.replace("é".encode(), b"e\xcc\x81"),
    ],
    ids=["mark", "crlf", "cr", "mark and crlf", "blanks", "accents apart"],
)
def test_sheet__reads_the_same_however_an_editor_saves_it(tmp_path: Path, change) -> None:  # type: ignore[no-untyped-def]
    raw = sheet_text("title: Coupé\nhours: {MT: 3}", "One.\n\nTwo.\n").encode()
    sheet, problems = _read(tmp_path, raw)
    other, other_problems = _read(tmp_path, change(raw))
    assert ([], []) == (problems, other_problems)
    assert sheet is not None
    assert other is not None
    assert (sheet.front, sheet.body) == (other.front, other.body)
    assert sheet.source.marks == other.source.marks


def test_bytes_of_another_encoding__are_told_at_their_line(tmp_path: Path) -> None:
    raw = sheet_text("title: Gearbox\nnote: Coupé").encode("latin-1")
    assert [(5, "not-utf8", "the file is not written in UTF-8")] == _told(tmp_path, raw)


def test_zero_bytes__are_told_at_their_line(tmp_path: Path) -> None:
    raw = sheet_text("title: Gear\0box").encode()
    assert [(4, "not-text", "the file holds bytes that are not text")] == _told(tmp_path, raw)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "the sheet does not start with its front matter"),
        ("Words.\n", "the sheet does not start with its front matter"),
        ("\n---\ndate: 2024-03-05\n---\n", "the sheet does not start with its front matter"),
        ("----\ndate: 2024-03-05\n----\n", "the sheet does not start with its front matter"),
        ("---\n", "the front matter is opened on this line and never closed"),
        ("---\ndate: 2024-03-05\n", "the front matter is opened on this line and never closed"),
    ],
)
def test_front_matter__that_is_not_there_is_told_once(
    tmp_path: Path, text: str, message: str
) -> None:
    assert [(1, "no-front-matter", message)] == _told(tmp_path, text.encode())


def test_empty_front_matter__lacks_what_every_sheet_needs(tmp_path: Path) -> None:
    told = _told(tmp_path, b"---\n---\nWords.\n")
    assert [(2, "missing-key", f"{key} is missing") for key in ("date", "subsystem")] == told


def test_line_of_dashes_in_the_text__does_not_matter(tmp_path: Path) -> None:
    sheet, problems = _read(tmp_path, sheet_text(body="One.\n\n---\n\nTwo.\n").encode())
    assert [] == problems
    assert sheet is not None
    assert ["One.\n\n---\n\nTwo."] == [b.text for b in sheet.body]


def test_date_that_cannot_be_read__is_one_mistake_even_where_today_stands(tmp_path: Path) -> None:
    raw = sheet_text("parts: {laygear: {ordered: today}}", date="5 March").encode()
    assert [(2, "bad-date", 'date must be a date, found "5 March"')] == _told(tmp_path, raw)


def test_problem_in_the_text__stands_at_its_line_in_the_file(tmp_path: Path) -> None:
    sheet, problems = _read(tmp_path, sheet_text(body="One.\n\n::: ownr\nTwo.\n:::\n").encode())
    assert sheet is not None
    assert [(7, "bad-block", "::: ownr")] == [(p.place.line, p.code, p.quoted) for p in problems]


def test_file_that_is_not_there__is_a_problem(tmp_path: Path) -> None:
    sheet, problems = read_sheet(tmp_path, PATH)
    assert sheet is None
    assert [("unreadable-file", "the file cannot be read: no such file or directory")] == [
        (p.code, p.message) for p in problems
    ]


def _holds(problems: list[Problem], data: bytes) -> None:
    lines = max(data.count(b"\n"), data.replace(b"\r\n", b"\n").replace(b"\r", b"\n").count(b"\n"))
    for problem in problems:
        assert problem.code in CODES
        assert 1 <= problem.place.line <= lines + 1
        if problem.note_place is not None:
            assert 1 <= problem.note_place.line <= lines + 1


@given(st.binary(max_size=200) | st.text(max_size=200).map(lambda t: t.encode("utf-8", "replace")))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_bytes__read_as_a_sheet_or_as_problems_within_it(tmp_path: Path, data: bytes) -> None:
    _holds(_read(tmp_path, data)[1], data)


_PIECES = st.sampled_from(
    ["---\n", "date: 2024-03-05\n", "subsystem: gearbox\n", "subsystem: [a, B c]\n", "hours: {MT: 3,5}\n",
     "hours: 3\n", "work:\n", "  gearbox/laygear: removed\n", "  gearbox/laygear:\n", "    did: [fitted\n",
     "photos:\n", "  - a.jpg\n", "  - {caption: x}\n", "title: a: b\n", "title: *x\n", "title: !x y\n",
     'title: "x\n', "\tx: y\n", "::: workshop\n", ":::\n", "words\n", "\n", "\u2028", "\x85", "\ufeff", "\r",
     "? x\n", ": y\n", "date: today\n", "parts: {x: {ordered: today}}\n", "...\n", "%YAML 1.2\n", "# x\n"]
)  # fmt: skip


@given(st.lists(_PIECES, max_size=14))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=400)
def test_anything_like_a_sheet__reads_as_one_or_as_problems_within_it(
    tmp_path: Path, pieces: list[str]
) -> None:
    data = ("---\n" + "".join(pieces)).encode()
    _holds(_read(tmp_path, data)[1], data)

"""Files that are far too large, nest or repeat themselves without end, or are in no known encoding.

Each costs one problem at its line, and the rest of the content stays as it is. No test waits long:
what grows with the square of a file's length would take hours here.
"""

from collections.abc import Callable
from pathlib import Path

import pytest

from journal.outputs.findings import problems_of
from journal.outputs.problems import problems_text
from journal.reading.content import read_content
from journal.reading.sheet import read_sheet
from journal.reading.text import FILE_BYTES, SHEET_BYTES
from journal.records.problem import Problem
from tests.tern import SHEET, put_content, put_file, sheet_text

pytestmark = pytest.mark.timeout(60)

YAML_FILES = ("workshop.yaml", "tern/car.yaml", "tern/register.yaml", "tern/papers/papers.yaml")


def _problems(root: Path, path: str, data: bytes) -> list[Problem]:
    put_content(root)
    put_file(root, path, data)
    return list(problems_of(read_content(root)))


def _told(root: Path, path: str, data: bytes) -> list[tuple[str, int, str]]:
    return [(p.place.path, p.place.line, p.code) for p in _problems(root, path, data)]


@pytest.mark.parametrize("path", [SHEET, *YAML_FILES])
def test_file_of_50_megabytes__is_one_problem_and_is_not_read(path: str, tmp_path: Path) -> None:
    put_content(tmp_path)
    put_file(tmp_path, path, b"")
    with open(tmp_path / path, "r+b") as file:
        file.truncate(50_000_000)
    (problem,) = problems_of(read_content(tmp_path))
    assert (path, 1, "file-too-large") == (*problem.place, problem.code)
    most = "128 KiB" if path == SHEET else "1,024 KiB"
    assert f"the file has 50,000,000 bytes, and at most {most} are read" == problem.message


def test_sheet_as_large_as_one_may_be__is_read_whole(tmp_path: Path) -> None:
    start = sheet_text(body="Words.\n\n").encode()
    put_file(tmp_path, SHEET, start + b"w" * (SHEET_BYTES - len(start)))
    sheet, problems = read_sheet(tmp_path, SHEET)
    assert sheet is not None
    assert ([], SHEET_BYTES - len(start)) == (problems, sheet.body[0].text.count("w"))
    put_file(tmp_path, SHEET, start + b"w" * (SHEET_BYTES - len(start) + 1))
    assert ["file-too-large"] == [p.code for p in read_sheet(tmp_path, SHEET)[1]]


@pytest.mark.parametrize(
    "form", ["title: {}", 'title: "{}"', "title: |\n  {}", "? {}\n: x", "{}: x"]
)
def test_text_of_10_megabytes_in_one_value__is_one_problem(form: str, tmp_path: Path) -> None:
    data = sheet_text(form.format("w" * 10_000_000)).encode()
    assert [(SHEET, 1, "file-too-large")] == _told(tmp_path, SHEET, data)


@pytest.mark.parametrize(
    "form",
    ["title: {}", 'title: "{}"', "title: |\n  {}", "work: {{{}: removed}}", "? {}\n: x", "{}: x",
     "hours: {{MT: {}}}", "photos: [{}]"],
)  # fmt: skip
@pytest.mark.parametrize("letter", ["w", "9", "["])
def test_text_of_100_kilobytes_in_one_value__is_one_problem(
    letter: str, form: str, tmp_path: Path
) -> None:
    text = letter * 100_000
    told = _problems(tmp_path, SHEET, sheet_text(form.format(text)).encode())
    (problem,) = told
    assert problem.code in ("too-long", "too-deep", "bad-yaml")
    assert len(problems_text(told)) < 1_500


@pytest.mark.parametrize("digits", [13, 30, 5_000, 9_000])
def test_number_with_more_figures_than_any_price__is_refused(digits: int, tmp_path: Path) -> None:
    front = f"hours: {{MT: {'9' * digits}}}\nodometer: {'9' * digits}.{'9' * digits}"
    told = _told(tmp_path, SHEET, sheet_text(front).encode())
    assert [(SHEET, 4, "bad-number"), (SHEET, 5, "bad-number")] == told


# YAML.

_BOMBS = {
    "doubling": "a: &a [x, x]\n"
    + "".join(f"{b}: &{b} [*{a}, *{a}]\n" for a, b in zip("abcdefgh", "bcdefghi", strict=True)),
    "of keys": "a: &a {k: v}\nb: {<<: *a, <<: *a}\n",
    "of itself": "a: &a [*a]\n",
    "long": "a: &a " + "x" * 9_000 + "\nb: [" + "*a, " * 2_000 + "]\n",
}


@pytest.mark.parametrize("name", _BOMBS)
def test_aliases_that_would_grow__are_one_problem_at_the_first_of_them(
    name: str, tmp_path: Path
) -> None:
    for path in (SHEET, *YAML_FILES):
        text = sheet_text(_BOMBS[name]) if path == SHEET else _BOMBS[name]
        line = 4 if path == SHEET else 1
        assert (path, line, "yaml-alias") in _told(tmp_path, path, text.encode())


@pytest.mark.parametrize("path", [SHEET, *YAML_FILES])
@pytest.mark.parametrize(
    "nest", ["[" * 50_000, "{a: " * 20_000, "- " * 40_000, "? " * 40_000, "[{" * 30_000],
    ids=["lists", "sets", "list in list", "keys", "both"],
)  # fmt: skip
def test_nesting_without_end__is_one_problem_with_a_way_out(
    nest: str, path: str, tmp_path: Path
) -> None:
    text = sheet_text(f"work:\n {nest}") if path == SHEET else f"a:\n {nest}\n"
    problems = [p for p in _problems(tmp_path, path, text.encode()) if p.place.path == path]
    (problem,) = problems
    assert problem.code in ("too-deep", "bad-yaml")
    assert problem.help


@pytest.mark.parametrize(
    ("path", "text", "first", "second"),
    [
        (SHEET, sheet_text("title: one\nodometer: 5\ntitle: two"), 4, 6),
        (SHEET, sheet_text("work:\n  gearbox/laygear: removed\n  gearbox/laygear: fitted"), 5, 6),
        (SHEET, sheet_text('title: one\n"t\\u0069tle": two'), 4, 5),
        (
            SHEET,
            sheet_text('parts:\n  "coup\\u00e9": {price: 1}\n  "coupe\\u0301": {price: 2}'),
            5,
            6,
        ),
        (SHEET, sheet_text("parts:\n  coup\u00e9: {price: 1}\n  coupe\u0301: {price: 2}"), 5, 6),
        (SHEET, sheet_text("parts:\n  lay: {price: 1}\n  l\u200bay: {price: 2}"), 5, 6),
        ("workshop.yaml", "name: One\nhands: {MT: Margit, MT: Jonah}\n", 2, 2),
        ("tern/register.yaml", "components:\n  gearbox:\n    a: made\n    a: made\n", 3, 4),
    ],
)
def test_key_twice__is_an_error_that_names_both_lines(
    path: str, text: str, first: int, second: int, tmp_path: Path
) -> None:
    problems = _problems(tmp_path, path, text.encode())
    (problem,) = [p for p in problems if p.code == "key-twice"]
    assert ("error", path, second) == (problem.severity.value, *problem.place)
    assert (path, first) == problem.note_place
    told = problems_text([problem])
    assert f"{path}:{second}: error[key-twice]: the key " in told
    assert f"  note: the first one is here ({path}:{first})" in told


def test_tab_before_a_key__is_told_as_one(tmp_path: Path) -> None:
    (problem,) = _problems(
        tmp_path, SHEET, sheet_text("work:\n\tgearbox/laygear: removed").encode()
    )
    assert ((SHEET, 5), "bad-yaml") == (problem.place, problem.code)
    assert ("the line is indented with a tab", "indent with spaces") == (
        problem.message, problem.help,
    )  # fmt: skip


def test_tab_within_a_text__is_a_blank_like_others(tmp_path: Path) -> None:
    raw = sheet_text("title: a\tb", "One\ttwo.\n\n\tcode\n").encode()
    assert [] == _told(tmp_path, SHEET, raw)


# Encodings. A sheet in each that an editor has in its list.


@pytest.mark.parametrize(
    ("encoding", "title", "code", "line"),
    [
        ("latin-1", "Coupé", "not-utf8", 4), ("cp1252", "Coupé", "not-utf8", 4),
        ("mac-roman", "Coupé", "not-utf8", 4), ("shift-jis", "テスト", "not-utf8", 4),
        ("cp037", "Coupe", "not-utf8", 1), ("utf-16", "Coupé", "not-utf8", 1),
        ("utf-16", "Coupe", "not-utf8", 1), ("utf-16-le", "Coupe", "not-text", 1),
        ("utf-16-be", "Coupe", "not-text", 1), ("utf-32", "Coupe", "not-utf8", 1),
        ("utf-32-be", "Coupe", "not-text", 1),
    ],
)  # fmt: skip
def test_other_encoding__is_told_and_never_guessed(
    encoding: str, title: str, code: str, line: int, tmp_path: Path
) -> None:
    raw = sheet_text(f"title: {title}").encode(encoding)
    assert [(SHEET, line, code)] == _told(tmp_path, SHEET, raw)


@pytest.mark.parametrize("path", [SHEET, *YAML_FILES])
def test_zero_byte_anywhere__is_told_at_its_line(path: str, tmp_path: Path) -> None:
    put_content(tmp_path, **{SHEET: sheet_text()})
    raw = (tmp_path / path).read_bytes().split(b"\n")
    raw[1] += b"\0"
    told = _told(tmp_path, path, b"\n".join(raw))
    assert (path, 2, "not-text") in told


_CHANGES: dict[str, Callable[[bytes], bytes]] = {
    "mark": lambda raw: b"\xef\xbb\xbf" + raw,
    "crlf": lambda raw: raw.replace(b"\n", b"\r\n"),
    "cr": lambda raw: raw.replace(b"\n", b"\r"),
    "all": lambda raw: b"\xef\xbb\xbf" + raw.replace(b"\n", b"\r\n"),
}


@pytest.mark.parametrize("change", _CHANGES.values(), ids=_CHANGES)
def test_mark_and_line_ends__make_no_difference_in_any_file(
    change: Callable[[bytes], bytes], tmp_path: Path
) -> None:
    text = sheet_text("title: Coupé body off", "Brûlé.\n\nTwo.\n")
    good = put_content(tmp_path / "good", **{SHEET: text})
    other = put_content(tmp_path / "other", **{SHEET: text})
    for path in (SHEET, *YAML_FILES):
        put_file(other, path, change((good / path).read_bytes()))
    first, second = read_content(good), read_content(other)
    assert (first.problems, first.workshop) == (second.problems, second.workshop)
    (one,), (two,) = first.cars, second.cars
    assert (one.car, one.register.components, one.papers) == (
        two.car, two.register.components, two.papers,
    )  # fmt: skip
    assert [(s.front, s.body) for s in one.sheets] == [(s.front, s.body) for s in two.sheets]


# Texts that take long to parse unless the parser knows of them. After the pathological inputs of
# the CommonMark reference implementations, and of regular expressions that go back.

_LONG = (
    "[", "![", "[a](", "a](", "*a_ ", "*a **a ", "_a __a ", "`a``", "<", "<a ", "<!--", "&", "\\", "> ",
    "- ", "- a\n", "1. ", "[a]: b\n", "[a][b]", ":::\n", "::: workshop\n", "::: ", "> ::: workshop\n", "\t",
    "  \n", "|-", "# ", "***\n", "a\u0300\u0316", "\u0300\u0316", "\u202e", "\U0001f468\u200d", "\x0c",
    "1 ", "@a", "a@", "+44 ", "£1 ", "1.", "(0", "&#1;", "Mr A. ",
)  # fmt: skip


@pytest.mark.parametrize("piece", _LONG)
def test_text_that_repeats_itself__is_read_checked_and_shown_in_time(
    piece: str, tmp_path: Path
) -> None:
    room = SHEET_BYTES - 100
    body = (piece * room).encode()[:room].decode("utf-8", "ignore")
    put_content(tmp_path)
    put_file(tmp_path, SHEET, sheet_text(body=body).encode())
    content = read_content(tmp_path)
    assert {SHEET} >= {p.place.path for p in problems_of(content)}
    assert 1 == len(content.cars[0].sheets)


_FILLED = {
    "register": ("tern/register.yaml", "components:\n  gearbox:\n", "    x{n}: frist-fit\n"),
    "slugs": ("tern/register.yaml", "components:\n  gearbox:\n", "    X{n}: made\n"),
    "hands": ("workshop.yaml", "name: x\nhands:\n", "  X{n}: {nane: y}\n"),
    "keys": ("workshop.yaml", "name: x\nhands: {MT: x}\n", "x{n}: y\n"),
    "same keys": ("workshop.yaml", "name: x\nhands: {MT: x}\n", "x: y\n"),
    "empty": ("tern/papers/papers.yaml", "papers:\n", "  x{n}:\n"),
    "loose": ("tern/papers/papers.yaml", "papers: {", "x{n}, "),
    "photos": (SHEET, "---\ndate: 2024-03-05\nsubsystem: gearbox\nphotos:\n", "- {}\n"),
    "work": (SHEET, "---\ndate: 2024-03-05\nsubsystem: gearbox\nwork:\n", "  gearbox/laygaer{n}: removed\n"),
    "did": (SHEET, "---\ndate: 2024-03-05\nsubsystem: gearbox\nwork:\n  gearbox/laygear: {did: [", "x, "),
    "read": (SHEET, "---\ndate: 2024-03-05\nsubsystem: gearbox\nmeasured: {x: {unit: mm, read: [", "x, "),
    "hours": (SHEET, "---\ndate: 2024-03-05\nsubsystem: gearbox\nhours: {MT: [", "{}, "),
}  # fmt: skip


@pytest.mark.timeout(110)
@pytest.mark.parametrize("name", _FILLED)
def test_file_full_of_mistakes__is_told_in_time_and_not_line_by_line(
    name: str, tmp_path: Path
) -> None:
    path, head, line = _FILLED[name]
    room = (SHEET_BYTES if path == SHEET else FILE_BYTES // 4) - 200
    rows = [line.replace("{n}", str(n)) for n in range(room // (len(line) + 3))]
    closing = {"did": "]}", "read": "]}}", "hours": "]}", "loose": "}"}.get(name, "")
    text = head + "".join(rows) + closing + ("\n---\n" if path == SHEET else "\n")
    problems = _problems(tmp_path, path, text.encode())
    assert problems
    assert len(problems_text(problems).splitlines()) < 1_000

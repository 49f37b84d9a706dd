"""Laws of reading: whatever stands in a file, reading it never raises and always tells the same."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from journal.outputs.findings import problems_of
from journal.outputs.problems import problems_json, problems_text
from journal.reading.content import read_content
from journal.records.carfile import Content
from journal.records.codes import CODES
from journal.records.problem import Problem
from tests.hostile.filling import PLACES, put_filled
from tests.tern import put_file

_QUIET = settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=40)


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = put_filled(
        tmp_path_factory.mktemp("any") / "content", lambda _: "plain words", heard=True
    )
    assert 1 == len(read_content(root).cars[0].sheets)
    return root


@pytest.fixture(scope="module")
def written(content: Path) -> dict[str, str]:
    return {path: (content / path).read_text(encoding="utf-8") for path in PLACES.values()}


def _said(content: Content, problems: tuple[Problem, ...]) -> str:
    """All that a content folder says, and all that is wrong in it, as one text."""
    cars = [
        (c.name, c.car, c.register.components, c.papers, [(s.name, s.front, s.body) for s in c.sheets],
         [(s.name, s.file) for s in c.statements], sorted(c.photo_files), sorted(c.paper_files))
        for c in content.cars
    ]  # fmt: skip
    return f"{content.workshop!r} {cars!r} {problems_text(problems)} {problems_json(problems)}"


def _holds_twice(root: Path) -> None:
    """The law: what follows, and the same is told once more."""
    first, second = _holds(root), _holds(root)
    assert _said(*first) == _said(*second)


def _holds(root: Path) -> tuple[Content, tuple[Problem, ...]]:
    """The law: no fault of the program, and problems of known kinds at lines that exist."""
    content = read_content(root)
    problems = problems_of(content)
    for problem in problems:
        assert problem.code in CODES
        file = root / problem.place.path
        lines = file.read_bytes().replace(b"\r\n", b"\n").replace(b"\r", b"\n").count(b"\n")
        assert 1 <= problem.place.line <= lines + 1
    return content, problems


_BYTES = st.binary(max_size=300) | st.text(st.characters(codec="utf-8"), max_size=200).map(
    str.encode
)


@pytest.mark.parametrize("path", PLACES.values(), ids=PLACES)
@given(data=_BYTES)
@_QUIET
def test_any_bytes_in_any_file__are_read_or_told(
    content: Path, written: dict[str, str], path: str, data: bytes
) -> None:
    put_file(content, path, data)
    try:
        _holds_twice(content)
    finally:
        put_file(content, path, written[path].encode())


_WORDS = (
    "", "0", "1", "-1", "999999999999.999999999", "-999999999999", "1,5", "yes", "no", "today", "owner",
    "workshop", "public", "made", "upgrade", "first-fit", "scrapped", "removed", "fitted", "brakes/pipes",
    "a/b", "/", "../x", "1800-01-01", "2199-12-31", "0001-01-01", "2024-02-30", "mm", "deg", "EUR", "[]",
    "{}", "[1, 2, 3]", "[[1]]", "{date: x}", "|", ">-", "- a", "? a", "&a x", "*a", "!x y", '"\\u202e"',
    "'", '"', "%", "@", "`", "#", "\t", "e\u0301", "\u2028", "\ufeff", "\x00", "\x1b", "---", "...", ":",
)  # fmt: skip
_CHANGES = st.lists(
    st.tuples(
        st.integers(0, 10_000), st.sampled_from(_WORDS),
        st.sampled_from(["value", "line", "twice", "gone", "in", "out", "within"]),
    ),
    min_size=1, max_size=6,
)  # fmt: skip


def _changed(text: str, changes: list[tuple[int, str, str]]) -> str:
    """A file with slips of the pen: values exchanged, lines lost, doubled and indented."""
    lines = text.split("\n")
    for number, word, how in changes:
        at = number % len(lines)
        line = lines[at]
        key, colon, _ = line.partition(":")
        lines[at : at + 1] = {
            "value": [f"{key}{colon} {word}"], "line": [line, word], "twice": [line, line], "gone": [],
            "in": ["  " + line], "out": [line[2:]],
            "within": [line[: number % (len(line) + 1)] + word + line[number % (len(line) + 1) :]],
        }[how] or [""]  # fmt: skip
    return "\n".join(lines)


@pytest.mark.parametrize("path", PLACES.values(), ids=PLACES)
@given(changes=_CHANGES)
@_QUIET
def test_any_slip_of_the_pen_in_a_whole_file__is_read_or_told(
    content: Path, written: dict[str, str], path: str, changes: list[tuple[int, str, str]]
) -> None:
    put_file(content, path, _changed(written[path], changes).encode())
    try:
        _holds_twice(content)
    finally:
        put_file(content, path, written[path].encode())


@pytest.mark.parametrize("path", PLACES.values(), ids=PLACES)
@pytest.mark.parametrize("nothing", ["[]", "{}"])
def test_nothing_in_place_of_any_value__is_read_or_told(
    content: Path, written: dict[str, str], path: str, nothing: str
) -> None:
    lines = written[path].split("\n")
    try:
        for number, line in enumerate(lines):
            key, colon, _ = line.partition(":")
            if not colon:
                continue
            depth = len(line) - len(line.lstrip())
            after = number + 1
            while after < len(lines) and lines[after].startswith(
                (" " * (depth + 1), f"{' ' * depth}- ")
            ):
                after += 1
            changed = [*lines[:number], f"{key}: {nothing}", *lines[after:]]
            put_file(content, path, "\n".join(changed).encode())
            _holds(content)
    finally:
        put_file(content, path, written[path].encode())

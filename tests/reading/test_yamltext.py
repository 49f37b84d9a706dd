"""YAML to texts, lists and mappings: what was written stays text, and every value knows its line."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.reading.yamltext import Plain, read_yaml
from journal.records.place import Source
from journal.records.problem import Problem


def _read(text: str, first_line: int = 1) -> tuple[Plain, Source, list[Problem]]:
    lines = ("",) * (first_line - 1) + tuple(text.split("\n"))
    return read_yaml(text, "a.md", lines, first_line)


def _told(text: str) -> list[tuple[int, str, str, str | None]]:
    return [(p.place.line, p.code, p.message, p.help) for p in _read(text)[2]]


@pytest.mark.parametrize(
    "written",
    [
        "1:30", "12:30:45", "no", "yes", "on", "off", "true", "1e3", "0123", "0x1F", "0o17", "~",
        "null", "Null", "2024-03-05", "2024-03-05 10:00:00", "3.50", ".5", "+1", "1_000", ".inf",
        ".nan", "=", "<<", "A-2207", "1/2", "50 %",
    ],
)  # fmt: skip
def test_scalar__stays_the_text_that_was_written(written: str) -> None:
    data, _, problems = _read(f"found: {written}\nall: [{written}]\n")
    assert [] == problems
    assert {"found": written, "all": [written]} == data


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("'it''s dry'", "it's dry"),
        ('"a \\"fine\\" thread"', 'a "fine" thread'),
        ('"tab\\there"', "tab\there"),
        ('""', ""),
        ("|\n  two\n  lines", "two\nlines\n"),
        (">-\n  one\n  line", "one line"),
        ("two words\n  that go on", "two words that go on"),
        ("pitted # on second", "pitted"),
        ("pitted#2", "pitted#2"),
    ],
)
def test_scalar__is_unquoted_and_folded_as_yaml_says(written: str, read: str) -> None:
    assert {"found": read} == _read(f"found: {written}\n")[0]


def test_places__are_the_lines_of_the_values_in_blocks() -> None:
    text = """\
date: 2024-03-05
work:
  gearbox/laygear:
    did:
      - removed
      - inspected
    found: >-
      pitted
      on second
    note:
      worn
photos:
  - file: a.jpg
    of: gearbox/laygear
  - b.jpg
"""
    _, source, problems = _read(text, first_line=2)
    assert [] == problems
    expected = {
        (): 2,
        ("date",): 2,
        ("work",): 3,
        ("work", "gearbox/laygear"): 4,
        ("work", "gearbox/laygear", "did"): 5,
        ("work", "gearbox/laygear", "did", 0): 6,
        ("work", "gearbox/laygear", "did", 1): 7,
        ("work", "gearbox/laygear", "found"): 8,
        ("work", "gearbox/laygear", "note"): 12,
        ("photos",): 13,
        ("photos", 0): 14,
        ("photos", 0, "file"): 14,
        ("photos", 0, "of"): 15,
        ("photos", 1): 16,
    }
    assert expected == source.marks


def test_places__are_the_lines_of_the_values_in_brackets() -> None:
    text = 'a: {b: 1, c: [2,\n  3, {d:\n  "four\n  five"}],\n  e: 6}\n'
    _, source, problems = _read(text)
    assert [] == problems
    expected = {
        (): 1, ("a",): 1, ("a", "b"): 1, ("a", "c"): 1, ("a", "c", 0): 1, ("a", "c", 1): 2,
        ("a", "c", 2): 2, ("a", "c", 2, "d"): 3, ("a", "e"): 5,
    }  # fmt: skip
    assert expected == source.marks


@pytest.mark.parametrize("rare", ["\x85", "\u2028", "\u2029"])
def test_places__count_lines_as_an_editor_does(rare: str) -> None:
    # YAML 1.1 also ends a line at these three; the text of a file does not.
    _, source, problems = _read(f'a: "one{rare}two"\nb: 3\n')
    assert set() == {p.code for p in problems} - {"hidden-character"}
    assert 2 == source.place("b").line


def test_place__of_a_value_that_is_not_there_is_that_of_what_holds_it() -> None:
    _, source, _ = _read("a:\n  b:\n    c: 1\n")
    assert 2 == source.place("a", "b", "x", 3, "y").line
    assert 1 == source.place("z").line
    assert ("    c: 1", "") == (source.text_at(3), source.text_at(99))


def test_key_without_a_value__is_left_out() -> None:
    data, source, problems = _read("a:\nb: {c: , d: 1}\n")
    assert ({"b": {"d": "1"}}, []) == (data, problems)
    assert 2 == source.place("b", "c").line


def test_list_entry_without_a_value__is_empty_text() -> None:
    assert {"a": ["one", "", "two"]} == _read("a:\n  - one\n  -\n  - two\n")[0]


def test_key_twice__tells_both_lines_and_keeps_the_first() -> None:
    data, source, problems = _read("a: 1\nb: 2\na: {c: 3}\nd: 4\n")
    assert {"a": "1", "b": "2", "d": "4"} == data
    (problem,) = problems
    assert ("key-twice", 'the key "a" stands here twice') == (problem.code, problem.message)
    assert (3, 1) == (problem.place.line, problem.note_place and problem.note_place.line)
    assert "a: {c: 3}" == problem.quoted
    assert 1 == source.place("a", "c").line


def test_key_three_times__is_told_twice_beside_the_first() -> None:
    problems = _read("a: 1\na: 2\na: 3\n")[2]
    assert [(2, 1), (3, 1)] == [
        (p.place.line, p.note_place.line) for p in problems if p.note_place is not None
    ]


def test_same_key_in_two_places__is_no_mistake() -> None:
    assert [] == _read("a: {x: 1}\nb: {x: 1}\nc: [{x: 1}, {x: 2}]\n")[2]


@pytest.mark.parametrize(
    ("text", "line", "code"),
    [
        ("a: &x 1\nb: *x\n", 1, "yaml-alias"),
        ("a: 1\nb: *x\n", 2, "yaml-alias"),
        ("a: 1\nb: *word* here\n", 2, "yaml-alias"),
        ("a:\n  - &x [1]\n", 2, "yaml-alias"),
        ("a: !!str 1\n", 1, "yaml-tag"),
        ("a: 1\nb: !leak at the flange\n", 2, "yaml-tag"),
        ("a: !!python/object/apply:os.system [ls]\n", 1, "yaml-tag"),
        ("a: " + "[" * 40 + "]" * 40 + "\n", 1, "too-deep"),
        ("a: " + "{a: " * 20 + "1" + "}" * 20 + "\n", 1, "too-deep"),
        ("a: 1\n---\nb: 2\n", 2, "bad-yaml"),
        ("a: 1\n\tb: 2\n", 2, "bad-yaml"),
        ("a: 1\nb: two: three\n", 2, "bad-yaml"),
        ('a: 1\nb: "two\nc: 3\n', 2, "bad-yaml"),
        ("a: 1\nb: [1, 2\nc: 3\n", 2, "bad-yaml"),
        ("a: 1\nb: {c: 1\nd: 3\n", 2, "bad-yaml"),
        ("a: 1\nwords alone\nb: 2\n", 3, "bad-yaml"),
        ("a: 1\nb: @home\n", 2, "bad-yaml"),
        ("a: 1\nb: 50%\nc: `x`\n", 3, "bad-yaml"),
        ("a: 1\nb: x\x01y\n", 2, "bad-yaml"),
        ("é: 1\nb: x\x07y\n", 2, "bad-yaml"),
        ("a: 1\n: 2\n", 2, "bad-yaml"),
        ("? [a]\n: 1\n", 1, "bad-yaml"),
    ],
)
def test_what_yaml_or_we_refuse__is_one_problem_at_its_line(
    text: str, line: int, code: str
) -> None:
    data, source, problems = _read(text)
    assert [(line, code)] == [(p.place.line, p.code) for p in problems]
    assert problems[0].help
    assert ({}, {}) == (data, source.marks)


def test_small_file_that_would_grow__is_refused_before_it_does() -> None:
    bomb = "a: &a [x, x]\n" + "".join(
        f"{chr(98 + n)}: &{chr(98 + n)} [*{chr(97 + n)}, *{chr(97 + n)}]\n" for n in range(24)
    )
    assert [(1, "yaml-alias")] == [(line, code) for line, code, _, _ in _told(bomb)]


@pytest.mark.parametrize(
    ("text", "message", "way"),
    [
        (
            "{found: worn, scored and blue}",
            '"scored and blue" is no key with a value',
            "put all that belongs to found: in quotes, or write it as key: value",
        ),
        ("{MT:3.5}", '"MT:3.5" is no key with a value', "put a blank after the colon"),
        ("{removed}", '"removed" is no key with a value', "write it as key: value"),
        (
            "{of: [a], removed}",
            '"removed" is no key with a value',
            "write it as key: value",
        ),
    ],
)
def test_words_in_brackets_without_a_colon__are_told(text: str, message: str, way: str) -> None:
    assert [(2, "loose-words", message, way)] == _told(f"a: 1\nb: {text}\n")


def test_decimal_comma_in_brackets__is_read_as_it_was_written() -> None:
    data, _, problems = _read("hours: {MT: 3,5, JB: -2,25}\nread: {a: 1, b: 2}\n")
    assert [] == problems
    assert {"hours": {"MT": "3,5", "JB": "-2,25"}, "read": {"a": "1", "b": "2"}} == data


@pytest.mark.parametrize("text", ["", "\n", "# a remark\n", "---\n", "{}\n"])
def test_nothing__reads_as_nothing(text: str) -> None:
    data, _, problems = _read(text)
    assert ({}, []) == (data, problems)


@given(st.text(st.characters(codec="utf-8", exclude_characters="\r")))
def test_any_text__is_read_or_refused_at_a_line_of_it(text: str) -> None:
    _, source, problems = _read(text)
    lines = text.count("\n") + 1
    assert all(1 <= p.place.line <= lines for p in problems)
    assert all(1 <= line <= lines for line in source.marks.values())


_YAMLISH = st.text(
    st.sampled_from([*"ab1,:-#&*!|>%@'\"[]{}?\n\n   \t~", "\u2028", "\x85", "é"]), max_size=60
)


@given(_YAMLISH)
def test_anything_like_yaml__is_read_or_refused_at_a_line_of_it(text: str) -> None:
    _, source, problems = _read(text)
    lines = text.count("\n") + 1
    assert all(1 <= p.place.line <= lines for p in problems)
    assert all(1 <= line <= lines for line in source.marks.values())

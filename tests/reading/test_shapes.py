"""Plain data to records: what is refused is told at its line, and costs as little as can be."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.reading.shapes import field_phrase, read_shape
from journal.reading.yamltext import read_yaml
from journal.records.codes import CODES
from journal.records.problem import Problem
from journal.records.register import RegisterFile
from journal.records.sheet import SheetFront
from journal.records.workshop import Workshop
from journal.words.vocabulary import Act, Origin

HEAD = "date: 2024-03-05\nsubsystem: gearbox\n"


def _front(text: str) -> tuple[SheetFront | None, list[Problem]]:
    text = text if text.startswith("date") else HEAD + text
    data, source, wrong = read_yaml(text, "a.md", tuple(text.split("\n")))
    front, _, problems = read_shape(SheetFront, data, source, date(2024, 3, 5))
    return front, wrong + problems


def _told(text: str) -> list[tuple[int, str, str]]:
    return [(p.place.line, p.code, p.message) for p in _front(text)[1]]


def test_short_forms__say_the_same_as_the_long_ones() -> None:
    short, wrong = _front(
        "work: {gearbox/laygear: removed, gearbox/x: [removed, cleaned]}\n"
        "snags: {leak: weeps}\nphotos: a.jpg\npapers: record\ncorrects: 2024-03-04-day\n"
        "measured: {float: {read: 0.2, unit: mm, limit: [0.1, 0.3]}}\nhours: {MT: 3}\n"
    )
    long, also_wrong = _front(
        "work:\n  gearbox/laygear: {did: [removed]}\n  gearbox/x: {did: [removed, cleaned]}\n"
        "snags: {leak: {raise: weeps}}\nphotos: [{file: a.jpg}]\npapers: [record]\n"
        "corrects: [{sheet: 2024-03-04-day}]\n"
        "measured: {float: {read: [0.2], unit: mm, limit: {least: 0.1, most: 0.3}}}\n"
        "hours: {MT: 3}\n"
    )
    assert ([], []) == (wrong, also_wrong)
    assert long == short


@pytest.mark.parametrize(
    ("text", "subsystem", "hand", "hours"),
    [
        ("hours: 3.5", "", "", "3.5"),
        ("hours: {MT: 3.5}", "", "MT", "3.5"),
        ("hours: {brakes: {MT: 2}}", "brakes", "MT", "2"),
    ],
)
def test_hours__are_read_in_each_of_their_forms(
    text: str, subsystem: str, hand: str, hours: str
) -> None:
    front, problems = _front(text)
    assert [] == problems
    assert front is not None
    found = [(s, h, v.hours) for s, hands in front.hours for h, (v,) in hands]
    assert [(subsystem, hand, Decimal(hours))] == found


def test_hours__mixed_by_hand_and_by_subsystem_are_all_read() -> None:
    front, problems = _front("hours: {MT: 1, brakes: {JB: 2}}")
    assert [] == problems
    assert front is not None
    assert [("", "MT"), ("brakes", "JB")] == [(s, h) for s, hands in front.hours for h, _ in hands]


def test_today__is_the_day_of_the_sheet() -> None:
    front, problems = _front("parts: {laygear: {ordered: today}}")
    assert [] == problems
    assert front is not None
    assert [date(2024, 3, 5)] == [part.ordered for _, part in front.parts]


def test_bare_item_of_the_register__is_its_origin() -> None:
    text = "components: {gearbox: {laygear: pattern, bearing: {name: Bearing}}}"
    data, source, _ = read_yaml(text, "r", (text,))
    register, _, problems = read_shape(RegisterFile, data, source)
    assert [] == problems
    assert register is not None
    assert [Origin.PATTERN, Origin.UNKNOWN] == [
        line.as_found for _, lines in register.components for _, line in lines
    ]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("titel: x", (3, "unknown-key", 'unknown key "titel"')),
        (
            "hours: {MT: 25}",
            (3, "out-of-range", "hours of MT must be between 0 and 24 hours, found 25"),
        ),
        (
            "hours: {MT: -1}",
            (3, "out-of-range", "hours of MT must be between 0 and 24 hours, found -1"),
        ),
        (
            "hours: {MT: 1:30}",
            (3, "bad-number", 'hours of MT must be a number with a decimal point, found "1:30"'),
        ),
        ("hours: {MT: [[1]]}", (3, "wrong-shape", "hours of MT must be a number, found a list")),
        ("work: fitted", (3, "wrong-shape", "work must be a set of keys, found text")),
        ("work: [fitted]", (3, "wrong-shape", "work must be a set of keys, found a list")),
        (
            "work:\n  a/b: {did: {x: y}}",
            (4, "wrong-shape", "did of a/b must be one word, found a set of keys"),
        ),
        ("work:\n  a/b: {did: [removed, xx]}", (4, "bad-word", 'did of a/b cannot be "xx"')),
        ("work:\n  a/b: {now: frist-fit}", (4, "bad-word", 'now of a/b cannot be "frist-fit"')),
        (
            "work:\n  a/b: {retained: 1.5}",
            (4, "out-of-range", "retained of a/b must be between 0 and 1, found 1.5"),
        ),
        (
            "work:\n  a/b: {retained: [0.7, 0.5]}",
            (4, "out-of-range", "retained of a/b must have its smaller share first"),
        ),
        (
            "work:\n  a/b: {retained: [0.1, 0.2, 0.3]}",
            (
                4,
                "wrong-shape",
                "retained of a/b must be one share or two, found a list of another length",
            ),
        ),
        (
            "work:\n  a/b: {reversible: maybe}",
            (4, "bad-word", 'reversible of a/b must be yes or no, found "maybe"'),
        ),
        ("work:\n  a/b: {decided: {on: 2024-03-05}}", (4, "missing-key", "by of a/b is missing")),
        (
            "parts:\n  x: {ordered: 2024-02-30}",
            (4, "bad-date", 'ordered of x must be a date, found "2024-02-30"'),
        ),
        (
            "parts:\n  x: {ordered: tomorrow}",
            (4, "bad-date", 'ordered of x must be a date, found "tomorrow"'),
        ),
        (
            "parts:\n  x: {price: 12 pounds}",
            (
                4,
                "bad-number",
                'price of x must be a number with a decimal point, found "12 pounds"',
            ),
        ),
        (
            "measured:\n  x: {read: 1, unit: inches}",
            (4, "bad-word", 'unit of x is not a unit known here: "inches"'),
        ),
        (
            "measured:\n  x: {read: [], unit: mm}",
            (4, "wrong-shape", "read of x must have at least one entry, found an empty list"),
        ),
        (
            "measured:\n  x: {read: 1, unit: mm, limit: [1, 2, 3]}",
            (
                4,
                "wrong-shape",
                "limit of x must have two ends or say which one it is, found a list of another length",
            ),
        ),
        (
            "measured:\n  x: {read: 1, unit: mm, limit: 3}",
            (4, "wrong-shape", 'limit of x must have two ends or say which one it is, found "3"'),
        ),
        ("photos: [{caption: x}]", (3, "missing-key", "file is missing")),
        (
            "date: 2024-03-05\nsubsystem: []\n",
            (2, "wrong-shape", "subsystem must have at least one entry, found an empty list"),
        ),
        (
            "date: 2024-03-05\nsubsystem: [Rear Axle]\n",
            (
                2,
                "bad-name",
                'subsystem must be lower-case words joined by hyphens, found "Rear Axle"',
            ),
        ),
        ("date: 2024-03-05\n", (1, "missing-key", "subsystem is missing")),
    ],
)
def test_refused_value__is_told_once_in_these_words(text: str, told: tuple[int, str, str]) -> None:
    assert [told] == _told(text)


@pytest.mark.parametrize(
    ("written", "way"),
    [
        ("2,5", "write 2.5"),
        ("-2,5", "write -2.5"),
        ("1,250", "write 1250 or 1.250"),
        ("1,250,000", None),
        ("1.250,00", None),
        ("2.5 h", None),
    ],
)
def test_number_with_a_comma__gets_a_way_out_only_when_it_is_sure(
    written: str, way: str | None
) -> None:
    assert [way] == [p.help for p in _front(f"hours:\n  MT: {written}")[1]]


@pytest.mark.parametrize(
    ("written", "way"), [("Y", "write yes"), ("off", "write no"), ("1", "write yes or no")]
)
def test_yes_or_no__gets_the_word_that_was_meant(written: str, way: str) -> None:
    assert [way] == [p.help for p in _front(f"snags: {{x: {{raise: y, hold: {written}}}}}")[1]]


def test_broken_value__costs_itself_and_nothing_beside_it() -> None:
    front, problems = _front(
        "title: Gearbox\nwork:\n  a/b: {did: [removed, xx, cleaned], found: worn}\n  a/c: fitted\n"
        "photos:\n  - {caption: none}\n  - {file: b.jpg}\nfoo: bar\n"
    )
    assert ["bad-word", "missing-key", "unknown-key"] == sorted(p.code for p in problems)
    assert front is not None
    assert "Gearbox" == front.title
    assert [(Act.REMOVED, Act.CLEANED), (Act.FITTED,)] == [w.did for _, w in front.work]
    assert ["b.jpg"] == [p.file for p in front.photos]


def test_places__of_list_entries_after_a_broken_one_stay_true() -> None:
    text = (
        HEAD
        + "photos:\n  - {caption: none}\n  - {file: b.jpg}\n  - {stage: x}\n  - {file: d.jpg}\n"
    )
    data, source, _ = read_yaml(text, "a.md", tuple(text.split("\n")))
    front, source, problems = read_shape(SheetFront, data, source)
    assert front is not None
    assert ["b.jpg", "d.jpg"] == [p.file for p in front.photos]
    assert [5, 7] == [source.place("photos", n, "file").line for n in range(2)]
    assert [4, 6, 6] == sorted(p.place.line for p in problems)


def test_name_with_nothing_after_it__is_told_where_entries_stand_and_not_where_keys_do() -> None:
    assert [(4, "empty-entry", '"a/b" has nothing after it')] == _told("work:\n  a/b:\ntitle:\n")
    assert [(3, "empty-entry", '"MT" has nothing after it')] == _told("hours: {MT: }")
    assert [] == _told("work:\n  a/b: {did: removed, found: }\nhours:\n")


def test_file_of_another_shape__cannot_be_used() -> None:
    for text, found in (("- a\n- b", "a list"), ("words", "text")):
        data, source, _ = read_yaml(text, "w", tuple(text.split("\n")))
        workshop, _, problems = read_shape(Workshop, data, source)
        assert workshop is None
        assert [(1, "wrong-shape", f"the file must be a set of keys, found {found}")] == [
            (p.place.line, p.code, p.message) for p in problems
        ]


@pytest.mark.parametrize(
    ("loc", "phrase"),
    [
        (("date",), "date"),
        (("hours", "MT"), "hours of MT"),
        (("work", "gearbox/laygear", "did", 1), "did of gearbox/laygear"),
        (("photos", 0, "file"), "file"),
        ((), "the file"),
    ],
)
def test_field__is_named_as_a_person_would(loc: tuple[str | int, ...], phrase: str) -> None:
    assert phrase == field_phrase(loc)


_KEYS = st.sampled_from(
    ["date", "subsystem", "title", "hours", "work", "parts", "measured", "snags", "photos", "did",
     "found", "retained", "limit", "read", "unit", "file", "of", "for", "decided", "a/b", "x"]
)  # fmt: skip
_TEXTS = st.sampled_from(
    ["2024-03-05", "today", "gearbox", "3.5", "2,5", "removed", "yes", "", "mm", "owner", "x" * 30]
)
_PLAIN = st.recursive(
    _TEXTS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(_KEYS, inner, max_size=4),
    max_leaves=20,
)


@given(st.dictionaries(_KEYS, _PLAIN, max_size=6))
def test_any_data__is_read_or_refused_with_codes_that_are_explained(
    data: dict[str, object],
) -> None:
    _, source, _ = read_yaml("a: 1", "a.md", ("a: 1",))
    _, _, problems = read_shape(SheetFront, data, source, date(2024, 3, 5))  # type: ignore[arg-type]
    assert {p.code for p in problems} <= set(CODES)


def test_rate__that_is_no_number_is_told_of_its_hand() -> None:
    text = "name: W\nhands:\n  MT: {name: M, rate: 5o}\n"
    data, source, _ = read_yaml(text, "workshop.yaml", tuple(text.split("\n")))
    _, _, (problem,) = read_shape(Workshop, data, source)
    assert 'rate of MT must be a number with a decimal point, found "5o"' == problem.message

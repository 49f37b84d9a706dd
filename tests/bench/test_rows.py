"""Rows: a unit that is written once holds for what stands beside it, and a reading is no name."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.bench import SUMS
from journal.bench.base.definition import TEXT, Input, Sum, Takes
from journal.bench.base.given import Given
from journal.bench.base.reading import read_input
from journal.bench.base.rows import joined_rows, split_rows
from journal.bench.base.working import Answer, given_words, work_out
from journal.words.quantities import NotRead


def _column(name: str, *, optional: bool = False) -> Input:
    return Input(name, "a size", "length", optional=optional, least="0 mm", most="100 mm")


SIZES = Input(
    "sizes", "sizes of each", takes=Takes.ROWS,
    columns=(
        Input("place", "what it is", TEXT), _column("one"), _column("other", optional=True), _column("third", optional=True),
    ),
)  # fmt: skip


def _read(text: str) -> list[list[Fraction]]:
    rows = read_input(SIZES, text)
    assert isinstance(rows, tuple)
    sizes = []
    for row in rows:
        assert isinstance(row, Given)
        sizes.append(
            [row.one(name).to("mm") for name in ("one", "other", "third") if row.has(name)]
        )
    return sizes


@pytest.mark.parametrize(
    "text",
    ["1: 1, 2 mm; 2: 3", "1: 1 mm, 2; 2: 3", "1: 1, 2; 2: 3 mm", "1: 1 mm, 2 mm; 2: 3 mm"],
)
def test_unit__written_once_holds_for_columns_of_its_kind(text: str) -> None:
    assert [[1, 2], [3]] == _read(text)


def test_unit__of_a_column_comes_before_that_of_another() -> None:
    assert [[10, Fraction("25.4")], [20, Fraction("50.8")]] == _read("1: 1 cm, 1 in; 2: 2, 2")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("1: 1, 2", 'has a one that must be a length with its unit, found "1"; write 1 mm, 1 in or 1 thou'),
        ("1: 1 mm, 2 in; 2: 3, lots", 'has a other that must be a length, found "lots"; write it in mm, in or thou'),
        ("1.05, 1.06 mm", 'has a reading where the name of a row stands, found "1.05, 1.06 mm"; write place: one, other, third'),
    ],
)  # fmt: skip
def test_rows__that_cannot_be_read_are_refused_with_the_way_out(text: str, said: str) -> None:
    with pytest.raises(NotRead) as fault:
        _read(text)
    assert said == str(fault.value)


@pytest.mark.parametrize(
    "text",
    [
        "1: 1, 2, 3 mm; 2: 4, 5 mm",
        "1: 1 mm, third 3 mm; 2: 2 in, 6 mm",
        "1: 1, third 3 mm; 2: 4 mm",
    ],
)
def test_rows__are_told_so_that_they_read_back(text: str) -> None:
    assert text == given_words(SIZES, read_input(SIZES, text))


# Rows as a table of cells, and as they are written on one line.

CELL = st.text("abx019 .,;:/", max_size=9)
ROW = st.dictionaries(st.sampled_from([column.name for column in SIZES.columns]), CELL)


@given(st.lists(ROW, max_size=4))
def test_cells__joined_as_rows_are_split_into_the_same_cells_or_refused(
    rows: list[dict[str, str]],
) -> None:
    try:
        text = joined_rows(SIZES, rows)
    except NotRead:
        return
    wanted = [
        {
            name: " ".join(told.split()).removeprefix(f"{name} ")
            for name, told in row.items()
            if told.strip()
        }
        for row in rows
    ]
    assert wanted == split_rows(SIZES, text)


@pytest.mark.parametrize("sum_", SUMS, ids=lambda s: s.name)
def test_cells__of_every_example_say_what_its_line_says(sum_: Sum) -> None:
    for asked in filter(lambda asked: asked.columns, sum_.inputs):
        text = dict(sum_.example).get(asked.name, "")
        if text:
            again = joined_rows(asked, split_rows(asked, text))
            assert read_input(asked, text) == read_input(asked, again)


@pytest.mark.parametrize("sum_", SUMS, ids=lambda s: s.name)
def test_given__told_in_words_reads_back(sum_: Sum) -> None:
    answer = work_out(sum_, sum_.example)
    assert isinstance(answer, Answer)
    again = work_out(sum_, [(asked.name, told) for asked, told in answer.inputs()])
    assert isinstance(again, Answer)
    assert answer.worked == again.worked


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ({"place": "left", "one": "1 mm, 2 mm"}, 'has a cell that cannot be told from the others, found "1 mm, 2 mm"'),
        ({"place": "left: front", "one": "1 mm"}, 'has a cell that cannot be told from the others, found "left: front"'),
        ({"one": "1 mm"}, 'has a row without its place, found "1 mm"'),
        ({"place": "left", "one": "1,5 mm"}, 'must have no comma inside a number, found "1,5"'),
    ],
)  # fmt: skip
def test_cells__that_would_be_read_otherwise_are_refused(row: dict[str, str], said: str) -> None:
    with pytest.raises(NotRead) as fault:
        joined_rows(SIZES, [row])
    assert said == fault.value.sentence


def test_text__longer_than_is_read_is_refused_and_not_cut() -> None:
    text = "; ".join(f"place {n}: 1 mm, 2 mm, 3 mm" for n in range(80))
    with pytest.raises(NotRead) as fault:
        read_input(SIZES, text)
    assert f"must have at most 2000 characters, found {len(text)}" == fault.value.sentence

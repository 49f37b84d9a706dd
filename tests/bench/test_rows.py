"""Rows: a unit that is written once holds for what stands beside it, and a reading is no name."""

from fractions import Fraction

import pytest

from journal.bench.base.definition import TEXT, Input, Takes
from journal.bench.base.given import Given
from journal.bench.base.reading import read_input
from journal.bench.base.working import given_words
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

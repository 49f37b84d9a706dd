"""What is written for a sum: rows in their ways, columns by name, and mistakes that name their column."""

import pytest

from journal.bench.base.definition import Input, Takes
from journal.bench.base.given import Given
from journal.bench.base.reading import read_input
from journal.bench.base.rows import row_form
from journal.bench.base.worked import Output, Teller, answered, exact_text
from journal.words.quantities import NotRead, Quantity
from tests.bench.worked_examples import answer_of

LOADS = Input(
    "loads", "what draws current", takes=Takes.ROWS,
    columns=(
        Input("load", "what it is"),
        Input("draws", "what it draws", "current", least="0 A", most="200 A"),
        Input("share", "how much of the time", "share", default="100 %", least="0 %", most="100 %"),
    ),
)  # fmt: skip


def _rows(text: str) -> list[tuple[str, str, str]]:
    rows = read_input(LOADS, text)
    assert isinstance(rows, tuple)
    told = []
    for row in rows:
        assert isinstance(row, Given)
        told.append((row.word("load"), row.one("draws").words, row.one("share").words))
    return told


@pytest.mark.parametrize(
    "text",
    [
        "lamps: 8 A, 40 %; wiper: 3 A",
        "lamps: 8, 40 %; wiper: 3 A",
        "lamps: share 40 %, draws 8 A; wiper: draws 3 A",
        "lamps x 8 A x 40 %, wiper x 3 A",
        " lamps: 8 A , 40 % ;; wiper : 3 A ; ",
    ],
)
def test_rows__are_read_in_order_or_by_the_names_of_their_columns(text: str) -> None:
    assert [("lamps", "8 A", "40 %"), ("wiper", "3 A", "100 %")] == _rows(text)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("lamps: 8 V", 'has a draws that must be a current, found "8 V"; write it in A'),
        ("lamps: 800 A", 'has a draws that must be between 0 A and 200 A, found "800 A"; read it again'),
        ("lamps: share 40 %", 'has no draws in the row "lamps"; write load: draws, share'),
        ("lamps: 8 A, 40 %, 3", 'has more in a row than is asked for, found "lamps: 8 A, 40 %, 3"; write load: draws, share'),
    ],
)  # fmt: skip
def test_row__that_is_wrong_names_its_column(text: str, told: str) -> None:
    with pytest.raises(NotRead) as refused:
        _rows(text)
    assert told == str(refused.value)


def test_row__is_described_as_it_is_written() -> None:
    assert "load: draws, share" == row_form(LOADS)


def test_answer__leads_in_the_system_in_which_it_was_asked() -> None:
    gap = Output("gap", "gap", (("mm", 2), ("thou", 0)))
    metric, imperial = (Given({"a": Quantity(1, unit)}) for unit in ("mm", "thou"))  # type: ignore[arg-type]
    from fractions import Fraction

    assert ("0.25 mm", "10 thou") == (
        answered(gap, Fraction(1, 4), metric).words,
        answered(gap, Fraction(1, 4), metric).other,
    )
    assert "10 thou" == answered(gap, Fraction(1, 4), imperial).words
    tell = Teller((("mm", 2, 4), ("thou", 0, 2)), metric)
    assert ["0.25 mm", "0.2535 mm"] == [tell(Fraction(1, 4)), tell(Fraction("0.25351"))]


def test_exact__numbers_lose_no_digit() -> None:
    from fractions import Fraction

    assert ["0.42", "1/3", "-2", "-0.05", "12.5"] == [
        exact_text(Fraction(text)) for text in ("0.42", "1/3", "-2", "-0.05", "12.5")
    ]
    assert "0.1" == exact_text(0.1)


def test_inputs__are_shown_as_they_were_written() -> None:
    written = {"target": "3/64 in", "tolerance": "1 thou", "shims": "0.012 in x 2; 0.020"}
    told = {asked.name: words for asked, words in answer_of("shim-pack", written).inputs()}
    assert {
        "target": "3/64 in", "tolerance": "1 thou",
        "shims": "0.012 in \N{MULTIPLICATION SIGN} 2; 0.020 in \N{MULTIPLICATION SIGN} 1",
    } == told  # fmt: skip

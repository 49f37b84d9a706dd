"""What holds of any talk, however it is said and however long."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.hearing.corrections import Place, taken_back, takes_back
from journal.hearing.escaping import escaped
from journal.hearing.hours import hours_in
from journal.hearing.numbers import numbers_in
from journal.hearing.phrases import phrases
from journal.hearing.quantities import readings_in
from journal.hearing.spelled import part_numbers_in
from journal.hearing.strand import strand_of
from journal.hearing.tokens import tokens_of
from journal.words.amounts import parse_decimal


def hear(said: str) -> None:
    tokens = tokens_of(said)
    numbers = numbers_in(tokens)
    for found in (
        numbers,
        readings_in(tokens, numbers),
        hours_in(tokens, numbers),
        part_numbers_in(tokens),
    ):
        places = [(one.first, one.last) for one in found]  # type: ignore[attr-defined]
        assert all(0 <= first < last <= len(tokens) for first, last in places)
        assert places == sorted(places)


@given(st.text(max_size=200))
def test_any_text__is_heard_without_a_fault(said: str) -> None:
    hear(said)


LONG = [
    "9" * 5000,
    "9" * 20 + " psi",
    "0." + "1" * 40 + " mm",
    "point " + "one " * 50,
    "1/" + "9" * 50,
    "b " * 400,
]


@pytest.mark.parametrize("said", LONG)
def test_endless_figures__are_heard_without_a_fault(said: str) -> None:
    hear(said)


@given(
    st.integers(0, 10**14), st.integers(0, 12), st.sampled_from(["psi", "tenths", "thou", "mil"])
)
def test_reading__is_a_number_that_a_sheet_takes(figure: int, places: int, unit: str) -> None:
    tokens = tokens_of(f"it read {figure / 10**places:.{places}f} {unit}")
    for reading in readings_in(tokens, numbers_in(tokens)):
        assert [parse_decimal(amount) for amount in reading.amounts]


def test_strand__leaves_out_what_is_said_while_thinking() -> None:
    strand = strand_of(tokens_of("twelve, um forty-five er thou. done"))
    assert ("twelve", "forty", "five", "thou", "done") == strand.words
    assert (False, True, False, False, True) == strand.parted
    assert (False, False, False, False, True) == strand.ended


def test_strand__keeps_the_dash_of_a_range_and_of_a_figure_below_nothing() -> None:
    assert ("10", "-", "12", "at", "-", "3") == strand_of(tokens_of("10-12 at -3")).words
    assert ("2", "3") == strand_of(tokens_of("2 - 3")).words


@pytest.mark.parametrize(
    ("between", "takes"),
    [("no", True), ("no tell a lie", True), ("sorry it's", True), ("i mean", True), ("", False),
     ("and", False), ("it was", False), ("no bolts were", False), ("oh no hang on that was", True)],
)  # fmt: skip
def test_correction__is_made_of_nothing_else(between: str, takes: bool) -> None:
    assert takes is takes_back(between.split())


def test_correction__that_is_corrected_again_leads_to_the_last() -> None:
    words = ["twelve", "no", "thirteen", "sorry", "fourteen", "not", "fifteen"]
    places = [Place(0, 1), Place(2, 3), Place(4, 5), Place(6, 7)]
    assert {0: 2, 1: 2, 3: 2} == taken_back(words, places)


def test_phrases__are_found_by_the_longest() -> None:
    book = phrases("a bit", "a bit more than", "so")
    words = ["quite", "a", "bit", "more", "than", "ten"]
    assert 4 == book.at(words, 1)
    assert 4 == book.before(words, 5)
    assert 0 == book.at(words, 2)
    assert book.within(words)
    assert 2 == book.at(["a", "bit"], 0)


@pytest.mark.parametrize(
    ("said", "expected"),
    [("plain words, and a stop.", "plain words, and a stop."), ("# one", r"\# one"), ("1. one", r"1\. one"),
     ("::: workshop", r"\:\:\: workshop"), ("a: b", "a: b"), ("a_b *c*", r"a\_b \*c\*"), ("&amp;", r"\&amp;"),
     ("nuts & bolts", "nuts & bolts"), ("- a - b", r"\- a - b"), ("3.5 mil", "3.5 mil")],
)  # fmt: skip
def test_escaping__marks_only_what_would_be_taken_for_more(said: str, expected: str) -> None:
    assert expected == escaped(said)

"""Part numbers as they are spelled: the phrases and the numbers were written by hand before the program
was asked. All numbers are invented."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from journal.hearing.spelled import PartNumber, part_numbers_in
from journal.hearing.tokens import tokens_of


def texts(said: str) -> list[str]:
    return [number.text for number in part_numbers_in(tokens_of(said))]


SPELLED = [
    ("a dash two two oh seven", "A-2207"),
    ("the laygear is a dash two two oh seven from northgate", "A-2207"),
    ("a hyphen twenty two oh seven", "A-2207"),
    ("part number W C one one four", "WC114"),
    ("part number w c dash one one four", "WC-114"),
    ("w c one one four", "WC114"),
    ("w c stroke one one four", "WC/114"),
    ("g t four four seven one", "GT4471"),
    ("g t double four seven one", "GT4471"),
    ("b slash triple seven", "B/777"),
    ("k dash nought nine zero", "K-090"),
    ("part number four four seven one", "4471"),
    ("part number's forty four seventy one", "4471"),
    ("part number is two two oh seven dash b", "2207-B"),
    ("double you c dash one one four", "WC-114"),
    ("zed dash three one two", "Z-312"),
    ("r dash er three um one two", "R-312"),
    ("part number a two two oh seven", "A2207"),
    ("A-2207", "A-2207"),
    ("a-2207 came today", "A-2207"),
    ("wc114", "WC114"),
    ("the wc114 kit", "WC114"),
    ("GT 4471", "GT 4471"),
    ("ordered a GT 4471", "GT 4471"),
    ("WC-114/B", "WC-114/B"),
    ("2207-A", "2207-A"),
    ("number W C one one four", "WC114"),
    ("stamped k l 417", "KL417"),
    ("part number A, dash, 2207", "A-2207"),
    ("k dash four hundred", "K-400"),
    ("a dash two two oh seven a new one", "A-2207"),
]


@pytest.mark.parametrize(("said", "text"), SPELLED)
def test_part_number__is_written_as_it_was_said(said: str, text: str) -> None:
    assert [text] == texts(said)


def test_part_numbers__are_found_in_order() -> None:
    said = "a dash two two oh seven and w c dash one one four, then the GT 4471"
    assert ["A-2207", "WC-114", "GT 4471"] == texts(said)


NONE = [
    "a twenty two inch bar",
    "a two pound hammer",
    "twelve thou and six mil",
    "m8 by 25",
    "m 8 bolts",
    "12v supply",
    "a 35a fuse",
    "at 3000 rpm",
    "in 1964",
    "a 1964 car",
    "back in May 1965",
    "about 4471 miles",
    "£212.00",
    "registration KLM 234E",
    "the reg is k l m two three four e",
    "KLM 234E",
    "chassis number C 44718",
    "engine number e t one one oh four",
    "sae 140",
    "ep 90 oil",
    "v8 engine",
    "number two cylinder",
    "number one one fifty number two one forty five",
    "part number unknown",
    "I had two of them",
    "oh two of them",
    "half past two",
    "he rang on 01632 960123",
    "a dash of oil",
    "a stroke of luck",
    "double check it",
    "the 3-speed box",
    "quarter inch unf",
    "bsf 250",
    "",
]


@pytest.mark.parametrize("said", NONE)
def test_words__that_spell_no_part_number(said: str) -> None:
    assert [] == texts(said)


def test_part_number__has_the_tokens_it_was_said_in() -> None:
    tokens = tokens_of("part number is a dash two two oh seven right")
    assert (PartNumber(3, 9, "A-2207"),) == part_numbers_in(tokens)


@given(
    st.text("BCDEFGHJKLMNPQRSTUVWXYZ", min_size=1, max_size=3),
    st.text("0123456789", min_size=3, max_size=5),
)
def test_part_number__spelled_letter_by_letter_is_read_back(letters: str, digits: str) -> None:
    spelled = " ".join([*letters.lower(), "dash", *(num2words(int(digit)) for digit in digits)])
    assert [f"{letters}-{digits}"] == texts(f"part number {spelled}")
    assert [f"{letters}-{digits}"] == texts(f"fitted {spelled}")


@given(st.text("BCDEFGHJKLNPQRSTUVWXYZ", min_size=1, max_size=3), st.integers(100, 99999))
def test_part_number__with_its_dash_is_read_as_it_is_written(letters: str, figures: int) -> None:
    assert [f"{letters}-{figures}"] == texts(f"the {letters}-{figures} came")


@given(st.text("ab 12-/,.dashoubl zero", max_size=60))
def test_any_text__gives_numbers_in_order_and_apart(said: str) -> None:
    tokens = tokens_of(said)
    last = 0
    for number in part_numbers_in(tokens):
        assert last <= number.first < number.last <= len(tokens)
        last = number.last

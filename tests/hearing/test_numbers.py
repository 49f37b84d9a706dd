"""Numbers as they are said and as a phone writes them.

The phrases and what they come to were written by hand before the program was asked. Outside check:
num2words puts whole and decimal numbers into English words, and what it says is read back; number-parser
reads words, and both agree where it does not leave the English of numbers.
"""

import itertools
import re
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words
from number_parser import parse_number

from journal.hearing.numbers import Spoken, numbers_in
from journal.hearing.tokens import tokens_of


def texts(said: str) -> list[str]:
    return [number.text for number in numbers_in(tokens_of(said))]


ONE_NUMBER = [
    ("nought point three", "0.3"),
    ("naught point nought five", "0.05"),
    ("point oh one two", "0.012"),
    ("oh point five", "0.5"),
    ("zero point two two", "0.22"),
    ("nought point twenty five", "0.25"),
    ("point oh fifteen", "0.015"),
    ("three point five", "3.5"),
    ("twelve point nought", "12.0"),
    ("nought point one five oh", "0.150"),
    ("3 point 5", "3.5"),
    ("0.30", "0.30"),
    (".5", "0.5"),
    ("zero", "0"),
    ("nought", "0"),
    ("twelve", "12"),
    ("forty-five", "45"),
    ("forty five", "45"),
    ("ninety nine", "99"),
    ("a hundred", "100"),
    ("a hundred and ten", "110"),
    ("one hundred and thirty eight", "138"),
    ("two hundred twelve", "212"),
    ("two thousand four hundred", "2400"),
    ("three thousand and fifty", "3050"),
    ("twelve thousand, three hundred and four", "12304"),
    ("fourteen hundred", "1400"),
    ("a million", "1000000"),
    ("one fifty", "150"),
    ("one-fifty", "150"),
    ("two twenty five", "225"),
    ("one oh five", "105"),
    ("one thirty-eight", "138"),
    ("nineteen sixty-four", "1964"),
    ("twelve fifty revs", "1250"),
    ("a dozen", "12"),
    ("half a dozen", "6"),
    ("two dozen", "24"),
    ("a couple of thou", "2"),
    ("a couple hours", "2"),
    ("minus three", "-3"),
    ("minus nought point five", "-0.5"),
    ("-3", "-3"),
    ("3,000", "3000"),
    ("12,500.5", "12500.5"),
    ("2 thousand", "2000"),
    ("1/4", "1/4"),
    ("3 1/2", "3.5"),
    ("3-1/2", "3.5"),
    ("3½", "3.5"),
    ("½", "1/2"),
    ("12 and a half", "12.5"),
    ("twelve and a half", "12.5"),
    ("three and a quarter", "3.25"),
    ("one and a half", "1.5"),
    ("two and three quarters", "2.75"),
    ("one and five sixteenths", "1.3125"),
    ("two and a third", "2 1/3"),
    ("half a thou", "1/2"),
    ("half an inch", "1/2"),
    ("a half inch", "1/2"),
    ("half an hour", "1/2"),
    ("a quarter of an inch", "1/4"),
    ("quarter inch", "1/4"),
    ("quarter unf", "1/4"),
    ("three quarters", "3/4"),
    ("three quarter inch", "3/4"),
    ("five sixteenths", "5/16"),
    ("seven eighths", "7/8"),
    ("one eighth", "1/8"),
    ("an eighth of an inch", "1/8"),
    ("thirteen thirty-seconds", "13/32"),
    ("three thirty seconds", "3/32"),
    ("5 16ths", "5/16"),
    ("fifty um one", "51"),
    ("number four", "4"),
]  # fmt: skip


@pytest.mark.parametrize(("said", "text"), ONE_NUMBER)
def test_number__is_read_as_a_sheet_writes_it(said: str, text: str) -> None:
    assert [text] == texts(said)


SEVERAL = [
    ("twelve, fourteen and eleven thou", ["12", "14", "11"]),
    ("twelve fourteen eleven thou", ["12", "14", "11"]),
    ("a hundred and forty, one forty five, one forty and one thirty eight psi", ["140", "145", "140", "138"]),
    ("one fifty one forty five one forty one thirty eight", ["150", "145", "140", "138"]),
    ("a hundred and forty one forty five", ["140", "145"]),
    ("number one one-fifty, number two one-forty-five", ["1", "150", "2", "145"]),
    ("number three one oh five number four ninety", ["3", "105", "4", "90"]),
    ("nought point two three nought point two four", ["0.23", "0.24"]),
    ("point five point six", ["0.5", "0.6"]),
    ("two ten mil bolts", ["2", "10"]),
    ("eight ten thou", ["8", "10"]),
    ("ten twelve thou", ["10", "12"]),
    ("all four twelve thou", ["4", "12"]),
    ("six half inch bolts", ["6", "1/2"]),
    ("ten thou plus or minus two", ["10", "2"]),
    ("six to ten thou", ["6", "10"]),
    ("10-15 psi", ["10", "15"]),
    ("12mm, 14mm", ["12", "14"]),
    ("12,14,11 thou", ["12", "14", "11"]),
    ("it was twelve. fourteen on the other", ["12", "14"]),
    ("one or two thou", ["1", "2"]),
    ("one and two thou", ["1", "2"]),
    ("two two and a half thou", ["2", "2.5"]),
    ("a hundred and a half", ["100.5"]),
    ("nineteen twenty thou", ["19", "20"]),
    ("twenty five thirty", ["25", "30"]),
    ("two thousand and one of them", ["2001"]),
    ("one thou on one side", ["1"]),
    ("number one is down to ninety", ["1", "90"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "several"), SEVERAL)
def test_numbers__that_follow_one_another_are_each_their_own(said: str, several: list[str]) -> None:
    assert several == texts(said)


NONE = [
    "the other one was fine",
    "that one and this one",
    "no one had been in there",
    "the old one was cracked",
    "one of the studs",
    "a new one",
    "I did that one",
    "the rusty old one",
    "into second gear",
    "a second later",
    "the first and the third",
    "the twenty third of march",
    "on the 14th",
    "fifth gear whines",
    "to the car too, and I ate for my lunch",
    "at this point one of them let go",
    "a half decent weld",
    "the near side rear quarter panel",
    "half past",
    "oh dear oh no",
    "a couple of bolts",
    "a third one",
    "dozens of them",
    "14/5",
    "1/0",
    "no number here",
    "",
]


@pytest.mark.parametrize("said", NONE)
def test_words__that_are_no_numbers(said: str) -> None:
    assert [] == texts(said)


def test_number__has_the_tokens_it_was_said_in() -> None:
    tokens = tokens_of("measured um two and er a half thou")
    assert (Spoken(2, 7, Fraction(5, 2), "2.5", False),) == numbers_in(tokens)
    assert (
        "two and er a half" == "measured um two and er a half thou"[tokens[2].start : tokens[6].end]
    )


def test_number__in_short_writing_is_whole_or_not() -> None:
    assert [True, False, False, True] == [
        number.whole for number in numbers_in(tokens_of("twelve, 0.5, 1/4, a dozen"))
    ]


@given(st.integers(2, 9_999_999))
def test_whole_number__in_the_words_of_another_library_is_read_back(number: int) -> None:
    assert [str(number)] == texts(num2words(number))
    assert [f"-{number}"] == texts(num2words(-number))


@given(st.integers(2, 999_999))
def test_whole_number__without_dash_and_comma_is_read_back(number: int) -> None:
    assert [str(number)] == texts(re.sub("[-,]", " ", num2words(number)))


@given(st.decimals(0, 9999, places=3).filter(lambda value: value % 1 != 0))
def test_decimal_number__in_the_words_of_another_library_is_read_back(value: Decimal) -> None:
    read = numbers_in(tokens_of(num2words(value)))
    assert [Fraction(value)] == [number.value for number in read]


@given(st.lists(st.integers(2, 999), min_size=2, max_size=6))
def test_list__with_commas_is_read_number_by_number(numbers: list[int]) -> None:
    assert [str(number) for number in numbers] == texts(", ".join(map(num2words, numbers)))


@pytest.mark.parametrize(
    "said",
    ["twelve", "forty five", "one hundred and ten", "two thousand four hundred", "ninety nine",
     "three hundred and four", "seven thousand and fifty", "zero", "nineteen", "six hundred and thirty one"],
)  # fmt: skip
def test_number__agrees_with_a_library_that_reads_words(said: str) -> None:
    assert [str(parse_number(said))] == texts(said)


@given(
    st.text(
        alphabet=st.sampled_from("one two and a half point oh 12 3/4 - , . £ mil ½"), max_size=80
    )
)
def test_any_text__gives_numbers_in_order_and_apart(said: str) -> None:
    tokens = tokens_of(said)
    ends = [(number.first, number.last) for number in numbers_in(tokens)]
    assert all(0 <= first < last <= len(tokens) for first, last in ends)
    assert all(one == two or one[1] <= two[0] for one, two in itertools.pairwise(ends))

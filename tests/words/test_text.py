"""Text: one form of every letter and line end, and lists as a sentence says them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.words.text import comparable, counted, listed, normal, shortened


@pytest.mark.parametrize(
    ("text", "form"),
    [
        ("\ufeffdate", "date"),
        ("a\r\nb\rc\nd", "a\nb\nc\nd"),
        ("Coupe\u0301", "Coupé"),
        ("\u212b", "Å"),
        ("½ ﬁt", "½ ﬁt"),
        ("", ""),
    ],
)
def test_text__has_one_form(text: str, form: str) -> None:
    assert form == normal(text)


@given(st.text())
def test_form_of_text__is_its_own_form(text: str) -> None:
    once = normal(text.replace("\ufeff", ""))
    assert once == normal(once)
    assert "\r" not in once


@pytest.mark.parametrize(
    ("words", "said"),
    [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")],
)
def test_list__is_said_as_in_a_sentence(words: list[str], said: str) -> None:
    assert said == listed(words)


def test_list__may_be_of_choices() -> None:
    assert "a, b or c" == listed(["a", "b", "c"], "or")


def test_count__agrees_with_its_word() -> None:
    assert ("0 sheets", "1 sheet", "2 sheets", "1,234 sheets") == tuple(
        counted(n, "sheet") for n in (0, 1, 2, 1234)
    )
    assert ("1 body", "2 bodies") == (counted(1, "body", "bodies"), counted(2, "body", "bodies"))


@pytest.mark.parametrize("written", ["TD 58/0417", "td58 0417", "T.D.-58-0417", " TD58/0417\n"])
def test_stamped_number__is_compared_by_its_letters_and_digits(written: str) -> None:
    assert "td580417" == comparable(written)
    assert comparable(written) != "td580418"


def test_text__that_is_too_long_is_cut_with_a_mark() -> None:
    assert "four" == shortened("four", 4)
    assert "fo …" == shortened("fours", 4)

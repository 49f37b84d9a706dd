"""The number of 17 characters: 49 CFR 565.15 and ISO 3779 on published examples."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.words.vin import VALUES, WEIGHTS, check_digit, vin_remark, vin_sum


# Table V of the regulation (edition of 2000); a copy of the regulation with its example; an outline
# for new manufacturers by the US road safety administration; all ones, 89 = 8 x 11 + 1, by hand.
@pytest.mark.parametrize(
    ("number", "total", "digit"),
    [
        ("1G4AH59H45G118341", 411, "4"),
        ("1M8GDM9AXKP042788", 351, "X"),
        ("1J9RP1A36A1644345", 314, "6"),
        ("11111111111111111", 89, "1"),
        ("5GZCZ43D13S812715", 408, "1"),
    ],
)
def test_check_digit__of_published_examples(number: str, total: int, digit: str) -> None:
    assert total == vin_sum(number)
    assert digit == check_digit(number) == number[8]
    assert f"its ninth character, {digit}, is the check digit of 49 CFR 565.15" == vin_remark(
        number
    )


def test_weights__add_up_to_89_and_the_ninth_place_has_none() -> None:
    assert 89 == sum(WEIGHTS)
    assert 0 == WEIGHTS[8]


def test_values__start_again_at_1_with_j_and_at_2_with_s() -> None:
    assert {"H": 8, "J": 1, "N": 5, "P": 7, "R": 9, "S": 2, "Z": 9} == {
        c: VALUES[c] for c in "HJNPRSZ"
    }
    assert not set("IOQ") & set(VALUES)


@pytest.mark.parametrize(
    ("number", "remark"),
    [
        (
            "1M8GDM9A1KP042788",
            "its ninth character is 1 where 49 CFR 565.15 asks for X; outside North America it need "
            "not be a check digit",
        ),
        (
            "SGZCZ43D13S812715",
            "its ninth character is 1 where 49 CFR 565.15 asks for X; outside North America it need "
            "not be a check digit",
        ),
        ("TD 58/0417", "has 8 characters where 49 CFR 565 and ISO 3779 have 17"),
        ("1M8GDM9AXKPO42788", "holds O, which ISO 3779 does not use"),
    ],
)
def test_remark__says_what_the_rules_find(number: str, remark: str) -> None:
    assert remark == vin_remark(number)


def test_number__is_the_same_however_it_is_spaced() -> None:
    assert vin_remark("1M8GDM9AXKP042788") == vin_remark("1m8-GDM9A XKP 042788")


@given(st.text(alphabet="ABCDEFGHJKLMNPRSTUVWXYZ0123456789", min_size=17, max_size=17))
def test_check_digit__put_in_its_place_is_right(number: str) -> None:
    whole = number[:8] + check_digit(number) + number[9:]
    assert check_digit(whole) == whole[8]


@given(st.text())
def test_remark__can_be_made_on_anything(text: str) -> None:
    assert vin_remark(text)

"""Characters that nobody sees. Source: Unicode 14.0 and 15.0, DerivedCoreProperties.txt, property
Default_Ignorable_Code_Point, and PropList.txt, property Bidi_Control, as perl 5.36 tells them."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.words.hidden import MOST_MARKS, Found, character_words, spelt_out, without_hidden

IGNORABLE = (
    (0x00AD, 0x00AD), (0x034F, 0x034F), (0x061C, 0x061C), (0x115F, 0x1160), (0x17B4, 0x17B5),
    (0x180B, 0x180F), (0x200B, 0x200F), (0x202A, 0x202E), (0x2060, 0x206F), (0x3164, 0x3164),
    (0xFE00, 0xFE0F), (0xFEFF, 0xFEFF), (0xFFA0, 0xFFA0), (0xFFF0, 0xFFF8), (0x1BCA0, 0x1BCA3),
    (0x1D173, 0x1D17A), (0xE0000, 0xE0FFF),
)  # fmt: skip
PARTING = "\x0b\x0c\x1c\x1d\x1e\x1f\x85\u2028\u2029"
BIDI = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"


def test_ignorable_character__between_letters_is_taken_out() -> None:
    for first, last in IGNORABLE:
        for code in range(first, last + 1):
            assert ("58", (Found(1, chr(code)),)) == without_hidden(f"5{chr(code)}8"), hex(code)


def test_direction_mark__is_taken_out_wherever_it_stands() -> None:
    for mark in BIDI:
        for text in (f"{mark}ab", f"a{mark}b", f"ab{mark}", f"\u05d0{mark}\u05d1"):
            assert text.replace(mark, "") == without_hidden(text)[0]


def test_control_character__is_taken_out_and_a_tab_stays() -> None:
    codes = [*range(0x20), *range(0x7F, 0xA0)]
    shown = {code: without_hidden(f"a{chr(code)}b")[0] for code in codes}
    assert {0x09: "a\tb", 0x0A: "a\nb", 0x0D: "a\rb"} == {
        code: text for code, text in shown.items() if text not in ("ab", "a b")
    }


@pytest.mark.parametrize("parting", PARTING)
def test_character_that_parts_words__leaves_a_blank(parting: str) -> None:
    assert "two words" == without_hidden(f"two{parting}words")[0]


@pytest.mark.parametrize(
    "text",
    [
        "Coupé, 3 × 0.5 mm — “as found” …",
        "\U0001f468\u200d\U0001f527",  # a mechanic: man, joiner, spanner
        "\U0001f469\U0001f3fd\u200d\U0001f527",  # the same with a tone of skin
        "\u2600\ufe0f and \u2600\ufe0e",  # a sun as picture and as sign
        "\u2764\ufe0f\u200d\U0001f525",  # a heart on fire
        "1\ufe0f\u20e3 #\ufe0f\u20e3",  # keys
        "\U0001f3f4\U000e0067\U000e0062\U000e0065\U000e006e\U000e0067\U000e007f",  # England's flag
        "\u0645\u06cc\u200c\u062e\u0648\u0627\u0647\u0645",  # Persian, with a joiner's opposite
        "\u0915\u094d\u200d\u0937",  # Devanagari, with a joiner
        "\u05d1\u05bc\u05b0\u05e8\u05b5\u05d0\u05e9\u05c1\u05b4\u0596\u05d9\u05ea",  # Hebrew, pointed
        "Viê\u0323t",
    ],
)
def test_what_a_script_or_a_picture_sign_needs__stays(text: str) -> None:
    assert (text, ()) == without_hidden(text)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("TG 58\u200d31240", "TG 5831240"),
        ("5\ufe0f8", "58"),
        ("a\ufe0f\u200d\u2600", "a\u2600"),
        ("\u2600\ufe0f\ufe0f", "\u2600\ufe0f"),
        ("\u0645\u200c\u200c\u062e", "\u0645\u200c\u062e"),
        ("\U0001f3f4\U000e0067", "\U0001f3f4"),
        ("x\U000e0067\U000e007f", "x"),
        ("\ue000\U000f0000\ufdd0\ufffe\U0001ffff", ""),
    ],
)
def test_the_same_in_any_other_place__is_taken_out(text: str, shown: str) -> None:
    assert shown == without_hidden(text)[0]


def test_pile_of_accents__is_cut_where_no_language_writes_so_many() -> None:
    pile = "o" + "\u0300\u0316" * 50_000
    shown, found = without_hidden(f"one\n{pile}\n")
    assert f"one\no{chr(0x300) + chr(0x316)}" == shown[:7]
    assert len("one\no\n") + MOST_MARKS == len(shown)
    assert {Found(2, "\u0300"), Found(2, "\u0316")} == set(found)


def test_pile_of_accents__is_not_saved_by_what_nobody_sees_in_it() -> None:
    pile = "o" + "\u0300\u200b\xad" * 20
    assert "o" + "\u0300" * MOST_MARKS == without_hidden(pile)[0]


def test_line__is_that_of_the_character() -> None:
    text = "one\ntw\u202eo\n\nfour\u200b\u200b"
    assert (("one\ntwo\n\nfour"), (2, 4, 4)) == (
        without_hidden(text)[0], tuple(f.line for f in without_hidden(text)[1]),
    )  # fmt: skip


_ANY = st.text(st.characters(codec="utf-8"))
_ODD = st.text(
    st.sampled_from(
        [*"a1 #\n\u0645\u0915\u2600\U0001f468\U0001f527\U0001f3f4\U000e0067\U000e007f\u20e3\u0300\u0316",
         *"\u200b\u200c\u200d\u202e\ufe0f\xad\ufeff\x00\x85\u2028\ue000"]
    ),
    max_size=30,
)  # fmt: skip


@given(_ANY | _ODD)
def test_what_is_left__has_nothing_more_to_take_out(text: str) -> None:
    shown, _ = without_hidden(text)
    assert (shown, ()) == without_hidden(shown)


@given(_ANY | _ODD)
def test_what_is_left__is_what_was_written_without_what_was_found(text: str) -> None:
    shown, found = without_hidden(text)
    parted = [f for f in found if f.character in PARTING]
    rest = iter("".join(" " if c in PARTING else c for c in text))
    assert all(character in rest for character in shown)
    assert len(text) - len(shown) == len(found) - len(parted)
    assert all(1 <= f.line <= text.count("\n") + 1 for f in found)


@given(_ANY | _ODD)
def test_what_is_spelt_out__can_be_printed(text: str) -> None:
    told = spelt_out(text)
    assert not {c for c in told if unicodedata.category(c) in ("Cc", "Cs", "Co")} - set("\t\n\r")
    assert not set(told) & set(BIDI)


@pytest.mark.parametrize(
    ("character", "words"),
    [
        ("\u202e", "U+202E (right-to-left override)"),
        ("\x07", "U+0007 (a control character)"),
        ("\ue000", "U+E000 (a character without a meaning of its own)"),
        ("\ufdd0", "U+FDD0 (no character of any script)"),
    ],
)
def test_character__is_called_by_its_number_and_name(character: str, words: str) -> None:
    assert words == character_words(character)


def test_spelt_out__names_bytes_of_a_file_name_that_are_no_text() -> None:
    assert "coup<byte E9>.jpg" == spelt_out("coup\udce9.jpg")

"""When a word was said."""

from fractions import Fraction

import pytest

from journal.records.talk import Cue, Talk

# 0         1         2
# 0123456789012345678901234
TEXT = "drum is off shoe is worn"
TALK = Talk(
    TEXT,
    (Cue(0, 11, Fraction(0), Fraction("2.5"), "Jo"), Cue(12, 24, Fraction("2.5"), Fraction(4))),
    "day.vtt",
)


def test_talk__a_word_was_said_when_its_cue_begins() -> None:
    assert Fraction(0) == TALK.at(TEXT.index("off"))
    assert Fraction("2.5") == TALK.at(TEXT.index("worn"))


def test_talk__a_blank_between_two_cues_belongs_to_the_one_before() -> None:
    assert Fraction(0) == TALK.at(11)


def test_talk__a_place_outside_of_the_text_has_no_time() -> None:
    assert [None, None] == [TALK.at(-1), TALK.at(len(TEXT))]


def test_talk__plain_text_has_no_times() -> None:
    assert Talk("drum is off\nshoe is worn").at(3) is None


def test_talk__a_broken_time_stamp_leaves_the_voice() -> None:
    talk = Talk("drum is off", (Cue(0, 11, voice="Jo"),))
    assert talk.at(0) is None
    assert Cue(0, 11, voice="Jo") == talk.cue(0)


def test_talk__words_before_the_first_cue_have_no_time() -> None:
    assert Talk("so drum is off", (Cue(3, 14, Fraction(1), Fraction(2)),)).at(0) is None


def test_talk__never_changes() -> None:
    with pytest.raises(AttributeError, match="immutable"):
        TALK.text = ""  # type: ignore[misc]

"""Captions that roll up the screen are told once; what is said twice is told twice."""

from pathlib import Path

import pytest

from tests.reading.talking import talk_in, told

# Captions that roll up


def vtt(*cues: str) -> str:
    """Captions of a second each, one after the other."""
    blocks = (f"00:{n:02}.000 --> 00:{n + 1:02}.000\n{cue}" for n, cue in enumerate(cues))
    return "WEBVTT\n\n" + "\n\n".join(blocks)


@pytest.mark.parametrize(
    "cues",
    [
        # Two lines, of which the lower one goes up.
        ["so the drums are off", "so the drums are off\nand both scored", "and both scored\nten thou"],
        # A short caption between shows the line that stays alone.
        ["so the drums are off", "so the drums are off\nand both scored", "and both scored",
         "and both scored\nten thou", "ten thou"],
        # A line that grows while it is said.
        ["so the drums", "so the drums are off", "so the drums are off\nand both",
         "so the drums are off\nand both scored ten thou"],
    ],
)  # fmt: skip
def test_rolling_captions__tell_every_word_once(cues: list[str], tmp_path: Path) -> None:
    talk = talk_in(tmp_path, "a.vtt", vtt(*cues))
    assert "so the drums are off and both scored ten thou" == talk.text


def test_rolling_captions__words_have_the_time_at_which_they_come_new(tmp_path: Path) -> None:
    talk = talk_in(tmp_path, "a.vtt", vtt("it is off", "it is off\nand <00:01.500><c>clean</c>"))
    assert [(0, 1, "it is off", ""), (1, 1.5, "and", ""), (1.5, 2, "clean", "")] == told(talk)


@pytest.mark.parametrize(
    ("cues", "text"),
    [
        (["yes", "yes", "it is off"], "yes yes it is off"),
        (["it is off", "it is off it is not"], "it is off it is not"),
        (["so", "so it is off"], "so so it is off"),
        (["<v Jo>it is off", "<v Tom>it is off\n<v Tom>you say"], "it is off it is off you say"),
        (["off", "on", "off\nagain"], "off on off again"),
    ],
)
def test_captions__what_is_said_twice_stays(cues: list[str], text: str, tmp_path: Path) -> None:
    assert text == talk_in(tmp_path, "a.vtt", vtt(*cues)).text


def test_captions__what_is_said_again_later_stays(tmp_path: Path) -> None:
    text = (
        "WEBVTT\n\n00:01.000 --> 00:02.000\nit is off\n\n00:09.000 --> 00:10.000\nit is off\nagain"
    )
    assert "it is off it is off again" == talk_in(tmp_path, "a.vtt", text).text

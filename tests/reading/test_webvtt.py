"""WebVTT as the W3C specification parses it, and no word lost where it would be.

Samples are those of the specification, named by section; where a check rests on its algorithms, by theirs.
"""

from fractions import Fraction
from pathlib import Path

import pytest

from tests.reading.talking import WAY, talk_in, told, wrong

# WebVTT: the specification's samples


def test_webvtt__caption_cues_with_multiple_lines(tmp_path: Path) -> None:
    """Section 1.2, the example."""
    talk = talk_in(
        tmp_path, "a.vtt",
        "WEBVTT\n\n00:01.000 --> 00:04.000\nNever drink liquid nitrogen.\n\n"
        "00:05.000 --> 00:09.000\n— It will perforate your stomach.\n— You could die.\n",
    )  # fmt: skip
    assert (
        "Never drink liquid nitrogen. — It will perforate your stomach. — You could die."
        == talk.text
    )
    assert [
        (1, 4, "Never drink liquid nitrogen.", ""),
        (5, 9, "— It will perforate your stomach. — You could die.", ""),
    ] == told(talk)


def test_webvtt__styles_and_comments_are_not_said(tmp_path: Path) -> None:
    """Section 1.3, the second example."""
    talk = talk_in(
        tmp_path, "a.vtt",
        """WEBVTT

STYLE
::cue {
  background-image: linear-gradient(to bottom, dimgray, lightgray);
  color: papayawhip;
}
/* Style blocks cannot use blank lines nor "dash dash greater than" */

NOTE comment blocks can be used between style blocks.

STYLE
::cue(b) {
  color: peachpuff;
}

hello
00:00:00.000 --> 00:00:10.000
Hello <b>world</b>.

NOTE style blocks cannot appear after the first cue.
""",
    )  # fmt: skip
    assert [(0, 10, "Hello world.", "")] == told(talk)


def test_webvtt__identifiers_are_not_said(tmp_path: Path) -> None:
    """Section 1.4, the first example."""
    talk = talk_in(
        tmp_path, "a.vtt",
        "WEBVTT\n\ntest\n00:00.000 --> 00:02.000\nThis is a test.\n\n123\n00:00.000 --> 00:02.000\n"
        "That's an, an, that's an L!\n\ncrédit de transcription\n00:04.000 --> 00:05.000\n"
        "Transcrit par Célestes&trade;\n",
    )  # fmt: skip
    assert "This is a test. That's an, an, that's an L! Transcrit par Célestes™" == talk.text


def test_webvtt__classes_and_languages_are_not_said(tmp_path: Path) -> None:
    """Section 1.4, the second example."""
    talk = talk_in(
        tmp_path, "a.vtt",
        "WEBVTT\n\n04:02.500 --> 04:05.000\nJ'ai commencé le basket à l'âge de 13, 14 ans\n\n"
        "04:05.001 --> 04:07.800\n"
        "Sur les <i.foreignphrase><lang en>playground</lang></i>, ici à Montpellier\n",
    )  # fmt: skip
    assert (245.001, 247.8, "Sur les playground, ici à Montpellier", "") == told(talk)[1]
    assert Fraction(245_001, 1000) == talk.cues[1].begins


def test_webvtt__voices(tmp_path: Path) -> None:
    """Section 1.4, the third example."""
    talk = talk_in(
        tmp_path, "a.vtt",
        "WEBVTT\n\n00:00.000 --> 00:02.000\n<v.first.loud Esme>It's a blue apple tree!\n\n"
        "00:02.000 --> 00:04.000\n<v Mary>No way!\n\n"
        "00:04.000 --> 00:06.000\n<v Esme>Hee!</v> <i>laughter</i>\n\n"
        "00:06.000 --> 00:08.000\n<v.loud Mary>That's awesome!\n",
    )  # fmt: skip
    assert [
        (0, 2, "It's a blue apple tree!", "Esme"),
        (2, 4, "No way!", "Mary"),
        (4, 6, "Hee!", "Esme"),
        (4, 6, "laughter", ""),
        (6, 8, "That's awesome!", "Mary"),
    ] == told(talk)


def test_webvtt__settings_and_overlapping_cues(tmp_path: Path) -> None:
    """Section 1.4, the fourth example."""
    talk = talk_in(
        tmp_path, "a.vtt",
        "WEBVTT\n\n00:00:00.000 --> 00:00:04.000 position:10%,line-left align:left size:35%\n"
        "Where did he go?\n\n00:00:03.000 --> 00:00:06.500 position:90% align:right size:35%\n"
        "I think he went down this lane.\n\n"
        "00:00:04.000 --> 00:00:06.500 position:45%,line-right align:center size:35%\n"
        "What are you waiting for?\n",
    )  # fmt: skip
    assert [
        (0, 4, "Where did he go?", ""),
        (3, 6.5, "I think he went down this lane.", ""),
        (4, 6.5, "What are you waiting for?", ""),
    ] == told(talk)


def test_webvtt__regions_are_not_said(tmp_path: Path) -> None:
    """Section 1.4, the fifth example, its first two cues of each region."""
    talk = talk_in(
        tmp_path, "a.vtt",
        "WEBVTT\n\nREGION\nid:fred\nwidth:40%\nlines:3\nregionanchor:0%,100%\n"
        "viewportanchor:10%,90%\nscroll:up\n\nREGION\nid:bill\nwidth:40%\nlines:3\n"
        "regionanchor:100%,100%\nviewportanchor:90%,90%\nscroll:up\n\n"
        "00:00:00.000 --> 00:00:20.000 region:fred align:left\n<v Fred>Hi, my name is Fred\n\n"
        "00:00:02.500 --> 00:00:22.500 region:bill align:right\n<v Bill>Hi, I'm Bill\n",
    )  # fmt: skip
    assert [
        (0, 20, "Hi, my name is Fred", "Fred"),
        (2.5, 22.5, "Hi, I'm Bill", "Bill"),
    ] == told(talk)


def test_webvtt__comments(tmp_path: Path) -> None:
    """Section 1.5, the second example."""
    talk = talk_in(
        tmp_path, "a.vtt",
        """WEBVTT

NOTE
This file was written by Jill. I hope
you enjoy reading it. Some things to
bear in mind:
- I was lip-reading, so the cues may
not be 100% accurate
- I didn't pay too close attention to
when the cues should start or end.

00:01.000 --> 00:04.000
Never drink liquid nitrogen.

NOTE check next cue

00:05.000 --> 00:09.000
— It will perforate your stomach.
— You could die.

NOTE end of file
""",
    )  # fmt: skip
    assert talk.text.startswith("Never drink")
    assert talk.text.endswith("You could die.")


# WebVTT: its algorithms


@pytest.mark.parametrize(
    "start",
    ["WEBVTT\n\n", "WEBVTT - a talk\n\n", "WEBVTT\ta talk\nKind: captions\nLanguage: en\n\n",
     "\ufeffWEBVTT\n\n", "WEBVTT\n\n\n\n", "WEBVTT\nKind: captions\n", "WEBVTT\n\nATTRIBUTES\nlang: en\n\n"],
)  # fmt: skip
def test_webvtt__header_is_not_said(start: str, tmp_path: Path) -> None:
    """Section 6.1: the signature, the header, which an arrow ends too, and blocks that are none of ours."""
    talk = talk_in(tmp_path, "a.vtt", f"{start}00:01.000 --> 00:02.000\nit is off\n")
    assert [(1, 2, "it is off", "")] == told(talk)


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
def test_webvtt__line_ends_of_any_system(newline: str, tmp_path: Path) -> None:
    """Section 6.1, step 1."""
    text = "WEBVTT\n\n00:01.000 --> 00:02.000\nit is\noff\n\n00:02.000 --> 00:03.000\nclean"
    talk = talk_in(tmp_path, "a.vtt", text.replace("\n", newline))
    assert [(1, 2, "it is off", ""), (2, 3, "clean", "")] == told(talk)


def test_webvtt__cues_are_two_also_without_an_empty_line_between(tmp_path: Path) -> None:
    """Section 2.1, the example: "the parser will create two cues even if the blank line is skipped"."""
    text = "WEBVTT\n\n00:01.000 --> 00:02.000\nit is off\n00:02.000 --> 00:03.000\nand clean"
    talk = talk_in(tmp_path, "a.vtt", text)
    assert [(1, 2, "it is off", ""), (2, 3, "and clean", "")] == told(talk)


@pytest.mark.parametrize(
    ("stamp", "seconds"),
    [("00:01.000", 1), ("59:59.999", 3599.999), ("00:00:01.000", 1), ("1:00:00.000", 3600),
     ("100:00:00.500", 360_000.5), ("01:02:03.004", 3723.004)],
)  # fmt: skip
def test_webvtt__time_stamps(stamp: str, seconds: float, tmp_path: Path) -> None:
    """Section 6.3, "collect a WebVTT timestamp"."""
    text = f"WEBVTT\n\n{stamp} --> 200:00:00.000\nit is off"
    assert [(seconds, 720_000, "it is off", "")] == told(talk_in(tmp_path, "a.vtt", text))


@pytest.mark.parametrize("arrow", ["-->", " --> ", "\t-->\t", "   -->  "])
def test_webvtt__blanks_around_the_arrow(arrow: str, tmp_path: Path) -> None:
    """Section 6.3: white space may be there or not."""
    text = f"WEBVTT\n\n00:01.000{arrow}00:02.000\nit is off"
    assert [(1, 2, "it is off", "")] == told(talk_in(tmp_path, "a.vtt", text))


@pytest.mark.parametrize(
    ("payload", "words"),
    [
        ("a &lt;v Bob&gt; b &amp; c&nbsp;d", "a <v Bob> b & c d"),
        ("<c.yellow.bg_blue>it</c> is <b>o</b>ff", "it is off"),
        ("<ruby>it<rt>i</rt></ruby> is off", "iti is off"),
        ("it <unknown>is</unknown> off", "it is off"),
        ("it is off<", "it is off<"),
        ("gap < 3 thou and > 2", "gap < 3 thou and > 2"),
        ("it is <i off", "it is <i off"),
        ("&&amp;&notanentity; off", "&&¬anentity; off"),
    ],
)
def test_webvtt__text_of_a_cue(payload: str, words: str, tmp_path: Path) -> None:
    """Section 6.4. What begins no tag, or is never closed, is kept: there a parser would drop words."""
    text = f"WEBVTT\n\n00:01.000 --> 00:02.000\n{payload}"
    assert words == talk_in(tmp_path, "a.vtt", text).text


def test_webvtt__voice_with_signs_and_blanks_in_its_name(tmp_path: Path) -> None:
    """Section 6.4, "WebVTT start tag annotation state"."""
    text = "WEBVTT\n\n00:01.000 --> 00:02.000\n<v  Tom &amp;\tJo >it</v> is <v>off"
    assert [(1, 2, "it", "Tom & Jo"), (1, 2, "is off", "")] == told(
        talk_in(tmp_path, "a.vtt", text)
    )


def test_webvtt__times_within_a_cue_tell_when_the_words_behind_them_are_said(
    tmp_path: Path,
) -> None:
    """Section 6.4, "WebVTT timestamp tag state"; one out of order tells nothing (section 4.2.2)."""
    text = (
        "WEBVTT\n\n00:16.000 --> 00:20.000\n"
        "it <00:17.500>is <00:17.000>all <00:30.000>of <00:19.000><b>it</b> off"
    )
    assert [(16, 17.5, "it", ""), (17.5, 19, "is all of", ""), (19, 20, "it off", "")] == told(
        talk_in(tmp_path, "a.vtt", text)
    )


def test_webvtt__ending_of_another_kind_does_not_hide_it(tmp_path: Path) -> None:
    text = "WEBVTT\n\n00:01.000 --> 00:02.000\nit is off"
    for name in ("a.txt", "a.srt", "a"):
        assert [(1, 2, "it is off", "")] == told(talk_in(tmp_path, name, text))


def test_plain_text__that_speaks_of_webvtt_is_plain(tmp_path: Path) -> None:
    assert () == talk_in(tmp_path, "a.txt", "WEBVTTs are files").cues


# WebVTT: what is wrong


@pytest.mark.parametrize(
    "times",
    ["00:01,000 --> 00:02,000", "00:01.00 --> 00:02.000", "0:01.000 --> 00:02.000",
     "00:61.000 --> 00:62.000", "00:01.0000 --> 00:02.000", "--> 00:02.000", "00:01.000 -->",
     "00:01.000 -> 00:02.000", "00:01.000 → 00:02.000", "1 --> 2", "soon --> later"],
)  # fmt: skip
def test_webvtt__broken_time_costs_the_time_and_no_word(times: str, tmp_path: Path) -> None:
    before, after = "00:00.000 --> 00:01.000\nso", "00:03.000 --> 00:04.000\nright"
    text = f"WEBVTT\n\n{before}\n\n7\n{times}\n<v Jo>it is off\n\n{after}"
    talk, problems = wrong(tmp_path, "a.vtt", text)
    assert [
        (7, f'the time "{times}" cannot be read; its words are kept without it', WAY)
    ] == problems
    assert [(0, 1, "so", ""), (None, None, "it is off", "Jo"), (3, 4, "right", "")] == told(talk)


def test_webvtt__end_before_the_beginning_is_no_time(tmp_path: Path) -> None:
    talk, problems = wrong(
        tmp_path, "a.vtt", "WEBVTT\n\n00:05.000 --> 00:02.500\nit is off"
    )  # fmt: skip
    said = "the words end at 0:02.5, before they begin at 0:05; they are kept without a time"
    assert [(3, said, None)] == problems
    assert [(None, None, "it is off", "")] == told(talk)


def test_webvtt__words_before_which_no_time_stands_are_kept(tmp_path: Path) -> None:
    text = "WEBVTT\n\n00:00.000 --> 00:01.000\nso\n\nit is off\nand clean\n\n"
    talk, problems = wrong(tmp_path, "a.vtt", text)
    assert [(6, "no time stands before these words; they are kept without one", None)] == problems
    assert [(0, 1, "so", ""), (None, None, "it is off and clean", "")] == told(talk)

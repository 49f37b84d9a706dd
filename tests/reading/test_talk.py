"""A talk from a file: every word of it, with the times and voices that can be read.

Samples of WebVTT are those of the W3C specification, named by section; where a check rests on its
algorithms, by theirs. SubRip has no standard: common practice, no source.
"""

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.reading.talk import TALK_BYTES, read_talk
from journal.records.problem import Problem
from journal.records.talk import Talk


def read(folder: Path, name: str, text: str | bytes) -> tuple[Talk | None, list[Problem]]:
    file = folder / name
    file.write_bytes(text.encode() if isinstance(text, str) else text)
    return read_talk(file)


def talk_in(folder: Path, name: str, text: str | bytes) -> Talk:
    """The talk of a file in which nothing is wrong."""
    talk, problems = read(folder, name, text)
    assert [] == problems
    assert talk is not None
    return talk


def told(talk: Talk) -> list[tuple[Any, ...]]:
    """Each cue as seconds, words and voice."""
    return [
        (None if c.begins is None else float(c.begins), None if c.ends is None else float(c.ends),
         talk.text[c.start : c.end], c.voice)
        for c in talk.cues
    ]  # fmt: skip


# Plain text


def test_plain_text__is_the_talk_as_it_is(tmp_path: Path) -> None:
    text = "took both cylinders off\n  and er cleaned them\n\nnine thou"
    talk = talk_in(tmp_path, "day.txt", text)
    assert Talk(text, (), "day.txt") == talk


@pytest.mark.parametrize("name", ["day.md", "day", "day.text", "DAY.TXT"])
def test_plain_text__under_any_ending(name: str, tmp_path: Path) -> None:
    assert "it is off" == talk_in(tmp_path, name, "it is off").text


@pytest.mark.parametrize(
    ("raw", "text"),
    [
        (b"\xef\xbb\xbfit is off", "it is off"),
        (b"it is off\r\nand clean\r\n", "it is off\nand clean\n"),
        (b"it is off\rand clean", "it is off\nand clean"),
        ("caf\N{LATIN SMALL LETTER E}\N{COMBINING ACUTE ACCENT}".encode(), "café"),
    ],
)
def test_plain_text__in_any_dress_of_utf8(raw: bytes, text: str, tmp_path: Path) -> None:
    assert text == talk_in(tmp_path, "day.txt", raw).text


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


def wrong(folder: Path, name: str, text: str) -> tuple[Talk, list[tuple[int, str, str | None]]]:
    talk, problems = read(folder, name, text)
    assert talk is not None
    assert {"bad-cue-time"} == {p.code for p in problems}
    return talk, [(p.place.line, p.message, p.help) for p in problems]


WAY = "write it as hours:minutes:seconds.milliseconds, such as 00:00:01.000 --> 00:00:04.000"


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


# SubRip: common practice, no source

SRT = """1
00:00:01,000 --> 00:00:04,000
took both cylinders off

2
00:00:04,500 --> 00:00:06,250
and <i>cleaned</i>
them
"""
BOTH = [(1, 4, "took both cylinders off", ""), (4.5, 6.25, "and cleaned them", "")]


@pytest.mark.parametrize(
    "text",
    [
        SRT,
        SRT.replace(",", "."),
        SRT.replace("\n", "\r\n"),
        SRT.rstrip(),
        "\ufeff" + SRT,
        SRT.replace("1\n00:", "00:").replace("2\n00:", "00:"),
        SRT.replace("\n\n2\n", "\n2\n"),
        SRT.replace("\n\n", "\n\n\n\n"),
        SRT.replace("\n\n2", "\n \n2 "),
        SRT.replace("1\n", "7\n", 1).replace("2\n", "7\n", 1).replace("0,7", "0,000"),
        SRT.replace("them", "\nthem"),
        SRT.replace("00:00:0", "0:00:0"),
        SRT.replace("00:00:0", "00:0"),
        SRT.replace("4,000", "4,000  X1:53 X2:303 Y1:438 Y2:453"),
        SRT.replace("took", "{\\an8}took").replace("<i>", '<font color="#fff"><b>'),
        SRT + "\n3\n",
        SRT.replace(" --> ", "-->"),
    ],
)
def test_subrip__in_any_dress(text: str, tmp_path: Path) -> None:
    text = text.replace("</i>", "</b></font>" if "<font" in text else "</i>")
    assert BOTH == told(talk_in(tmp_path, "a.srt", text))


def test_subrip__ending_of_plain_text_does_not_hide_it(tmp_path: Path) -> None:
    assert BOTH == told(talk_in(tmp_path, "a.txt", SRT))
    assert () == talk_in(tmp_path, "a.txt", "12\nthat is thou").cues


@pytest.mark.parametrize(
    ("payload", "words"),
    [
        ("fourteen or\n14", "fourteen or 14"),
        ("14", "14"),
        ("gap < 3 and > 2 & <unknown>", "gap < 3 and > 2 & <unknown>"),
        ("<v Jo>it is off", "it is off"),
    ],
)
def test_subrip__figures_and_signs_that_were_said_stay(
    payload: str, words: str, tmp_path: Path
) -> None:
    text = f"1\n00:00:01,000 --> 00:00:02,000\n{payload}\n\n2\n00:00:02,000 --> 00:00:03,000\nright"
    assert f"{words} right" == talk_in(tmp_path, "a.srt", text).text


@pytest.mark.parametrize(
    "times",
    ["00:00:01,00 --> 00:00:02,000", "00:00:01:000 --> 00:00:02:000", "00:00:1,000 --> 00:00:02,000",
     "00:00:01,000 -> 00:00:02,000", "00:00:01,000 --> ", "00:99:01,000 --> 00:99:02,000"],
)  # fmt: skip
def test_subrip__broken_time_costs_the_time_and_no_word(times: str, tmp_path: Path) -> None:
    text = f"1\n00:00:00,000 --> 00:00:01,000\nso\n\n2\n{times}\nit is off\n"
    talk, problems = wrong(tmp_path, "a.srt", text)
    said = f'the time "{times.strip()}" cannot be read; its words are kept without it'
    assert [(6, said, WAY)] == problems
    assert [(0, 1, "so", ""), (None, None, "it is off", "")] == told(talk)


def test_subrip__words_before_the_first_time_are_kept(tmp_path: Path) -> None:
    text = "\nright then\n\n1\n00:00:00,000 --> 00:00:01,000\nso\n"
    talk, problems = wrong(tmp_path, "a.srt", text)
    assert [(2, "no time stands before these words; they are kept without one", None)] == problems
    assert "right then so" == talk.text


# What is no talk


NO_WORDS = "error[no-words]: no words stand in the file"
NOT_UTF8 = "error[not-utf8]: the file is not written in UTF-8"
NOT_TEXT = "error[not-text]: the file holds bytes that are not text"
RECORDING = "error[not-text]: the file is a recording, and words are not read out of it"


@pytest.mark.parametrize(
    ("name", "raw", "message"),
    [
        ("a.txt", b"", NO_WORDS),
        ("a.txt", b"\n  \n-- ...\n", NO_WORDS),
        ("a.vtt", b"WEBVTT", NO_WORDS),
        ("a.srt", b"1\n00:00:01,000 --> 00:00:02,000\n", NO_WORDS),
        ("a.txt", "it is caf\xe9".encode("latin-1"), NOT_UTF8),
        ("a.txt", "it is off".encode("utf-16"), NOT_UTF8),
        ("a.txt", b"\x00\x00\x00\x18ftypmp42\xff\xfe\x80", NOT_TEXT),
        ("a.mp4", b"\x00\x00\x00\x18ftypmp42", RECORDING),
        ("a.MP3", b"ID3", RECORDING),
    ],
)
def test_file_that_is_no_talk__is_told_and_gives_none(
    name: str, raw: bytes, message: str, tmp_path: Path
) -> None:
    talk, problems = read(tmp_path, name, raw)
    assert talk is None
    assert [message] == [f"{p.severity}[{p.code}]: {p.message}" for p in problems]
    assert [(tmp_path / name).as_posix()] == [p.place.path for p in problems]


def test_file_that_is_too_large__is_refused_before_it_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "a.txt"
    with file.open("wb") as out:
        out.truncate(10 * 1024 * 1024)
    monkeypatch.setattr("journal.reading.talk.text_of", None)
    talk, problems = read_talk(file)
    assert talk is None
    assert [
        ("file-too-large", "the file has 10,485,760 bytes, and at most 4,096 KiB are read",
         "cut it in two, or give the words without times")
    ] == [(p.code, p.message, p.help) for p in problems]  # fmt: skip


def test_three_hours_of_talk__are_read(tmp_path: Path) -> None:
    """30,000 words at the pace of speech, a time for every ten of them."""
    cues = (
        f"{n // 1200:02}:{n // 20 % 60:02}:{n % 20 * 3:02}.000 --> "
        f"{n // 1200:02}:{n // 20 % 60:02}:{n % 20 * 3 + 2:02}.999\n{' '.join([f'word{n}'] * 10)}"
        for n in range(3000)
    )
    text = "WEBVTT\n\n" + "\n\n".join(cues)
    assert len(text) < TALK_BYTES
    talk = talk_in(tmp_path, "a.vtt", text)
    assert (30_000, 3000) == (len(talk.text.split()), len(talk.cues))


@pytest.mark.parametrize("name", ["gone.txt", "gone.mp4", "."])
def test_file_that_is_not_there__is_told(name: str, tmp_path: Path) -> None:
    talk, problems = read_talk(tmp_path / name)
    assert talk is None
    assert ["unreadable-file"] == [p.code for p in problems]


def test_link_to_a_talk__is_followed_since_a_person_named_it(tmp_path: Path) -> None:
    (tmp_path / "here").mkdir()
    (tmp_path / "talk.txt").write_text("it is off")
    (tmp_path / "here/link.txt").symlink_to(tmp_path / "talk.txt")
    talk, problems = read_talk(tmp_path / "here/link.txt")
    assert ([], "link.txt") == (problems, talk and talk.source)


# Laws

_text = st.text(st.characters(exclude_categories=("Cs", "Cc", "Cf", "Co", "Cn")), max_size=40)
_part = st.one_of(
    _text,
    st.sampled_from(
        ["WEBVTT", "NOTE x", "STYLE", "1", "2", "", "00:01.000 --> 00:02.000", "00:00:01,5 --> x",
         "<v Jo>", "</v>", "<", "&amp;", "-->", "<00:01.500>", "it is off", "it is off and clean"]
    ),
)  # fmt: skip


@settings(max_examples=300, deadline=None)
@given(st.lists(_part, max_size=14).map("\n".join), st.sampled_from([".txt", ".vtt", ".srt"]))
def test_any_text__never_raises_and_its_cues_lie_in_order_within_it(
    tmp_path_factory: pytest.TempPathFactory, text: str, kind: str
) -> None:
    talk, problems = read(tmp_path_factory.getbasetemp(), f"any{kind}", text)
    assert talk is not None or problems
    if talk is None:
        return
    here = 0
    for cue in talk.cues:
        assert here <= cue.start < cue.end <= len(talk.text)
        assert cue.begins is None or cue.ends is None or cue.begins <= cue.ends
        here = cue.end
    if talk.cues:
        assert " ".join(talk.text[c.start : c.end] for c in talk.cues) == talk.text
        assert " ".join(talk.text.split()) == talk.text


_word = st.text(st.sampled_from("abcdefgh"), min_size=1, max_size=6)
_lines = st.lists(st.lists(_word, min_size=1, max_size=4), min_size=1, max_size=3)
_times = st.sampled_from(["00:01.000 --> 00:02.000", "00:01,0 --> 2", "00:0x --> 00:02.000"])


@settings(max_examples=100, deadline=None)
@given(
    st.lists(st.tuples(_times, _lines), min_size=1, max_size=6),
    st.sampled_from(["a.vtt", "a.srt"]),
)
def test_no_word__is_ever_lost_or_changes_its_place(
    tmp_path_factory: pytest.TempPathFactory, said: list[tuple[str, Any]], name: str
) -> None:
    """Words that stand once each, under times that can be read and that cannot."""
    words: list[str] = []
    blocks = []
    for times, lines in said:
        block = [times]
        for line in lines:
            numbered = [f"{word}{len(words) + n}" for n, word in enumerate(line)]
            words += numbered
            block.append(" ".join(numbered))
        blocks.append("\n".join(block))
    start = "WEBVTT\n\n" if name == "a.vtt" else ""
    talk, _ = read(tmp_path_factory.getbasetemp(), name, start + "\n\n".join(blocks))
    assert talk is not None
    assert " ".join(words) == talk.text

"""SubRip has no standard: what is checked here is common practice, no source."""

from pathlib import Path

import pytest

from tests.reading.talking import WAY, talk_in, told, wrong

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

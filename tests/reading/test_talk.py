"""A talk from a file: every word of it, and a sentence where it is none."""

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.reading.talk import TALK_BYTES, read_talk
from journal.records.talk import Talk
from tests.reading.talking import read, talk_in

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

"""A spoken talk from a file: plain dictation, WebVTT or SubRip, and never a word of it lost."""

import os
from pathlib import Path, PurePath

from msgspec.structs import replace

from journal.reading.cues import talk_of
from journal.reading.subrip import is_subrip, read_subrip
from journal.reading.text import read_bytes, text_of
from journal.reading.webvtt import is_webvtt, read_webvtt
from journal.records.place import Place
from journal.records.problem import Problem, Severity
from journal.records.talk import Talk

# Three hours of talk have some 30,000 words, a megabyte with a time for each.
TALK_BYTES = 4 * 1024 * 1024
RECORDINGS = frozenset(
    {
        ".mp4", ".m4v", ".mov", ".webm", ".mkv", ".avi", ".3gp", ".m4a", ".mp3", ".aac", ".wav", ".flac",
        ".ogg", ".oga", ".opus", ".amr", ".wma",
    }
)  # fmt: skip
_BYTE_ORDER = (b"\xff\xfe", b"\xfe\xff")
_WAY = "give the words as text: .vtt, .srt or .txt, as a telephone or a program for captions writes them"


def read_talk(path: Path) -> tuple[Talk | None, list[Problem]]:
    """The talk that a file holds, and what is wrong in it; no talk where nothing of it can be used.

    The kind goes by the ending, and by how the text begins where that says it.
    """
    shown = path.as_posix()
    raw, fault = _bytes(path, shown)
    return (None, [fault]) if fault is not None else talk_from(raw, path)


def talk_from(raw: bytes, path: PurePath) -> tuple[Talk | None, list[Problem]]:
    """The talk that bytes hold, as `read_talk` tells it of a file of that name."""
    shown = path.as_posix()
    if path.suffix.lower() in RECORDINGS:
        return None, [_not_text(shown, "the file is a recording, and words are not read out of it")]
    if b"\0" in raw and not raw.startswith(_BYTE_ORDER):
        return None, [_not_text(shown, "the file holds bytes that are not text")]
    text, problems = text_of(raw, shown, TALK_BYTES)
    if text is None:
        return None, problems
    talk, found = _talk(text, path, shown)
    if not any(map(str.isalnum, talk.text)):
        return None, [*problems, *found, _no_words(shown)]
    return talk, problems + found


def _bytes(path: Path, shown: str) -> tuple[bytes, Problem | None]:
    """The bytes of a file that can be a talk, read up to a bound, or why it is none."""
    if path.suffix.lower() in RECORDINGS and path.is_file():
        # It may be large, and is not read.
        return b"", None
    real = Path(os.path.realpath(path))
    raw, fault = read_bytes(real.parent, real.name, TALK_BYTES)
    return raw, fault and _at(fault, shown)


def _talk(text: str, path: PurePath, shown: str) -> tuple[Talk, list[Problem]]:
    kind = path.suffix.lower()
    problems: list[Problem] = []
    if is_webvtt(text):
        captions, problems = read_webvtt(text, shown)
    elif kind in (".vtt", ".srt") or is_subrip(text):
        captions, problems = read_subrip(text, shown, entities=kind == ".vtt")
        if kind == ".vtt" and captions:
            problems = [_no_first_line(shown, text), *problems]
    else:
        return Talk(text, (), path.name), []
    return talk_of(captions, path.name), problems


def _at(fault: Problem, shown: str) -> Problem:
    """A problem of a file as it was named."""
    way = (
        "cut it in two, or give the words without times" if fault.code == "file-too-large" else None
    )
    return replace(fault, place=Place(shown, 1), help=way or fault.help)


def _not_text(shown: str, message: str) -> Problem:
    return Problem(Place(shown, 1), "not-text", message, help=_WAY)


def _no_words(shown: str) -> Problem:
    return Problem(Place(shown, 1), "no-words", "no words stand in the file", help=_WAY)


def _no_first_line(shown: str, text: str) -> Problem:
    return Problem(
        Place(shown, 1), "no-webvtt-line", "the file does not begin with the line WEBVTT",
        Severity.WARNING, quoted=text.split("\n", 1)[0],
        help="write WEBVTT on the first line, with an empty line below it",
    )  # fmt: skip

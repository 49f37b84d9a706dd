"""Talks from files that a test writes, as it likes to hold them against what it expects."""

from pathlib import Path
from typing import Any

from journal.reading.talk import read_talk
from journal.records.problem import Problem
from journal.records.talk import Talk

WAY = "write it as hours:minutes:seconds.milliseconds, such as 00:00:01.000 --> 00:00:04.000"


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


def wrong(folder: Path, name: str, text: str) -> tuple[Talk, list[tuple[int, str, str | None]]]:
    """The talk of a file in which times are wrong, and what is said of them."""
    talk, problems = read(folder, name, text)
    assert talk is not None
    assert {"bad-cue-time"} == {p.code for p in problems}
    return talk, [(p.place.line, p.message, p.help) for p in problems]

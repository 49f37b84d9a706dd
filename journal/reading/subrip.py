"""SubRip to captions. The form has no standard; what is read here is common practice, no source.

A caption is a number, a line with two times, lines of text and an empty line. Numbers may be missing or
wrong, an empty line may stand within a text or be missing before a number, and a comma or a dot may
stand before the milliseconds, which may be left out.
"""

import re
from collections.abc import Sequence
from typing import NamedTuple

from journal.reading.cues import Caption
from journal.reading.cuetext import lines_of
from journal.reading.webvtt import MEANT, times_of, untimed
from journal.records.place import Place
from journal.records.problem import Problem

_STAMP = r"(?:([0-9]{1,3}):)?([0-9]{1,2}):([0-9]{2})(?:[,.]([0-9]{3}))?(?![0-9:,.])"
_TIMES = re.compile(rf"\s*{_STAMP}\s*-->\s*{_STAMP}")
_NUMBER = re.compile(r"\s*([0-9]+)\s*")
# Tags that players of such files know; any other is text. Codes in braces say where a line is shown.
_TAGS = frozenset({"b", "i", "u", "s", "font", "c", "v"})
_CODES = re.compile(r"\{\\[^}\n]*\}|\{/?[biusBIUS](?::[^}\n]*)?\}")


class _Part(NamedTuple):
    """A line with times, if there is one, and the lines of text below it. Lines count from 0."""

    at: int
    times: str | None
    below: list[str]


def is_subrip(text: str) -> bool:
    """Whether a text begins as SubRip does: with times, or with a number and then times."""
    lines = [line for line in text.split("\n", 50) if line.strip()][:2]
    if lines and _NUMBER.fullmatch(lines[0]):
        lines = lines[1:]
    return bool(lines and _TIMES.match(lines[0]))


def read_subrip(
    text: str, path: str, *, entities: bool = False
) -> tuple[list[Caption], list[Problem]]:
    """The captions of a SubRip file with LF line ends, in their order, and what is wrong in it. With
    `entities` signs are written as in HTML."""
    captions: list[Caption] = []
    problems: list[Problem] = []
    for part in _parts(text.split("\n")):
        words = _CODES.sub("", "\n".join(part.below))
        place = Place(path, part.at + 1)
        begins = ends = fault = None
        if part.times is not None:
            begins, ends, fault = times_of(_TIMES.match(part.times), part.times, place)
        else:
            problems.append(untimed(place, part.below[0]))
        lines = lines_of(words, begins, ends, only=_TAGS, entities=entities)
        captions.append(Caption(begins, ends, lines))
        problems += [fault] if fault else []
    return captions, problems


def _parts(lines: Sequence[str]) -> list[_Part]:
    """The captions as lines; those before the first times are a part without any."""
    parts = [_Part(0, None, [])]
    number = 0
    for n, line in enumerate(lines):
        if MEANT.match(line) or ("-->" in line and re.search(r"[0-9]", line)):
            number = _without_number(lines, n, parts[-1].below, number)
            parts.append(_Part(n, line, []))
        elif line.strip():
            if not parts[-1].below and parts[-1].times is None:
                parts[-1] = _Part(n, None, [])
            parts[-1].below.append(line)
    _without_number(lines, len(lines), parts[-1].below, number)
    return [part for part in parts if part.below or part.times]


def _without_number(lines: Sequence[str], n: int, below: list[str], before: int) -> int:
    """Take the number of a caption, whose times are on line `n`, out of what stands above; the number,
    or the one before where there is none.

    A figure that somebody said is told from it: it stands in its text, and no empty line before it.
    """
    above = n - 1
    while above >= 0 and n == len(lines) and not lines[above].strip():
        above -= 1
    found = _NUMBER.fullmatch(lines[above]) if above >= 0 and below else None
    if found is None or lines[above] != below[-1]:
        return before
    apart = above == 0 or not lines[above - 1].strip()
    number = int(found[1])
    if number != before + 1 and not (apart and n < len(lines)):
        return before
    below.pop()
    return number

"""WebVTT to captions, as the W3C specification parses it ("WebVTT file parsing", section 6.1).

Where a parser would drop a block, because its time cannot be read or it has none, its words are kept
without a time, and it is told.
"""

import re
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from journal.reading.cues import Caption
from journal.reading.cuetext import STAMP, lines_of, seconds_of
from journal.records.place import Place
from journal.records.problem import Problem, Severity
from journal.words.moments import moment_text

_SIGNATURE = re.compile(r"WEBVTT(?=[ \t\n]|$)")
_ARROW = "-->"
_TIMES = re.compile(rf"[ \t\f]*{STAMP}[ \t\f]*-->[ \t\f]*{STAMP}")
# What was meant to be times: two of them with an arrow of some kind between.
MEANT = re.compile(r"\s*[0-9]+:[0-9]+[0-9:.,]*\s*(?:[-–—=]*>|→)\s*[0-9]+:[0-9]+")
_COMMENT = re.compile(r"NOTE(?=[ \t]|$)")
_NOT_SAID = re.compile(r"(?:STYLE|REGION)[ \t\f]*$")
# Blocks of a later version of the format, which stand before the first cue.
_EXTENSION = re.compile(r"[A-Z][A-Z_-]+[ \t]*$")
_WAY = "write it as hours:minutes:seconds.milliseconds, such as 00:00:01.000 --> 00:00:04.000"


class _Block(NamedTuple):
    """Lines from `first` on that belong together: those before the one with an arrow, that one, and
    those behind it. Without an arrow all lines stand before it. Lines count from 0."""

    first: int
    above: list[str]
    arrow: str | None
    below: list[str]


def is_webvtt(text: str) -> bool:
    """Whether a text begins as WebVTT does."""
    return bool(_SIGNATURE.match(text))


def read_webvtt(text: str, path: str) -> tuple[list[Caption], list[Problem]]:
    """The captions of a WebVTT file with LF line ends, in their order, and what is wrong in it."""
    captions: list[Caption] = []
    problems: list[Problem] = []
    lines = text.split("\n")
    here = _behind_header(lines)
    while here < len(lines):
        if not lines[here]:
            here += 1
            continue
        block, here = _block(lines, here)
        caption, fault = _caption(block, path, begun=bool(captions))
        captions += [caption] if caption else []
        problems += [fault] if fault else []
    return captions, problems


def _behind_header(lines: Sequence[str]) -> int:
    """The first line that is not of the header: it ends at an empty line or before an arrow."""
    ends = (n for n, line in enumerate(lines) if n and (not line or _ARROW in line))
    return next(ends, len(lines))


def _block(lines: Sequence[str], first: int) -> tuple[_Block, int]:
    """The block that starts on a line, and the line behind it. An arrow on its first line or its second
    opens a cue; any other begins the next block, even where no line is left empty before it."""
    block = _Block(first, [], None, [])
    for here in range(first, len(lines)):
        line = lines[here]
        if _ARROW in line:
            if block.arrow is not None or here - first > 1:
                return block, here
            block = block._replace(arrow=line)
        elif not line:
            return block, here + 1
        else:
            (block.above if block.arrow is None else block.below).append(line)
    return block, len(lines)


def _caption(
    block: _Block, path: str, *, begun: bool
) -> tuple[Caption | None, Problem | None]:  # fmt: skip
    if block.arrow is None:
        return _without_time(block, path, begun=begun)
    if not block.above and _COMMENT.match(block.arrow):
        return None, None
    place = Place(path, block.first + len(block.above) + 1)
    begins, ends, fault = times_of(_TIMES.match(block.arrow), block.arrow, place)
    return Caption(begins, ends, lines_of("\n".join(block.below), begins, ends)), fault


def times_of(
    found: re.Match[str] | None, line: str, place: Place
) -> tuple[Fraction | None, Fraction | None, Problem | None]:
    """When words begin and end, by the two stamps that were found on a line; neither where one of them
    is wrong, with the problem."""
    parts = found.groups() if found else ()
    begins, ends = (seconds_of(parts[:4]), seconds_of(parts[4:])) if parts else (None, None)
    if begins is None or ends is None:
        said = f'the time "{line.strip()}" cannot be read; its words are kept without it'
        return None, None, _bad_time(place, said, line, _WAY)
    if ends < begins:
        said = (
            f"the words end at {moment_text(ends)}, before they begin at {moment_text(begins)}; "
            "they are kept without a time"
        )
        return None, None, _bad_time(place, said, line, None)
    return begins, ends, None


def _without_time(
    block: _Block, path: str, *, begun: bool
) -> tuple[Caption | None, Problem | None]:  # fmt: skip
    """Comments and styles go; the words of anything else stay."""
    first = block.above[0]
    if _COMMENT.match(first) or _NOT_SAID.match(first) or (not begun and _EXTENSION.match(first)):
        return None, None
    meant = next((n for n, line in enumerate(block.above[:2]) if MEANT.match(line)), None)
    if meant is not None:
        line = block.above[meant]
        place = Place(path, block.first + meant + 1)
        _, _, fault = times_of(None, line, place)
        words = block.above[meant + 1 :]
    else:
        fault = untimed(Place(path, block.first + 1), first)
        words = block.above
    return Caption(None, None, lines_of("\n".join(words), None, None)), fault


def untimed(place: Place, line: str) -> Problem:
    """Words before which no time stands."""
    return _bad_time(
        place, "no time stands before these words; they are kept without one", line, None
    )


def _bad_time(place: Place, message: str, line: str, way: str | None) -> Problem:
    return Problem(
        place, "bad-cue-time", message, Severity.WARNING, quoted=line, help=way,
    )  # fmt: skip

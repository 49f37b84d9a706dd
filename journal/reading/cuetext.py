"""The text of a caption: tags out, voices and times of single words in.

The rules are those of WebVTT (W3C, "WebVTT cue text parsing rules", section 6.4), with one difference,
since words are never lost here: a `<` that begins no tag, or that nothing closes, is a sign of the text.
"""

import re
from collections.abc import Collection, Sequence
from fractions import Fraction
from html import unescape

from journal.reading.cues import Line, Word

STAMP = r"(?:([0-9]+):)?([0-9]{2}):([0-9]{2})\.([0-9]{3})(?![0-9])"
_STAMP = re.compile(STAMP)
_TAG = re.compile(r"<(/?[A-Za-z][^>]*|/|\.[^>]*|[0-9]+:[^>]*|)>")
_NAME = re.compile(r"[A-Za-z0-9]*")
_BLANK = re.compile(r"(\s+)")
# Tags that hold something; any other is passed over.
_HOLDING = frozenset({"c", "i", "b", "u", "ruby", "rt", "v", "lang"})


def seconds_of(parts: Sequence[str | None]) -> Fraction | None:
    """The seconds that a time stamp tells in hours, minutes, seconds and milliseconds, of which the
    first and the last may be absent; None where minutes or seconds are no such."""
    hours, minutes, seconds, thousandths = (int(part or 0) for part in parts)
    if minutes > 59 or seconds > 59 or hours > 999:
        return None
    return Fraction(((hours * 60 + minutes) * 60 + seconds) * 1000 + thousandths, 1000)


def lines_of(
    text: str,
    begins: Fraction | None,
    ends: Fraction | None,
    *,
    only: Collection[str] | None = None,
    entities: bool = True,
) -> tuple[Line, ...]:
    """The lines of a caption's text, each word with its time and voice.

    With `only` no other tags are taken for tags. A time within the text counts from its place on, where
    it lies between the times of the caption and after those before it.
    """
    reader = _Reader(begins, ends, entities)
    here = 0
    for tag in _TAG.finditer(text):
        if only is not None and _name(tag[1]) not in only:
            continue
        reader.text(text[here : tag.start()])
        reader.tag(tag[1])
        here = tag.end()
    reader.text(text[here:])
    return reader.lines()


def _name(tag: str) -> str:
    found = _NAME.match(tag.removeprefix("/"))
    return found.group() if found else ""


class _Reader:
    """Gathers words; a word may go on behind a tag."""

    def __init__(self, begins: Fraction | None, ends: Fraction | None, entities: bool) -> None:
        self._now, self._ends, self._entities = begins, ends, entities
        self._open: list[tuple[str, str]] = []
        self._lines: list[list[Word]] = [[]]
        self._word: Word | None = None

    def text(self, text: str) -> None:
        """Text between two tags."""
        voice = next((voice for name, voice in reversed(self._open) if name == "v"), "")
        for part in _BLANK.split(unescape(text) if self._entities else text):
            if part.isspace():
                self._end_word()
                self._lines += [[] for _ in range(part.count("\n"))]
            elif part and self._word is None:
                self._word = Word(part, self._now, voice)
            elif part and self._word is not None:
                self._word = self._word._replace(text=self._word.text + part)

    def tag(self, tag: str) -> None:
        """What stands in a tag."""
        if tag[:1].isdigit():
            self._stamp(tag)
        elif tag.startswith("/"):
            self._close(tag[1:].strip())
        elif (name := _name(tag)) in _HOLDING:
            said = re.split(r"\s", tag, maxsplit=1)[1:]
            words = unescape(said[0]) if said and self._entities else "".join(said)
            self._open.append((name, " ".join(words.split())))

    def lines(self) -> tuple[Line, ...]:
        """All lines, empty ones too."""
        self._end_word()
        return tuple(map(tuple, self._lines))

    def _end_word(self) -> None:
        if self._word is not None:
            self._lines[-1].append(self._word)
            self._word = None

    def _stamp(self, tag: str) -> None:
        found = _STAMP.fullmatch(tag)
        at = seconds_of(found.groups()) if found else None
        if at is None or (self._now is not None and at <= self._now):
            return
        if self._ends is None or at < self._ends:
            self._now = at

    def _close(self, name: str) -> None:
        """An end tag closes what was opened last, and a ruby with a text in it."""
        names = [opened for opened, _ in self._open]
        if names[-1:] == [name]:
            self._open.pop()
        elif name == "ruby" and names[-2:] == ["ruby", "rt"]:
            del self._open[-2:]

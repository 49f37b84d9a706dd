"""Characters that nobody sees, and that change what is read: controls, direction marks, joiners.

A page must show what is written and nothing else. A mark that turns the direction of writing shows
digits in another order, a joiner inside a number hides it from whoever looks for it, and a pile of
accents covers the lines above. All of them are taken out, and where they stood is told. What a script
or a picture sign needs stays: joiners between Arabic and Indic letters and within emoji, the style
marks of emoji, and the tags of the flags of parts of a country.
"""

import re
import unicodedata
from typing import NamedTuple

# Unicode 15.0, DerivedCoreProperties, Default_Ignorable_Code_Point; with the controls (but for tab and
# the ends of lines), the separators of lines and paragraphs, the marks of interlinear notes, what is
# for private use and what is no character. No source in the standard library tells these.
_SUSPECT = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\xad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f"
    "\u200b-\u200f\u2028-\u202e\u2060-\u206f\u3164\ue000-\uf8ff\ufdd0-\ufdef\ufe00-\ufe0f\ufeff"
    "\uffa0\ufff0-\ufffb\ufffe\uffff\U0001bca0-\U0001bca3\U0001d173-\U0001d17a"
    + "".join(f"{chr(plane + 0xFFFE)}{chr(plane + 0xFFFF)}" for plane in range(0x10000, 0xE0000, 0x10000))
    + "\U000e0000-\U0010ffff]"
)  # fmt: skip
# These part words, so that a blank takes their place.
PARTING = frozenset("\x0b\x0c\x1c\x1d\x1e\x1f\x85\u2028\u2029")

# The points and accents of one letter in the scripts that have most of them are fewer; common
# practice, no source. Unicode (UAX 15) names 30 as far beyond what any language writes.
MOST_MARKS = 8
_PERHAPS_MARKS = re.compile(f"[^\x00-\u02ff]{{{MOST_MARKS + 1},}}")

_JOINERS = "\u200c\u200d"
_STYLES = "\ufe0e\ufe0f"
_MONGOLIAN = "\u180b\u180c\u180d\u180f"
_FLAG = re.compile("\U0001f3f4[\U000e0030-\U000e0039\U000e0061-\U000e007a]{1,6}\U000e007f")


class Found(NamedTuple):
    """A character that was taken out, and the line it stood on, counted from 1."""

    line: int
    character: str


def without_hidden(text: str) -> tuple[str, tuple[Found, ...]]:
    """A text with line ends as LF, without what nobody sees, and what was taken out of it."""
    found: list[Found] = []
    if _SUSPECT.search(text):
        text = _without_suspects(text, found)
    if _PERHAPS_MARKS.search(text):
        text = _without_piles(text, found)
    return text, tuple(found)


def _without_suspects(text: str, found: list[Found]) -> str:
    flags = {place for m in _FLAG.finditer(text) for place in range(m.start() + 1, m.end())}
    kept: list[str] = []
    here, line, before = 0, 1, ""
    for match in _SUSPECT.finditer(text):
        place, character = match.start(), match.group()
        if place > here:
            kept.append(text[here:place])
            line += text.count("\n", here, place)
            before = text[place - 1]
        here = place + 1
        if place not in flags and not _is_needed(before, character, text[here : here + 1]):
            found.append(Found(line, character))
            character = " " if character in PARTING else ""
        kept.append(character)
        before = character or before
    kept.append(text[here:])
    return "".join(kept)


def _is_needed(before: str, character: str, after: str) -> bool:
    """Whether a script or a picture sign needs a character in this place."""
    if not before:
        return False
    kind, code = unicodedata.category(before), ord(before)
    if character in _STYLES:
        if before in "0123456789#*":
            return after == "\u20e3"
        return (kind[0] in "SP" and code > 0xA0) or before == "\u2139"
    if character == "\u200d" and after and unicodedata.category(after) == "So":
        return kind in ("So", "Sk") or before == "\ufe0f"
    if character in _JOINERS:
        return kind[0] in "LM" and 0x0600 <= code <= 0x1CFF
    return character in _MONGOLIAN and kind[0] == "L" and 0x1820 <= code <= 0x18AA


def _without_piles(text: str, found: list[Found]) -> str:
    """A text without what is more than `MOST_MARKS` accents on one letter."""
    kept: list[str] = []
    here, line = 0, 1
    for match in _PERHAPS_MARKS.finditer(text):
        line += text.count("\n", here, match.start())
        kept.append(text[here : match.start()])
        marks = 0
        for character in match.group():
            marks = marks + 1 if unicodedata.combining(character) else 0
            if marks > MOST_MARKS:
                found.append(Found(line, character))
            else:
                kept.append(character)
        here = match.end()
    kept.append(text[here:])
    return "".join(kept)


def spelt_out(text: str) -> str:
    """A text for a message: what nobody sees stands there by its number, as `<U+202E>`. Tabs and
    ends of lines stay."""
    text = _SUSPECT.sub(lambda m: _number(m.group()), text)
    return "".join(
        f"<byte {ord(c) - 0xDC00:02X}>" if "\ud800" <= c <= "\udfff" else c for c in text
    )


def name_spelt_out(name: str) -> str:
    """A file name for a message, on one line whatever it holds."""
    return re.sub("[\t\n\r]", lambda m: _number(m.group()), spelt_out(name))


def character_words(character: str) -> str:
    """What a message calls a character: `U+202E (right-to-left override)`."""
    name = unicodedata.name(character, "").lower()
    if not name:
        kind = unicodedata.category(character)
        name = {"Cc": "a control character", "Co": "a character without a meaning of its own"}.get(
            kind, "no character of any script"
        )
    return f"{_number(character)[1:-1]} ({name})"


def _number(character: str) -> str:
    return f"<U+{ord(character):04X}>"

"""A talk as words: each with its place in the text, and whether a sentence may end before it."""

import re
import unicodedata

from msgspec import Struct

# Figures with their point or fraction, letters with the apostrophe and the dash inside a word, and the
# marks that may stand against a figure.
_WORD = re.compile(
    r"(?P<number>[0-9]+(?:[.,:/][0-9]+)*(?:(?:st|nd|rd|th)\b)?|\.[0-9]+)"
    r"|(?P<word>[^\W\d_]+(?:['’][^\W\d_]+)*)"
    r"|(?P<sign>[½¼¾⅛⅜⅝⅞%£$€°\"″/+±]|-(?=\.?[0-9])|(?<=/)-|(?<=[0-9])-(?=[^\W\d_]))"
)
_STOP = re.compile(r"[.!?…]|\n")
_PAUSE = re.compile(r"[,;:()–—]| - ")


class Token(Struct, frozen=True):
    """One word, figure or sign of a talk.

    `text` is in small letters with a straight apostrophe; `start` and `end` are its place in the
    talk's text. `breaks` tells that the text before it ends a sentence, `turns` that a new line begins
    there, `pause` that a comma or the like stands there.
    """

    text: str
    start: int
    end: int
    breaks: bool = False
    pause: bool = False
    turns: bool = False


def tokens_of(text: str) -> tuple[Token, ...]:
    """The words of a text in order. Marks that are neither words nor figures only part them."""
    found: list[Token] = []
    last = 0
    for match in _WORD.finditer(text):
        between = text[last : match.start()]
        word = unicodedata.normalize("NFC", match[0]).casefold().replace("’", "'")
        breaks = bool(_STOP.search(between)) and bool(found)
        pause, turns = bool(_PAUSE.search(between)), "\n" in between and bool(found)
        found.append(Token(word, match.start(), match.end(), breaks, pause, turns))
        last = match.end()
    return tuple(found)

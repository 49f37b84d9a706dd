"""Text: one Unicode form, and lists of words as a sentence says them."""

import unicodedata
from collections.abc import Sequence


def normal(text: str) -> str:
    """Text in Unicode normal form C with line ends as LF and no byte order mark."""
    return (
        unicodedata.normalize("NFC", text.removeprefix("\ufeff"))
        .replace("\r\n", "\n")
        .replace("\r", "\n")
    )


def listed(words: Sequence[str], last: str = "and") -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def counted(number: int, one: str, many: str = "") -> str:
    """`1 sheet`, `2 sheets`, with thousands set apart by a comma."""
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def comparable(number: str) -> str:
    """A stamped number without blanks, case and punctuation, for comparing two readings."""
    return "".join(c for c in normal(number).casefold() if c.isalnum())


def shortened(text: str, room: int) -> str:
    """A text that is no longer than `room` characters, cut with a mark where it was longer."""
    return text if len(text) <= room else text[: room - 2].rstrip() + " …"

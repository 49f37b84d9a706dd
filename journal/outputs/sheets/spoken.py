"""What was said, in the text of a sheet: a block at its end, for the reader whom the writer chooses.

The text of a sheet is what was typed, then what was said. `parted` takes the two apart where both can be
told from each other; `together` is how they stand in the sheet.
"""

import re
from typing import NamedTuple

from journal.words.vocabulary import Reader

# Who may read a talk; `public` has no block.
SHOWN_TO = (Reader.WORKSHOP, Reader.OWNER, Reader.PUBLIC)
_CLOSED = ":::"
_OPENED = {f"::: {reader.value}": reader for reader in SHOWN_TO[:2]}
# What Markdown takes for the character behind it (CommonMark 0.31.2, section 2.4).
_ESCAPED = re.compile(r"\\([!-/:-@\[-`{-~])")
# Colons that could be taken for the mark of a block: two beside each other, or one that begins a line.
_COLONS = re.compile(r":(?=:)|(?<=:):")
_COLON = re.compile(r"^((?:[^\S\n]|[>*+\d.)-])*):", re.MULTILINE)


class Spoken(NamedTuple):
    """What was said, as Markdown, and its widest reader."""

    text: str
    reader: Reader


def parted(body: str) -> tuple[str, Spoken | None]:
    """The text of a sheet without what was said, and that, where it is a block at the end of it."""
    lines = body.split("\n")
    opened = [n for n, line in enumerate(lines) if line.startswith(_CLOSED)]
    if len(opened) < 2 or lines[-1] != _CLOSED or lines[opened[-2]] not in _OPENED:
        return body, None
    first = opened[-2]
    spoken = Spoken("\n".join(lines[first + 1 : -1]), _OPENED[lines[first]])
    typed = "\n".join(lines[: max(first - 1, 0)])
    return (typed, spoken) if together(typed, spoken) == body else (body, None)


def together(typed: str, spoken: Spoken | None) -> str:
    """The text of a sheet: what was typed, then what was said. No mark of a block can be said."""
    if spoken is None or not spoken.text.strip():
        return typed
    said = _COLON.sub(r"\1\\:", _COLONS.sub(r"\:", spoken.text.strip("\n")))
    block = said if spoken.reader is Reader.PUBLIC else f"::: {spoken.reader.value}\n{said}\n:::"
    return f"{typed}\n\n{block}" if typed else block


def plainly(text: str) -> str:
    """Markdown of spoken words as these words, without the marks that keep them from being more."""
    return _ESCAPED.sub(r"\1", text)

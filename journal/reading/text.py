"""Files to text: UTF-8 or a problem, never a guess."""

from pathlib import Path

from journal.records.place import Place
from journal.records.problem import Problem
from journal.words.text import normal


def read_text(root: Path, path: str) -> tuple[str, Problem | None]:
    """The text of a file with LF line ends and no byte order mark, or empty text and a problem.

    `path` is relative to `root`, with `/`.
    """
    try:
        raw = (root / path).read_bytes()
    except OSError as fault:
        reason = (fault.strerror or "it cannot be opened").lower()
        return "", Problem(Place(path, 1), "unreadable-file", f"the file cannot be read: {reason}")
    try:
        text = normal(raw.decode("utf-8-sig"))
    except UnicodeDecodeError as fault:
        line = raw[: fault.start].count(b"\n") + 1
        return "", Problem(
            Place(path, line),
            "not-utf8",
            "the file is not written in UTF-8",
            help="save it again with the encoding UTF-8",
        )
    if "\0" in text:
        line = text[: text.index("\0")].count("\n") + 1
        return "", Problem(
            Place(path, line),
            "not-text",
            "the file holds bytes that are not text",
            help="save it again as plain text with the encoding UTF-8",
        )
    return text, None

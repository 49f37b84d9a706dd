"""Files to text: UTF-8 or a problem, never a guess; no more than a journal's file can hold."""

import os
import stat
from pathlib import Path

from journal.reading.files import leads_out, unreadable
from journal.reading.hidden import hidden_problem
from journal.records.place import Place
from journal.records.problem import Problem
from journal.words.hidden import without_hidden
from journal.words.text import counted, normal

# A sheet of 128 KiB has some 20,000 words; a register of 1 MiB has some 5,000 components.
SHEET_BYTES = 128 * 1024
FILE_BYTES = 1024 * 1024


def read_text(root: Path, path: str, most: int = FILE_BYTES) -> tuple[str | None, list[Problem]]:
    """The text of a file with LF line ends and without what nobody sees, and what is wrong in it.

    `path` is relative to `root`, with `/`. There is no text when the file cannot be used at all; of
    one with more than `most` bytes nothing is read.
    """
    raw, fault = read_bytes(root, path, most)
    return (None, [fault]) if fault is not None else text_of(raw, path, most)


def text_of(raw: bytes, path: str, most: int = FILE_BYTES) -> tuple[str | None, list[Problem]]:
    """The text that bytes hold, as `read_text` gives it; `path` is where problems say it stands."""
    if len(raw) > most:
        return None, [_too_large(path, len(raw), most)]
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return None, [_not_utf8(path, 1)]
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        return None, [_not_utf8(path, _lines(raw[: wrong.start]))]
    if "\0" in text:
        line = _lines(raw[: raw.index(b"\0")])
        return None, [
            Problem(
                Place(path, line), "not-text", "the file holds bytes that are not text",
                help="save it again as plain text with the encoding UTF-8",
            )
        ]  # fmt: skip
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    shown, found = without_hidden(text)
    problems = [hidden_problem(path, text.split("\n"), found)] if found else []
    return normal(shown), problems


def read_bytes(root: Path, path: str, most: int) -> tuple[bytes, Problem | None]:
    """The bytes of a plain file of at most so many, or why it is not read."""
    if fault := leads_out(root, path):
        return b"", fault
    try:
        with open(root / path, "rb", opener=_without_waiting) as file:
            kind = os.fstat(file.fileno())
            if not stat.S_ISREG(kind.st_mode):
                raise OSError(0, "it is no file but a pipe, a socket or a device")
            if kind.st_size > most:
                return b"", _too_large(path, kind.st_size, most)
            # One byte more tells of a file that grows while it is read.
            raw = file.read(most + 1)
    except OSError as wrong:
        return b"", unreadable(path, wrong)
    return raw, None


def _without_waiting(path: str, flags: int) -> int:
    """Opens a pipe at once instead of waiting for somebody who writes into it."""
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))


def _lines(raw: bytes) -> int:
    """The line that the end of `raw` stands on, whatever ends lines there."""
    return raw.replace(b"\r\n", b"\n").replace(b"\r", b"\n").count(b"\n") + 1


def _not_utf8(path: str, line: int) -> Problem:
    return Problem(
        Place(path, line), "not-utf8", "the file is not written in UTF-8",
        help="save it again with the encoding UTF-8",
    )  # fmt: skip


def _too_large(path: str, size: int, most: int) -> Problem:
    held = f"{most // 1024:,} KiB"
    return Problem(
        Place(path, 1), "file-too-large",
        f"the file has {counted(size, 'byte')}, and at most {held} are read",
        help="take out what is no text of the journal, or write it in two files",
    )  # fmt: skip

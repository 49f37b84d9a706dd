"""One day sheet: front matter between two lines of `---`, then the text."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path, PurePosixPath

from journal.reading.markdown import read_body
from journal.reading.shapes import read_shape
from journal.reading.text import SHEET_BYTES, read_text, text_of
from journal.reading.yamltext import Plain, is_lost, read_yaml
from journal.records.draft import DraftLine
from journal.records.place import Place
from journal.records.problem import Problem
from journal.records.sheet import Sheet, SheetFront
from journal.words.dates import parse_date
from journal.words.text import normal


def read_sheet(root: Path, path: str) -> tuple[Sheet | None, list[Problem]]:
    """The sheet at a path relative to the content folder, or None, with all that is wrong in it."""
    text, unseen = read_text(root, path, SHEET_BYTES)
    return (None, unseen) if text is None else _sheet(text, path, unseen)


def sheet_of(raw: bytes, path: str) -> tuple[Sheet | None, list[Problem]]:
    """The sheet that bytes hold, as `read_sheet` gives it when they lie at that path."""
    text, unseen = text_of(raw, path, SHEET_BYTES)
    return (None, unseen) if text is None else _sheet(text, path, unseen)


def _sheet(text: str, path: str, unseen: list[Problem]) -> tuple[Sheet | None, list[Problem]]:
    lines = tuple(text.split("\n"))
    end = front_end(lines)
    if end is None:
        return None, [*unseen, _no_front(path, lines)]
    data, source, problems = read_yaml("\n".join(lines[1:end]), path, lines, first_line=2)
    if is_lost(data, problems):
        return None, unseen + problems
    heard = isinstance(data, dict) and bool(data.get("draft"))
    front, source, wrong = read_shape(SheetFront, data, source, today=_day_of(data))
    body, stray = read_body("\n".join(lines[end + 1 :]), path, end + 2)
    problems = unseen + problems + wrong + stray
    if front is None:
        return None, problems
    if heard and not front.draft:
        # Lines of which nothing can be read wait all the same, and keep the sheet from other readers.
        front = front.model_copy(update={"draft": (DraftLine(),)})
    return Sheet(normal(PurePosixPath(path).stem), source, front, body), problems


def front_end(lines: Sequence[str]) -> int | None:
    """Which of a sheet's lines closes its front matter, counted from 0, or None."""
    if lines[0].rstrip() != "---":
        return None
    return next((n for n, line in enumerate(lines) if n and line.rstrip() == "---"), None)


def _no_front(path: str, lines: tuple[str, ...]) -> Problem:
    if lines[0].rstrip() == "---":
        message = "the front matter is opened on this line and never closed"
        way = "write a line of --- after the last key"
    else:
        message = "the sheet does not start with its front matter"
        way = "start with a line of ---, then date: and subsystem:, then a line of ---"
    return Problem(Place(path, 1), "no-front-matter", message, quoted=lines[0], help=way)


def _day_of(data: Plain) -> date:
    """The day that `today` means in this sheet.

    A sheet without a day that can be read is left out as a whole, so any day will do for it; to
    refuse `today` there as well would tell one mistake twice.
    """
    written = data.get("date") if isinstance(data, dict) else None
    try:
        return parse_date(str(written).strip())
    except ValueError:
        return date.min

"""A talk that was heard as a new sheet: its lines as a draft, and what was said as the text of the sheet.

The text stands in a block for the workshop until somebody says who may read it.
"""

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from datetime import date
from math import ceil

from journal.hearing.heard import Heard, Line
from journal.outputs.sheets.draft import draft_told
from journal.outputs.sheets.edit import body_of, with_body
from journal.outputs.sheets.merging import Told, listed
from journal.outputs.sheets.print import NewSheet, new_text
from journal.outputs.sheets.yamlform import Plain
from journal.reading.text import SHEET_BYTES
from journal.records.carfile import CarFile
from journal.records.sheet import SheetFront
from journal.words.moments import moment_text
from journal.words.text import shortened
from journal.words.vocabulary import Reader

# Words that a line came from are read at a glance; all that was said stands in the text.
_MOST_WORDS = 400
# What may be called by its name in later sheets, and so is told apart from all others of the car.
_CALLED_BY_NAME = ("parts", "outwork", "snags", "rechecks")
_OPENED = f"::: {Reader.WORKSHOP.value}"
_CLOSED = ":::"


def sheets_from(
    heard: Heard, front: Mapping[str, Plain], car: CarFile | None = None
) -> tuple[NewSheet, ...]:
    """New sheets that hold what was heard, besides what stands in `front`: one, or as many as are needed
    for a talk that is longer than a sheet may be. `car` is the car file in which they will lie."""
    told = draft_told(front, [_line(line) for line in heard.lines], _taken(car))
    # No sheet gets smaller once each holds one line at most.
    for count in range(1, len(heard.lines) + 2):
        sheets = tuple(_parts(told, heard.narrative, count))
        if all(len(new_text(sheet).encode()) <= SHEET_BYTES for sheet in sheets):
            break
    return sheets


def _line(line: Line) -> Told:
    """A line as it stands in a draft."""
    told: Told = {"words": shortened(line.words, _MOST_WORDS)}
    told |= {"at": moment_text(line.at)} if line.at is not None else {}
    told |= {"ask": line.ask} if line.ask else {}
    return told | dict(line.told)


def _taken(car: CarFile | None) -> dict[str, Collection[str]]:
    sheets = car.sheets if car else ()
    return {
        kind: {name for sheet in sheets for name in getattr(sheet.front, kind).names()}
        for kind in _CALLED_BY_NAME
    }


def _parts(told: Told, narrative: str, count: int) -> Iterator[NewSheet]:
    """The sheet in so many parts, each with its share of the lines and of the text."""
    lines = listed(told.get("draft"))
    share = ceil(len(lines) / count)
    for n, text in enumerate(_pieces(narrative, count)):
        part: Told = {key: value for key, value in told.items() if key != "draft"}
        part |= {"draft": lines[n * share : (n + 1) * share]}
        if n:
            part["title"] = f"{told.get('title', 'Talk')}, part {n + 1}"
        day = date.fromisoformat(str(told["date"]))
        body = talk_block(text) if text else ""
        yield NewSheet(SheetFront.model_validate(part, context=day), body)


def _pieces(text: str, count: int) -> Iterator[str]:
    """A text in so many pieces of about one length, parted between words."""
    words = re.findall(r"\S+\s*", text.strip())
    share = max(1, ceil(len(words) / count))
    for n in range(count):
        yield "".join(words[n * share : (n + 1) * share]).strip()


def talk_block(text: str) -> str:
    """A text that was said, in a block for the workshop. No mark of a block can be said in it."""
    said = re.sub(r":(?=\s*:)", ": ", text) if "::" in text else text
    lines = [line.rstrip() for line in said.strip().split("\n")]
    return "\n".join([_OPENED, *(_unmarked(line) for line in lines), _CLOSED])


def _unmarked(line: str) -> str:
    """A line that opens no block: one colon before the name of a reader looks like it."""
    return re.sub(r"^([\s>*+\d.)-]*):(?=\s*\w+\s*$)", r"\1", line)


def talk_in(raw: bytes) -> str | None:
    """The first block for the workshop in the text of a sheet, which holds what was said; None without
    one. Raises WrongCall when the front matter is not closed."""
    lines = body_of(raw).split("\n")
    found = _block(lines)
    return None if found is None else "\n".join(lines[found[0] + 1 : found[1]])


def talk_shown_to(raw: bytes, widest: Reader) -> bytes:
    """The sheet with what was said for `widest` and all who see more; as it is where there is no such
    block. Raises WrongCall when the front matter is not closed."""
    lines = body_of(raw).split("\n")
    found = _block(lines)
    if found is None or widest is Reader.WORKSHOP:
        return raw
    first, last = found
    if widest is not Reader.PUBLIC:
        lines[first] = f"::: {widest.value}"
        return with_body(raw, "\n".join(lines))
    kept = [*lines[:first], *lines[first + 1 : last], *lines[last + 1 :]]
    return with_body(raw, "\n".join(kept))


def _block(lines: Sequence[str]) -> tuple[int, int] | None:
    """The lines that open and close the first block for the workshop."""
    first = next((n for n, line in enumerate(lines) if line.rstrip() == _OPENED), None)
    if first is None:
        return None
    last = next((n for n, line in enumerate(lines) if n > first and line.rstrip() == _CLOSED), None)
    return None if last is None else (first, last)

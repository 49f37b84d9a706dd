"""Whose a line is that does not say so: that of the first line under the same name.

A snag that is raised for the workshop alone is cleared weeks later in a line that nobody thinks of
marking. What was kept back stays back, until a line says that more may read of it.
"""

from collections.abc import Sequence
from typing import TypeVar

from msgspec.structs import replace

from journal.records.fields import Named
from journal.records.goods import Extra, OutworkLine, PartLine
from journal.records.recheck import RecheckLine
from journal.records.sections import SnagLine
from journal.records.sheet import Sheet
from journal.words.vocabulary import READER_RANK, Reader

L = TypeVar("L", PartLine, OutworkLine, Extra, SnagLine, RecheckLine)
_Known = dict[tuple[str, str], Reader]


def readers_followed(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """Sheets in order, with the widest reader of every line that tells more of a thing already told.

    A thing that is first told of in a sheet for fewer readers is for no more than those. A line that
    says fewer itself is for those alone, and changes nothing for later ones.
    """
    known: _Known = {}
    return tuple(_sheet(sheet, known) for sheet in sheets)


def _sheet(sheet: Sheet, known: _Known) -> Sheet:
    front, widest = sheet.front, sheet.front.widest
    update = {
        "parts": _lines("parts", front.parts, widest, known),
        "outwork": _lines("outwork", front.outwork, widest, known),
        "extras": _lines("extras", front.extras, widest, known),
        "snags": _lines("snags", front.snags, widest, known),
        "rechecks": _lines("rechecks", front.rechecks, widest, known),
    }
    changed = {key: lines for key, lines in update.items() if lines is not getattr(front, key)}
    return replace(sheet, front=front.model_copy(update=changed)) if changed else sheet


def _lines(kind: str, lines: Named[L], widest: Reader, known: _Known) -> Named[L]:
    if not lines:
        return lines
    followed = tuple((name, _line((kind, name), line, widest, known)) for name, line in lines)
    same = all(after is before for (_, after), (_, before) in zip(followed, lines, strict=True))
    return lines if same else Named(followed)


def _line(key: tuple[str, str], line: L, widest: Reader, known: _Known) -> L:
    if key not in known:
        known[key] = min(line.for_, widest, key=READER_RANK.__getitem__)
    elif "for_" in line.model_fields_set:
        known[key] = max(line.for_, known[key], key=READER_RANK.__getitem__)
    else:
        return line.model_copy(update={"for_": known[key]})
    return line

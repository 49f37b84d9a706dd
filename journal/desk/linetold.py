"""Lines that wait, as a page hears of them: the words and where they stand in what was said, what they
would put into the sheet, in words and as fields of the form, and what is asked."""

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from fractions import Fraction
from typing import Any

from msgspec.structs import asdict
from pydantic import ValidationError

from journal.desk.placed import Place, found_in
from journal.outputs.sheets.form import Form, body_told
from journal.outputs.sheets.formline import beside, piece_of
from journal.outputs.sheets.spoken import plainly
from journal.outputs.sheets.yamlform import Plain
from journal.pages.putwords import puts_of
from journal.records.carfile import CarFile
from journal.records.draft import DraftLine
from journal.words.moments import moment_text, parse_moment, seconds_text
from journal.words.text import listed

Line = Mapping[str, Plain]
# What a line is when nobody says it: by the first section that it would fill.
_KINDS = {"hours": "hours", "parts": "part", "measured": "measured", "snags": "snag"}
_WORK = (("did", "act"), ("now", "origin"), ("found", "found"), ("decided", "decided"))


def record_of(line: Line) -> DraftLine | None:
    """A line as a record; None when it is no line of a draft."""
    try:
        return DraftLine.model_validate(dict(line), context=date.min)
    except ValidationError:
        return None


def waiting_told(car: CarFile, form: Form) -> dict[str, Any] | None:
    """The lines of a form that wait, with what was said; None when none does."""
    lines: list[Line] = form.get("draft") or []
    if not lines:
        return None
    talk = form.get("talk")
    said = plainly(talk["text"] if talk else body_told(form))
    places = found_in(said, [str(line.get("words", "")) for line in lines])
    return {"said": said, "lines": [*lines_told(car, said, lines, places)]}


def lines_told(
    car: CarFile, said: str, lines: Sequence[Line], places: Sequence[Place | None],
    kinds: Sequence[str] | None = None, of: Sequence[Sequence[str]] | None = None,
) -> Iterator[dict[str, Any]]:  # fmt: skip
    """Each line as a page hears of it, with its place in `said` as a browser counts.

    `kinds` and `of` say what it is and which components it speaks of, where that is known; else it is
    seen from what the line would put, and asks.
    """
    wide = [n for n, character in enumerate(said) if character > "\uffff"]
    for n, (line, place) in enumerate(zip(lines, places, strict=True)):
        record = record_of(line)
        if record is None:
            continue
        at = parse_moment(str(line["at"])) if "at" in line else None
        yield {
            "id": str(n), "kind": kinds[n] if kinds else kind_of(record),
            "words": record.words or "", **_where(wide, place),
            **_when(at), "ask": record.ask or _unknown(car, record),
            "of": [*(of[n] if of else asked_of(car, record))],
            "puts": [asdict(put) for put in puts_of(car, record)],
            "form": piece_of(line), "beside": beside(line), "line": dict(line),
        }  # fmt: skip


def _unknown(car: CarFile, line: DraftLine) -> str:
    """What is to be asked of a line on a component that the car has none of: no sheet takes it."""
    unknown = [key for key in asked_of(car, line) if car.component(key) is None]
    verb = "is" if len(unknown) == 1 else "are"
    if not unknown:
        return ""
    return f"{listed(unknown)} {verb} not in the register of this car. Is another component meant?"


def _where(wide: Sequence[int], place: Place | None) -> dict[str, int | None]:
    """A place in units of UTF-16 (ECMA-262, section 6.1.4), in which the characters at `wide` are two."""
    if place is None:
        return {"start": None, "end": None}
    start, end = (n + bisect_left(wide, n) for n in place)
    return {"start": start, "end": end}


def _when(at: Fraction | None) -> dict[str, str]:
    if at is None:
        return {"at": "", "seconds": ""}
    return {"at": moment_text(Fraction(int(at))), "seconds": seconds_text(at)}


def kind_of(line: DraftLine) -> str:
    """What a line is, by what it would put; a question when that is nothing."""
    for section, kind in _KINDS.items():
        if getattr(line, section):
            return kind
    for _, work in line.work:
        return next((kind for key, kind in _WORK if getattr(work, key)), "act")
    return "question"


def asked_of(car: CarFile, line: DraftLine) -> Iterator[str]:
    """The components that a line would put something of; of a question the one that it begins with."""
    keys = [*line.work.names(), *(r.on for _, r in line.measured if r.on)]
    keys += [s.on for _, s in line.snags if s.on]
    keys += [key for _, part in line.parts for key in part.of]
    if not keys and line.ask:
        named = line.ask.split(":")[0]
        keys = [c.key for c in car.register.components if c.label == named]
    yield from dict.fromkeys(keys)

"""A line that was heard, as the fields of a form that it would fill, and what no form shows of it.

Whoever takes a line over in a form gets both: the fields stand in the cards, and what they do not show
is put into the sheet beside them.
"""

from collections.abc import Iterable, Mapping

from journal.outputs.sheets.form import Form, form_of, told_of
from journal.outputs.sheets.merging import MERGES, keyed, whole
from journal.outputs.sheets.yamlform import Plain
from journal.records.draft import SECTIONS

Line = Mapping[str, Plain]
_ENTRIES = ("work", "parts", "measured", "snags")
_SHOWN = ("subsystem", "hours", *_ENTRIES)


def piece_of(line: Line) -> Form:
    """The fields that a line fills, by the names that a form has for them; those that it fills alone."""
    form = form_of({key: line[key] for key in _SHOWN if key in line}, "")
    piece: Form = {"subsystem": form["subsystem"]} if form["subsystem"] else {}
    if form["hours"] and not form["otherwise"]:
        piece["hours"] = form["hours"]
    for kind in _ENTRIES:
        entries = [{k: v for k, v in entry.items() if v} for entry in form[kind]]
        piece |= {kind: entries} if entries else {}
    return piece


def beside(line: Line) -> dict[str, Plain]:
    """What a line would put into a sheet and `piece_of` does not hold."""
    held = told_of({}, {}, form_of({k: line[k] for k in _SHOWN if k in line}, ""))
    left: dict[str, Plain] = {}
    for key in SECTIONS:
        if key in line and (kept := _left(key, line[key], held.get(key))):
            left[key] = kept
    return left


def _left(section: str, said: Plain, held: "Plain | None") -> "Plain | None":
    if section not in _ENTRIES:
        return None if said == held else said
    entries = {name: _rest(section, entry, held, name) for name, entry in keyed(said).items()}
    return {name: entry for name, entry in entries.items() if entry}


def _rest(section: str, entry: Plain, held: "Plain | None", name: str) -> dict[str, Plain]:
    there = whole(section, keyed(held).get(name, {}))
    return {k: v for k, v in whole(section, entry).items() if _items(there.get(k)) != _items(v)}


def _items(value: "Plain | None") -> "Plain | None":
    """A list of one text and that text alone are one thing."""
    return [value] if isinstance(value, str) else value


def with_lines(told: Mapping[str, Plain], lines: Iterable[Line]) -> dict[str, Plain]:
    """Front matter that says what lines say too. Raises WrongCall when hours with a hand would stand
    beside hours without one."""
    made = dict(told)
    for line in lines:
        for key in SECTIONS:
            if key in line:
                made[key] = MERGES[key](made.get(key), line[key])
    return made

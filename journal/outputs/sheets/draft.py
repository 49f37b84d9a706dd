"""A draft in a sheet: lines that were heard put into it, and each taken over or dropped, one by one.

Front matter comes in and goes out as plain data (`front_told`); `edit` makes bytes of it that differ from
what was written in nothing else. Whoever takes over all lines, in whatever order, has the same sheet,
unless two of them contradict each other.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from datetime import date
from fractions import Fraction
from typing import NamedTuple

from journal.outputs.sheets.merging import (
    BEGINS,
    MERGES,
    Told,
    begins,
    clashing,
    free,
    keyed,
    listed,
    together,
    union,
    whole,
)
from journal.outputs.sheets.print import front_told, line_told
from journal.outputs.sheets.yamlform import Plain
from journal.records.draft import SECTIONS, DraftLine
from journal.records.sheet import SheetFront
from journal.words.moments import parse_moment

Line = Mapping[str, Plain]


class Clash(NamedTuple):
    """What a sheet says under a key of an entry, and what a line would put there instead."""

    entry: str
    key: str
    before: Plain
    after: Plain


def draft_told(
    front: Mapping[str, Plain],
    lines: Sequence[Line],
    taken: Mapping[str, Collection[str]] | None = None,
) -> Told:
    """The front matter with lines that were heard as its draft.

    A thing that a line begins has a name of its own (`kit`, `kit-2`): no other line, nothing in the sheet
    and nothing among the names `taken` elsewhere, by section, is called so and is another thing.
    """
    known = {
        kind: {name: whole(kind, entry) for name, entry in keyed(front.get(kind)).items()}
        for kind in BEGINS
    }
    day = _day(front)
    named = [_named_apart(_line(line, day), known, taken or {}) for line in lines]
    return _as_read({**front, "draft": [*listed(front.get("draft")), *named]})


def accept(told: Mapping[str, Plain], n: int, line: Line | None = None) -> Told:
    """The front matter once line `n` of its draft, counted from 0, is taken over, or the one given for it.

    What the line would put stands in the sections of the sheet, and the line no more in the draft. Where
    the recording is known that the line was heard in, its moment stands in the sheet too. What the
    sheet says already and the line says otherwise is put as the line says (see `clashes`). Raises
    WrongCall when hours with a hand would stand beside hours without one.
    """
    put = _line(keyed(listed(told.get("draft"))[n]) if line is None else line, _day(told))
    made = drop(told, n)
    sections = [key for key in SECTIONS if key in put]
    for key in sections:
        made[key] = MERGES[key](made.get(key), put[key])
    branches: list[Plain] = [name.split("/")[0] for name in keyed(put.get("work"))]
    made["subsystem"] = union(made.get("subsystem"), branches)
    if sections and "at" in put and "recording" in made:
        made["recording"] = _with_moment(listed(made["recording"]), put)
    return _as_read(made)


def drop(told: Mapping[str, Plain], n: int) -> Told:
    """The front matter without line `n` of its draft, counted from 0."""
    lines = listed(told.get("draft"))
    del lines[n]
    left = {key: value for key, value in told.items() if key != "draft"}
    return {**left, "draft": lines} if lines else left


def clashes(told: Mapping[str, Plain], line: Line) -> tuple[Clash, ...]:
    """What a line would say otherwise than the sheet says it now."""
    put = _line(line, _day(told))
    return tuple(
        Clash(name, key, before[key], value)
        for kind in BEGINS
        for name, entry in keyed(put.get(kind)).items()
        for before in [whole(kind, keyed(told.get(kind)).get(name, {}))]
        for key, value in clashing(before, whole(kind, entry)).items()
        if not begins(kind, entry)
    )


def _day(told: Mapping[str, Plain]) -> date:
    return date.fromisoformat(str(told["date"]))


def _line(line: Line, day: date) -> Told:
    """A line in the form in which it is read and printed."""
    return line_told(DraftLine.model_validate(dict(line), context=day))


def _as_read(told: Mapping[str, Plain]) -> Told:
    """Front matter in the form in which it is read and printed."""
    return front_told(SheetFront.model_validate(dict(told), context=_day(told)))


def _with_moment(moments: list[Plain], line: Line) -> list[Plain]:
    """The moments of a sheet, of which there is one, with that of a line, in order of time.

    The line was heard in the recording that is named as a whole, or else in the first that is named.
    """
    file = _file(next((m for m in moments if isinstance(m, str)), moments[0]))
    told: Told = {"file": file, "at": line["at"]}
    of: list[Plain] = [*dict.fromkeys(_components(line))]
    told |= {"of": of} if of else {}
    told |= {"words": line["words"]} if "words" in line else {}
    if told in map(_listing, moments):
        return moments
    places = (n for n, m in enumerate(moments) if _file(m) == file and _seconds(m) > _seconds(told))
    moments.insert(next(places, len(moments)), told)
    return moments


def _file(moment: Plain) -> str:
    return str(moment["file"] if isinstance(moment, Mapping) else moment)


def _listing(moment: Plain) -> Told:
    """A moment whose components are a list, also where there is one."""
    told = keyed(moment)
    return {**told, "of": listed(told["of"])} if "of" in told else told


def _seconds(moment: Plain) -> Fraction:
    """When a moment is; the recording as a whole comes before all of them."""
    at = keyed(moment).get("at")
    return Fraction(-1) if at is None else parse_moment(str(at))


def _components(line: Line) -> Iterator[str]:
    """The components that a line is about."""
    yield from keyed(line.get("work"))
    for kind, key in (
        ("measured", "on"), ("snags", "on"), ("rechecks", "on"), ("parts", "of"), ("outwork", "of"),
    ):  # fmt: skip
        for entry in keyed(line.get(kind)).values():
            yield from map(str, listed(whole(kind, entry).get(key)))


def _named_apart(
    line: Told, known: dict[str, dict[str, Told]], taken: Mapping[str, Collection[str]]
) -> Told:
    """A line whose new things have names that nothing else has; what is `known` learns of them."""
    for kind, here in known.items():
        for name, entry in keyed(line.get(kind)).items():
            new = whole(kind, entry)
            elsewhere = (keyed(line[kind]).keys() - {name}) | {*taken.get(kind, ())}
            called = _called(name, new, here, elsewhere) if begins(kind, entry) else name
            here[called] = together(here.get(called, {}), new)
            if called != name:
                line = _renamed(line, kind, name, called)
    return line


def _called(name: str, new: Told, here: Mapping[str, Told], elsewhere: Collection[str]) -> str:
    """What a new thing is called: by the first form of its name under which no other thing is known."""
    return free(
        name,
        lambda called: bool(clashing(here[called], new)) if called in here else called in elsewhere,
    )


def _renamed(line: Told, kind: str, old: str, new: str) -> Told:
    """A line in which an entry, and what names it as a part, is called otherwise."""
    section = {new if name == old else name: entry for name, entry in keyed(line[kind]).items()}
    made: Told = {**line, kind: section}
    named = ("work", "hours") if kind == "parts" else ()
    return made | {key: _naming(made[key], old, new) for key in named if key in made}


def _naming(value: Plain, old: str, new: str) -> Plain:
    if isinstance(value, str):
        return value
    if isinstance(value, Mapping):
        return {
            key: new if key in ("part", "because") and held == old else _naming(held, old, new)
            for key, held in value.items()
        }
    return [_naming(held, old, new) for held in value]

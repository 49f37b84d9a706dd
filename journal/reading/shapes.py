"""Plain data to typed records: every refusal becomes a problem at its line, the rest is kept."""

from bisect import bisect_left
from collections.abc import Iterator, Mapping
from datetime import date
from types import UnionType
from typing import Annotated, Any, TypeVar, Union, get_args, get_origin

from msgspec.structs import replace
from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from journal.reading.yamltext import Plain
from journal.records.fields import Named, Written
from journal.records.place import Loc, Source
from journal.records.problem import Problem, problem_at
from journal.records.shapes import SHAPES
from journal.words.names import nearest

R = TypeVar("R", bound=Written)
V = TypeVar("V")


def read_shape(
    shape: type[R], data: Plain, source: Source, today: date | None = None
) -> tuple[R | None, Source, list[Problem]]:
    """A record of the shape, or None when nothing of it can be used, with all that is wrong.

    A value that is refused is left out together with as little around it as possible, and the
    rest is read again; the source that comes back knows the places of what is left. `today` is
    the day that the word `today` stands for.
    """
    problems = list(_empty_entries(shape, data, source))
    seen: dict[Loc, bool] = {}
    while True:
        try:
            return shape.model_validate(data, context=today), source, problems
        except ValidationError as fault:
            errors = fault.errors(include_url=False, include_input=True)
        locs = [_clean(error["loc"]) for error in errors]
        for error, loc in zip(errors, locs, strict=True):
            if loc not in seen:
                seen[loc] = True
                problems.append(_problem(shape, error, loc, source))
        # Later list entries go first, so that the places of earlier ones stay true.
        places = sorted({_held(data, loc) for loc in locs}, key=_order, reverse=True)
        if () in places:
            return None, source, problems
        for place in places:
            _drop(data, place)
        gone = _entries_in(places)
        # What is left out is then missing, or its list empty; that is the same mistake.
        seen |= dict.fromkeys([*places, *gone], True)
        if gone:
            source = replace(source, marks=_closed_up(source.marks, gone))
            seen = _closed_up(seen, gone)


def _clean(loc: tuple[int | str, ...]) -> Loc:
    return tuple(key for key in loc if key != "")


def _order(loc: Loc) -> tuple[tuple[int, str | int], ...]:
    return tuple((1, key) if isinstance(key, int) else (0, key) for key in loc)


def _held(data: Plain, loc: Loc) -> Loc:
    """The longest part of a key path that leads to something in the data."""
    for length in range(len(loc), 0, -1):
        if _at(data, loc[:length]) is not None:
            return loc[:length]
    return ()


def _at(data: Plain, loc: Loc) -> Plain | None:
    here: Plain | None = data
    for key in loc:
        if isinstance(here, dict) and isinstance(key, str):
            here = here.get(key)
        elif isinstance(here, list) and isinstance(key, int) and key < len(here):
            here = here[key]
        else:
            return None
    return here


def _drop(data: Plain, loc: Loc) -> None:
    holder = _at(data, loc[:-1])
    key = loc[-1]
    if isinstance(holder, dict) and isinstance(key, str):
        holder.pop(key, None)
    elif isinstance(holder, list) and isinstance(key, int) and key < len(holder):
        del holder[key]


def _entries_in(places: list[Loc]) -> dict[Loc, list[int]]:
    """The list entries among some places, in order, by the place of their list."""
    gone: dict[Loc, list[int]] = {}
    for *holder, key in reversed(places):
        if isinstance(key, int):
            gone.setdefault(tuple(holder), []).append(key)
    return gone


def _closed_up(by_loc: Mapping[Loc, V], gone: Mapping[Loc, list[int]]) -> dict[Loc, V]:
    """What is known by key path once list entries are left out and later ones move up."""
    moved = ((_moved(loc, gone), value) for loc, value in by_loc.items())
    return {loc: value for loc, value in moved if loc is not None}


def _moved(loc: Loc, gone: Mapping[Loc, list[int]]) -> Loc | None:
    """Where a key path leads then, or None when it led to an entry that is left out."""
    keys: list[str | int] = list(loc)
    for depth, key in enumerate(loc):
        left_out = gone.get(loc[:depth], ()) if isinstance(key, int) else ()
        if left_out and isinstance(key, int):
            before = bisect_left(left_out, key)
            if before < len(left_out) and left_out[before] == key:
                return None
            keys[depth] = key - before
    return tuple(keys)


def _empty_entries(shape: type[BaseModel], data: Plain, source: Source) -> Iterator[Problem]:
    """Names with nothing after them where entries stand: a line that was begun and not written."""
    for loc in source.marks:
        if len(loc) < 2 or -1 in loc or _at(data, loc) is not None or _at(data, loc[:-1]) is None:
            continue
        if get_origin(_shape_at(shape, loc[:-1])) is Named:
            yield problem_at(
                source, loc, "empty-entry", f'"{loc[-1]}" has nothing after it',
                help="write what is meant after the colon, or take the line out",
            )  # fmt: skip


def _problem(shape: type[BaseModel], error: ErrorDetails, loc: Loc, source: Source) -> Problem:
    kind, context = error["type"], error.get("ctx", {})
    if kind == "extra_forbidden":
        known = _fields_at(shape, loc[:-1])
        meant = nearest(str(loc[-1]), known)
        way = f"write {meant}" if meant else f"known here: {', '.join(known)}"
        return problem_at(source, loc, "unknown-key", f'unknown key "{loc[-1]}"', help=way)
    if kind == "missing":
        return problem_at(
            source,
            loc[:-1],
            "missing-key",
            f"{field_phrase(loc)} is missing",
            help=_add(str(loc[-1])),
        )
    if "sentence" in context:
        message = f"{field_phrase(loc)} {context['sentence']}"
        return problem_at(source, loc, kind, message, help=context.get("help"))
    found = "a list" if isinstance(error["input"], list) else "text"
    return problem_at(
        source, loc, "wrong-shape", f"{field_phrase(loc)} must be a set of keys, found {found}",
        help="write name: value, one to a line, indented under it",
    )  # fmt: skip


def _add(field: str) -> str:
    example = {"date": "2024-03-05", "subsystem": "brakes", "read": "[0.22, 0.24]", "unit": "mm"}
    return f"add {field}: {example[field]}" if field in example else f"add {field}: and its value"


def field_phrase(loc: Loc) -> str:
    """How a message names a value: `did of gearbox/laygear`, `hours of MT`, `date`."""
    words = [str(key) for key in loc if isinstance(key, str)]
    if not words:
        return "the file"
    fields = [place for place, word in enumerate(words) if word in _FIELD_NAMES]
    last = fields[-1] if fields else len(words) - 1
    if last < len(words) - 1:
        return f"{words[last]} of {words[-1]}"
    owner = next((word for word in reversed(words[:last]) if word not in _FIELD_NAMES), None)
    return f"{words[last]} of {owner}" if owner else words[last]


def _shape_at(shape: Any, loc: Loc) -> Any:
    """The shape of what stands at a key path of a shape."""
    for key in loc:
        shape = _inside(shape, key)
    return shape


def _fields_at(shape: Any, loc: Loc) -> list[str]:
    """The keys that may stand at a key path of a shape."""
    shape = _shape_at(shape, loc)
    if isinstance(shape, type) and issubclass(shape, BaseModel):
        return [field.alias or name for name, field in shape.model_fields.items()]
    return []


def _inside(shape: Any, key: str | int) -> Any:
    if isinstance(shape, type) and issubclass(shape, BaseModel):
        fields = {field.alias: field.annotation for field in shape.model_fields.values()}
        return _bare(fields.get(str(key)))
    return _bare(get_args(shape)[0]) if get_args(shape) else None


def _bare(annotation: Any) -> Any:
    """An annotation without Annotated and None: a shape, or Named or tuple of one."""
    if get_origin(annotation) is Annotated:
        return _bare(get_args(annotation)[0])
    if get_origin(annotation) in (Union, UnionType):
        return _bare(next(arg for arg in get_args(annotation) if arg is not type(None)))
    return annotation


def _names_of(shape: type[BaseModel], found: set[str]) -> set[str]:
    for field in shape.model_fields.values():
        found.add(field.alias or "")
        inner = _bare(field.annotation)
        while get_origin(inner) in (Named, tuple):
            inner = _bare(get_args(inner)[0])
        if isinstance(inner, type) and issubclass(inner, BaseModel):
            _names_of(inner, found)
    return found


_FIELD_NAMES = frozenset(name for shape in SHAPES.values() for name in _names_of(shape, set()))

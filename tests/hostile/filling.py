"""A content folder in which every text that can be written is written by the test.

The places are taken from the records, so that a field that is added later is filled too.
"""

from collections.abc import Callable
from copy import deepcopy
from datetime import date
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from pathlib import Path
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

import yaml
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from journal.records.fields import Named, Slug
from journal.records.shapes import SHAPES
from journal.words.amounts import Interval
from journal.words.stretch import Stretch
from tests.tern import a_picture, put_file

DAY = "2024-03-05"
SHEET = f"tern/sheets/{DAY}-day.md"
PLACES = {
    "workshop": "workshop.yaml", "terms": "terms.yaml",
    "car": "tern/car.yaml", "register": "tern/register.yaml",
    "papers": "tern/papers/papers.yaml", "statement": "tern/statements/2024-03-04.yaml",
    "sheet": SHEET,
}  # fmt: skip
# Values of closed kinds, days that agree with one another, and what must be known elsewhere.
_FIXED: dict[str, Any] = {
    "unit": "mm", "currency": "EUR", "subsystem": "brakes", "passed": "yes", "public": "yes",
    "booked-in": "2024-03-01", "delivered": "2030-01-01", "issued": "2024-03-04", "for": "public",
    "date": DAY, "address": "https://archive.example/tern/", "sheets": {f"{DAY}-day": None},
}  # fmt: skip
_FIXED_AT: dict[str, Any] = {
    "StatementFile.from": "2024-03-01", "StatementFile.to": "2024-03-04",
    "Holiday.from": "2024-03-01", "Holiday.to": "2024-03-04", "Photo.file": "laygear.jpg",
    "Paper.file": "scan.jpg", "Moment.at": "0:12", "DraftLine.at": "0:12",
    "Car.cover": f"{DAY}/laygear.jpg",
}  # fmt: skip
# Names that other files know the entry by, or that name a page.
_KEYS = {
    "RegisterFile.components": "brakes", "Hand.rate": "2020-01-01", "SheetFront.work": "brakes/pipes",
    "SheetFront.proving": "brakes/fluid-named", "Car.estimate": "brakes",
    "Terms.acts": "painted", "Terms.nouns": "painted", "Workshop.proving": "brakes/own",
    "Workshop.subsystems": "own",
    "DraftLine.work": "brakes/pipes", "DraftLine.proving": "brakes/fluid-named",
}  # fmt: skip
# A line says one of two things; the other one of each pair is tried.
_EITHER = frozenset({"does-not-apply", "came-off"})

Telling = Callable[[str], str]


def record(shape: type[BaseModel], tell: Telling) -> dict[str, Any]:
    """A record with every key written; `tell` gives the text of each place, such as `Photo.caption`."""
    return {
        alias: _field(shape, alias, found, tell)
        for name, found in shape.model_fields.items()
        if (alias := found.alias or name) not in _EITHER
    }


def put_filled(root: Path, tell: Telling, body: str = "", *, heard: bool = False) -> Path:
    """A content folder with one car and one of everything that can be written; returns `root`.

    Only with what was `heard` has the sheet a draft: with one it is for the workshop alone.
    """
    for name, shape in SHAPES.items():
        written = record(shape, tell)
        if name == "sheet" and not heard:
            del written["draft"]
        if name == "workshop":
            # Where several work, more is asked than where one works alone.
            written["hands"]["XY"] = deepcopy(next(iter(written["hands"].values())))
        if name == "register":
            written["components"]["brakes"] = {
                "pipes": next(iter(written["components"]["brakes"].values()))
            }
        text = yaml.safe_dump(written, allow_unicode=True, width=10_000)
        text = f"---\n{text}---\n{body}" if name == "sheet" else text
        put_file(root, PLACES[name], text.encode())
    put_file(root, f"tern/photos/{DAY}/laygear.jpg", a_picture())
    put_file(root, "tern/papers/scan.jpg", a_picture())
    return root


def _field(shape: type[BaseModel], alias: str, found: FieldInfo, tell: Telling) -> Any:
    where = f"{shape.__name__}.{alias}"
    if where in _FIXED_AT:
        return _FIXED_AT[where]
    if where in ("SheetFront.hours", "DraftLine.hours"):
        (line,) = _records(found.annotation)
        return {"brakes": {tell(where): {**record(line, tell), "hours": "1.5"}}}
    if alias in _FIXED and alias != "sheets":
        return _FIXED[alias]
    kind = Annotated[found.annotation, *found.metadata] if found.metadata else found.annotation
    return _value(kind, where, tell)


def _value(kind: Any, where: str, tell: Telling) -> Any:
    origin, args = get_origin(kind), get_args(kind)
    if kind == Slug:
        return "entry"
    if origin is Annotated:
        return _value(args[0], where, tell)
    if origin in (Union, UnionType):
        return _value(next(a for a in args if a is not type(None)), where, tell)
    if origin is tuple:
        return [_value(args[0], where, tell)]
    if origin is Named:
        return {_KEYS.get(where) or tell(where): _value(args[0], where, tell)}
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return record(kind, tell)
    return _scalar(kind, where, tell)


def _scalar(kind: Any, where: str, tell: Telling) -> str:
    if kind is str:
        return tell(where)
    plain = {
        bool: "yes", date: DAY, Interval: "0.5", Decimal: "1", Stretch: "500 miles", Fraction: "0:12",
    }  # fmt: skip
    if kind in plain:
        return plain[kind]
    assert issubclass(kind, StrEnum), f"{where} is of a kind that this test does not know"
    return str(next(iter(kind)).value)


def _records(kind: Any) -> set[type[BaseModel]]:
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return {kind}
    return {found for arg in get_args(kind) for found in _records(arg)}

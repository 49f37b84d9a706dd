"""Content with a marker in everything that a reader may not see, made from the record classes.

Every key that can be written is written. A field that the lists of a reader do not name gets a word
or a figure that stands nowhere else, so that a field added tomorrow is tried tomorrow.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
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

from journal.readers.rules import Sight, may_see
from journal.records.address import Addresses
from journal.records.fields import Named, Slug
from journal.records.papers import PapersFile
from journal.records.register import RegisterFile
from journal.records.shapes import SHAPES
from journal.records.sheet import SheetFront
from journal.words.amounts import Interval
from journal.words.stretch import Stretch
from journal.words.vocabulary import Reader
from tests.tern import a_picture, put_file

DAY = "2024-03-05"
PLAIN = "plain words"
HAND = "qmt"
# Values of closed kinds, and days that agree with one another.
_FIXED: dict[str, Any] = {
    "unit": "mm", "currency": "EUR", "subsystem": "brakes", "passed": "yes", "public": "yes",
    "booked-in": "2024-03-01", "delivered": "2030-01-01", "from": "2024-03-01", "to": "2024-03-04",
    "issued": "2024-03-04",
}  # fmt: skip
_PLAIN: dict[Any, str] = {
    bool: "yes", date: DAY, Interval: "0.5", Stretch: "500 miles", Fraction: "0:12",
}  # fmt: skip
# Names that other files know the entry by.
_KEYS = {
    "RegisterFile.components": "brakes", "Hand.rate": "2020-01-01", "SheetFront.work": "brakes/pipes",
    "SheetFront.proving": "brakes/fluid-named", "Car.estimate": "brakes", "Workshop.hands": HAND,
    "Workshop.proving": "brakes/own", "Terms.acts": "painted", "Terms.nouns": "painted",
}  # fmt: skip
# A line says one of two things; the other one of each pair is tried.
_EITHER = frozenset({"does-not-apply", "came-off"})
# These wrap a file; no list names them, and their entries are what is seen.
_WRAPS = frozenset({RegisterFile, PapersFile})


@dataclass
class Planter:
    """Writes records for one reader; `planted` is what must not come out, with where it stands.

    `free` is what stands in every text that the reader may see, `lines` the widest reader of
    everything within a sheet that has one, and of papers. `start` keeps the marks of two planters
    apart. With `prices` the next keeper is shown those. With `drafts` sheets hold lines that nobody has
    confirmed, and are the workshop's alone.
    """

    reader: Reader
    free: str = PLAIN
    lines: Reader = Reader.PUBLIC
    start: int = 0
    prices: bool = False
    drafts: bool = False
    planted: dict[str, str] = field(default_factory=dict)

    def record(self, shape: type[BaseModel], hidden: bool = False) -> dict[str, Any]:
        """A record with every key written."""
        sight = Sight(self.reader, prices=self.prices)
        seen = sight.fields.get(shape, frozenset())
        hidden = hidden or self._private(shape)
        return {
            found.alias or name: self._field(
                shape, name, found, hidden or (shape not in _WRAPS and name not in seen)
            )
            for name, found in shape.model_fields.items()
            if found.alias not in _EITHER and (self.drafts or name != "draft")
        }

    def mark(self, where: str) -> str:
        """A word that stands nowhere else, for a place that no record knows."""
        return self._plant(f"zq{self.start + len(self.planted):03d}zqzq", where)

    def leaks(self, text: str) -> dict[str, str]:
        """The marks that stand in a text, with where they were written."""
        return {mark: where for mark, where in self.planted.items() if mark in text}

    def _private(self, shape: type[BaseModel]) -> bool:
        has_reader = "for_" in shape.model_fields and shape is not SheetFront
        return has_reader and not may_see(self.reader, self.lines)

    def _field(self, shape: type[BaseModel], name: str, found: FieldInfo, hidden: bool) -> Any:
        key, where = found.alias or name, f"{shape.__name__}.{name}"
        if shape is Addresses:
            return f"https://{self.mark(where) if hidden else 'archive'}.example/"
        if key == "for":
            return (Reader.PUBLIC if shape is SheetFront else self.lines).value
        if where in ("SheetFront.hours", "DraftLine.hours"):
            (line,) = _records(found.annotation)
            return {"brakes": {HAND: {**self.record(line, hidden), "hours": "1.5"}}}
        kind = Annotated[found.annotation, *found.metadata] if found.metadata else found.annotation
        text = found.annotation is str or kind == Slug
        if key == "prices-shown":
            return "yes" if self.prices else "no"
        if key in _FIXED and not (text and hidden and key == "from"):
            return DAY if key == "date" else _FIXED[key]
        return self._value(kind, where, hidden)

    def _value(self, kind: Any, where: str, hidden: bool) -> Any:
        origin, args = get_origin(kind), get_args(kind)
        if kind == Slug and not hidden:
            return "entry"
        if origin is Annotated:
            return self._value(args[0], where, hidden)
        if origin in (Union, UnionType):
            return self._value(next(a for a in args if a is not type(None)), where, hidden)
        if origin is tuple:
            return [self._value(args[0], where, hidden)]
        if origin is Named:
            private = hidden or any(self._private(r) for r in _records(args[0]))
            return {self._key(where, private): self._value(args[0], where, private)}
        if isinstance(kind, type) and issubclass(kind, BaseModel):
            return self.record(kind, hidden)
        return self._scalar(kind, where, hidden)

    def _key(self, where: str, hidden: bool) -> str:
        return _KEYS.get(where) or (self.mark(where) if hidden else "entry")

    def _scalar(self, kind: Any, where: str, hidden: bool) -> str:
        if kind is str:
            return self.mark(where) if hidden else self.free
        if kind is Decimal:
            return self._figure(where) if hidden else "1"
        if kind in _PLAIN:
            return _PLAIN[kind]
        assert issubclass(kind, StrEnum), f"{where} is of a kind that this helper does not know"
        return str(next(iter(kind)).value)

    def _figure(self, where: str) -> str:
        return self._plant(f"{300 + self.start + len(self.planted)}.61", where)

    def _plant(self, mark: str, where: str) -> str:
        self.planted[mark] = where
        return mark


def _records(kind: Any) -> set[type[BaseModel]]:
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return {kind}
    return {record for arg in get_args(kind) for record in _records(arg)}


def plant(
    root: Path, planter: Planter, body: str = "", *, car: str = "tern", hidden: bool = False
) -> Path:
    """A content folder with one car and one of everything that can be written.

    With `hidden` nothing of the car may be seen, and the workshop's own file stays as it is.
    """
    files = {name: planter.record(shape, hidden) for name, shape in SHAPES.items()}
    files["car"] |= {"cover": f"{DAY}/{planter.free}"}
    files["sheet"] |= {"date": DAY}
    lines = files["register"]["components"]["brakes"]
    files["register"]["components"]["brakes"] = {"pipes": next(iter(lines.values()))}
    if hidden:
        del files["workshop"]
    for name, written in files.items():
        comment = f"# {planter.mark(f'comment in {name}')}\n"
        front = comment + yaml.safe_dump(written, allow_unicode=True)
        text = f"---\n{front}---\n{body}" if name == "sheet" else front
        put_file(root, _path(name, car), text.encode())
    put_file(root, f"{car}/photos/{DAY}/{planter.free}", a_picture())
    put_file(root, f"{car}/papers/{planter.free}", a_picture())
    return root


def _path(name: str, car: str) -> str:
    return {
        "workshop": "workshop.yaml",
        "terms": "terms.yaml",
        "car": f"{car}/car.yaml",
        "register": f"{car}/register.yaml",
        "papers": f"{car}/papers/papers.yaml",
        "sheet": f"{car}/sheets/{DAY}-day.md",
        "statement": f"{car}/statements/2024-03-04.yaml",
    }[name]


def every_text(folder: Path) -> Iterator[str]:
    """Every name and every byte below a folder, read in one byte a character and in two."""
    for file in sorted(folder.rglob("*")):
        yield file.relative_to(folder).as_posix()
        if file.is_file():
            raw = file.read_bytes()
            yield raw.decode("utf-8", "replace")
            yield raw.replace(b"\x00", b"").decode("latin-1")

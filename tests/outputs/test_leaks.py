"""What a reader may not see is in no byte of their archive, and in no name of a file.

The content that is published is made from the record classes themselves: every key that can be
written is written. A field that the lists of a reader do not name gets a word or a figure that
stands nowhere else, so that a field added tomorrow is tried tomorrow.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from enum import StrEnum
from pathlib import Path
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

import pytest
import yaml
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from journal.outputs.archive import Order, publish
from journal.readers.rules import SEEN
from journal.reading.content import read_content
from journal.records.fields import Named, Slug
from journal.records.papers import PapersFile
from journal.records.register import RegisterFile
from journal.records.shapes import SHAPES
from journal.records.sheet import SheetFront
from journal.words.amounts import Interval
from journal.words.vocabulary import Reader
from tests.tern import FILES, a_picture, put_file

DAY = "2024-03-05"
SHEET = f"tern/sheets/{DAY}-day.md"
PLACES = {
    "workshop": "workshop.yaml", "car": "tern/car.yaml", "register": "tern/register.yaml",
    "papers": "tern/papers/papers.yaml", "statement": "tern/statements/2024-03-04.yaml",
}  # fmt: skip
PLAIN = "plain words"
HAND = "qmt"
# Values of closed kinds, and days that agree with one another.
_FIXED: dict[str, Any] = {
    "unit": "mm", "currency": "EUR", "subsystem": "brakes", "passed": "yes", "public": "yes",
    "booked-in": "2024-03-01", "delivered": "2030-01-01", "from": "2024-03-01", "to": "2024-03-04",
    "issued": "2024-03-04",
}  # fmt: skip
# Names that other files know the entry by.
_KEYS = {
    "RegisterFile.components": "brakes", "Hand.rate": "2020-01-01", "SheetFront.work": "brakes/pipes",
    "SheetFront.proving": "brakes/fluid-named", "Car.estimate": "brakes", "Workshop.hands": HAND,
    "Workshop.proving": "brakes/own",
}  # fmt: skip
# A line says one of two things; the other one of each pair is tried.
_EITHER = frozenset({"does-not-apply", "came-off"})
# These wrap a file; no list names them, and their entries are what is seen.
_WRAPS = frozenset({RegisterFile, PapersFile})


@dataclass
class Planter:
    """Writes records for one reader; `planted` is what must not come out, with where it stands.

    `free` is what stands in every text that the reader may see, `lines` the widest reader of
    everything within a sheet that has one, and of papers.
    """

    reader: Reader
    free: str = PLAIN
    lines: Reader = Reader.PUBLIC
    planted: dict[str, str] = field(default_factory=dict)

    def record(self, shape: type[BaseModel], hidden: bool = False) -> dict[str, Any]:
        """A record with every key written."""
        seen = SEEN[self.reader].get(shape, frozenset())
        hidden = hidden or self._private(shape)
        return {
            found.alias or name: self._field(
                shape, name, found, hidden or (shape not in _WRAPS and name not in seen)
            )
            for name, found in shape.model_fields.items()
            if found.alias not in _EITHER
        }

    def _private(self, shape: type[BaseModel]) -> bool:
        has_reader = "for_" in shape.model_fields and shape is not SheetFront
        return has_reader and self.lines is Reader.WORKSHOP

    def _field(self, shape: type[BaseModel], name: str, found: FieldInfo, hidden: bool) -> Any:
        key, where = found.alias or name, f"{shape.__name__}.{name}"
        if key == "for":
            return (Reader.PUBLIC if shape is SheetFront else self.lines).value
        if where == "SheetFront.hours":
            (line,) = _records(found.annotation)
            return {"brakes": {HAND: {**self.record(line, hidden), "hours": "1.5"}}}
        kind = Annotated[found.annotation, *found.metadata] if found.metadata else found.annotation
        text = found.annotation is str or kind == Slug
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
        return _KEYS.get(where) or (self._word(where) if hidden else "entry")

    def _scalar(self, kind: Any, where: str, hidden: bool) -> str:
        if kind is str:
            return self._word(where) if hidden else self.free
        if kind is Decimal:
            return self._figure(where) if hidden else "1"
        if kind in (bool, date, Interval):
            return {bool: "yes", date: DAY, Interval: "0.5"}[kind]
        assert issubclass(kind, StrEnum), f"{where} is of a kind that this test does not know"
        return str(next(iter(kind)).value)

    def _word(self, where: str) -> str:
        return self._plant(f"zq{len(self.planted):03d}zq", where)

    def _figure(self, where: str) -> str:
        return self._plant(f"{300 + len(self.planted)}.61", where)

    def _plant(self, mark: str, where: str) -> str:
        self.planted[mark] = where
        return mark


def _records(kind: Any) -> set[type[BaseModel]]:
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return {kind}
    return {record for arg in get_args(kind) for record in _records(arg)}


def _content(root: Path, planter: Planter, body: str = "") -> Path:
    """A content folder with one car and one of everything that can be written."""
    files = {name: planter.record(shape) for name, shape in SHAPES.items()}
    files["car"] |= {"cover": f"{DAY}/{planter.free}"}
    files["sheet"] |= {"date": DAY}
    files["register"]["components"]["brakes"] = {
        "pipes": next(iter(files["register"]["components"]["brakes"].values()))
    }
    front = yaml.safe_dump(files.pop("sheet"), allow_unicode=True)
    put_file(root, SHEET, f"---\n{front}---\n{body}".encode())
    for name, written in files.items():
        put_file(root, PLACES[name], yaml.safe_dump(written, allow_unicode=True).encode())
    put_file(root, f"tern/photos/{DAY}/{planter.free}", a_picture())
    put_file(root, f"tern/papers/{planter.free}", a_picture())
    return root


def _published(root: Path, target: Path, reader: Reader, car: str | None = "tern") -> str:
    """Every byte and every file name of an archive, as one text."""
    content = read_content(root)
    assert [] == [p for p in content.problems if p.place.path.startswith(("tern/", "workshop"))]
    publish(content, Order(root, target, reader, car))
    return "\n".join(_texts(target))


def _texts(target: Path) -> Iterator[str]:
    for file in sorted(target.rglob("*")):
        yield file.relative_to(target).as_posix()
        if file.is_file():
            yield file.read_bytes().decode("utf-8", "replace")


def _leaks(planter: Planter, text: str) -> dict[str, str]:
    return {mark: where for mark, where in planter.planted.items() if mark in text}


@pytest.mark.parametrize("reader", [Reader.OWNER, Reader.PUBLIC])
def test_field_that_no_list_names__is_nowhere_in_the_archive(
    reader: Reader, tmp_path: Path
) -> None:
    planter = Planter(reader)
    text = _published(_content(tmp_path / "content", planter), tmp_path / "archive", reader)
    assert {} == _leaks(planter, text)
    assert PLAIN in text


def test_field_that_no_list_names__is_there_for_the_workshop(tmp_path: Path) -> None:
    # The test above would find nothing either if nothing were ever shown.
    planter = Planter(Reader.PUBLIC)
    root = _content(tmp_path / "content", planter)
    shown = _leaks(planter, _published(root, tmp_path / "archive", Reader.WORKSHOP)).values()
    assert {"PartLine.why", "PartLine.price", "Work.note", "Hand.name", "Payment.what"} <= {*shown}


@pytest.mark.parametrize("reader", [Reader.OWNER, Reader.PUBLIC])
def test_line_for_the_workshop__is_nowhere_in_the_archive(reader: Reader, tmp_path: Path) -> None:
    planter = Planter(reader, lines=Reader.WORKSHOP)
    root = _content(tmp_path / "content", planter, "::: workshop\nzqblockzq\n:::\n")
    planter.planted["zqblockzq"] = "block"
    assert {} == _leaks(planter, _published(root, tmp_path / "archive", reader))


@pytest.mark.parametrize("reader", [Reader.OWNER, Reader.PUBLIC])
def test_sheet_for_the_workshop__is_nowhere_in_the_archive(reader: Reader, tmp_path: Path) -> None:
    root = tmp_path / "content"
    _content(root, Planter(reader))
    planter = Planter(reader)
    front = yaml.safe_dump(
        {**planter.record(SheetFront, hidden=True), "date": DAY, "for": "workshop"}
    )
    put_file(root, f"tern/sheets/{DAY}-zqnamezq.md", f"---\n{front}---\nzqbodyzq\n".encode())
    planter.planted |= {"zqnamezq": "name of the sheet", "zqbodyzq": "text of the sheet"}
    assert {} == _leaks(planter, _published(root, tmp_path / "archive", reader))


OWNER, COLLEAGUE, NUMBER = "Mrs Eleanor Quillfeather", "Margit Tollandry", "TD 5894176"


def test_public__meets_no_person_and_no_full_number_whatever_text_tells_them(
    tmp_path: Path,
) -> None:
    told = f"{OWNER} met {COLLEAGUE} over {NUMBER}"
    root = _content(tmp_path / "content", Planter(Reader.PUBLIC, free=told), f"{told}.\n")
    for name, path in (("owner", "tern/car.yaml"), ("hands", "workshop.yaml")):
        written = yaml.safe_load((root / path).read_text(encoding="utf-8"))
        if name == "owner":
            written["numbers"]["entry"]["found"] = NUMBER
        written |= {"owner": OWNER} if name == "owner" else {name: {HAND: COLLEAGUE}, "name": PLAIN}
        put_file(root, path, yaml.safe_dump(written).encode())
    text = _published(root, tmp_path / "archive", Reader.PUBLIC)
    assert [] == [word for word in ("Quillfeather", "Tollandry", "94176", HAND) if word in text]
    assert "the owner met a colleague over TD 5894•••" in text


def test_public__meets_no_money(tmp_path: Path) -> None:
    root = _content(tmp_path / "content", Planter(Reader.PUBLIC))
    text = _published(root, tmp_path / "archive", Reader.PUBLIC)
    assert [] == [sign for sign in ("£", "€", "GBP", "EUR") if sign in text]


@pytest.mark.parametrize("reader", [Reader.OWNER, Reader.PUBLIC])
def test_other_cars__are_nowhere_in_the_archive(reader: Reader, tmp_path: Path) -> None:
    root = _content(tmp_path / "content", Planter(reader))
    for path, text in FILES.items():
        if path.startswith("tern/"):
            other = text.replace("Aldermoor Tern", "zqcarzq").replace("Eleanor Harrow", "zqownerzq")
            put_file(root, path.replace("tern/", "zqfolderzq/"), other.encode())
    front = f"---\ndate: {DAY}\nsubsystem: gearbox\ntitle: zqtitlezq\n---\n"
    put_file(root, f"zqfolderzq/sheets/{DAY}-day.md", front.encode())
    text = _published(root, tmp_path / "archive", reader)
    marks = ("zqcarzq", "zqownerzq", "zqfolderzq", "zqtitlezq")
    assert [] == [mark for mark in marks if mark in text]

"""Every text that was written of a car, with the place where it stands."""

import re
from collections.abc import Iterator
from decimal import Decimal
from pathlib import PurePosixPath
from typing import NamedTuple

from pydantic import BaseModel

from journal.records.carfile import CarFile
from journal.records.fields import Named
from journal.records.place import Key, Place, Source

_COMMENT = re.compile(r"(?:^|\s)#+\s*(\S.*)$")


class Leaf(NamedTuple):
    """A text as written. `name` marks what an entry or a file is called by; `field` is the key under
    which an amount stands, empty for texts."""

    text: str
    place: Place
    name: bool = False
    field: str = ""


def leaves_of(car: CarFile) -> Iterator[Leaf]:
    """Texts and names in all files of a car and of its workshop, comments included."""
    yield from _within(car.workshop_source, car.workshop)
    yield from _within(car.source, car.car)
    for component in car.register.components:
        loc = ("components", component.subsystem, component.slug)
        for name in (component.key, component.slug):
            yield Leaf(name, car.register.source.place(*loc), name=True)
        yield from _within(car.register.source, component.line, *loc)
    yield from _within(car.papers_source, car.papers, "papers")
    for sheet in car.sheets:
        yield Leaf(sheet.name, Place(sheet.source.path, 1), name=True)
        yield from _within(sheet.source, sheet.front)
        for block in sheet.body:
            for n, line in enumerate(block.text.split("\n")):
                yield Leaf(line, Place(sheet.source.path, block.line + n))
    for statement in car.statements:
        yield from _within(statement.source, statement.file)
    yield from _files(car)
    yield from _comments(car)


def _within(source: Source, value: object, *loc: Key) -> Iterator[Leaf]:
    if isinstance(value, BaseModel):
        for name, field in type(value).model_fields.items():
            yield from _within(source, getattr(value, name), *loc, field.alias or name)
    elif isinstance(value, Named):
        for name, entry in value:
            if name:
                yield Leaf(name, source.place(*loc, name), name=True)
            yield from _within(source, entry, *loc, name)
    elif type(value) is tuple:
        for n, entry in enumerate(value):
            yield from _within(source, entry, *loc, n)
    elif type(value) is str:
        yield Leaf(value, source.place(*loc))
    elif isinstance(value, Decimal):
        yield Leaf(
            str(value), source.place(*loc), field=next(k for k in loc[::-1] if type(k) is str)
        )


def _files(car: CarFile) -> Iterator[Leaf]:
    folders = {
        "photos": car.photo_files, "papers": car.paper_files, "recordings": car.recording_files or (),
    }  # fmt: skip
    for folder, files in folders.items():
        for file in sorted(files):
            stem = PurePosixPath(file).stem
            yield Leaf(stem, Place(f"{car.name}/{folder}/{file}", 1), name=True)


def _comments(car: CarFile) -> Iterator[Leaf]:
    """Comments in the YAML of all files, read from their lines."""
    sources = [car.workshop_source, car.source, car.register.source, car.papers_source]
    sources += [sheet.source for sheet in car.sheets]
    sources += [statement.source for statement in car.statements]
    for source in sources:
        for n, line in enumerate(source.lines):
            comment = _COMMENT.search(line)
            if comment:
                yield Leaf(comment.group(1), Place(source.path, n + 1))

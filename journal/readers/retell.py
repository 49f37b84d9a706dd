"""A car file told again for one reader: every text through a mask, every name by what it is called."""

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, NamedTuple

from msgspec.structs import replace
from pydantic import BaseModel

from journal.readers.mask import Mask
from journal.readers.numbers import mask_number
from journal.records.car import Car, StampedNumber
from journal.records.carfile import CarFile
from journal.records.fields import Named
from journal.records.goods import PartLine
from journal.records.papers import Paper
from journal.records.place import Source
from journal.records.register import Component, Register
from journal.records.sheet import Block, Photo, Sheet
from journal.records.sum import SumLine
from journal.records.work import Work
from journal.records.workshop import Workshop
from journal.words.names import title_of
from journal.words.quantities import is_only_quantities

# These name files, which no page prints: pictures are called by their bytes.
_FILES = {(Photo, "file"), (Paper, "file"), (Car, "cover")}
# Nothing else stands in these; the workshop goes by its own name, which may be that of a person.
_NUMBERS = {(StampedNumber, "found"), (Paper, "numbers"), (Work, "number")}
_KEPT = {(Workshop, "name"), *_FILES}
_ITEMS = {*_NUMBERS, (PartLine, "number")}


# Figures with their units tell of nobody, and a sum is worked out from them again.
_INPUTS = (SumLine, "inputs")


class Retelling(NamedTuple):
    """How a reader is told: `mask` for texts, `names` for those that are called otherwise. With
    `masked` what is a number is masked wherever it stands. `of_numbers` is the mask for what is the
    number of an item or a part, where another than that for texts is wanted: such a number may
    look like one to ring."""

    mask: Mask
    names: Mapping[str, str] = MappingProxyType({})
    masked: bool = False
    of_numbers: Mask | None = None


def retold(car: CarFile, way: Retelling) -> CarFile:
    """The car file as a reader is told it."""
    mentioned = _mentions(way)
    telling = way._replace(mask=lambda text: way.mask(mentioned(text)))
    return replace(
        car,
        workshop=_value(car.workshop, telling),
        car=_value(car.car, telling),
        register=Register(
            car.register.source, tuple(_component(c, telling) for c in car.register.components)
        ),
        papers=_value(car.papers, telling),
        sheets=tuple(_sheet(sheet, n, telling) for n, sheet in enumerate(car.sheets)),
        unread=frozenset(_name(name, way) for name in car.unread),
        partly=frozenset(_name(name, way) for name in car.partly),
    )


def _name(name: str, way: Retelling) -> str:
    return way.names.get(name, name)


def _mentions(way: Retelling) -> Mask:
    """A function that calls names otherwise where a text mentions them, in links above all."""
    if not way.names:
        return lambda text: text
    longest = sorted(way.names, key=lambda name: (-len(name), name))
    found = re.compile(rf"(?<![\w-])(?:{'|'.join(map(re.escape, longest))})(?![\w-])")
    return lambda text: found.sub(lambda match: way.names[match.group()], text)


def _component(component: Component, way: Retelling) -> Component:
    key = _name(component.key, way)
    return Component(key, key.split("/")[0], _value(component.line, way))


def _sheet(sheet: Sheet, number: int, way: Retelling) -> Sheet:
    """A sheet that is called otherwise has its title from its new name when it has no own."""
    name = _name(sheet.name, way)
    front = _value(sheet.front, way)
    if name != sheet.name and not sheet.front.title:
        front = front.model_copy(update={"title": title_of(name[11:] or name)})
    files = tuple(photo.file for photo in sheet.front.photos)
    body = tuple(Block(b.reader, _body(b.text, files, way), b.line) for b in sheet.body)
    # Sheets of one day stay in their order, which is that of their paths.
    source = Source(f"{number:06d}") if way.names else sheet.source
    return Sheet(name, source, front, body)


def _body(text: str, files: tuple[str, ...], way: Retelling) -> str:
    """A text with the photographs that are set in it, whose files are called by their own names."""
    told = [file for file in files if way.mask(file) != file]
    if not told:
        return way.mask(text)
    set_in = re.compile(rf"(\]\(<?(?:{'|'.join(map(re.escape, told))})(?=[\s)>]))")
    return "".join(part if n % 2 else way.mask(part) for n, part in enumerate(set_in.split(text)))


def _value(value: Any, way: Retelling) -> Any:
    """Anything that is written, told again."""
    if isinstance(value, BaseModel):
        return value.model_copy(
            update={
                name: _field(type(value), name, getattr(value, name), way)
                for name in type(value).model_fields
            }
        )
    if isinstance(value, Named):
        return Named((_name(name, way), _value(entry, way)) for name, entry in value)
    if type(value) is tuple:
        return tuple(_value(entry, way) for entry in value)
    if type(value) is str:
        return way.names.get(value) or way.mask(value)
    return value


def _field(shape: type[BaseModel], name: str, value: Any, way: Retelling) -> Any:
    if (shape, name) in _KEPT:
        return value
    if (shape, name) == _INPUTS:
        return Named((key, _input(text, way)) for key, text in value)
    if way.of_numbers and (shape, name) in _ITEMS:
        return _value(value, way._replace(mask=way.of_numbers))
    if way.masked and (shape, name) in _NUMBERS:
        # As a whole first: it is what the mask for texts would find in it, with less to seek.
        value = _numberless(value)
    return _value(value, way)


def _input(text: str, way: Retelling) -> str:
    """What is given to a sum, with all that is told in words told again."""
    cells = re.split(r"([;:,])", text)
    return "".join(cell if is_only_quantities(cell) else _value(cell, way) for cell in cells)


def _numberless(value: Any) -> Any:
    if isinstance(value, Named):
        return Named((which, _numberless(number)) for which, number in value)
    shown = value and "•" not in value and any(map(str.isdigit, value))
    return mask_number(value) if shown else value

"""Car files for tests, written in the test itself: a register and day sheets as plain data."""

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from journal.records.car import Car
from journal.records.carfile import CarFile
from journal.records.fields import Named
from journal.records.papers import PapersFile
from journal.records.place import Source
from journal.records.register import Component, Register, RegisterFile
from journal.records.sheet import Block, Sheet, SheetFront, sheet_order
from journal.records.workshop import Workshop
from journal.words.vocabulary import Reader

WORKSHOP = {
    "name": "Saltmarsh Lane Workshop",
    "hands": {"MT": {"name": "Margit Tolland", "rate": "50"}, "JB": {"name": "Jonah Birkett"}},
    "suppliers": {
        "northgate": {"name": "Northgate Gears"},
        "quiet-lane": {"name": "Quiet Lane Trimmers", "shown": "no"},
    },
}
CAR = {
    "name": "Aldermoor Tern",
    "year": "1958",
    "body": "drophead",
    "booked-in": "2023-09-11",
    "owner": {"name": "Mrs Eleanor Harrow"},
    "public": "yes",
}


def a_sheet(
    day: str, *, name: str = "", body: str = "", subsystem: Any = "brakes", **front: Any
) -> Sheet:
    """A sheet of a day; `front` are further keys of the front matter, `_` for `-` in their names."""
    stem = f"{day}-{name or 'day'}"
    path = f"tern/sheets/{stem}.md"
    data = {
        "date": day,
        "subsystem": subsystem,
        **{k.rstrip("_").replace("_", "-"): v for k, v in front.items()},
    }
    marks = {(): 2}
    shape = SheetFront.model_validate(data, context=date.fromisoformat(day))
    blocks = (Block(Reader.PUBLIC, body, 9),) if body else ()
    return Sheet(stem, Source(path, ("---",), marks), shape, blocks)


def a_car(
    register: Mapping[str, Any],
    sheets: Iterable[Sheet] = (),
    *,
    papers: Mapping[str, Any] | None = None,
    photos: Iterable[str] = (),
    workshop: Mapping[str, Any] | None = None,
    **car: Any,
) -> CarFile:
    """A car file; `register` maps full component names to their line or their origin as found."""
    nested: dict[str, dict[str, Any]] = {}
    for key, line in register.items():
        subsystem, slug = key.split("/")
        nested.setdefault(subsystem, {})[slug] = line
    written = RegisterFile.model_validate({"components": nested})
    components = tuple(
        Component(f"{subsystem}/{slug}", subsystem, line)
        for subsystem, entries in written.components
        for slug, line in entries
    )
    return CarFile(
        "tern",
        Workshop.model_validate(dict(workshop or WORKSHOP)),
        Source("workshop.yaml", (), {(): 1}),
        Source("tern/car.yaml"),
        Car.model_validate({**CAR, **{k.replace("_", "-"): v for k, v in car.items()}}),
        Register(Source("tern/register.yaml", (), {(): 1}), components),
        Source("tern/papers/papers.yaml"),
        PapersFile.model_validate({"papers": dict(papers)}).papers if papers else Named(),
        tuple(sorted(sheets, key=sheet_order)),
        photo_files=frozenset(photos),
    )

"""Is every name that a sheet uses known? Components, hands, suppliers, papers, parts, photographs."""

from collections.abc import Collection, Iterator
from typing import NamedTuple

from journal.records.carfile import CarFile
from journal.records.place import Key, Source
from journal.records.problem import Problem, problem_at
from journal.records.sheet import Sheet, photo_path
from journal.words.names import nearest

Loc = tuple[Key, ...]


class Used(NamedTuple):
    """A name in use: its kind, the name, and where it stands."""

    kind: str
    name: str
    loc: Loc


# What a kind of name is called in a message, and where a new one is written.
_KINDS: dict[str, tuple[str, str]] = {
    "component": ("component", "add it to register.yaml"),
    "hand": ("hand", "add the initials under hands: in workshop.yaml"),
    "supplier": ("supplier", "add it under suppliers: in workshop.yaml"),
    "paper": ("paper", "add it to papers/papers.yaml"),
    "part": ("part", "name it first under parts:"),
    "photo": (
        "photograph",
        "put the file into the folder photos/ of that day, or correct the name",
    ),
    "subsystem": ("subsystem", "add it under subsystems: in workshop.yaml"),
    "sheet": ("sheet", "write the file name of the sheet without its ending"),
    "paper-file": ("file", "put the file into the folder papers/, or correct the name"),
}


def check_names(car: CarFile) -> Iterator[Problem]:
    """Every name that is used and not known, with the nearest known one."""
    known = _known(car)
    for sheet in car.sheets:
        for used in _in_sheet(sheet):
            if used.name not in known[used.kind]:
                yield _unknown(sheet.source, used, known[used.kind])
    for source, used in _elsewhere(car):
        if used.name not in known[used.kind]:
            yield _unknown(source, used, known[used.kind])


def _known(car: CarFile) -> dict[str, Collection[str]]:
    workshop = car.workshop
    return {
        "component": {c.key for c in car.register.components},
        "hand": set(workshop.hands.names()),
        "supplier": set(workshop.suppliers.names()),
        "paper": set(car.papers.names()),
        "part": {name for s in car.sheets for name in s.front.parts.names()},
        "photo": car.photo_files,
        "subsystem": set(workshop.all_subsystems()),
        "sheet": {s.name for s in car.sheets},
        "paper-file": car.paper_files,
    }


def _in_sheet(sheet: Sheet) -> Iterator[Used]:
    front = sheet.front
    yield from _booked(sheet)
    yield from _in_work(sheet)
    yield from _in_goods(sheet)
    for name, measured in front.measured:
        yield from _of((measured.on,) if measured.on else (), ("measured", name, "on"))
    for name, snag in front.snags:
        yield from _of((snag.on,) if snag.on else (), ("snags", name, "on"))
        if snag.by:
            yield Used("hand", snag.by, ("snags", name, "by"))
    for place, photo in enumerate(front.photos):
        yield Used("photo", photo_path(sheet.date, photo.file), ("photos", place, "file"))
        yield from _of(photo.of, ("photos", place, "of"))
    for place, paper in enumerate(front.papers):
        yield Used("paper", paper, ("papers", place))
    for place, correction in enumerate(front.corrects):
        yield Used("sheet", correction.sheet, ("corrects", place, "sheet"))


def _booked(sheet: Sheet) -> Iterator[Used]:
    for place, name in enumerate(sheet.front.subsystem):
        yield Used("subsystem", name, ("subsystem", place))
    for subsystem, hands in sheet.front.hours:
        if subsystem:
            yield Used("subsystem", subsystem, ("hours", subsystem))
        yield from (Used("hand", h, ("hours", subsystem, h)) for h in hands.names() if h)


def _in_goods(sheet: Sheet) -> Iterator[Used]:
    for name, part in sheet.front.parts:
        yield from _of(part.of, ("parts", name, "of"))
        if part.from_:
            yield Used("supplier", part.from_, ("parts", name, "from"))
    for name, lot in sheet.front.outwork:
        yield from _of(lot.of, ("outwork", name, "of"))
        if lot.to:
            yield Used("supplier", lot.to, ("outwork", name, "to"))


def _of(keys: tuple[str, ...], loc: Loc) -> Iterator[Used]:
    yield from (Used("component", key, (*loc, place)) for place, key in enumerate(keys))


def _in_work(sheet: Sheet) -> Iterator[Used]:
    for key, work in sheet.front.work:
        loc = ("work", key)
        yield Used("component", key, loc)
        for place, paper in enumerate(work.paper):
            yield Used("paper", paper, (*loc, "paper", place))
        if work.part:
            yield Used("part", work.part, (*loc, "part"))
        if work.checked:
            yield Used("hand", work.checked, (*loc, "checked"))
        if work.decided and work.decided.by not in ("owner", "workshop"):
            yield Used("hand", work.decided.by, (*loc, "decided", "by"))


def _elsewhere(car: CarFile) -> Iterator[tuple[Source, Used]]:
    register = car.register.source
    for component in car.register.components:
        loc: Loc = ("components", component.subsystem, component.slug)
        yield register, Used("subsystem", component.subsystem, loc[:2])
        for place, paper in enumerate(component.line.paper):
            yield register, Used("paper", paper, (*loc, "paper", place))
    for name, _ in car.car.estimate:
        yield car.source, Used("subsystem", name, ("estimate", name))
    for name, number in car.car.numbers:
        if number.on:
            yield car.source, Used("component", number.on, ("numbers", name, "on"))
    if car.car.cover:
        yield car.source, Used("photo", car.car.cover, ("cover",))
    for name, written in car.papers:
        if written.file:
            yield car.papers_source, Used("paper-file", written.file, ("papers", name, "file"))


def _unknown(source: Source, used: Used, known: Collection[str]) -> Problem:
    word, new = _KINDS[used.kind]
    meant = nearest(used.name, known)
    shown = meant.rsplit("/", 1)[-1] if meant and used.kind == "photo" else meant
    way = f"write {shown}, or {new}" if shown else new
    message = f'there is no {word} "{used.name}"'
    return problem_at(source, used.loc, f"unknown-{used.kind}", message, help=way)

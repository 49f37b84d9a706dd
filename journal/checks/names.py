"""Is every name that a sheet uses known? Components, hands, suppliers, papers, parts, photographs."""

from collections.abc import Collection, Iterator
from pathlib import PurePosixPath
from typing import NamedTuple

from journal.records.carfile import CarFile
from journal.records.place import Key, Source
from journal.records.problem import Problem, problem_at
from journal.records.sheet import Sheet, photo_path
from journal.records.work import Decided
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
    "photo": ("photograph", "put the file into the folder photos/"),
    "subsystem": ("subsystem", "add it under subsystems: in workshop.yaml"),
    "sheet": ("sheet", "give the file name of the sheet without its ending"),
    "paper-file": ("file", "put the file into the folder papers/, or correct the name"),
}


def check_names(car: CarFile) -> Iterator[Problem]:
    """Every name that is used and not known, with the nearest known one.

    A name whose own entry is refused counts as known, and so do all names of a file that cannot
    be read: that mistake is told where it stands, and not again wherever the name is used.
    """
    known = _known(car)
    used = [(sheet.source, name) for sheet in car.sheets for name in _in_sheet(sheet)]
    for source, name in (*used, *_elsewhere(car)):
        names = known.get(name.kind)
        if names is not None and name.name not in names:
            yield _unknown(source, name, names)


def _known(car: CarFile) -> dict[str, Collection[str]]:
    workshop = car.workshop
    known: dict[str, Collection[str]] = {
        "hand": {*workshop.hands.names(), *_named_in(car.workshop_source, "hands", 1)},
        "supplier": {*workshop.suppliers.names(), *_named_in(car.workshop_source, "suppliers", 1)},
        "photo": car.photo_files,
        "subsystem": set(workshop.all_subsystems()),
        "sheet": {s.name for s in car.sheets} | car.unread,
        "paper-file": car.paper_files,
    }
    if not car.unread:
        # What a sheet that cannot be read named, nobody knows.
        known["part"] = {name for s in car.sheets for name in s.front.parts.names()}
    if () in car.register.source.marks:
        written = {c.key for c in car.register.components}
        known["component"] = written | set(_named_in(car.register.source, "components", 2))
    if () in car.papers_source.marks:
        known["paper"] = {*car.papers.names(), *_named_in(car.papers_source, "papers", 1)}
    return known


def _named_in(source: Source, section: str, depth: int) -> Iterator[str]:
    """Names that are written in a section of a file, whether or not their entries can be used."""
    for loc in source.marks:
        if len(loc) == depth + 1 and loc[0] == section and -1 not in loc:
            yield "/".join(str(key) for key in loc[1:])


def _in_sheet(sheet: Sheet) -> Iterator[Used]:
    front = sheet.front
    yield from _booked(sheet)
    yield from _in_work(sheet)
    yield from _in_goods(sheet)
    yield from _in_checks(sheet)
    for place, photo in enumerate(front.photos):
        yield Used("photo", photo_path(sheet.date, photo.file), ("photos", place, "file"))
        yield from _of(photo.of, ("photos", place, "of"))
    for place, moment in enumerate(front.recording):
        yield from _of(moment.of, ("recording", place, "of"))
    for place, paper in enumerate(front.papers):
        yield Used("paper", paper, ("papers", place))
    for place, correction in enumerate(front.corrects):
        yield Used("sheet", correction.sheet, ("corrects", place, "sheet"))


def _in_checks(sheet: Sheet) -> Iterator[Used]:
    """What was measured and proved, what is open, and what is to be looked at again."""
    front = sheet.front
    for name, measured in front.measured:
        yield from _of((measured.on,) if measured.on else (), ("measured", name, "on"))
    for name, line in front.sums:
        yield from _of(line.of, ("sums", name, "of"))
    for name, snag in front.snags:
        yield from _of((snag.on,) if snag.on else (), ("snags", name, "on"))
        if snag.by:
            yield Used("hand", snag.by, ("snags", name, "by"))
    for name, recheck in front.rechecks:
        yield from _of(recheck.on, ("rechecks", name, "on"))
        if recheck.by:
            yield Used("hand", recheck.by, ("rechecks", name, "by"))
    for name, proof in front.proving:
        for field, hand in (("by", proof.by), ("checked", proof.checked)):
            if hand:
                yield Used("hand", hand, ("proving", name, field))


def _booked(sheet: Sheet) -> Iterator[Used]:
    for place, name in enumerate(sheet.front.subsystem):
        yield Used("subsystem", name, ("subsystem", place))
    for subsystem, hands in sheet.front.hours:
        if subsystem:
            yield Used("subsystem", subsystem, ("hours", subsystem))
        yield from (Used("hand", h, ("hours", subsystem, h)) for h in hands.names() if h)
        for hand, lines in hands:
            for place, line in enumerate(lines):
                if line.because:
                    loc = ("hours", subsystem, hand, place, "because")
                    yield Used("part", line.because, loc)


def _in_goods(sheet: Sheet) -> Iterator[Used]:
    for name, part in sheet.front.parts:
        yield from _of(part.of, ("parts", name, "of"))
        if part.from_:
            yield Used("supplier", part.from_, ("parts", name, "from"))
    for name, lot in sheet.front.outwork:
        yield from _of(lot.of, ("outwork", name, "of"))
        if lot.to:
            yield Used("supplier", lot.to, ("outwork", name, "to"))
    for name, extra in sheet.front.extras:
        yield from _of(extra.of, ("extras", name, "of"))
        yield from _decided_by(extra.decided, ("extras", name))


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
        for field, hand in (("by", work.by), ("checked", work.checked)):
            if hand:
                yield Used("hand", hand, (*loc, field))
        if work.decided:
            yield from _decided_by(work.decided, loc)


def _decided_by(decided: Decided, loc: Loc) -> Iterator[Used]:
    if decided.by not in ("owner", "workshop"):
        yield Used("hand", decided.by, (*loc, "decided", "by"))


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
    if used.kind == "sheet":
        # A sheet does not correct itself.
        known = set(known) - {PurePosixPath(source.path).stem}
    meant = nearest(used.name, known)
    if used.kind == "photo":
        folder = f"{used.name.rpartition('/')[0]}/"
        new += folder
        # Within the folder of its day a photograph is called by its bare name.
        meant = meant.removeprefix(folder) if meant else None
    way = f"write {meant}, or {new}" if meant else new
    message = f'there is no {word} "{used.name}"'
    return problem_at(source, used.loc, f"unknown-{used.kind}", message, help=way)

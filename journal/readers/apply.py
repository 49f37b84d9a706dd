"""A car file as one reader may see it."""

from decimal import Decimal
from typing import TypeVar

from pydantic import BaseModel

from journal.readers.mask import Mask, public_mask
from journal.readers.rules import SEEN, may_see
from journal.records.carfile import CarFile
from journal.records.fields import Named
from journal.records.goods import Extra, OutworkLine, PartLine
from journal.records.hours import HoursLine
from journal.records.papers import Paper
from journal.records.place import Source
from journal.records.register import Component, Register
from journal.records.sheet import Block, Sheet, SheetFront, SnagLine, photo_path
from journal.records.statement import Statement
from journal.records.workshop import Workshop
from journal.words.vocabulary import Reader

R = TypeVar("R", bound=BaseModel)
V = TypeVar("V", PartLine, OutworkLine, Extra, SnagLine)


def car_for(reader: Reader, car: CarFile) -> CarFile:
    """The car file with everything taken out that the reader may not see.

    Fields go first by the table of `rules`; things marked `for:` a narrower reader go whole; for
    the public, numbers are masked and persons are not named in any text.
    """
    if reader is Reader.WORKSHOP:
        return car
    mask = public_mask(car) if reader is Reader.PUBLIC else _unchanged
    hidden = _identity_photos(car) if reader is Reader.PUBLIC else frozenset()
    sheets = tuple(
        _sheet(sheet, reader, mask, hidden, car)
        for sheet in car.sheets
        if may_see(reader, sheet.front.for_)
    )
    papers = Named(
        (name, _seen(paper, reader, mask))
        for name, paper in car.papers
        if may_see(reader, paper.for_)
    )
    # A cover is seen by those who see the sheet that tells of it.
    told = frozenset(photo_path(s.date, p.file) for s in sheets for p in s.front.photos)
    cover = car.car.cover if car.car.cover in told else None
    return CarFile(
        car.name, _workshop(car, reader, mask), _blank(car.workshop_source), _blank(car.source),
        _seen(car.car, reader, mask).model_copy(update={"cover": cover}),
        _register(car.register, reader, mask), _blank(car.papers_source), papers, sheets,
        _statements(car, reader, mask), told & car.photo_files, _paper_files(papers) & car.paper_files,
        car.unread, car.partly,
    )  # fmt: skip


def _unchanged(text: str) -> str:
    return text


def _blank(source: Source) -> Source:
    """A source without its lines, which hold everything as it was written."""
    return Source(source.path, (), source.marks)


def _seen(record: R, reader: Reader, mask: Mask) -> R:
    """A record with the fields its reader does not see put back to nothing, and texts masked."""
    seen = SEEN[reader].get(type(record), frozenset())
    update: dict[str, object] = {}
    for name, field in type(record).model_fields.items():
        value = getattr(record, name)
        if name in seen:
            update[name] = _value(value, reader, mask)
        else:
            update[name] = _empty(value) if field.is_required() else field.get_default()
    return record.model_copy(update=update)


def _empty(value: object) -> object:
    """What stands where something must stand and nothing may be seen: no name, no entries."""
    if not isinstance(value, BaseModel):
        return type(value)()
    return value.model_copy(
        update={
            name: _empty(getattr(value, name)) if field.is_required() else field.get_default()
            for name, field in type(value).model_fields.items()
        }
    )


def _value(value: object, reader: Reader, mask: Mask) -> object:
    if isinstance(value, BaseModel):
        return _seen(value, reader, mask)
    if isinstance(value, Named):
        return Named((name, _value(entry, reader, mask)) for name, entry in value)
    if type(value) is tuple:
        return tuple(_value(entry, reader, mask) for entry in value)
    return mask(value) if type(value) is str else value


def _workshop(car: CarFile, reader: Reader, mask: Mask) -> Workshop:
    """The workshop goes by its own name, which may be that of a person."""
    workshop = car.workshop
    shown = Named((n, s) for n, s in workshop.suppliers if s.shown)
    seen = _seen(workshop.model_copy(update={"suppliers": shown}), reader, mask)
    return seen.model_copy(update={"name": workshop.name})


def _statements(car: CarFile, reader: Reader, mask: Mask) -> tuple[Statement, ...]:
    """Issued statements are between workshop and owner."""
    if reader is not Reader.OWNER:
        return ()
    return tuple(
        Statement(s.name, _blank(s.source), _seen(s.file, reader, mask)) for s in car.statements
    )


def _register(register: Register, reader: Reader, mask: Mask) -> Register:
    return Register(
        _blank(register.source),
        tuple(
            Component(c.key, c.subsystem, _seen(c.line, reader, mask)) for c in register.components
        ),
    )


def _identity_photos(car: CarFile) -> frozenset[str]:
    """Photographs that show a carrier of the car's numbers."""
    carriers = {c.key for c in car.register.components if c.line.identity}
    return frozenset(
        photo_path(sheet.date, photo.file)
        for sheet in car.sheets
        for photo in sheet.front.photos
        if carriers & set(photo.of)
    )


def _sheet(sheet: Sheet, reader: Reader, mask: Mask, hidden: frozenset[str], car: CarFile) -> Sheet:
    front = sheet.front
    own = front.model_copy(
        update={
            "parts": _allowed(front.parts, reader),
            "outwork": _allowed(front.outwork, reader),
            "extras": _allowed(front.extras, reader),
            "snags": _allowed(front.snags, reader),
            "photos": tuple(
                p
                for p in front.photos
                if may_see(reader, p.for_) and photo_path(sheet.date, p.file) not in hidden
            ),
        }
    )
    seen = _seen(own, reader, mask)
    seen = _no_persons(seen) if reader is Reader.PUBLIC else _own_suppliers(seen, car)
    # Without a title of its own a sheet is called by its file name, which may hold a number.
    title = mask(sheet.title)
    if title != sheet.title:
        seen = seen.model_copy(update={"title": title})
    blocks = tuple(
        Block(b.reader, mask(b.text), b.line) for b in sheet.body if may_see(reader, b.reader)
    )
    return Sheet(sheet.name, _blank(sheet.source), seen, blocks)


def _allowed(entries: Named[V], reader: Reader) -> Named[V]:
    return Named((name, e) for name, e in entries if may_see(reader, e.for_))


def _no_persons(front: SheetFront) -> SheetFront:
    """Hours without hands, and decisions by role only."""
    hours = Named(
        (subsystem, Named([("", (HoursLine(hours=_total(hands)),))]))
        for subsystem, hands in front.hours
    )
    work = Named(
        (key, w.model_copy(update={"decided": w.decided.model_copy(update={"by": _role(w.decided.by)})}))
        if w.decided
        else (key, w)
        for key, w in front.work
    )  # fmt: skip
    return front.model_copy(update={"hours": hours, "work": work})


def _total(hands: Named[tuple[HoursLine, ...]]) -> Decimal:
    return sum((line.hours for _, lines in hands for line in lines), Decimal(0))


def _role(who: str) -> str:
    return "owner" if who in ("owner", "the owner") else "workshop"


def _own_suppliers(front: SheetFront, car: CarFile) -> SheetFront:
    """Parts and outwork without the names of suppliers that the workshop keeps to itself."""
    kept = {name for name, supplier in car.workshop.suppliers if not supplier.shown}
    return front.model_copy(
        update={
            "parts": Named(
                (n, p.model_copy(update={"from_": None}) if p.from_ in kept else p)
                for n, p in front.parts
            ),
            "outwork": Named(
                (n, o.model_copy(update={"to": None}) if o.to in kept else o)
                for n, o in front.outwork
            ),
        }
    )


def _paper_files(papers: Named[Paper]) -> frozenset[str]:
    return frozenset(paper.file for _, paper in papers if paper.file)

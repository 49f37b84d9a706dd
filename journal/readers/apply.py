"""A car file as one reader may see it."""

from collections.abc import Sequence
from decimal import Decimal
from typing import TypeVar

from pydantic import BaseModel

from journal.readers.facts import facts_for
from journal.readers.known import town_of
from journal.readers.mask import keeper_masks, owner_mask, public_mask
from journal.readers.names import neutral_names
from journal.readers.references import without_hidden
from journal.readers.retell import Retelling, retold
from journal.readers.rules import Sight, sight_of
from journal.records.carfile import CarFile
from journal.records.fields import Named
from journal.records.goods import Extra, OutworkLine, PartLine
from journal.records.hours import HoursLine
from journal.records.papers import Paper
from journal.records.place import Source
from journal.records.recheck import RecheckLine
from journal.records.register import Component, Register
from journal.records.sections import SnagLine
from journal.records.sheet import Sheet, SheetFront, photo_path
from journal.records.statement import Statement
from journal.records.sum import SumLine
from journal.records.workshop import Workshop
from journal.words.vocabulary import Reader

R = TypeVar("R", bound=BaseModel)
V = TypeVar("V", PartLine, OutworkLine, Extra, SnagLine, RecheckLine, SumLine)


def car_for(reader: Reader, car: CarFile, others: Sequence[CarFile] = ()) -> CarFile:
    """The car file with everything taken out that the reader may not see.

    Fields go first by the table of `rules`; things marked `for:` a narrower reader go whole, and with
    them whatever names them; then every text and every name that is left is told as the reader may
    read it. `others` are the cars beside this one, of which a reader of this one reads nothing.
    """
    if reader is Reader.WORKSHOP:
        return car
    sight = sight_of(reader, car.car)
    seen = without_hidden(_allowed_parts(sight, car), car)
    if reader is Reader.OWNER:
        return retold(seen, Retelling(owner_mask(car, others)))
    if reader is Reader.KEEPER:
        mask, of_numbers = keeper_masks(car, others, prices=sight.prices)
        return retold(seen, Retelling(mask, of_numbers=of_numbers))
    mask = public_mask(car, others)
    return retold(seen, Retelling(mask, neutral_names(car, seen, others, mask), masked=True))


def _allowed_parts(sight: Sight, car: CarFile) -> CarFile:
    hidden = _identity_photos(car) if sight.reader is Reader.PUBLIC else frozenset()
    sheets = tuple(
        _sheet(sheet, sight, hidden, car)
        for sheet in car.sheets
        if sight.may_see(sheet.front.widest)
    )
    papers = Named(
        (name, _seen(_paper(paper, sight), sight))
        for name, paper in car.papers
        if sight.may_see(paper.for_)
    )
    # A cover is seen by those who see the sheet that tells of it.
    told = frozenset(photo_path(s.date, p.file) for s in sheets for p in s.front.photos)
    update: dict[str, object] = {"cover": car.car.cover if car.car.cover in told else None}
    if sight.reader is Reader.PUBLIC and not car.car.plate_shown:
        update["plate"] = None
    facts = {path: facts for path, facts in car.photo_facts.items() if path in told}
    return CarFile(
        car.name, _workshop(car, sight), _blank(car.workshop_source), _blank(car.source),
        _seen(car.car, sight).model_copy(update=update), _register(car.register, sight),
        _blank(car.papers_source), papers, sheets, _statements(car, sight),
        told & car.photo_files, _paper_files(papers) & car.paper_files, car.unread, car.partly,
        facts_for(sight.reader, facts),
    )  # fmt: skip


def _paper(paper: Paper, sight: Sight) -> Paper:
    """A paper without its scan where the scan shows the public what is masked in texts; the next
    keeper is told in which town an earlier one lived, and not at which door."""
    if sight.reader is Reader.KEEPER:
        told = (k.model_copy(update={"place": town_of(k.place or "")}) for k in paper.keepers)
        return paper.model_copy(update={"keepers": tuple(told)})
    shows = len(paper.numbers) or paper.keepers or paper.registration
    hidden = sight.reader is Reader.PUBLIC and shows
    return paper.model_copy(update={"file": None}) if hidden else paper


def _blank(source: Source) -> Source:
    """A source without its lines and the keys in them, which hold everything as it was written."""
    return Source(source.path)


def _seen(record: R, sight: Sight) -> R:
    """A record with the fields its reader does not see put back to nothing."""
    seen = sight.fields.get(type(record), frozenset())
    update: dict[str, object] = {}
    for name, field in type(record).model_fields.items():
        value = getattr(record, name)
        if name in seen:
            update[name] = _value(value, sight)
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


def _value(value: object, sight: Sight) -> object:
    if isinstance(value, BaseModel):
        return _seen(value, sight)
    if isinstance(value, Named):
        return Named((name, _value(entry, sight)) for name, entry in value)
    if type(value) is tuple:
        return tuple(_value(entry, sight) for entry in value)
    return value


def _workshop(car: CarFile, sight: Sight) -> Workshop:
    shown = Named((n, s) for n, s in car.workshop.suppliers if s.shown)
    return _seen(car.workshop.model_copy(update={"suppliers": shown}), sight)


def _statements(car: CarFile, sight: Sight) -> tuple[Statement, ...]:
    """Issued statements are between workshop and owner."""
    if sight.reader is not Reader.OWNER:
        return ()
    return tuple(Statement(s.name, _blank(s.source), _seen(s.file, sight)) for s in car.statements)


def _register(register: Register, sight: Sight) -> Register:
    return Register(
        _blank(register.source),
        tuple(Component(c.key, c.subsystem, _seen(c.line, sight)) for c in register.components),
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


def _sheet(sheet: Sheet, sight: Sight, hidden: frozenset[str], car: CarFile) -> Sheet:
    front = sheet.front
    own = front.model_copy(
        update={
            "parts": _allowed(front.parts, sight),
            "outwork": _allowed(front.outwork, sight),
            "extras": _allowed(front.extras, sight),
            "snags": _allowed(front.snags, sight),
            "rechecks": _allowed(front.rechecks, sight),
            "sums": _allowed(front.sums, sight),
            "photos": tuple(
                p
                for p in front.photos
                if sight.may_see(p.for_) and photo_path(sheet.date, p.file) not in hidden
            ),
        }
    )
    seen = _seen(own, sight)
    seen = _no_persons(seen) if sight.reader is Reader.PUBLIC else _own_suppliers(seen, car)
    blocks = tuple(b for b in sheet.body if sight.may_see(b.reader))
    return Sheet(sheet.name, _blank(sheet.source), seen, blocks)


def _allowed(entries: Named[V], sight: Sight) -> Named[V]:
    return Named((name, e) for name, e in entries if sight.may_see(e.for_))


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

"""The day sheet: front matter as written, and the sheet as a dated record."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated

from pydantic import AfterValidator, BeforeValidator

from journal.records.fields import (
    Amount,
    Day,
    Named,
    Number,
    Text,
    Unit,
    Written,
    Yes,
    as_list,
    not_empty,
    one_of,
    short_form,
    vocabulary_schema,
)
from journal.records.goods import Extra, OutworkLine, PartLine
from journal.records.hours import HoursField
from journal.records.limit import LimitField
from journal.records.lists import Keys, Slugs
from journal.records.papers import ReaderField
from journal.records.place import Source
from journal.records.recheck import RecheckLine
from journal.records.work import Work
from journal.words.names import title_of
from journal.words.vocabulary import Reader, Stage


class Measured(Written):
    """Readings of one dimension on one component, with the limits they must keep."""

    on: Text | None = None
    read: Annotated[tuple[Number, ...], BeforeValidator(as_list), AfterValidator(not_empty)]
    unit: Unit
    limit: LimitField | None = None
    with_: Text | None = None
    note: Text | None = None


class SnagLine(Written):
    """A snag raised, put off or cleared. `hold` stops the handover until it is cleared."""

    raise_: Text | None = None
    hold: Yes = False
    on: Text | None = None
    ask: Text | None = None
    defer: Text | None = None
    clear: Text | None = None
    by: Text | None = None
    for_: ReaderField = Reader.KEEPER


class Photo(Written):
    """A photograph: its file under `photos/`, what it shows, and who may see it."""

    file: Text
    of: Keys = ()
    stage: Annotated[Stage, BeforeValidator(one_of(Stage)), vocabulary_schema(Stage)] | None = None
    caption: Text | None = None
    alt: Text | None = None
    for_: ReaderField = Reader.PUBLIC


class Correction(Written):
    """An earlier sheet that this one corrects, by its name, and what was wrong in it."""

    sheet: Text
    what: Text | None = None


class Proof(Written):
    """A check that must be recorded before a safety-critical subsystem is handed over.

    `found` is the result in words, `read` its reading; it stands unless `passed` is no. `by` is
    the hand, `checked` the second pair of eyes. `does_not_apply` is the reason why this car needs
    no such proof; then nothing else was found.
    """

    found: Text | None = None
    does_not_apply: Text | None = None
    read: Annotated[tuple[Number, ...], BeforeValidator(as_list)] = ()
    unit: Unit | None = None
    passed: Yes = True
    by: Text | None = None
    checked: Text | None = None
    note: Text | None = None

    @property
    def says_both(self) -> bool:
        """Whether it does not apply and has a result all the same."""
        return bool(self.does_not_apply and (self.found or self.read or not self.passed))


class SheetFront(Written):
    """The front matter of a day sheet. `date` and `subsystem` are needed, all else when it is."""

    date: Day
    subsystem: Annotated[Slugs, AfterValidator(not_empty)]
    title: Text | None = None
    hours: HoursField = Named()
    work: Named[Annotated[Work, short_form("did")]] = Named()
    parts: Named[PartLine] = Named()
    outwork: Named[OutworkLine] = Named()
    extras: Named[Extra] = Named()
    measured: Named[Measured] = Named()
    proving: Named[Annotated[Proof, short_form("found")]] = Named()
    odometer: Amount | None = None
    snags: Named[Annotated[SnagLine, short_form("raise")]] = Named()
    rechecks: Named[Annotated[RecheckLine, short_form("after")]] = Named()
    photos: Annotated[
        tuple[Annotated[Photo, short_form("file")], ...], BeforeValidator(as_list)
    ] = ()
    papers: Slugs = ()
    corrects: Annotated[
        tuple[Annotated[Correction, short_form("sheet")], ...], BeforeValidator(as_list)
    ] = ()
    for_: ReaderField = Reader.PUBLIC


@dataclass(frozen=True)
class Block:
    """A part of a sheet's text that one widest reader may see, with the line it starts on."""

    reader: Reader
    text: str
    line: int


@dataclass(frozen=True)
class Sheet:
    """One day sheet. `name` is its file name without ending and is unique within the car."""

    name: str
    source: Source
    front: SheetFront
    body: tuple[Block, ...] = ()

    @property
    def date(self) -> date:
        """The day the sheet tells of."""
        return self.front.date

    @property
    def title(self) -> str:
        """The title as written, else one made from the file name."""
        return self.front.title or title_of(self.name[11:] or self.name)


def sheet_order(sheet: Sheet) -> tuple[date, str]:
    """Sheets are ordered by day, and within a day by path, so that reading order does not matter.

    The ending does not count: with it `brakes-2.md` would come before `brakes.md`.
    """
    return (sheet.date, sheet.source.path.removesuffix(".md"))


def photo_path(day: date, file: str) -> str:
    """Where a photograph lies under `photos/`: a bare name lies in the folder of its day."""
    return file if "/" in file else f"{day.isoformat()}/{file}"

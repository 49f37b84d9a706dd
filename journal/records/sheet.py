"""The day sheet: front matter as written, and the sheet as a dated record."""

from datetime import date
from typing import Annotated

from msgspec import Struct
from pydantic import AfterValidator, BeforeValidator

from journal.records.draft import DraftLine
from journal.records.fields import (
    Amount,
    Day,
    Named,
    Text,
    Written,
    as_list,
    not_empty,
    one_of,
    short_form,
    vocabulary_schema,
)
from journal.records.goods import Extra
from journal.records.hours import HoursField
from journal.records.lists import Keys, Slugs
from journal.records.papers import ReaderField
from journal.records.place import Source
from journal.records.recording import Moment
from journal.records.sections import (
    MeasuredSection,
    OutworkSection,
    PartsSection,
    ProvingSection,
    RechecksSection,
    SnagsSection,
    WorkSection,
)
from journal.records.sum import SumLine
from journal.words.names import title_of
from journal.words.vocabulary import Reader, Stage


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


class SheetFront(Written):
    """The front matter of a day sheet. `date` and `subsystem` are needed, all else when it is.

    `draft` are lines heard in a talk that nobody has confirmed, `recording` the moments of those that
    somebody has; both are the workshop's alone.
    """

    date: Day
    subsystem: Annotated[Slugs, AfterValidator(not_empty)]
    title: Text | None = None
    hours: HoursField = Named()
    work: WorkSection = Named()
    parts: PartsSection = Named()
    outwork: OutworkSection = Named()
    extras: Named[Extra] = Named()
    measured: MeasuredSection = Named()
    sums: Named[SumLine] = Named()
    proving: ProvingSection = Named()
    odometer: Amount | None = None
    snags: SnagsSection = Named()
    rechecks: RechecksSection = Named()
    photos: Annotated[
        tuple[Annotated[Photo, short_form("file")], ...], BeforeValidator(as_list)
    ] = ()
    papers: Slugs = ()
    corrects: Annotated[
        tuple[Annotated[Correction, short_form("sheet")], ...], BeforeValidator(as_list)
    ] = ()
    for_: ReaderField = Reader.PUBLIC
    recording: Annotated[
        tuple[Annotated[Moment, short_form("file")], ...], BeforeValidator(as_list)
    ] = ()
    draft: Annotated[
        tuple[Annotated[DraftLine, short_form("words")], ...], BeforeValidator(as_list)
    ] = ()

    @property
    def widest(self) -> Reader:
        """The widest reader of the sheet: whom it names, and the workshop alone while lines of a draft
        wait, since nobody has read over what was said."""
        return Reader.WORKSHOP if self.draft else self.for_


class Block(Struct, frozen=True):
    """A part of a sheet's text that one widest reader may see, with the line it starts on."""

    reader: Reader
    text: str
    line: int


class Sheet(Struct, frozen=True):
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

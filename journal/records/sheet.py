"""The day sheet: front matter as written, and the sheet as a dated record."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated

from pydantic import AfterValidator, BeforeValidator, WithJsonSchema

from journal.records.fields import (
    Amount,
    Count,
    Day,
    DayOrToday,
    Hours,
    Named,
    Number,
    Share,
    Slug,
    Text,
    Unit,
    Written,
    Yes,
    as_list,
    not_empty,
    one_of,
    refuse,
    short_form,
    vocabulary_schema,
)
from journal.records.papers import ReaderField
from journal.records.place import Source
from journal.records.register import OriginField
from journal.words.names import title_of
from journal.words.vocabulary import Act, GoodsIn, Reader, Stage, Verdict

Slugs = Annotated[tuple[Slug, ...], BeforeValidator(as_list)]
Keys = Annotated[tuple[Text, ...], BeforeValidator(as_list)]
Acts = Annotated[
    tuple[Annotated[Act, BeforeValidator(one_of(Act)), vocabulary_schema(Act)], ...],
    BeforeValidator(as_list),
]


class Decided(Written):
    """Who decided, `owner`, `workshop` or a hand's initials, and on what day."""

    by: Text
    on: DayOrToday | None = None


class Was(Written):
    """What was learned of the state in which the car was found."""

    origin: OriginField
    retained: Share | None = None
    conforms: Share | None = None


class Work(Written):
    """What the day did to one component.

    `did` are acts in order; `found` is the finding, `verdict` what it led to. `now` names the
    origin of another item that takes the place; `original` or `came_off` says where the item
    that came off is kept, or `scrapped`, `exchanged`, `lost`. `original` claims that it is the
    very item the works fitted; `usable: no` says that it is kept as a witness and must not go
    back. `retained` is the share of original material left, `conforms` a conformity that differs
    from the usual for its origin and needs a `why`. `was` corrects what was thought of the
    component as found; `since` dates the line earlier than the sheet that tells it. `stand_in`
    describes an item that is in place only for now.
    """

    did: Acts = ()
    found: Text | None = None
    verdict: (
        Annotated[Verdict, BeforeValidator(one_of(Verdict)), vocabulary_schema(Verdict)] | None
    ) = None
    now: OriginField | None = None
    retained: Share | None = None
    conforms: Share | None = None
    original: Text | None = None
    came_off: Text | None = None
    usable: Yes | None = None
    reversible: Yes | None = None
    undo: Text | None = None
    why: Text | None = None
    decided: Annotated[Decided, short_form("by")] | None = None
    was: Annotated[Was, short_form("origin")] | None = None
    since: Day | None = None
    stand_in: Text | None = None
    number: Text | None = None
    paper: Slugs = ()
    part: Slug | None = None
    checked: Text | None = None
    note: Text | None = None


class PartLine(Written):
    """What the day brought for one part. Its name carries it through later sheets.

    `price` and `credited` are for the whole quantity, in the workshop's currency.
    """

    what: Text | None = None
    number: Text | None = None
    from_: Text | None = None
    of: Keys = ()
    qty: Count | None = None
    price: Amount | None = None
    ordered: DayOrToday | None = None
    promised: DayOrToday | None = None
    received: DayOrToday | None = None
    outcome: (
        Annotated[GoodsIn, BeforeValidator(one_of(GoodsIn)), vocabulary_schema(GoodsIn)] | None
    ) = None
    why: Text | None = None
    returned: DayOrToday | None = None
    credited: Amount | None = None
    fitted: DayOrToday | None = None
    note: Text | None = None
    for_: ReaderField = Reader.PUBLIC


class OutworkLine(Written):
    """Items sent out for work, or come back, by count, on the day of the sheet."""

    what: Text | None = None
    to: Text | None = None
    of: Keys = ()
    sent: Count | None = None
    back: Count | None = None
    due: DayOrToday | None = None
    cost: Amount | None = None
    note: Text | None = None
    for_: ReaderField = Reader.PUBLIC


class Limit(Written):
    """The bounds of a reading: `least`, `most` or both."""

    least: Number | None = None
    most: Number | None = None


def limit_pair(value: object) -> object:
    """Short form: `[0.05, 0.15]` for the two ends."""
    if isinstance(value, list) and len(value) == 2:
        return {"least": value[0], "most": value[1]}
    if isinstance(value, list | str):
        found = "a list of another length" if isinstance(value, list) else f'"{value}"'
        raise refuse(
            "wrong-shape", f"must have two ends or say which one it is, found {found}",
            help="write [least, most], {least: 0.05} or {most: 0.15}",
        )  # fmt: skip
    return value


class Measured(Written):
    """Readings of one dimension on one component, with the limits they must keep."""

    on: Text | None = None
    read: Annotated[tuple[Number, ...], BeforeValidator(as_list), AfterValidator(not_empty)]
    unit: Unit
    limit: Annotated[Limit, BeforeValidator(limit_pair)] | None = None
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
    for_: ReaderField = Reader.OWNER


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


def _hours_by_subsystem(value: object) -> object:
    """Short forms: `3.5`; hours by hand; hours by subsystem and hand."""
    if not isinstance(value, dict):
        return {"": {"": value}}
    plain = {hand: hours for hand, hours in value.items() if not isinstance(hours, dict)}
    split = {subsystem: hours for subsystem, hours in value.items() if isinstance(hours, dict)}
    return {"": plain, **split} if plain else split


HoursField = Annotated[
    Named[Named[Hours]],
    BeforeValidator(_hours_by_subsystem),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": ["number", "string"]},
                {
                    "type": "object",
                    "additionalProperties": {
                        "anyOf": [
                            {"type": ["number", "string"]},
                            {
                                "type": "object",
                                "additionalProperties": {"type": ["number", "string"]},
                            },
                        ]
                    },
                },
            ]
        }
    ),
]


class SheetFront(Written):
    """The front matter of a day sheet. `date` and `subsystem` are needed, all else when it is."""

    date: Day
    subsystem: Annotated[Slugs, AfterValidator(not_empty)]
    title: Text | None = None
    hours: HoursField = Named()
    work: Named[Annotated[Work, short_form("did")]] = Named()
    parts: Named[PartLine] = Named()
    outwork: Named[OutworkLine] = Named()
    measured: Named[Measured] = Named()
    snags: Named[Annotated[SnagLine, short_form("raise")]] = Named()
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
    """Sheets are ordered by day, and within a day by path, so that reading order does not matter."""
    return (sheet.date, sheet.source.path)


def photo_path(day: date, file: str) -> str:
    """Where a photograph lies under `photos/`: a bare name lies in the folder of its day."""
    return file if "/" in file else f"{day.isoformat()}/{file}"

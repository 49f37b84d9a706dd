"""Work on a component: what a day did to it, and who decided."""

from typing import Annotated

from pydantic import BeforeValidator

from journal.records.fields import (
    Day,
    DayOrToday,
    Share,
    Slug,
    Text,
    Written,
    Yes,
    as_list,
    one_of,
    short_form,
    vocabulary_schema,
)
from journal.records.lists import Slugs
from journal.records.register import OriginField
from journal.words.vocabulary import Act, LockedBy, Verdict

Acts = Annotated[
    tuple[Annotated[Act, BeforeValidator(one_of(Act)), vocabulary_schema(Act)], ...],
    BeforeValidator(as_list),
]


class Decided(Written):
    """Who decided, `owner`, `workshop` or a hand's initials, on what day and on what advice."""

    by: Text
    on: DayOrToday | None = None
    advice: Text | None = None


class Was(Written):
    """What was learned of the state in which the car was found."""

    origin: OriginField
    retained: Share | None = None
    conforms: Share | None = None


class Locking(Written):
    """How fasteners were locked. `degreased` tells of threads under a compound, `new` whether
    pins and washers that serve once were new."""

    by: Annotated[LockedBy, BeforeValidator(one_of(LockedBy)), vocabulary_schema(LockedBy)]
    degreased: Yes | None = None
    new: Yes | None = None


class Work(Written):
    """What the day did to one component.

    `did` are acts in order; `found` is the finding, `verdict` what it led to. `now` names the
    origin of another item that takes the place; `original` or `came_off` says where the item
    that came off is kept, or `scrapped`, `exchanged`, `lost`. `original` claims that it is the
    very item the works fitted; `usable: no` says that it is kept as a witness and must not go
    back. `retained` is the share of original material left, `conforms` a conformity that differs
    from the usual for its origin and needs a `why`. `was` corrects what was thought of the
    component as found; `since` dates the line earlier than the sheet that tells it. `stand_in`
    describes an item that is in place only for now. `by` is the hand that did it where several
    worked that day, `checked` the second pair of eyes. `dated` is the year or day on which a thing
    that ages was made.
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
    by: Text | None = None
    checked: Text | None = None
    locking: Annotated[
        tuple[Annotated[Locking, short_form("by")], ...], BeforeValidator(as_list)
    ] = ()
    dated: Text | None = None
    note: Text | None = None

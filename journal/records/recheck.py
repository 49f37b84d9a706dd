"""What must be looked at again after delivery, as a sheet asks for it and as a later one ticks it."""

from typing import Annotated

from pydantic import BeforeValidator, WithJsonSchema

from journal.records.fields import Text, Unit, Written, refuse, scalar, short_form
from journal.records.limit import LimitField
from journal.records.lists import Keys
from journal.records.papers import ReaderField
from journal.words.stretch import Stretch, TooFar, parse_stretch
from journal.words.vocabulary import Reader

_WAY = "write 500 miles, 6 weeks, or 500 miles or 6 weeks"


def _stretch(value: object) -> object:
    if isinstance(value, Stretch):
        return value
    text = scalar(value, "a distance, a time or both", help=_WAY)
    try:
        return parse_stretch(text)
    except TooFar as fault:
        raise refuse("out-of-range", f"must be a stretch {fault}, found {text}") from None
    except ValueError:
        raise refuse(
            "bad-stretch", f'must be a distance, a time or both, found "{text}"', help=_WAY
        ) from None


StretchField = Annotated[
    Stretch,
    BeforeValidator(_stretch),
    WithJsonSchema({"type": "string", "examples": ["500 miles", "6 weeks", "500 miles or 6 weeks"]}),
]  # fmt: skip


class Wanted(Written):
    """What a re-check should find: in words, as limits with their unit, or both.

    The figures are the maker's; `says` tells where they stand and how they are to be taken.
    """

    says: Text | None = None
    limit: LimitField | None = None
    unit: Unit | None = None


class RecheckLine(Written):
    """Something to be looked at again, or the looking.

    `after` asks for it: so far, so long, or what comes first of both, counted from delivery, or
    from the day of the sheet once the car is delivered. `done` is what was found and `by` the hand
    that looked; with `after` beside it the next one is asked for at once. `what` is absent where
    the name says it, `on` where no component of the register is meant.
    """

    what: Text | None = None
    on: Keys = ()
    after: StretchField | None = None
    value: Annotated[Wanted, short_form("says")] | None = None
    done: Text | None = None
    by: Text | None = None
    for_: ReaderField = Reader.PUBLIC

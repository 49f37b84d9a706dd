"""Moments in the recordings of a day: where in a film or a talk something is seen or said."""

from fractions import Fraction
from typing import Annotated

from pydantic import BeforeValidator, WithJsonSchema

from journal.records.fields import Text, Written, refuse, scalar
from journal.records.lists import Keys
from journal.words.moments import parse_moment

_WAY = "write minutes:seconds, such as 0:12, or hours:minutes:seconds, such as 1:02:05"


def _moment(value: object) -> object:
    if isinstance(value, Fraction):
        return value
    text = scalar(value, "a moment in a recording", help=_WAY)
    try:
        return parse_moment(text)
    except ValueError:
        raise refuse(
            "bad-moment", f'must be a moment in a recording, found "{text}"', help=_WAY
        ) from None


MomentField = Annotated[
    Fraction,
    BeforeValidator(_moment),
    WithJsonSchema({"type": "string", "examples": ["0:12", "1:02:05", "0:12.5"]}),
]


class Moment(Written):
    """A moment in a recording: its `file` under `recordings/`, and `at` which second, counted from the
    start; absent for the recording as a whole. `of` are components that it is about, `words` what is
    said there."""

    file: Text
    at: MomentField | None = None
    of: Keys = ()
    words: Text | None = None

"""Hours in a sheet: a number, hours by hand, or by subsystem and hand; plain or with their kind."""

from typing import Annotated

from pydantic import BeforeValidator, WithJsonSchema

from journal.records.fields import (
    Hours,
    Named,
    Slug,
    Text,
    Written,
    as_list,
    one_of,
    short_form,
    vocabulary_schema,
)
from journal.words.vocabulary import HourKind


class HoursLine(Written):
    """Hours of one hand. `because` names the part that made them necessary by not fitting."""

    hours: Hours
    kind: Annotated[HourKind, BeforeValidator(one_of(HourKind)), vocabulary_schema(HourKind)] = (
        HourKind.BILLABLE
    )
    because: Slug | None = None
    note: Text | None = None


def _hours_by_subsystem(value: object) -> object:
    """Short forms: `3.5`; hours by hand; hours by subsystem and hand."""
    if not isinstance(value, dict) or "hours" in value:
        return {"": {"": value}}
    split = {key: hours for key, hours in value.items() if _by_hand(hours)}
    plain = {key: hours for key, hours in value.items() if key not in split}
    return {"": plain, **split} if plain else split


def _by_hand(hours: object) -> bool:
    return isinstance(hours, dict) and "hours" not in hours


_ONE = {
    "anyOf": [
        {"type": ["number", "string"]},
        {
            "type": "object",
            "properties": {
                "hours": {"type": ["number", "string"]},
                "kind": {"enum": [kind.value for kind in HourKind]},
                "because": {"type": "string"},
                "note": {"type": ["number", "string"]},
            },
            "required": ["hours"],
            "additionalProperties": False,
        },
    ]
}
_SOME = {"anyOf": [*_ONE["anyOf"], {"type": "array", "items": _ONE}]}
_BY_HAND = {"type": "object", "additionalProperties": _SOME}

HoursField = Annotated[
    Named[
        Named[
            Annotated[
                tuple[Annotated[HoursLine, short_form("hours")], ...], BeforeValidator(as_list)
            ]
        ]
    ],
    BeforeValidator(_hours_by_subsystem),
    WithJsonSchema(
        {
            "anyOf": [
                *_SOME["anyOf"],
                {"type": "object", "additionalProperties": {"anyOf": [*_SOME["anyOf"], _BY_HAND]}},
            ]
        }
    ),
]

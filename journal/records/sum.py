"""A bench sum as a sheet writes it: which one, and what is given to it. Never what it comes to."""

from collections.abc import Mapping
from typing import Any

from pydantic import model_validator

from journal.records.fields import Named, Text, Written
from journal.records.lists import Keys
from journal.records.papers import ReaderField
from journal.words.text import normal
from journal.words.vocabulary import Reader


class SumLine(Written):
    """A bench sum worked out on a day.

    `sum` names it, `of` the components that it is worked out for. Every other key is an input of that
    sum; which there are and what they may be is for the sum to say, so each is kept as one text, in the
    form in which it is written on one line: entries of a list set apart by semicolons, those of a list
    within it by commas, a key before its value. It is for the public unless it says otherwise, or is
    one of `WORKSHOP_SUMS`.
    """

    sum_: Text
    of: Keys = ()
    note: Text | None = None
    inputs: Named[Text] = Named()
    for_: ReaderField = Reader.PUBLIC

    @model_validator(mode="before")
    @classmethod
    def _inputs(cls, data: Any) -> Any:
        """All keys that are not the record's own, as inputs."""
        if not isinstance(data, Mapping):
            return data
        own = {key: value for key, value in data.items() if key in OWN_KEYS}
        given = {key: on_one_line(value) for key, value in data.items() if key not in OWN_KEYS}
        if str(data.get("sum")).strip() in WORKSHOP_SUMS:
            own.setdefault("for", Reader.WORKSHOP.value)
        return {**own, "inputs": given}


# Sums that tell of other people's cars, or of money: for the workshop alone unless they say otherwise.
WORKSHOP_SUMS = frozenset({"hours-quote"})

# What a sum line says besides the inputs.
OWN_KEYS = ("sum", "of", "note", "for")


def on_one_line(value: object) -> str:
    """What is written for an input, as one text: `0.22; 0.24 mm`, `0.10 mm: 3; 0.15 mm: 2`,
    `1 inlet: fitted 2.45 mm, clearance 0.30 mm`."""
    if isinstance(value, Mapping):
        return "; ".join(f"{key}: {_row(entry)}" for key, entry in value.items())
    if isinstance(value, list | tuple):
        return "; ".join(map(_row, value))
    return normal(str(value)).strip()


def _row(value: object) -> str:
    if isinstance(value, Mapping):
        return ", ".join(f"{key} {_row(entry)}" for key, entry in value.items())
    if isinstance(value, list | tuple):
        return ", ".join(map(_row, value))
    return normal(str(value)).strip()

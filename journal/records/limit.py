"""The bounds that a reading must keep."""

from typing import Annotated

from pydantic import BeforeValidator

from journal.records.fields import Number, Written, refuse


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


LimitField = Annotated[Limit, BeforeValidator(limit_pair)]

"""What one day does to one component, as plain data; days that are not known yet stand as marks."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any, NamedTuple

Lines = Mapping[str, Mapping[str, Any]]


class Later(NamedTuple):
    """A day so many days after that of the sheet; `year` takes its year alone."""

    days: int
    year: bool = False

    def on(self, day: date) -> date | str:
        """The day, or the year in words, seen from the day of a sheet."""
        then = day + timedelta(self.days)
        return str(then.year) if self.year else then


@dataclass(frozen=True)
class Deed:
    """One line of work on the component `key`, and all that goes with it in other parts of the sheet.

    `says` are the sentences of it; `stage` is that of its photographs; `wait` are the working days
    before the next deed on the same component; `rework` names a part that cost hours by not fitting.
    """

    key: str
    label: str
    title: str
    work: Mapping[str, Any] = field(default_factory=dict)
    says: tuple[str, ...] = ()
    stage: str = "during"
    wait: int = 1
    parts: Lines = field(default_factory=dict)
    outwork: Lines = field(default_factory=dict)
    extras: Lines = field(default_factory=dict)
    measured: Lines = field(default_factory=dict)
    sums: Lines = field(default_factory=dict)
    proving: Lines = field(default_factory=dict)
    snags: Lines = field(default_factory=dict)
    rechecks: Lines = field(default_factory=dict)
    rework: str | None = None


def on_day(value: Any, day: date) -> Any:
    """The same with every mark of a later day put in."""
    if isinstance(value, Later):
        return value.on(day)
    if isinstance(value, Mapping):
        return {key: on_day(entry, day) for key, entry in value.items()}
    return [on_day(entry, day) for entry in value] if isinstance(value, list) else value

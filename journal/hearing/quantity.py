"""One quantity of a talk, before its unit and its limit are found."""

from msgspec import Struct

from journal.hearing.bounds import Bounds
from journal.hearing.groups import Group
from journal.hearing.measure import alike
from journal.hearing.purposes import Purpose
from journal.words.units import ALL_UNITS, same_kind


class Quantity(Struct, frozen=True):
    """A group with what it was said for, and what it allows; `lent` tells that its unit was not said."""

    group: Group
    unit: str
    how: Purpose
    bounds: Bounds | None = None
    lent: bool = False


def between(one: Quantity, other: Quantity) -> int:
    """How many words stand between two groups."""
    return max(one.group.start, other.group.start) - min(one.group.end, other.group.end)


def of_one_size(one: Quantity, other: Quantity) -> bool:
    """Whether two groups are of one size, also where the first was told in parts of the unit."""
    first, second = one.group.measures[0].value, other.group.measures[0].value
    return alike(first, second) or alike(first * other.group.measures[0].factor, second)


def convertible(one: Quantity, other: Quantity) -> bool:
    """Whether both are of one kind, so that one may be told in the unit of the other."""
    known = one.unit in ALL_UNITS and other.unit in ALL_UNITS
    return known and same_kind(one.unit, other.unit)

"""Units of quantities that were told without one, where they are clear from what stands around."""

from fractions import Fraction

from msgspec.structs import replace

from journal.hearing.bounds import is_sized, is_whole_sentence
from journal.hearing.measure import alike, lent
from journal.hearing.quantity import Quantity, between, of_one_size
from journal.hearing.strand import Strand
from journal.words.units import UNITS

# So many words may stand between a reading and what it should be.
_REACH = 16
# So far back a number without a unit may take that of a reading, and a size that is told by its name.
_BACK, _FAR_BACK = 25, 90


def with_units(strand: Strand, heard: list[Quantity]) -> list[Quantity]:
    """What has no unit with that of what stands beside it, a limit with its reading's; else left out."""
    told = list(heard)
    for n, one in enumerate(told):
        if not one.unit and (lender := _lender(strand, told, n)) is not None:
            told[n] = _in_unit_of(one, lender)
    return [one for one in told if one.unit]


def _in_unit_of(one: Quantity, lender: Quantity) -> Quantity:
    first = lender.group.measures[0]
    factor = Fraction(1) if alike(one.group.measures[0].value, first.value) else first.factor
    measures = tuple(lent(measure, lender.unit, factor) for measure in one.group.measures)
    group = replace(one.group, measures=measures, unit=lender.unit)
    bounds = one.bounds and one.bounds.times(factor)
    return replace(one, group=group, unit=lender.unit, bounds=bounds, lent=True)


def _lender(strand: Strand, told: list[Quantity], n: int) -> Quantity | None:
    """The nearest reading beside a limit, or limit beside a reading, else the reading before it."""
    one = told[n]
    wanted = "reading" if one.how == "limit" else "limit"
    beside = [told[k] for k in (n - 1, n + 1) if 0 <= k < len(told)]
    near = [
        other for other in beside if other.unit and other.how == wanted and _may_lend(one, other)
    ]
    near.sort(key=lambda other: (not of_one_size(one, other), _distance(one, other)))
    if near or one.how == "limit":
        return near[0] if near else None
    return _read_before(strand, told, n)


def _may_lend(one: Quantity, other: Quantity) -> bool:
    reach = _BACK if of_one_size(one, other) else _REACH
    return between(one, other) <= reach


def _read_before(strand: Strand, told: list[Quantity], n: int) -> Quantity | None:
    """The reading before one without a unit, of the same size: it is of the same thing or the next one."""
    one = told[n]
    sized = is_sized(strand, one.group)
    reach = _FAR_BACK if sized else _BACK
    for other in reversed(told[:n]):
        if between(one, other) > reach:
            return None
        if (
            not other.unit
            or other.how not in ("reading", "torque")
            or (sized and other.unit not in UNITS["length"])
        ):
            continue
        again = other.group.measures[-1].value == one.group.measures[0].value
        whole = is_whole_sentence(strand, one.group)
        return other if of_one_size(one, other) and not (again and whole) else None
    return None


def _distance(one: Quantity, other: Quantity) -> int:
    """How far a limit is from a reading; the one before it is nearer by a few words."""
    return between(one, other) + (3 if other.group.start > one.group.start else 0)

"""The quantities of a talk: what was read, what is allowed, what was tightened, sizes and prices."""

import re
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from journal.hearing.bounds import (
    Bounds,
    bounds_of,
    is_found,
    is_of_them,
    is_spread,
    stands_alone,
)
from journal.hearing.denominators import FITS
from journal.hearing.groups import Group, groups_of
from journal.hearing.idle import is_not_now
from journal.hearing.lending import with_units
from journal.hearing.limits import REACH, limits_of
from journal.hearing.measure import Measure
from journal.hearing.measures import measures_of
from journal.hearing.numbers import Spoken
from journal.hearing.numberwords import exact_text
from journal.hearing.purposes import Purpose, purpose_of, unit_said
from journal.hearing.quantity import Quantity, between, convertible
from journal.hearing.repeats import without_repeats
from journal.hearing.strand import Strand, strand_of
from journal.hearing.tokens import Token
from journal.hearing.unitwords import POUNDS
from journal.words.amounts import plain_number
from journal.words.units import UNITS, convert, converted

Limit = tuple[str | None, str | None]

# What a sheet takes for a number, and a fraction as sizes have it.
_NUMBER = re.compile(r"-?[0-9]{1,12}(?:\.[0-9]{1,9})?|[0-9]{1,12}/[0-9]{1,4}")
# So far back pounds may be those of a reading.
_BACK = 25
# Between sizes of which only the last names the thing.
_AND = (("and", "a"), ("or", "a"), ("and",))
# Two units of one reading differ by what was rounded away.
_ALIKE = Fraction(1, 10)
_SAYS_AGAIN = frozenset({
    "that's", "which", "is", "so", "call", "it", "or", "about", "that", "in", "i.e", "equals", "roughly",
    "what", "around", "which's", "nearly",
})  # fmt: skip


class Reading(Struct, frozen=True):
    """A quantity over the tokens [first, last): one or more amounts in one unit.

    `how` tells what it was said for: `reading` what was measured, `limit` what is allowed and no
    reading with it (`amounts` then hold a figure that is wanted without ends, or nothing), `torque`
    what was tightened to, `size` of a tool or of stock or what was taken off, `money`.
    `limit` is what a reading should be within, least and most, in its unit. `about` tells that an
    amount was not said exactly.
    """

    first: int
    last: int
    amounts: tuple[str, ...]
    unit: str
    limit: Limit | None = None
    how: Purpose = "reading"
    about: bool = False


def readings_in(tokens: tuple[Token, ...], numbers: tuple[Spoken, ...]) -> tuple[Reading, ...]:
    """All quantities in order of their places.

    What was taken back is left out. A limit is put to the reading beside it.
    """
    strand = strand_of(tokens)
    groups = without_repeats(strand, groups_of(strand, measures_of(strand, numbers)))
    sized = _sized(strand, _heard(strand, groups))
    told = _with_limits(strand, _without_repeats(strand, with_units(strand, sized)))
    return tuple(reading for reading in told if _can_be_written(reading))


def _can_be_written(reading: Reading) -> bool:
    """Whether a sheet takes the amounts: nobody measures a figure of thirty digits."""
    said = (*reading.amounts, *(end for end in reading.limit or () if end is not None))
    return all(_NUMBER.fullmatch(text) for text in said)


def _with_limits(strand: Strand, heard: list[Quantity]) -> list[Reading]:
    """Every reading with the limit that is told of it; a limit of none by itself."""
    of = limits_of(strand, heard)
    spent = set(of.values())
    return [
        _with_limit(strand, one, heard[of[n]]) if n in of else _alone(strand, one)
        for n, one in enumerate(heard)
        if n not in spent
    ]


def _heard(strand: Strand, groups: Sequence[Group]) -> list[Quantity]:
    found: list[Quantity] = []
    for n, group in enumerate(groups):
        if n and _is_nominal_size(strand, groups[n - 1], group):
            continue
        since = groups[n - 1].end if n else 0
        until = groups[n + 1].start if n + 1 < len(groups) else len(strand.words)
        one = _one_heard(strand, _of_pounds(strand, found, group), since, until)
        if one is not None:
            found.append(one)
    return found


def _of_pounds(strand: Strand, found: list[Quantity], group: Group) -> Group:
    """Pounds after a reading in them are the same pounds, and no money."""
    last = found[-1] if found else None
    if group.unit != POUNDS or last is None or last.group.unit != POUNDS:
        return group
    near = last.how == "reading" and group.start - last.group.end <= _BACK
    return replace(group, unit=last.unit) if near else group


def _is_nominal_size(strand: Strand, one: Group, other: Group) -> bool:
    """Whether a length is what another was told against: twelve thou over ten inch."""
    if strand.words[one.end : other.start] not in (("over",), ("under",)):
        return False
    lengths = one.unit in UNITS["length"] and other.unit in UNITS["length"]
    return lengths and one.unit != other.unit


def _one_heard(strand: Strand, group: Group, since: int, until: int) -> Quantity | None:
    unit = unit_said(strand, group)
    if not unit and _is_bare_size(strand, group):
        return Quantity(group, "in", "size")
    how = purpose_of(strand, group, unit) if unit else "limit"
    if how is None:
        return None
    if how == "size":
        return Quantity(_last_of(group), unit, how)
    if how in ("money", "torque"):
        return Quantity(group, unit, how)
    spread = is_spread(strand, group, since)
    if spread and not is_of_them(strand, group):
        return None
    bounds = None if spread else bounds_of(strand, group, since, until)
    if bounds is None:
        if is_not_now(strand, group) or not (unit or is_found(strand, group)):
            return None
        return Quantity(group, unit, "reading")
    if not unit and (bounds.nominal or not stands_alone(strand, group)):
        return None
    return Quantity(group, unit, "limit", bounds)


def _last_of(group: Group) -> Group:
    """The size in two ten mil bolts: the number right before it counts the bolts."""
    *others, last = group.measures
    if group.shape != "list" or not others or others[-1].end != last.start:
        return group
    return Group(last.start, group.end, "list", (last,), group.unit)


def _is_bare_size(strand: Strand, group: Group) -> bool:
    """A fraction that only an inch is left out of: five sixteenths unf."""
    amount = group.measures[-1]
    return "/" in amount.text and strand.on(group.end) in FITS


def _sized(strand: Strand, heard: list[Quantity]) -> list[Quantity]:
    """Sizes before the last of several: a five thou and a ten thou shim."""
    found = list(heard)
    for n in range(len(found) - 2, -1, -1):
        one, other = found[n], found[n + 1]
        joined = strand.words[one.group.end : other.group.start] in _AND
        if other.how == "size" and one.unit == other.unit and joined:
            found[n] = replace(one, how="size", bounds=None)
    return found


def _without_repeats(strand: Strand, heard: list[Quantity]) -> list[Quantity]:
    """What is told again in another unit is told once: twelve thou, that's 0.3 of a mil."""
    found: list[Quantity] = []
    for one in heard:
        if found and _told_again(strand, found[-1], one):
            last = found[-1]
            found[-1] = replace(last, group=replace(last.group, end=one.group.end))
        else:
            found.append(one)
    return found


def _told_again(strand: Strand, one: Quantity, other: Quantity) -> bool:
    words = strand.words[one.group.end : other.group.start]
    if one.unit == other.unit or not convertible(one, other) or len(words) > 4:
        return False
    if not words or not all(word in _SAYS_AGAIN for word in words):
        return False
    first, second = one.group.measures[-1].value, other.group.measures[0].value
    again = convert(second, other.unit, one.unit)
    return first != 0 and abs(again - first) / abs(first) <= _ALIKE


def _alone(strand: Strand, one: Quantity) -> Reading:
    if one.bounds is None or one.bounds.nominal:
        return _reading(strand, one.group, one.unit, _amounts(one), None, one.how)
    bounds = one.bounds.beside(Fraction(0))
    limit = (_decimal(bounds.least), _decimal(bounds.most))
    return _reading(strand, one.group, one.unit, (), limit, "limit")


def _with_limit(strand: Strand, one: Quantity, limit: Quantity) -> Reading:
    """A reading with its limit, in its own unit; in that of the limit where this alone is exact."""
    bounds = limit.bounds or Bounds()
    bounds = bounds.beside(convert(one.group.measures[-1].value, one.unit, limit.unit))
    unit, amounts = one.unit, _amounts(one)
    ends = (bounds.least, bounds.most)
    if one.unit != limit.unit and not _exact(ends, limit.unit, one.unit):
        values = tuple(measure.value for measure in one.group.measures)
        if _exact(values, one.unit, limit.unit):
            unit = limit.unit
            amounts = tuple(_into(value, one.unit, unit) or "" for value in values)
    group = one.group
    if between(one, limit) <= REACH:
        start, end = min(group.start, limit.group.start), max(group.end, limit.group.end)
        group = replace(group, start=start, end=end)
    told = (_into(ends[0], limit.unit, unit), _into(ends[1], limit.unit, unit))
    return _reading(strand, group, unit, amounts, told, one.how)


def _exact(values: Sequence[Fraction | None], unit: str, into: str) -> bool:
    """Whether values have decimals that end in another unit."""
    return all(
        value is None or exact_text(convert(value, unit, into)) is not None for value in values
    )


def _into(value: Fraction | None, unit: str, into: str) -> str | None:
    """A value in another unit, exactly where it has decimals that end, else as fine as it was said."""
    if value is None:
        return None
    exact = exact_text(convert(value, unit, into))
    return exact or format(converted(Decimal(_decimal(value) or 0), unit, into), "f")


def _amounts(one: Quantity) -> tuple[str, ...]:
    as_said = one.how in ("size", "money")
    return tuple(_amount(measure, as_said) for measure in one.group.measures)


def _amount(measure: Measure, as_said: bool) -> str:
    if as_said or "/" not in measure.text:
        return measure.text
    return _decimal(measure.value) or measure.text


def _decimal(value: Fraction | None) -> str | None:
    """A number as a decimal; to three places where its decimals do not end, as no gauge reads more."""
    if value is None:
        return None
    return exact_text(value) or plain_number(value, 3)


def _reading(
    strand: Strand, group: Group, unit: str, amounts: tuple[str, ...], limit: Limit | None, how: Purpose
) -> Reading:  # fmt: skip
    first, last = strand.span(group.start, group.end)
    endless = any(exact_text(measure.value) is None for measure in group.measures)
    return Reading(first, last, amounts, unit, limit, how, group.about or endless)

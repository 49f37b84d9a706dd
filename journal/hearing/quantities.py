"""The quantities of a talk: what was read, what is allowed, what was tightened, sizes and prices."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from journal.hearing.bounds import Bounds, bounds_of, is_found, stands_alone
from journal.hearing.denominators import FITS
from journal.hearing.groups import Group, groups_of
from journal.hearing.measure import Measure
from journal.hearing.measures import measures_of
from journal.hearing.numbers import Spoken
from journal.hearing.numberwords import exact_text
from journal.hearing.purposes import Purpose, purpose_of, unit_said
from journal.hearing.strand import Strand, strand_of
from journal.hearing.tokens import Token
from journal.words.amounts import plain_number
from journal.words.units import ALL_UNITS, convert, converted, same_kind

Limit = tuple[str | None, str | None]

# So many words may stand between a reading and what it should be.
_REACH = 16
# Two units of one reading differ by what was rounded away.
_ALIKE = Fraction(1, 10)
_SAYS_AGAIN = frozenset({
    "that's", "which", "is", "so", "call", "it", "or", "about", "that", "in", "i.e", "equals", "roughly",
    "what", "around", "which's", "nearly",
})  # fmt: skip


@dataclass(frozen=True)
class Reading:
    """A quantity over the tokens [first, last): one or more amounts in one unit.

    `how` tells what it was said for: `reading` what was measured, `limit` what is allowed and no
    reading with it (`amounts` then hold a figure that is wanted without ends, or nothing), `torque`
    what was tightened to, `size` of a tool or of stock, `money`. `limit` is what a reading should be
    within, least and most, in its unit. `about` tells that an amount was not said exactly.
    """

    first: int
    last: int
    amounts: tuple[str, ...]
    unit: str
    limit: Limit | None = None
    how: Purpose = "reading"
    about: bool = False


@dataclass(frozen=True)
class _Heard:
    """A group with what it was said for, before limits find their readings."""

    group: Group
    unit: str
    how: Purpose
    bounds: Bounds | None = None


def readings_in(tokens: tuple[Token, ...], numbers: tuple[Spoken, ...]) -> tuple[Reading, ...]:
    """All quantities in order of their places.

    What was taken back is left out. A limit is put to the reading beside it.
    """
    strand = strand_of(tokens)
    groups = groups_of(strand, measures_of(strand, numbers))
    heard = _without_repeats(strand, _lent(strand, _heard(strand, groups)))
    return tuple(_attached(strand, heard))


def _heard(strand: Strand, groups: Sequence[Group]) -> list[_Heard]:
    found = []
    for n, group in enumerate(groups):
        since = groups[n - 1].end if n else 0
        until = groups[n + 1].start if n + 1 < len(groups) else len(strand.words)
        if (one := _one_heard(strand, group, since, until)) is not None:
            found.append(one)
    return found


def _one_heard(strand: Strand, group: Group, since: int, until: int) -> _Heard | None:
    unit = unit_said(strand, group)
    if not unit and _is_bare_size(strand, group):
        return _Heard(group, "in", "size")
    how = purpose_of(strand, group, unit) if unit else "limit"
    if how is None:
        return None
    if how == "size":
        return _Heard(_last_of(group), unit, how)
    if how in ("money", "torque"):
        return _Heard(group, unit, how)
    bounds = bounds_of(strand, group, since, until)
    if bounds is None:
        how = "reading"
        return _Heard(group, unit, how) if unit or is_found(strand, group) else None
    if not unit and (bounds.nominal or not stands_alone(strand, group)):
        return None
    return _Heard(group, unit, "limit", bounds)


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


def _lent(strand: Strand, heard: list[_Heard]) -> list[_Heard]:
    """What has no unit with that of what stands beside it, a limit with its reading's; else left out."""
    found: list[_Heard] = []
    for n, one in enumerate(heard):
        unit = one.unit or _lender(heard, n)
        if unit:
            found.append(replace(one, unit=unit))
    return found


def _lender(heard: list[_Heard], n: int) -> str:
    """The unit of the nearest reading beside a limit, or of the limit before a reading; or nothing."""
    one = heard[n]
    around = (n - 1, n + 1) if one.how == "limit" else (n - 1,)
    wanted = "reading" if one.how == "limit" else "limit"
    beside = [heard[k] for k in around if 0 <= k < len(heard)]
    near = [
        other
        for other in beside
        if other.unit and other.how == wanted and _between(one, other) <= _REACH
    ]
    near.sort(key=lambda other: (not _alike(one, other), _distance(one, other)))
    return near[0].unit if near else ""


def _distance(one: _Heard, other: _Heard) -> int:
    """How far a limit is from a reading; the one before it is nearer by a few words."""
    return _between(one, other) + (3 if other.group.start > one.group.start else 0)


def _alike(one: _Heard, other: _Heard) -> bool:
    """Whether two groups are of one size, so that they may tell of one thing in one unit."""
    first, second = (abs(heard.group.measures[0].value) for heard in (one, other))
    return first <= 5 * second and second <= 5 * first


def _between(one: _Heard, other: _Heard) -> int:
    """How many words stand between two groups."""
    return max(one.group.start, other.group.start) - min(one.group.end, other.group.end)


def _without_repeats(strand: Strand, heard: list[_Heard]) -> list[_Heard]:
    """What is told again in another unit is told once: twelve thou, that's 0.3 of a mil."""
    found: list[_Heard] = []
    for one in heard:
        if found and _told_again(strand, found[-1], one):
            last = found[-1]
            found[-1] = replace(last, group=replace(last.group, end=one.group.end))
        else:
            found.append(one)
    return found


def _told_again(strand: Strand, one: _Heard, other: _Heard) -> bool:
    words = strand.words[one.group.end : other.group.start]
    if one.unit == other.unit or not _convert(one, other) or len(words) > 4:
        return False
    if not words or not all(word in _SAYS_AGAIN for word in words):
        return False
    first, second = one.group.measures[-1].value, other.group.measures[0].value
    again = convert(second, other.unit, one.unit)
    return first != 0 and abs(again - first) / abs(first) <= _ALIKE


def _convert(one: _Heard, other: _Heard) -> bool:
    known = one.unit in ALL_UNITS and other.unit in ALL_UNITS
    return known and same_kind(one.unit, other.unit)


def _attached(strand: Strand, heard: list[_Heard]) -> list[Reading]:
    """Readings with the limits beside them; a limit that finds none stands by itself."""
    of: dict[int, int] = {}
    for n, one in enumerate(heard):
        if one.bounds is None or one.bounds.nominal:
            continue
        beside = [k for k in (n - 1, n + 1) if _takes(strand, heard, of, one, k)]
        if beside:
            of[beside[0]] = n
    spent = set(of.values())
    return [
        _with_limit(strand, one, heard[of[n]]) if n in of else _alone(strand, one)
        for n, one in enumerate(heard)
        if n not in spent
    ]


def _takes(strand: Strand, heard: list[_Heard], of: dict[int, int], limit: _Heard, n: int) -> bool:
    if not 0 <= n < len(heard) or n in of:
        return False
    one = heard[n]
    if one.how not in ("reading", "torque") or not _convert(one, limit):
        return False
    first, last = sorted((one.group, limit.group), key=lambda group: group.start)
    sentences = sum(strand.ended[first.end : last.start + 1])
    return sentences <= 1 and last.start - first.end <= _REACH


def _alone(strand: Strand, one: _Heard) -> Reading:
    if one.bounds is None or one.bounds.nominal:
        return _reading(strand, one.group, one.unit, _amounts(one), None, one.how)
    limit = (_decimal(one.bounds.least), _decimal(one.bounds.most))
    return _reading(strand, one.group, one.unit, (), limit, "limit")


def _with_limit(strand: Strand, one: _Heard, limit: _Heard) -> Reading:
    """A reading with its limit, in its own unit; in that of the limit where this alone is exact."""
    bounds = limit.bounds or Bounds()
    unit, amounts = one.unit, _amounts(one)
    ends = (bounds.least, bounds.most)
    if one.unit != limit.unit and not _exact(ends, limit.unit, one.unit):
        values = tuple(measure.value for measure in one.group.measures)
        if _exact(values, one.unit, limit.unit):
            unit = limit.unit
            amounts = tuple(_into(value, one.unit, unit) or "" for value in values)
    group = replace(
        one.group,
        start=min(one.group.start, limit.group.start),
        end=max(one.group.end, limit.group.end),
    )
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


def _amounts(one: _Heard) -> tuple[str, ...]:
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

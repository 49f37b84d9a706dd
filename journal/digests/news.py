"""News: what came in lately, hours of the week, and what happened since the last statement.

Hears the parts, outwork, hours, originality and snags ledgers, the sheets and the issued statements.
"""

from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction

from msgspec import Struct

from journal.ledgers.hours import Hours
from journal.ledgers.originality import Originality
from journal.ledgers.outwork import Outwork
from journal.ledgers.parts import Parts
from journal.ledgers.snags import Snags
from journal.records.carfile import CarFile
from journal.words.vocabulary import Act, GoodsIn

# What came within this many days up to the day spoken of is lately.
LATELY = 7


class CameIn(Struct, frozen=True):
    """Goods in, or with `outwork` a lot come back, on one day. `outcome` is what the inspection of
    goods decided."""

    day: date
    sheet: str
    what: str
    count: Decimal
    outcome: GoodsIn | None = None
    outwork: bool = False


class Since(Struct, frozen=True):
    """What happened after a day: days worked, hours, components fitted or proved, snags cleared."""

    day: date
    days: int
    hours: Fraction
    fitted: int
    cleared: int


class News(Struct, frozen=True):
    """`monday` begins the ISO week of the day spoken of, `week` are its hours. `since` is absent
    as long as no statement was issued."""

    monday: date
    week: Fraction
    came_in: tuple[CameIn, ...] = ()
    since: Since | None = None


def digest_news(
    car: CarFile, *, parts: Parts, outwork: Outwork, hours: Hours, originality: Originality,
    snags: Snags, day: date,
) -> News:  # fmt: skip
    """The news on a day."""
    monday = day - timedelta(days=day.weekday())
    week = sum((s.hours for s in hours.spent if monday <= s.day <= day), Fraction(0))
    stated = max((s.file.to for s in car.statements), default=None)
    since = _since(car, hours, originality, snags, stated) if stated else None
    return News(monday, week, _came_in(parts, outwork, day), since)


def _came_in(parts: Parts, outwork: Outwork, day: date) -> tuple[CameIn, ...]:
    arrived = [
        CameIn(a.day, a.sheet, part.what or part.name, a.count, a.outcome)
        for part in parts.parts
        for a in part.arrivals
        if a.day is not None and _lately(a.day, day)
    ]
    back = [
        CameIn(m.day, m.sheet, batch.what or batch.name, m.back, outwork=True)
        for batch in outwork.batches
        for m in batch.movements
        if m.back and _lately(m.day, day)
    ]
    return tuple(sorted((*arrived, *back), key=lambda c: (c.day, c.what), reverse=True))


def _lately(then: date, day: date) -> bool:
    return day - timedelta(days=LATELY) < then <= day


def _since(car: CarFile, hours: Hours, originality: Originality, snags: Snags, day: date) -> Since:
    on_car = {Act.FITTED, Act.PROVED}
    return Since(
        day,
        len({s.date for s in car.sheets if s.date > day}),
        sum((s.hours for s in hours.spent if s.day > day), Fraction(0)),
        sum(
            any(e.day > day and on_car & set(e.acts) for e in line.biography)
            for line in originality.lines
        ),
        sum(s.cleared is not None and s.cleared > day for s in snags.snags),
    )

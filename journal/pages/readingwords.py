"""Readings as pages show them: in words and in both systems of units, and against their limits."""

from collections.abc import Sequence
from decimal import Decimal

from journal.ledgers.measured import Reading
from journal.pages.charts import Strip, limit_strip
from journal.pages.links import Links, Ref
from journal.pages.value import Value
from journal.pages.words import (
    day_words,
    limit_words,
    readings_words,
    sentence,
    unit_words,
    with_unit,
)
from journal.words.units import converted, partner_unit

VERDICTS = {None: "", True: "within its limit", False: "outside its limit"}


class ReadingWords(Value, frozen=True):
    """One reading. `verdict` is empty when no limit was given; `words` says the drawing; `other`
    and `other_limit` say the same in the other system's unit, when it has one."""

    name: str
    on: Ref | None
    values: str
    other: str
    limit: str
    other_limit: str
    verdict: str
    outside: bool
    strip: Strip | None
    words: str
    sheet: Ref
    day: str
    iso: str
    tool: str
    note: str


def reading_words(links: Links, reading: Reading) -> ReadingWords:
    """A reading in words and as a drawing."""
    limit = limit_words(reading.least, reading.most) or ""
    verdict = VERDICTS[reading.inside]
    values = readings_words(reading.values, reading.unit)
    return ReadingWords(
        sentence(reading.name),
        links.component(reading.on) if reading.on else None,
        values,
        other_words(reading, reading.values),
        f"{limit}{with_unit(reading.unit)}" if limit else "",
        _other_limit(reading),
        verdict,
        reading.inside is False,
        limit_strip(reading.values, reading.least, reading.most, unit_words(reading.unit)),
        f"{values}, {verdict} {limit}" if limit else values,
        links.sheet(reading.sheet),
        day_words(reading.day),
        reading.day.isoformat(),
        sentence(reading.tool or ""),
        sentence(reading.note or ""),
    )


def other_words(reading: Reading, values: Sequence[Decimal]) -> str:
    """Values of a reading in the other system's unit; empty where both systems use the same."""
    unit = _other_unit(reading)
    if unit is None:
        return ""
    told = [converted(v, reading.unit, unit, as_fine_as=reading.values) for v in values]
    return readings_words(told, unit)


def _other_limit(reading: Reading) -> str:
    unit = _other_unit(reading)
    if unit is None:
        return ""
    least, most = (
        None if end is None else converted(end, reading.unit, unit, as_fine_as=_written(reading))
        for end in (reading.least, reading.most)
    )
    limit = limit_words(least, most)
    return f"{limit}{with_unit(unit)}" if limit else ""


def _other_unit(reading: Reading) -> str | None:
    """One unit for values and limits alike, so that they stay comparable."""
    return partner_unit(reading.unit, _written(reading))


def _written(reading: Reading) -> tuple[Decimal, ...]:
    ends = (end for end in (reading.least, reading.most) if end is not None)
    return (*reading.values, *ends)

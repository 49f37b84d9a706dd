"""Readings as pages show them: in words, and against their limits."""

from typing import NamedTuple

from journal.ledgers.measured import Reading
from journal.pages.charts import Strip, limit_strip
from journal.pages.links import Links, Ref
from journal.pages.words import (
    day_words,
    limit_words,
    readings_words,
    sentence,
    unit_words,
    with_unit,
)


class ReadingWords(NamedTuple):
    """One reading. `verdict` is empty when no limit was given; `words` says the drawing."""

    name: str
    on: Ref | None
    values: str
    limit: str
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
    verdict = {None: "", True: "within its limit", False: "outside its limit"}[reading.inside]
    values = readings_words(reading.values, reading.unit)
    return ReadingWords(
        sentence(reading.name),
        links.component(reading.on) if reading.on else None,
        values,
        f"{limit}{with_unit(reading.unit)}" if limit else "",
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

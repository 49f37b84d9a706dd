"""Readings that are heard, written short."""

from journal.hearing.numbers import numbers_in
from journal.hearing.quantities import Reading, readings_in
from journal.hearing.tokens import tokens_of


def read(said: str) -> tuple[Reading, ...]:
    tokens = tokens_of(said)
    return readings_in(tokens, numbers_in(tokens))


def short(reading: Reading) -> str:
    """`~12 thou [6 10]`, `size 6 mm`, `limit thou [- 10]`: as the tables below write it."""
    least, most = reading.limit or ("", "")
    parts = [
        "" if reading.how == "reading" else reading.how,
        ("~" if reading.about else "") + " ".join(reading.amounts),
        reading.unit,
        f"[{least or '-'} {most or '-'}]" if reading.limit else "",
    ]
    return " ".join(part for part in parts if part)


def shorts(said: str) -> list[str]:
    return [short(reading) for reading in read(said)]

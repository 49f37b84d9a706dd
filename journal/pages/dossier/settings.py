"""Settings and clearances as delivered: of every dimension that was read, what was read last; and what
was worked out at the bench, as it was worked out last, with its working.
"""

from collections.abc import Iterable
from typing import NamedTuple

from journal.ledgers.measured import Reading
from journal.pages.dossier.book import Book, Section
from journal.pages.links import Ref, subsystem_names
from journal.pages.readingwords import ReadingWords, reading_words
from journal.pages.sumwords import SumWords, sum_words
from journal.pages.words import in_words, sentence, some


class ReadingTold(NamedTuple):
    """A reading, with the code of its sheet."""

    words: ReadingWords
    code: Ref


class Bench(NamedTuple):
    """The readings of one subsystem."""

    label: str
    readings: tuple[ReadingTold, ...]


class SumTold(NamedTuple):
    """A bench sum, with the code of its sheet."""

    words: SumWords
    code: Ref


def settings(book: Book) -> Section:
    """The last reading of each dimension, against its limits."""
    last = latest(book.view.measured.readings)
    names = [n for n in subsystem_names(book.view) if any(r.subsystem == n for r in last)]
    return Section(
        "settings",
        "Settings and clearances as delivered" if book.delivered else "Settings and clearances",
        {
            "lead": _lead(last, len(book.view.measured.readings)),
            "benches": tuple(
                Bench(
                    book.places.subsystem(name).text,
                    tuple(_told(book, r) for r in last if r.subsystem == name),
                )
                for name in names
            ),
            "sums": tuple(
                SumTold(sum_words(book.places, kept), book.places.sheet_code(kept.sheet))
                for kept in book.view.sums.latest
            ),
        },
    )


def latest(readings: Iterable[Reading]) -> tuple[Reading, ...]:
    """The last reading of each dimension of each component, in the order first read."""
    last: dict[tuple[str, str | None, str], Reading] = {}
    for reading in readings:
        key = (reading.subsystem, reading.on, reading.name.casefold())
        if key not in last or reading.day >= last[key].day:
            last[key] = reading
    return tuple(last.values())


def _told(book: Book, reading: Reading) -> ReadingTold:
    return ReadingTold(reading_words(book.places, reading), book.places.sheet_code(reading.sheet))


def _lead(last: tuple[Reading, ...], every: int) -> str:
    if not last:
        return ""
    outside = sum(r.inside is False for r in last)
    limits = sum(r.inside is not None for r in last)
    told = f"{some(every, 'reading')} of {some(len(last), 'dimension')}; each stands here as it was read last"
    if not limits:
        return sentence(f"{told}. No limits were written down.")
    out = f"{in_words(outside)} outside" if outside else "none outside"
    return sentence(f"{told}. Of {in_words(limits)} with a limit {out}.")

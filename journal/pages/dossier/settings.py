"""Settings and clearances as delivered: of every dimension that was read, what was read last; and what
was worked out at the bench, as it was worked out last, with its working.

What was worked on after its last reading stands apart, for the reading tells how it was and not how it is.
"""

from collections.abc import Iterable
from datetime import date

from msgspec.structs import replace

from journal.ledgers.measured import Reading
from journal.pages.dossier.book import Book, Section
from journal.pages.links import Ref, subsystem_names
from journal.pages.readingwords import ReadingWords, reading_words
from journal.pages.sumwords import SumWords, sum_words
from journal.pages.value import Value
from journal.pages.words import day_words, in_words, readings_words, sentence, some
from journal.words.text import listed
from journal.words.vocabulary import Act

# Acts after which a dimension may be another. Taking off, cleaning, looking and putting back are not
# among them (common practice, no source): what depends on the fitting is read after the fitting.
ALTERS = frozenset(
    {
        Act.REPAIRED, Act.WELDED, Act.MACHINED, Act.MADE, Act.REFINISHED, Act.PAINTED, Act.PLATED,
        Act.RETRIMMED, Act.RELINED, Act.RECORED, Act.REBUILT, Act.ADJUSTED,
    }
)  # fmt: skip


class Altered(Value, frozen=True):
    """Work that came after a reading."""

    did: str
    day: str
    sheet: Ref


class ReadingTold(Value, frozen=True):
    """A reading, with the code of its sheet, and the first work after it on what was read."""

    words: ReadingWords
    code: Ref
    altered: Altered | None


class SettingsBench(Value, frozen=True):
    """The readings of one subsystem."""

    label: str
    readings: tuple[ReadingTold, ...]


class SumTold(Value, frozen=True):
    """A bench sum, with the code of its sheet."""

    words: SumWords
    code: Ref


def settings(book: Book) -> Section:
    """The last reading of each dimension against its limits: those that hold, then those overtaken."""
    last = tuple(map(_after, latest(book.view.measured.readings)))
    told = tuple((r, _told(book, r)) for r in last)
    return Section(
        "settings",
        "Settings and clearances as delivered" if book.delivered else "Settings and clearances",
        {
            "lead": _lead(last, len(book.view.measured.readings)),
            "benches": _benches(book, [(r, t) for r, t in told if t.altered is None]),
            "standing": _standing([r for r, t in told if t.altered is None]),
            "overtaken": _benches(book, [(r, t) for r, t in told if t.altered is not None]),
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


def _after(reading: Reading) -> Reading:
    """Of values read before and after something, the one after; the one before is told beside it."""
    if tuple(name.casefold() for name in reading.names) != ("before", "after"):
        return reading
    before, after = reading.values
    was = readings_words((before,), reading.unit)
    return replace(reading, values=(after,), note=f"{was} before")


def _benches(book: Book, told: list[tuple[Reading, ReadingTold]]) -> tuple[SettingsBench, ...]:
    return tuple(
        SettingsBench(
            book.places.subsystem(name).text, tuple(t for r, t in told if r.subsystem == name)
        )
        for name in subsystem_names(book.view)
        if any(r.subsystem == name for r, _ in told)
    )


def _told(book: Book, reading: Reading) -> ReadingTold:
    return ReadingTold(
        reading_words(book.places, reading),
        book.places.sheet_code(reading.sheet),
        _altered(book, reading),
    )


def _altered(book: Book, reading: Reading) -> Altered | None:
    """The first later day that altered the component that was read, or put another item there.

    Work of the same day does not count: a reading closes the day on which it is written.
    """
    later: list[tuple[date, str, str]] = []
    for sheet in book.view.car.sheets:
        work = sheet.front.work.get(reading.on) if reading.on else None
        if work is None or sheet.date <= reading.day:
            continue
        did = [act.value for act in work.did if act in ALTERS]
        if did or work.now:
            later.append((sheet.date, sheet.name, listed(did) or "another item fitted"))
    if not later:
        return None
    day, name, did_words = min(later)
    return Altered(sentence(did_words), day_words(day), book.places.sheet_code(name))


def _lead(last: tuple[Reading, ...], every: int) -> str:
    if not last:
        return ""
    of = some(len(last), "dimension")
    return sentence(f"{some(every, 'reading')} of {of}; each stands here as it was read last.")


def _standing(standing: list[Reading]) -> str:
    """How many of the readings that hold keep their limits."""
    if not standing:
        return ""
    outside = sum(r.inside is False for r in standing)
    limits = sum(r.inside is not None for r in standing)
    were = (
        "was not altered after it was" if len(standing) == 1 else "were not altered after they were"
    )
    told = f"{some(len(standing), 'dimension')} {were} read"
    if not limits:
        return sentence(f"{told}. No limits were written down.")
    if not outside:
        return sentence(f"{told}; of {in_words(limits)} with a limit none is outside it.")
    verb = "is" if outside == 1 else "are"
    return sentence(
        f"{told}; of {in_words(limits)} with a limit {in_words(outside)} {verb} outside it."
    )

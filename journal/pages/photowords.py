"""What the file of a photograph says of itself, in words: when it was taken, its size, its hash."""

from collections.abc import Sequence

from journal.ledgers.gallery import Picture
from journal.pages.value import Value
from journal.pages.words import day_words, in_words, some
from journal.records.photofacts import PhotoFacts
from journal.words.text import listed

SAYS_NOT = "The file does not say when it was taken."
# What the hash is for, said beside it.
PURPOSE = (
    "The SHA-256 is a sum over every byte of the original: whoever holds the original can take it"
    " again, and it comes out different if anything was altered since."
)
NOT_OF_COPIES = (
    "The pictures shown here are smaller copies without the camera’s own notes; the sums are those of"
    " the originals, which the workshop keeps."
)


class FactWords(Value, frozen=True):
    """The facts of one photograph. `wrong` marks a date that cannot be true; `groups` are the
    hash in stretches of eight."""

    taken: str
    wrong: bool
    pixels: str
    bytes: str
    form: str
    groups: tuple[str, ...]


def fact_words(picture: Picture) -> FactWords | None:
    """The facts of a photograph, or None while its file has not been looked at."""
    facts = picture.facts
    if facts is None:
        return None
    return FactWords(
        taken_words(picture),
        (picture.days_off or 0) > 0,
        f"{facts.width}\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}{facts.height} pixels",
        size_words(facts.size),
        facts.form,
        hash_groups(facts.sha256),
    )


def taken_words(picture: Picture) -> str:
    """When it was taken, and whether that agrees with the date of its sheet."""
    facts, off = picture.facts, picture.days_off
    if facts is None or facts.taken_on is None or off is None:
        return SAYS_NOT
    taken = f"Taken on {day_words(facts.taken_on)}{_at(facts)} by the camera’s clock"
    return f"{taken}, {_against_sheet(off)}."


def _at(facts: PhotoFacts) -> str:
    return f" at {facts.taken_at:%H:%M}" if facts.taken_at else ""


def _against_sheet(off: int) -> str:
    if off == 0:
        return "the day of the sheet"
    if off < 0:
        return f"{some(-off, 'day')} before the sheet’s date"
    return (
        f"{some(off, 'day')} after the date of the sheet, which cannot be:"
        " the camera’s clock or the sheet is wrong"
    )


def clock_note(picture: Picture) -> str:
    """The same in a few words, to follow the day of a sheet; empty when the file does not say."""
    off = picture.days_off
    if off is None:
        return ""
    if off == 0:
        return "as the camera dates it"
    if off < 0:
        return f"the camera dates it {some(-off, 'day')} before"
    return f"the camera dates it {some(off, 'day')} later, which cannot be"


def size_words(size: int) -> str:
    """`3.2 MB (3,214,551 bytes)`, `184 kB (184,220 bytes)`."""
    exact = f"{size:,} bytes" if size != 1 else "1 byte"
    # Where rounding up would say 1,000 kB, the next unit begins.
    if size >= 999_500:
        return f"{size / 1_000_000:.1f}\N{NO-BREAK SPACE}MB ({exact})"
    if size >= 1000:
        return f"{size / 1000:.0f}\N{NO-BREAK SPACE}kB ({exact})"
    return exact


def hash_groups(sha256: str) -> tuple[str, ...]:
    """A hash in stretches of eight that can be read and compared."""
    return tuple(sha256[n : n + 8] for n in range(0, len(sha256), 8))


def agreement(pictures: Sequence[Picture]) -> str:
    """How many photographs the camera's clock puts on the day of their sheets, before and after it,
    and how many do not say; empty without any."""
    if len(pictures) < 2:
        return "".join(taken_words(picture) for picture in pictures)
    off = [p.days_off for p in pictures]
    before = sum(days is not None and days < 0 for days in off)
    after = sum(days is not None and days > 0 for days in off)
    counts = ((off.count(0), "on the day of their sheets"), (before, "before"), (after, "after"))
    dated = [f"{in_words(n)} {when}" for n, when in counts if n]
    if after:
        dated[-1] += ", which cannot be"
    silent = off.count(None)
    says = "does not say when it was taken" if silent == 1 else "do not say when they were taken"
    parts = [f"the camera’s clock puts {listed(dated)}"] if dated else []
    parts += [f"{in_words(silent)} {says}"] if silent else []
    return f"Of {in_words(len(off))} photographs {'; '.join(parts)}."

"""What was heard in a talk and what it would put into a sheet, in plain words; and the moments of a
recording. All of it is for the workshop alone."""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from urllib.parse import quote

from journal.pages.links import Links, Ref
from journal.pages.value import Value
from journal.pages.words import hours_words, limit_words, readings_words, some
from journal.records.carfile import CarFile
from journal.records.draft import DraftLine
from journal.records.fields import Written
from journal.records.hours import HoursLine
from journal.records.limit import Limit
from journal.records.recording import Moment
from journal.records.sections import Measured, SnagLine
from journal.records.sheet import Sheet
from journal.records.workshop import subsystem_label
from journal.words.amounts import Interval, plain_number
from journal.words.moments import moment_text, seconds_text
from journal.words.stretch import Stretch, stretch_words
from journal.words.vocabulary import HourKind


class MomentWords(Value, frozen=True):
    """A moment: when, what is said, what it is about, and where it can be heard; empty where it is not
    known."""

    at: str
    words: str
    of: tuple[Ref, ...]
    href: str


class RecordingWords(Value, frozen=True):
    """A recording of the day with its moments in their order; `href` is empty where it is not here."""

    file: str
    href: str
    moments: tuple[MomentWords, ...]


class HeardWords(Value, frozen=True):
    """A line that waits: when and in which words it was said, what is asked, and what it would put."""

    at: str
    words: str
    ask: str
    puts: tuple[str, ...]
    href: str


def recordings_of(links: Links, sheet: Sheet) -> tuple[RecordingWords, ...]:
    """The recordings that a sheet names, in the order in which they are named first."""
    told: dict[str, list[Moment]] = {}
    for moment in sheet.front.recording:
        told.setdefault(moment.file, []).append(moment)
    return tuple(
        RecordingWords(
            file, _href(links, file),
            tuple(_moment(links, moment) for moment in moments if moment.at is not None or moment.words),
        )
        for file, moments in told.items()
    )  # fmt: skip


def _moment(links: Links, moment: Moment) -> MomentWords:
    at = "" if moment.at is None else moment_text(moment.at)
    place = _href(links, moment.file)
    if place and moment.at is not None:
        place = f"{place}#t={seconds_text(moment.at)}"
    return MomentWords(at, moment.words or "", links.components(moment.of), place)


def _href(links: Links, file: str) -> str:
    """Where a recording lies, seen from the page; in an archive no link leads there."""
    here = file in (links.view.car.recording_files or ())
    return links.to(f"recordings/{quote(file)}") if here else ""


def heard_of(links: Links, sheet: Sheet) -> tuple[HeardWords, ...]:
    """The lines of a sheet that wait to be confirmed."""
    files = [moment.file for moment in sheet.front.recording]
    return tuple(_heard(links, line, files[0] if files else "") for line in sheet.front.draft)


def _heard(links: Links, line: DraftLine, file: str) -> HeardWords:
    at = "" if line.at is None else moment_text(line.at)
    place = _href(links, file) if line.at is not None else ""
    place = f"{place}#t={seconds_text(line.at)}" if place and line.at is not None else ""
    puts = tuple(puts_words(links.view.car, line))
    return HeardWords(at, line.words or "", line.ask or "", puts, place)


def waiting_words(sheet: Sheet) -> str:
    """`one line that was heard is confirmed`, for a sentence that says until when; empty for none."""
    waiting = len(sheet.front.draft)
    verb = "that was heard is" if waiting == 1 else "that were heard are"
    return f"{some(waiting, 'line')} {verb} confirmed" if waiting else ""


def puts_words(car: CarFile, line: DraftLine) -> Iterator[str]:
    """What a line would put into a sheet, a sentence for each thing; nothing for a question."""
    yield from (f"Subsystem: {subsystem_label(car.workshop, name)}" for name in line.subsystem)
    for subsystem, hands in line.hours:
        label = subsystem_label(car.workshop, subsystem) if subsystem else ""
        yield from (
            _joined(spent_words(spent), hand, label) for hand, lines in hands for spent in lines
        )
    yield from (f"{_label(car, key)}: {keys_words(work)}" for key, work in line.work)
    yield from (f"Part {name}: {keys_words(part)}" for name, part in line.parts)
    yield from (f"Out for work, {name}: {keys_words(lot)}" for name, lot in line.outwork)
    yield from (
        f"Measured, {name}: {reading_words(car, reading)}" for name, reading in line.measured
    )
    yield from (f"Proof {name}: {keys_words(proof)}" for name, proof in line.proving)
    yield from (f"Snag {name}: {_snag(car, snag)}" for name, snag in line.snags)
    yield from (f"Re-check {name}: {keys_words(recheck)}" for name, recheck in line.rechecks)


def _joined(*words: str) -> str:
    return ", ".join(filter(None, words))


def _label(car: CarFile, key: str) -> str:
    known = car.component(key)
    return known.label if known else key


def spent_words(line: HoursLine) -> str:
    """Hours with their kind and reason."""
    kind = "" if line.kind is HourKind.BILLABLE else line.kind.value
    because = f"because of {line.because}" if line.because else ""
    return _joined(hours_words(Fraction(line.hours)), kind, because, line.note or "")


def reading_words(car: CarFile, reading: Measured) -> str:
    """Readings with their limit, and what they were taken on."""
    limit = reading.limit and limit_words(reading.limit.least, reading.limit.most)
    return _joined(
        readings_words(reading.read, reading.unit), f"limit {limit}" if limit else "",
        f"on {_label(car, reading.on)}" if reading.on else "", reading.with_ or "", reading.note or "",
    )  # fmt: skip


def _snag(car: CarFile, snag: SnagLine) -> str:
    told = (
        snag.raise_ or "", "holds the handover" if snag.hold else "",
        f"on {_label(car, snag.on)}" if snag.on else "",
        f"asked of {snag.ask}" if snag.ask else "", f"put off, {snag.defer}" if snag.defer else "",
        f"cleared, {snag.clear}" if snag.clear else "", f"by {snag.by}" if snag.by else "",
    )  # fmt: skip
    return _joined(*told)


def keys_words(record: Written) -> str:
    """What a line says, key by key, as far as it says anything; what was done stands alone."""
    told = []
    for name, field in type(record).model_fields.items():
        value = getattr(record, name)
        if value != field.get_default() or field.is_required():
            words = _words(value)
            told.append(words if name == "did" else f"{_key(field.alias or name)} {words}")
    return "; ".join(told)


def _key(key: str) -> str:
    return key.replace("-", " ")


def _words(value: object) -> str:
    if isinstance(value, Limit):
        return limit_words(value.least, value.most) or ""
    if isinstance(value, Written):
        return keys_words(value)
    if isinstance(value, Interval):
        low, high = plain_number(value.low), plain_number(value.high)
        return low if low == high else f"{low} to {high}"
    if isinstance(value, tuple):
        return ", ".join(map(_words, value))
    if isinstance(value, Stretch):
        return stretch_words(value)
    return _plain(value)


def _plain(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Decimal):
        return f"{value:f}"
    if isinstance(value, date):
        return value.isoformat()
    return value.value if isinstance(value, StrEnum) else str(value)

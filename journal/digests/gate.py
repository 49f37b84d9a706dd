"""The gate: what stands between the car and its handover, all of it at once.

Hears the ledgers of snags, originality, proving, decisions, outwork and numbers, and the seals. The
handover waits for an open hold, a stand-in on the car, a proof that is missing or does not stand, a
departure that nobody decided, outwork that is not back, an identity number in dispute or without
evidence, lines heard in a talk that nobody confirmed, and a record that is not what was sealed. Whoever
hands over all the same hands these over with the car, as reservations.
"""

from collections.abc import Callable, Iterator
from datetime import date
from enum import StrEnum

from msgspec import Struct

from journal.ledgers.decisions import Decisions, Matter
from journal.ledgers.numbers import NumberLine, Numbers
from journal.ledgers.originality import Originality
from journal.ledgers.outwork import Outwork
from journal.ledgers.proving import ProofLine, ProofState, Proving
from journal.ledgers.seals import SealedFile, Seals, Standing
from journal.ledgers.snags import SnagKind, Snags
from journal.readers.rules import may_see
from journal.records.carfile import CarFile
from journal.records.sheet import Sheet
from journal.words.amounts import plain_number
from journal.words.text import counted
from journal.words.vocabulary import Evidence, Reader


class Bar(StrEnum):
    """What kind of thing stops the handover."""

    HOLD = "hold"
    STAND_IN = "stand-in"
    UNPROVED = "unproved"
    UNDECIDED = "undecided"
    OUTWORK = "outwork"
    NUMBER = "number"
    UNCONFIRMED = "unconfirmed"
    RECORD = "record"


class Reason(Struct, frozen=True):
    """One reason, as a sentence without its full stop, with the sheet that it comes from.

    `sheet` is absent where no sheet tells of it, which may be the very reason. `readers` is the widest
    reader who may read the words; whoever may see less is told `bare` in their place. `since` is the day
    from which it has been open, absent where that says nothing.
    """

    bar: Bar
    words: str
    bare: str
    subsystem: str
    sheet: str | None
    readers: Reader = Reader.PUBLIC
    since: date | None = None

    def told(self, day: Callable[[date], str] = date.isoformat) -> str:
        """The whole sentence, with its day as `day` words it."""
        return self._since(day) + self.words

    def told_bare(self, day: Callable[[date], str] = date.isoformat) -> str:
        """What those are told who may not read the words."""
        return self._since(day) + self.bare

    def is_for(self, reader: Reader) -> bool:
        """Whether a reader may read the words. The gate speaks from the whole car file, so the public
        and those who may not see a sheet are told the bare fact."""
        return reader is not Reader.PUBLIC and may_see(reader, self.readers)

    def _since(self, day: Callable[[date], str]) -> str:
        return f"open since {day(self.since)}: " if self.since else ""


class Gate(Struct, frozen=True):
    """All reasons in the order of their kinds; none when the car may go."""

    reasons: tuple[Reason, ...] = ()

    @property
    def open(self) -> bool:
        """Whether nothing stops the handover."""
        return not self.reasons


def digest_gate(
    car: CarFile,
    *,
    snags: Snags,
    originality: Originality,
    proving: Proving,
    decisions: Decisions,
    outwork: Outwork,
    numbers: Numbers,
    seals: Seals,
) -> Gate:
    """Every reason why the car may not be handed over, from ledgers of the whole car file."""
    return Gate(
        (
            *_holds(car, snags),
            *_stand_ins(originality),
            *_unproved(proving),
            *_undecided(decisions),
            *_outwork(car, outwork),
            *_numbers(numbers),
            *_unconfirmed(car),
            *_record(car, seals),
        )
    )


def _holds(car: CarFile, snags: Snags) -> Iterator[Reason]:
    """Raised holds and trial fits that hold; stand-ins are told by the originality ledger."""
    for snag in snags.holds:
        if snag.kind is SnagKind.STAND_IN:
            continue
        yield Reason(
            Bar.HOLD, snag.text, "a snag that holds the handover", snag.subsystem, snag.raised_in,
            _snag_reader(car, snag.name, snag.raised_in), snag.raised,
        )  # fmt: skip


def _snag_reader(car: CarFile, name: str, raised_in: str) -> Reader:
    """Whoever may read both the snag and the sheet that raised it; what a sheet's work raises by
    itself goes by the sheet alone."""
    sheet = next((s for s in car.sheets if s.name == raised_in), None)
    if sheet is None:
        return Reader.WORKSHOP
    line = sheet.front.snags.get(name)
    return sheet.front.widest if line is None else _narrower(line.for_, sheet.front.widest)


def _narrower(one: Reader, other: Reader) -> Reader:
    ranked = list(Reader)
    return min(one, other, key=ranked.index)


def _stand_ins(originality: Originality) -> Iterator[Reason]:
    for line in originality.lines:
        if line.stand_in is not None:
            words = f"a stand-in is on the car in the place of {line.component.label}"
            yield Reason(Bar.STAND_IN, words, words, line.component.subsystem, line.stand_in.sheet)


_PROOF_WORDS = {
    ProofState.MISSING: "is not recorded",
    ProofState.FAILED: "was not passed",
    ProofState.OUT_OF_DATE: "was recorded before the last work on it",
    ProofState.INCOMPLETE: "is recorded without",
}


def _unproved(proving: Proving) -> Iterator[Reason]:
    for line in proving.holds:
        words = f"{line.label} {_PROOF_WORDS[line.state]}{_lacks(line)}"
        yield Reason(Bar.UNPROVED, words, words, line.subsystem, _proof_sheet(line))


def _lacks(line: ProofLine) -> str:
    incomplete = line.state is ProofState.INCOMPLETE and line.latest is not None
    return f" {' and '.join(line.latest.lacks)}" if incomplete and line.latest else ""


def _proof_sheet(line: ProofLine) -> str | None:
    if line.state is ProofState.OUT_OF_DATE and line.overtaken is not None:
        return line.overtaken.sheet
    return line.latest.sheet if line.latest else None


def _undecided(decisions: Decisions) -> Iterator[Reason]:
    for choice in decisions.choices:
        if choice.matter is Matter.DEPARTURE and choice.undecided:
            words = f"nobody is said to have decided the departure: {choice.what}"
            bare = "a departure is on the car that nobody is said to have decided"
            yield Reason(Bar.UNDECIDED, words, bare, choice.subsystem, choice.sheet)


def _outwork(car: CarFile, outwork: Outwork) -> Iterator[Reason]:
    for batch in outwork.out:
        out = plain_number(batch.out)
        told = next(
            (s for s in reversed(car.sheets) if s.front.outwork.get(batch.name) is not None), None
        )
        line = told.front.outwork.get(batch.name) if told else None
        widest = _narrower(line.for_, told.front.widest) if told and line else Reader.WORKSHOP
        words = (
            f"{batch.what or batch.name}: {out} of {plain_number(batch.sent)} not back from outwork"
        )
        yield Reason(
            Bar.OUTWORK, words, f"outwork on this subsystem is not back ({out} out)", batch.subsystem,
            told.name if told else None, widest,
        )  # fmt: skip


def _numbers(numbers: Numbers) -> Iterator[Reason]:
    for line in numbers.lines:
        what = _number_wants(line)
        if what:
            words = f"the {line.name} number {what}"
            read = line.read[-1] if line.read else None
            yield Reason(
                Bar.NUMBER, words, words, line.on.split("/")[0] if line.on else "papers",
                read.ref if read and read.kind == "sheet" else None,
            )  # fmt: skip


def _number_wants(line: NumberLine) -> str:
    """What an identity number lacks: a reading on the car as it goes, with something to show it."""
    if line.moved is not None:
        return "was not read on the item that is there now"
    if not line.read:
        return "was not read on the car"
    if line.disputed:
        return "is in dispute: two statements of it differ"
    if line.evidence is Evidence.STATED:
        return "is stated in words alone; no photograph shows it"
    return ""


def _unconfirmed(car: CarFile) -> Iterator[Reason]:
    """What was heard is nothing that a record says, and the sheet that holds it goes to nobody."""
    for sheet in car.sheets:
        waiting = len(sheet.front.draft)
        if waiting:
            verb = "was heard and is" if waiting == 1 else "were heard and are"
            yield Reason(
                Bar.UNCONFIRMED, f"{counted(waiting, 'line')} of the sheet {verb} not confirmed",
                "part of the record is not confirmed", sheet.front.subsystem[0], sheet.name,
                Reader.WORKSHOP,
            )  # fmt: skip


_BROKEN = {
    Standing.CHANGED: "was changed after it was sealed, and not sealed again",
    Standing.REMOVED: "was sealed and is gone",
    Standing.LATE: "came after its day was closed, and is in no seal",
}


def _record(car: CarFile, seals: Seals) -> Iterator[Reason]:
    """Seals that do not hold, and files that are not what was sealed."""
    for fault in seals.faults:
        words = f"seal {fault.seal} does not hold: {fault.what}"
        yield Reason(Bar.RECORD, words, words, "papers", None)
    sheets = {sheet.source.path.removeprefix(f"{car.name}/"): sheet for sheet in car.sheets}
    for file in seals.files:
        if file.standing in _BROKEN:
            yield _broken(file, sheets.get(file.path))


def _broken(file: SealedFile, sheet: Sheet | None) -> Reason:
    """The name of a file may tell what the file does not: only the workshop reads it."""
    says = _BROKEN[file.standing]
    return Reason(
        Bar.RECORD, f"{file.path} {says}", f"a file of the record {says}",
        sheet.front.subsystem[0] if sheet else "papers", sheet.name if sheet else None,
        Reader.WORKSHOP,
    )  # fmt: skip

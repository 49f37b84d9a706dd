"""Where the work stands, in sentences that the ledgers alone give."""

from collections import Counter
from collections.abc import Iterable
from decimal import Decimal

from journal.ledgers.originality import Line
from journal.pages.recheckwords import rechecks_due
from journal.pages.view import CarView
from journal.pages.words import (
    day_words,
    hours_words,
    in_words,
    money_words,
    owner_words,
    sentence,
    some,
)
from journal.words.text import counted, listed
from journal.words.vocabulary import Origin, Position

_POSITIONS = (
    (Position.TRIAL, "trial-fitted"),
    (Position.OFF, "off the car"),
    (Position.OUT, "out for work"),
    (Position.ON, "never taken off"),
)


def standing_sentences(view: CarView) -> tuple[str, ...]:
    """The state of the work on the day the archive speaks of, from booking in to handover."""
    said = (_booked_in(view), _worked(view), _fitted(view), _ending(view), _sealed(view))
    return tuple(words for words in said if words)


def work_days(view: CarView) -> int:
    """Days on which anything was written."""
    return len({sheet.date for sheet in view.car.sheets})


def is_delivered(view: CarView) -> bool:
    """Whether the car had been handed over on the day the archive speaks of."""
    delivered = view.car.car.delivered
    return delivered is not None and delivered <= view.until


def not_fitted(lines: Iterable[Line]) -> list[str]:
    """How many components are where, for those not fitted again: `two off the car`.

    What is not there at all is absent, wherever its place is.
    """
    open_lines = [line for line in lines if line.position not in (Position.FITTED, Position.PROVED)]
    there = [line for line in open_lines if not _absent(line)]
    at = Counter(line.position for line in there)
    said = [f"{in_words(at[p])} {words}" for p, words in _POSITIONS if at[p]]
    absent = len(open_lines) - len(there)
    return [*said, f"{in_words(absent)} absent"] if absent else said


def _absent(line: Line) -> bool:
    return line.now.gone or line.now.origin is Origin.ABSENT


def _booked_in(view: CarView) -> str:
    return f"Booked in on {day_words(view.car.car.booked_in)}."


def _worked(view: CarView) -> str:
    if not view.car.sheets:
        return "No day of work is written yet."
    hours = f" and {hours_words(view.hours.total)}" if view.hours.total else ""
    worked = f"{counted(work_days(view), 'day')}{hours}"
    return f"Up to {day_words(view.until)} the sheets tell of {worked} of work."


def _fitted(view: CarView) -> str:
    lines = view.originality.lines
    if not lines:
        return "The register holds no components yet."
    at = Counter(line.position for line in lines)
    done = at[Position.FITTED] + at[Position.PROVED]
    proved = f" ({in_words(at[Position.PROVED])} proved)" if at[Position.PROVED] else ""
    rest = listed(not_fitted(lines))
    more = f"; {rest}" if rest else ""
    of = some(len(lines), "component")
    fitted, verb = in_words(done) if done else "none", "is" if done == 1 else "are"
    return f"{sentence(fitted)} of {of} {verb} fitted again{proved}{more}."


def balance_words(view: CarView, balance: Decimal, verb: str = "is") -> str:
    """A balance as a sentence; above nothing it is owed by the owner."""
    if not balance:
        return f"The account {verb} even."
    way = "held for" if balance < 0 else "due from"
    amount = money_words(view.car.workshop, abs(balance))
    return f"{amount} {verb} {way} {owner_words(view.reader)}."


def _ending(view: CarView) -> str:
    delivered = view.car.car.delivered
    if delivered is not None and is_delivered(view):
        said = (f"Delivered on {day_words(delivered)}.", rechecks_due(view))
        return " ".join(words for words in said if words)
    hold = _holding(len(view.snags.holds), len(view.proving.holds))
    target = view.car.car.target
    ready = f" It is wanted by {day_words(target)}." if target else ""
    return f"{sentence(hold)}.{ready}"


def _sealed(view: CarView) -> str:
    """Up to when the record is sealed, and whether it is what was sealed; nothing without a seal."""
    seals = view.seals
    if not seals.intact:
        return "The record is not what was sealed."
    return (
        f"The record is sealed up to {day_words(seals.last.up_to)}, and holds."
        if seals.last
        else ""
    )


def _holding(holds: int, proofs: int) -> str:
    wanting = f"{some(proofs, 'proof')} {'is' if proofs == 1 else 'are'} wanting"
    if not holds:
        return f"{wanting} before the handover" if proofs else "nothing holds the handover"
    things = f"{some(holds, 'thing')} still {'holds' if holds == 1 else 'hold'} the handover"
    return f"{things}, and {wanting}" if proofs else things

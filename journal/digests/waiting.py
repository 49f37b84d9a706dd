"""Waiting: orders not here, outwork not back, and decisions wanted, with what each holds up.

Hears the parts, outwork, decisions and snags ledgers. An item holds up the components that it is
for; it stops the handover when it is itself a hold, or when a snag with a hold is open on one of
its components.
"""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from enum import StrEnum

from msgspec import Struct
from msgspec.structs import replace

from journal.ledgers.decisions import Choice, Decisions, Question
from journal.ledgers.outwork import Batch, Outwork
from journal.ledgers.parts import Part, Parts
from journal.ledgers.snags import Snag, Snags
from journal.records.carfile import CarFile
from journal.records.workshop import Workshop
from journal.words.calendar import working_days


class Kind(StrEnum):
    """What is waited for."""

    ORDER = "order"
    OUTWORK = "outwork"
    QUESTION = "question"
    DEPARTURE = "departure"


class Awaited(Struct, frozen=True):
    """One thing that is waited for, since when, and what it holds up.

    `whom` is a supplier's short name for orders and outwork; for a question the one asked; absent
    for a departure that nobody is said to have decided, and where it is not known. `count` is how
    many are still out, where they are counted. `due` is the day promised, `late` the working days
    past it. `subsystems` are those of the components, else that of the sheet. `holds` are the
    names of snags that stop the handover and wait with it. `put_off` is the reason for which a
    question rests.
    """

    kind: Kind
    name: str
    what: str
    whom: str | None
    since: date
    sheet: str
    day: date
    components: tuple[str, ...]
    subsystems: tuple[str, ...]
    count: Decimal | None = None
    due: date | None = None
    late: int = 0
    holds: tuple[str, ...] = ()
    put_off: str | None = None

    @property
    def age(self) -> int:
        """Calendar days since it was ordered, sent out or asked."""
        return (self.day - self.since).days


class Waiting(Struct, frozen=True):
    """All that is waited for, what hurts most first."""

    items: tuple[Awaited, ...] = ()

    def of(self, *kinds: Kind) -> tuple[Awaited, ...]:
        """The items of some kinds, in the same order."""
        return tuple(item for item in self.items if item.kind in kinds)

    def asked_of(self, whom: str) -> tuple[Awaited, ...]:
        """Questions that wait for the word of one person."""
        return tuple(item for item in self.of(Kind.QUESTION) if item.whom == whom)


def digest_waiting(
    car: CarFile, *, parts: Parts, outwork: Outwork, decisions: Decisions, snags: Snags, day: date
) -> Waiting:
    """One list of everything awaited on a day."""
    items = (
        *(_order(part, day) for part in parts.waiting),
        *(_lot(batch, day) for batch in outwork.out),
        *(_question(question, day) for question in decisions.asked),
        *(_departure(choice, day) for choice in decisions.undecided),
    )
    held = (
        replace(item, holds=tuple(_holds(item, snags)), late=_late(item, car.workshop))
        for item in items
    )
    return Waiting(tuple(sorted(held, key=hurt)))


Hurt = tuple[bool, bool, int, bool, int, int, str, str]


def hurt(item: Awaited) -> Hurt:
    """What comes first: what waits before what was put off; of it what stops the handover; then
    what is late, the latest first; then what nobody has promised before what is promised for a day
    to come; then the oldest; then what holds up the most components. Kind and name settle the rest.
    """
    return (
        bool(item.put_off), not item.holds, -item.late, item.due is not None, -item.age,
        -len(item.components), item.kind.value, item.name,
    )  # fmt: skip


def _late(item: Awaited, workshop: Workshop) -> int:
    return max(working_days(workshop, item.due, item.day), 0) if item.due else 0


def _holds(item: Awaited, snags: Snags) -> Iterator[str]:
    for snag in snags.holds:
        if snag.on in item.components or _is_it(item, snag):
            yield snag.name


def _is_it(item: Awaited, snag: Snag) -> bool:
    return item.kind is Kind.QUESTION and item.name == snag.name


def _subsystems(components: tuple[str, ...], else_: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(key.split("/")[0] for key in components)) or (else_,)


def _order(part: Part, day: date) -> Awaited:
    return Awaited(
        Kind.ORDER, part.name, part.what or part.name, part.supplier, part.ordered or day,
        part.sheets[0], day, part.of, _subsystems(part.of, part.subsystem), part.due, part.promised,
    )  # fmt: skip


def _lot(batch: Batch, day: date) -> Awaited:
    sent = next(move for move in batch.movements if move.sent)
    return Awaited(
        Kind.OUTWORK, batch.name, batch.what or batch.name, batch.to, sent.day, sent.sheet, day,
        batch.of, _subsystems(batch.of, batch.subsystem), batch.out, batch.due,
    )  # fmt: skip


def _question(question: Question, day: date) -> Awaited:
    components = (question.on,) if question.on else ()
    return Awaited(
        Kind.QUESTION, question.name, question.text, question.of, question.asked,
        question.asked_in, day, components, (question.subsystem,), put_off=question.put_off,
    )  # fmt: skip


def _departure(choice: Choice, day: date) -> Awaited:
    components = (choice.component,) if choice.component else ()
    origin = choice.now.value if choice.now else ""
    return Awaited(
        Kind.DEPARTURE, choice.component or "", origin, None, choice.day, choice.sheet, day,
        components, (choice.subsystem,),
    )  # fmt: skip

"""What a line that was heard would put into a sheet, in parts that a page sets apart: where it would
stand, what it is about, and what it says. All of it is for the workshop alone."""

from collections.abc import Iterator
from typing import TypeVar

from journal.pages.heardwords import keys_words, reading_words, spent_words
from journal.pages.value import Value
from journal.pages.words import day_words, plain_count
from journal.records.carfile import CarFile
from journal.records.draft import DraftLine
from journal.records.fields import Written
from journal.records.goods import PartLine
from journal.records.sections import SnagLine
from journal.records.workshop import subsystem_label

R = TypeVar("R", bound=Written)


class Put(Value, frozen=True):
    """One thing that would be put: under which heading of a sheet, about what, and what would be said
    of it. `about` is empty where there is nothing to name."""

    heading: str
    about: str
    says: str


def puts_of(car: CarFile, line: DraftLine) -> Iterator[Put]:
    """Everything that a line would put, in the order of a sheet; nothing for a question."""
    for branch in line.subsystem:
        yield Put("Subsystem", "", subsystem_label(car.workshop, branch))
    yield from _hours(car, line)
    for key, work in line.work:
        yield Put("Component", component_label(car, key), keys_words(work))
    for name, part in line.parts:
        yield Put("Part", part.what or _plain(name), _part(car, part))
    for name, lot in line.outwork:
        yield Put("Out for work", lot.what or _plain(name), keys_words(_but(lot, "what")))
    for name, reading in line.measured:
        yield Put("Measured", name, reading_words(car, reading))
    for name, proof in line.proving:
        yield Put("Proof", _plain(name), keys_words(proof))
    for name, snag in line.snags:
        yield Put("Snag", component_label(car, snag.on) if snag.on else "", _snag(name, snag))
    for name, recheck in line.rechecks:
        yield Put("Re-check", _plain(name), keys_words(recheck))


def component_label(car: CarFile, key: str) -> str:
    """A component as its register calls it, else by its key."""
    known = car.component(key)
    return known.label if known else key


def _hours(car: CarFile, line: DraftLine) -> Iterator[Put]:
    for branch, hands in line.hours:
        label = subsystem_label(car.workshop, branch) if branch else ""
        for initials, spent in hands:
            hand = car.workshop.hands.get(initials)
            about = hand.name if hand and hand.name else initials
            for told in spent:
                yield Put("Hours", about, ", ".join(filter(None, (spent_words(told), label))))


def _part(car: CarFile, part: PartLine) -> str:
    supplier = car.workshop.suppliers.get(part.from_) if part.from_ else None
    days = (
        ("ordered", part.ordered), ("promised for", part.promised), ("received", part.received),
        ("fitted", part.fitted),
    )  # fmt: skip
    told = [
        f"no. {part.number}" if part.number else "",
        f"{plain_count(part.qty)} of them" if part.qty and part.qty != 1 else "",
        f"from {supplier.name if supplier else part.from_}" if part.from_ else "",
        *(f"{word} {day_words(day)}" for word, day in days if day), part.outcome or "",
        f"for {', '.join(component_label(car, key) for key in part.of)}" if part.of else "",
        keys_words(_but(part, *_PART_TOLD)), part.why or "",
    ]  # fmt: skip
    return "; ".join(filter(None, told))


_PART_TOLD = (
    "what", "number", "qty", "from_", "ordered", "promised", "received", "fitted", "outcome", "of", "why",
)  # fmt: skip


def _but(record: R, *names: str) -> R:
    """A record as if it did not say some of what it says."""
    fields = type(record).model_fields
    return record.model_copy(update={name: fields[name].get_default() for name in names})


def _snag(name: str, snag: SnagLine) -> str:
    told = (
        snag.raise_ or ("" if snag.clear or snag.defer else _plain(name)),
        "holds the handover" if snag.hold else "", f"asked of {snag.ask}" if snag.ask else "",
        f"{_plain(name)} put off: {snag.defer}" if snag.defer else "",
        f"{_plain(name)} cleared: {snag.clear}" if snag.clear else "",
        f"by {snag.by}" if snag.by else "",
    )  # fmt: skip
    return "; ".join(filter(None, told))


def _plain(name: str) -> str:
    return name.replace("-", " ")

"""Parts: from the order through goods in to the car, by the name that carries a part through sheets.

Hears `parts` in sheets, and `part:` in work that fits one. Money stays as written, in the
workshop's currency.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from enum import StrEnum

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.records.sheet import PartLine, Sheet
from journal.words.vocabulary import Act, GoodsIn


class PartState(StrEnum):
    """Where a part stands in its life, the furthest point reached."""

    NOTED = "noted"
    ORDERED = "ordered"
    RECEIVED = "received"
    ACCEPTED = "accepted"
    REWORKED = "reworked"
    REJECTED = "rejected"
    RETURNED = "returned"
    FITTED = "fitted"


@dataclass(frozen=True)
class Part:
    """One part as known so far. Dates are absent until the thing has happened."""

    name: str
    sheets: tuple[str, ...]
    subsystem: str
    what: str | None = None
    number: str | None = None
    supplier: str | None = None
    of: tuple[str, ...] = ()
    qty: Decimal | None = None
    price: Decimal | None = None
    ordered: date | None = None
    promised: date | None = None
    received: date | None = None
    outcome: GoodsIn | None = None
    why: str | None = None
    returned: date | None = None
    credited: Decimal | None = None
    fitted: date | None = None
    notes: tuple[str, ...] = ()

    @property
    def state(self) -> PartState:
        """The furthest point reached."""
        if self.returned:
            return PartState.RETURNED
        if self.fitted:
            return PartState.FITTED
        if self.outcome:
            return PartState(self.outcome.value)
        if self.received:
            return PartState.RECEIVED
        return PartState.ORDERED if self.ordered else PartState.NOTED

    @property
    def waiting(self) -> bool:
        """Whether it is ordered and not here."""
        return self.state is PartState.ORDERED

    @property
    def lead_days(self) -> int | None:
        """Calendar days from order to arrival, absent until both are known."""
        return (self.received - self.ordered).days if self.ordered and self.received else None


@dataclass(frozen=True)
class Parts:
    """All parts in the order first named."""

    parts: tuple[Part, ...] = ()
    problems: tuple[Problem, ...] = ()

    @property
    def waiting(self) -> tuple[Part, ...]:
        """Parts ordered and not here."""
        return tuple(p for p in self.parts if p.waiting)


def fold_parts(car: CarFile) -> Parts:
    """Merge what every sheet says of each part; later sheets add, and may correct a price."""
    parts: dict[str, Part] = {}
    problems: list[Problem] = []
    for sheet in car.sheets:
        for name, line in sheet.front.parts:
            before = parts.get(name) or Part(name, (), sheet.front.subsystem[0])
            parts[name] = _merge(before, line, sheet)
            problems += _out_of_order(sheet, name, parts[name])
        for key, work in sheet.front.work:
            part = parts.get(work.part) if work.part else None
            if part and Act.FITTED in work.did:
                parts[part.name] = replace(
                    part, fitted=part.fitted or sheet.date, of=_joined(part.of, (key,)),
                    sheets=_joined(part.sheets, (sheet.name,)),
                )  # fmt: skip
    return Parts(tuple(parts.values()), tuple(problems))


def _merge(part: Part, line: PartLine, sheet: Sheet) -> Part:
    said = {
        "what": line.what, "number": line.number, "supplier": line.from_, "qty": line.qty,
        "price": line.price, "ordered": line.ordered, "promised": line.promised,
        "received": line.received, "outcome": line.outcome, "why": line.why,
        "returned": line.returned, "credited": line.credited, "fitted": line.fitted,
    }  # fmt: skip
    new = {field: value for field, value in said.items() if value is not None}
    notes = part.notes + ((line.note,) if line.note else ())
    merged = replace(part, **new)  # type: ignore[arg-type]
    return replace(
        merged, of=_joined(part.of, line.of), notes=notes,
        sheets=_joined(part.sheets, (sheet.name,)),
    )  # fmt: skip


def _joined(old: Sequence[str], new: Sequence[str]) -> tuple[str, ...]:
    return (*old, *(word for word in new if word not in old))


# Each pair: what must not come before what.
_SEQUENCE = (("ordered", "received"), ("received", "returned"), ("received", "fitted"))


def _out_of_order(sheet: Sheet, name: str, part: Part) -> list[Problem]:
    found = []
    for first, then in _SEQUENCE:
        early, late = getattr(part, first), getattr(part, then)
        if early and late and late < early:
            found.append(
                problem_at(
                    sheet.source, ("parts", name, then), "part-out-of-order",
                    f'the part "{name}" cannot be {then} on {late} when it was {first} on {early}',
                    severity=Severity.WARNING,
                    help="correct the date that is wrong",
                )
            )  # fmt: skip
    return found

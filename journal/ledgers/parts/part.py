"""A part as it is known so far: what was ordered, what came, what went back, what it cost."""

from datetime import date
from decimal import Decimal
from enum import StrEnum
from functools import cached_property

from msgspec import Struct

from journal.records.problem import Problem
from journal.words.calendar import OpenDays, working_days
from journal.words.vocabulary import GoodsIn

NONE = Decimal(0)


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


class ChargeKind(StrEnum):
    """What an amount of money was for."""

    PRICE = "price"
    CARRIAGE = "carriage"
    CREDIT = "credit"


class Arrival(Struct, frozen=True):
    """Goods in: what came on one day, and what each look at it decided, the last one standing.

    `day` is absent when only the inspection was written down; `count` is then nothing. `why` are
    the reasons given, in order.
    """

    day: date | None
    sheet: str
    count: Decimal
    outcomes: tuple[GoodsIn, ...] = ()
    why: tuple[str, ...] = ()

    @property
    def outcome(self) -> GoodsIn | None:
        """What stands of the inspection; absent before it."""
        return self.outcomes[-1] if self.outcomes else None


class GoodsBack(Struct, frozen=True):
    """What went back to the supplier on one day."""

    day: date
    sheet: str
    count: Decimal


class Charge(Struct, frozen=True):
    """What one sheet adds to the cost of a part, or takes off it, in the workshop's currency.

    A later sheet that corrects a price, or tells the rate that was missing, charges the difference
    on its own day, so that what an earlier sheet came to never changes.
    """

    day: date
    sheet: str
    kind: ChargeKind
    net: Decimal


class Part(Struct, frozen=True):
    """One part as known so far. Dates are absent until the thing has happened.

    `price`, `carriage` and `credited` are for the whole quantity, in `currency`, at the `rate` of
    the price. `net` is what the part cost in the workshop's currency without tax, price and carriage
    less credits, and is the sum of its `charges`; it is absent when no price is known, or when the
    rate of some amount is missing. `lead` is the lead time in working days, from the order to the
    arrival that completed it; `late` the working days from the promised day to that arrival,
    negative when it came early; both are absent until it is complete.
    """

    name: str
    sheets: tuple[str, ...]
    subsystem: str
    what: str | None = None
    number: str | None = None
    supplier: str | None = None
    of: tuple[str, ...] = ()
    qty: Decimal | None = None
    price: Decimal | None = None
    carriage: Decimal | None = None
    currency: str = ""
    rate: Decimal | None = None
    ordered: date | None = None
    promised: date | None = None
    arrivals: tuple[Arrival, ...] = ()
    returns: tuple[GoodsBack, ...] = ()
    credited: Decimal | None = None
    charges: tuple[Charge, ...] = ()
    net: Decimal | None = None
    fitted: date | None = None
    complete: date | None = None
    lead: int | None = None
    late: int | None = None
    notes: tuple[str, ...] = ()

    @property
    def wanted(self) -> Decimal:
        """How many are wanted: as ordered, or else as many as came and at least one."""
        return self.qty if self.qty is not None else max(self.got, Decimal(1))

    @property
    def got(self) -> Decimal:
        """How many came in all."""
        return sum((a.count for a in self.arrivals), NONE)

    @property
    def sent_back(self) -> Decimal:
        """How many went back."""
        return sum((r.count for r in self.returns), NONE)

    @property
    def here(self) -> Decimal:
        """How many came and did not go back, fitted ones among them."""
        return self.got - self.sent_back

    @property
    def due(self) -> Decimal:
        """How many have not come yet. What is fitted or inspected without a count is here."""
        if not self.got and (self.arrivals or self.returns or self.fitted):
            return NONE
        return max(self.wanted - self.got, NONE)

    def counted(self, outcome: GoodsIn | None) -> Decimal:
        """How many arrived with this outcome, or without an inspection yet."""
        return sum((a.count for a in self.arrivals if a.outcome is outcome), NONE)

    @property
    def received(self) -> date | None:
        """The day of the latest arrival."""
        days = [a.day for a in self.arrivals if a.day]
        return days[-1] if days else None

    @property
    def outcome(self) -> GoodsIn | None:
        """What the latest inspection decided."""
        looked = [a.outcome for a in self.arrivals if a.outcome]
        return looked[-1] if looked else None

    @property
    def standing(self) -> GoodsIn | None:
        """What stands of what can be used: of goods that were rejected in part, the other part."""
        usable = [
            a.outcome for a in self.arrivals if a.outcome and a.outcome is not GoodsIn.REJECTED
        ]
        return usable[-1] if usable and self.here > 0 else self.outcome

    @property
    def why(self) -> str | None:
        """The latest reason given at goods in."""
        reasons = [why for a in self.arrivals for why in a.why]
        return reasons[-1] if reasons else None

    @property
    def returned(self) -> date | None:
        """The day of the latest return."""
        return self.returns[-1].day if self.returns else None

    @property
    def right_first_time(self) -> bool | None:
        """Whether every look at it accepted it and none went back; absent before any inspection."""
        outcomes = {outcome for a in self.arrivals for outcome in a.outcomes}
        return outcomes == {GoodsIn.ACCEPTED} and not self.returns if outcomes else None

    @property
    def state(self) -> PartState:
        """The furthest point reached; sent back only when none of it is here any more."""
        if self.returns and self.here <= 0:
            return PartState.RETURNED
        if self.fitted:
            return PartState.FITTED
        if self.standing:
            return PartState(self.standing.value)
        if self.received:
            return PartState.RECEIVED
        return PartState.ORDERED if self.ordered else PartState.NOTED

    @property
    def waiting(self) -> bool:
        """Whether it is ordered and not here, or not all of it."""
        return self.ordered is not None and self.due > 0

    def overdue(self, day: date, workshop: OpenDays) -> int:
        """Working days by which what is still due is late on a day; 0 when it is not."""
        if not self.waiting or self.promised is None:
            return 0
        return max(working_days(workshop, self.promised, day), 0)

    @property
    def credit_due(self) -> bool:
        """Whether what was paid for went back, and neither credit nor replacement has come."""
        short = self.qty is None or self.here < self.qty
        return bool(self.price and self.returns and not self.credited and short)


class Parts(Struct, frozen=True, dict=True):
    """All parts in the order first named."""

    parts: tuple[Part, ...] = ()
    problems: tuple[Problem, ...] = ()

    @property
    def waiting(self) -> tuple[Part, ...]:
        """Parts ordered and not here, or not all of them."""
        return tuple(p for p in self.parts if p.waiting)

    @property
    def net(self) -> Decimal:
        """All charges: what the parts cost in the workshop's currency, without tax."""
        return sum((c.net for p in self.parts for c in p.charges), NONE)

    def of_sheet(self, name: str) -> tuple[Charge, ...]:
        """What one sheet charges for parts."""
        return tuple(c for p in self.parts for c in p.charges if c.sheet == name)

    def named(self, name: str) -> Part | None:
        """The part of a name, or None."""
        return self._by_name.get(name)

    @cached_property
    def _by_name(self) -> dict[str, Part]:
        return {part.name: part for part in self.parts}

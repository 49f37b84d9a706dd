"""Suppliers: how often each one's parts were right the first time, how long they took, and what
those that did not fit cost in hours.

Takes the ledgers of parts, outwork and hours. Goods without a supplier's name are left out.
"""

from collections.abc import Iterable, Sequence
from decimal import Decimal
from fractions import Fraction

from msgspec import Struct

from journal.ledgers.hours import Hours
from journal.ledgers.outwork import Batch, Outwork
from journal.ledgers.parts import Part, Parts
from journal.records.carfile import CarFile
from journal.words.amounts import Interval
from journal.words.proportion import wilson


class Spread(Struct, frozen=True):
    """Whole figures from the least to the most, and their median: the middle one, or the mean of
    the middle two."""

    count: int
    least: int
    median: Fraction
    most: int


class SupplierRecord(Struct, frozen=True):
    """What the sheets tell of one supplier.

    An order is a part by its name. `right` of `inspected` orders were accepted at every look, with
    nothing reworked, rejected or sent back. `late` of `promised` orders that came in whole came after the day
    promised. `lead` is in working days and absent until an order came in whole. `net` is what its
    parts and outwork cost in the workshop's currency, without tax. `hours_lost` are those spent
    because a part of its did not fit; `faulty` are the parts that were not right the first time.
    """

    name: str
    parts: tuple[Part, ...] = ()
    lots: tuple[Batch, ...] = ()
    hours_lost: Fraction = Fraction(0)

    @property
    def orders(self) -> int:
        """Parts ordered or had from it."""
        return len(self.parts)

    @property
    def inspected(self) -> int:
        """Orders of which goods in has decided anything."""
        return sum(p.right_first_time is not None for p in self.parts)

    @property
    def right(self) -> int:
        """Orders right the first time."""
        return sum(p.right_first_time is True for p in self.parts)

    @property
    def right_between(self) -> Interval:
        """The Wilson 95 % interval of the share right first time; all open before any inspection."""
        return wilson(self.right, self.inspected)

    @property
    def faulty(self) -> tuple[Part, ...]:
        """Parts that were not right the first time."""
        return tuple(p for p in self.parts if p.right_first_time is False)

    @property
    def lead(self) -> Spread | None:
        """Lead times of the orders that came in whole."""
        return spread([p.lead for p in self.parts if p.lead is not None])

    @property
    def promised(self) -> int:
        """Orders with a day promised that came in whole."""
        return sum(p.late is not None for p in self.parts)

    @property
    def late(self) -> int:
        """How many of those came after that day."""
        return sum(p.late is not None and p.late > 0 for p in self.parts)

    @property
    def waiting(self) -> tuple[Part, ...]:
        """What is still awaited from it."""
        return tuple(p for p in self.parts if p.waiting)

    @property
    def lots_short(self) -> int:
        """Lots of outwork of which a return ever left some out."""
        return sum(lot.was_short for lot in self.lots)

    @property
    def lots_late(self) -> int:
        """Lots of outwork that were home after the day they were due."""
        return sum(lot.late is not None and lot.late > 0 for lot in self.lots)

    @property
    def net(self) -> Decimal:
        """What its parts and outwork cost."""
        parts = (c.net for p in self.parts for c in p.charges)
        lots = (c.net for lot in self.lots for c in lot.charges)
        return sum((*parts, *lots), Decimal(0))


class Suppliers(Struct, frozen=True):
    """Every supplier with goods on this car, most orders first, then by name."""

    records: tuple[SupplierRecord, ...] = ()

    @property
    def hours_lost(self) -> Fraction:
        """All hours lost, the sum over suppliers."""
        return sum((r.hours_lost for r in self.records), Fraction(0))

    def get(self, name: str) -> SupplierRecord | None:
        """The record of a supplier by its short name."""
        return next((r for r in self.records if r.name == name), None)


def digest_suppliers(car: CarFile, *, parts: Parts, outwork: Outwork, hours: Hours) -> Suppliers:
    """Gather what each supplier's parts and lots came to; hours go by the part they name."""
    lost = hours.lost_to_parts()
    names = [*(p.supplier for p in parts.parts), *(b.to for b in outwork.batches)]
    records = (
        _record(name, parts.parts, outwork.batches, lost) for name in dict.fromkeys(names) if name
    )
    return Suppliers(tuple(sorted(records, key=lambda r: (-r.orders, r.name))))


def _record(
    name: str, parts: Iterable[Part], lots: Iterable[Batch], lost: dict[str, Fraction]
) -> SupplierRecord:
    own = tuple(p for p in parts if p.supplier == name)
    hours = sum((lost.get(p.name, Fraction(0)) for p in own), Fraction(0))
    return SupplierRecord(name, own, tuple(b for b in lots if b.to == name), hours)


def spread(figures: Sequence[int]) -> Spread | None:
    """Least, median and most of some figures; None of none."""
    if not figures:
        return None
    ordered, half = sorted(figures), len(figures) // 2
    upper = ordered[half]
    median = Fraction(upper) if len(ordered) % 2 else Fraction(ordered[half - 1] + upper, 2)
    return Spread(len(ordered), ordered[0], median, ordered[-1])

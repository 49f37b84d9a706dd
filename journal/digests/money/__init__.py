"""Money: what the work came to, by sheet and by subsystem, against the estimate.

Takes the ledgers of hours, parts and outwork; hears `extras` in sheets, the estimate of the car and
the rates of the hands. The owner is charged for nothing that they may not see: sheets and
lines `for: workshop` come to nothing, so that workshop and owner read the same sums.

- Labour is billable hours times the rate of the hand on the day, rounded to a coin once for each
  hand and sheet. Rework, goodwill and the hours of a hand without a rate are told, not charged.
- Parts and outwork come to what their ledgers say. A price or cost that is told again replaces the
  one before, and the sheet that tells it comes to the difference.
- An extra comes to its price on the day of its sheet; the hours of an extra raise the estimate.
"""

from collections import defaultdict
from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from functools import cached_property

from msgspec import Struct

from journal.ledgers.hours import Spent
from journal.records.fields import Named
from journal.records.statement import StatedLine
from journal.records.work import Decided
from journal.words.amounts import total_of
from journal.words.groups import grouped

_NOTHING = Decimal(0)


class ChargeKind(StrEnum):
    """What a charge is for."""

    LABOUR = "labour"
    PARTS = "parts"
    OUTWORK = "outwork"
    EXTRAS = "extras"


class Charge(Struct, frozen=True):
    """One net amount in whole coins that one sheet gave to one subsystem.

    `name` is the hand, the part, the lot or the extra. `hours` and `rate` are those of labour;
    `rate` is absent, and the charge nothing, when no rate of the hand holds on the day.
    """

    day: date
    sheet: str
    subsystem: str
    kind: ChargeKind
    name: str
    net: Decimal
    hours: Fraction = Fraction(0)
    rate: Decimal | None = None


class Agreed(Struct, frozen=True):
    """An extra agreed with the owner, with the sheet that tells it."""

    day: date
    sheet: str
    subsystem: str
    name: str
    what: str
    price: Decimal | None
    hours: Decimal | None
    decided: Decided


class Reckoned(Struct, frozen=True):
    """One subsystem: hours estimated, agreed on top, charged and not charged; net amounts.

    `estimate` is absent when nothing was estimated for it.
    """

    subsystem: str
    estimate: Decimal | None = None
    agreed: Decimal = _NOTHING
    hours: Fraction = Fraction(0)
    uncharged: Fraction = Fraction(0)
    labour: Decimal = _NOTHING
    parts: Decimal = _NOTHING
    outwork: Decimal = _NOTHING
    extras: Decimal = _NOTHING

    @property
    def allowed(self) -> Decimal | None:
        """Hours estimated with those agreed on top; absent without either."""
        if self.estimate is None and not self.agreed:
            return None
        return (self.estimate or _NOTHING) + self.agreed

    @property
    def net(self) -> Decimal:
        """All amounts of the subsystem."""
        return self.labour + self.parts + self.outwork + self.extras


class Money(Struct, frozen=True, dict=True):
    """Every charge in order of sheets; totals are sums of these lines and nothing else.

    `uncharged` are hours in sheets that the owner sees and is not charged for.
    """

    charges: tuple[Charge, ...] = ()
    uncharged: tuple[Spent, ...] = ()
    agreed: tuple[Agreed, ...] = ()
    estimate: Named[Decimal] = Named()

    @property
    def net(self) -> Decimal:
        """All charges, without tax."""
        return sum((c.net for c in self.charges), _NOTHING)

    def by_subsystem(self) -> tuple[Reckoned, ...]:
        """One line a subsystem: those of the estimate first, then others in order of first charge."""
        told = [
            *self.estimate.names(), *(a.subsystem for a in self.agreed),
            *(c.subsystem for c in self.charges), *(s.subsystem for s in self.uncharged),
        ]  # fmt: skip
        return tuple(self._reckoned(name) for name in dict.fromkeys(told))

    def _reckoned(self, name: str) -> Reckoned:
        own = self._by_subsystem.get(name, ())
        return Reckoned(
            name, self.estimate.get(name),
            sum((a.hours or _NOTHING for a in self.agreed if a.subsystem == name), _NOTHING),
            total_of(c.hours for c in own),
            total_of(s.hours for s in self.uncharged if s.subsystem == name),
            **_by_kind(own),
        )  # fmt: skip

    @cached_property
    def _by_subsystem(self) -> dict[str, tuple[Charge, ...]]:
        return grouped(self.charges, lambda charge: charge.subsystem)

    def by_hand(self) -> dict[tuple[str, Decimal | None], tuple[Fraction, Decimal]]:
        """Hours charged and their labour by hand and rate, in order of hand and first use."""
        sums: dict[tuple[str, Decimal | None], tuple[Fraction, Decimal]] = {}
        for charge in sorted(self.charges, key=lambda c: c.name):
            if charge.kind is ChargeKind.LABOUR:
                key = (charge.name, charge.rate)
                hours, net = sums.get(key, (Fraction(0), _NOTHING))
                sums[key] = (hours + charge.hours, net + charge.net)
        return sums

    def by_sheet(self) -> Named[StatedLine]:
        """What each sheet comes to, for sheets with hours or money, in order of sheets."""
        charged: dict[str, list[Charge]] = defaultdict(list)
        told: dict[str, Fraction] = defaultdict(Fraction)
        for charge in self.charges:
            charged[charge.sheet].append(charge)
        for spent in self.uncharged:
            told[spent.sheet] += spent.hours
        days = {charge.sheet: charge.day for charge in self.charges}
        days |= {spent.sheet: spent.day for spent in self.uncharged}
        return Named(
            (name, _line(days[name], charged.get(name, []), told.get(name, Fraction(0))))
            for name in sorted(days, key=lambda name: (days[name], name))
        )


def _line(day: date, charges: Iterable[Charge], uncharged: Fraction) -> StatedLine:
    charges = tuple(charges)
    hours = total_of(c.hours for c in charges)
    return StatedLine.model_validate(
        {
            "on": day, "hours": _decimal(hours), "uncharged": _decimal(uncharged),
            **_by_kind(charges),
        }
    )  # fmt: skip


def _by_kind(charges: Iterable[Charge]) -> dict[str, Decimal]:
    sums = {kind.value: _NOTHING for kind in ChargeKind}
    for charge in charges:
        sums[charge.kind.value] += charge.net
    return sums


def _decimal(number: Fraction) -> Decimal:
    """The sum of hours of a sheet, which were written as decimals and may have been shared out."""
    return Decimal(number.numerator) / Decimal(number.denominator)

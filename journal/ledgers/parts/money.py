"""What a part cost: price and carriage less credits, in the supplier's currency and in ours.

An amount in another currency is taken at the rate written with it, what one unit cost in the
workshop's currency, and rounded to the smallest coin as it is converted: totals are sums of amounts
that stand somewhere. A rate that stands alone, or with another amount, serves amounts without one.
"""

from collections.abc import Sequence
from decimal import Decimal

from msgspec import Struct
from msgspec.structs import replace

from journal.ledgers.parts.part import NONE, Charge, ChargeKind, Part
from journal.ledgers.parts.told import Told
from journal.records.goods import PartLine
from journal.records.problem import Problem, Severity, problem_at
from journal.words.money import converted, to_coin


class _Amount(Struct, frozen=True):
    """An amount as written, and the rate written with it."""

    amount: Decimal
    rate: Decimal | None


class _Reckoning(Struct, frozen=True):
    """What is known of a part's money up to one sheet."""

    currency: str
    price: _Amount | None = None
    carriage: _Amount | None = None
    credits: tuple[_Amount, ...] = ()
    rate: Decimal | None = None

    def nets(self, own: str) -> dict[ChargeKind, Decimal | None]:
        """What each kind of charge comes to in the workshop's currency; None without a rate."""
        return {
            ChargeKind.PRICE: self._net([self.price] if self.price else [], own),
            ChargeKind.CARRIAGE: self._net([self.carriage] if self.carriage else [], own),
            ChargeKind.CREDIT: self._net(self.credits, own),
        }

    def _net(self, amounts: Sequence[_Amount], own: str) -> Decimal | None:
        if self.currency == own:
            return sum((to_coin(a.amount, own) for a in amounts), NONE)
        rates = [a.rate or self.rate for a in amounts]
        if not all(rates):
            return None
        pairs = zip(amounts, rates, strict=True)
        return sum((converted(a.amount, rate, own) for a, rate in pairs if rate), NONE)


def charged(
    part: Part, lines: Sequence[Told], own: str, whole: bool
) -> tuple[Part, tuple[Problem, ...]]:
    """The part with its charges, one for every change of what it comes to; `own` is our currency.

    A credit above price and carriage is a problem and not counted; so is an amount without a rate.
    `whole` says that every sheet could be read: only then is a price that nobody told none.
    """
    too_much = _above_price(part, lines, whole)
    known, before = _Reckoning(own), _Reckoning(own).nets(own)
    charges: list[Charge] = []
    for told in lines:
        known = _with(known, told.line, told not in too_much)
        now = known.nets(own)
        charges += _changes(told, before, now)
        before = now
    part = replace(
        part, currency=known.currency, rate=_rate_of(known, own), charges=tuple(charges),
        credited=sum((a.amount for a in known.credits), NONE) if known.credits else None,
        net=_total(known, before),
    )  # fmt: skip
    problems = [_credit_problem(part, told) for told in too_much]
    return part, (*problems, *_rate_problems(part, lines, own, None in before.values()))


def _with(known: _Reckoning, line: PartLine, credit_counts: bool) -> _Reckoning:
    """What is known with one more line. A rate belongs to the amounts of its own line."""
    told = [line.price, line.carriage, line.credited]
    rate = line.rate or None
    if rate and not (line.credited is not None and line.price is None and line.carriage is None):
        known = replace(known, rate=rate)
    if rate and all(amount is None for amount in told):
        known = replace(
            known,
            price=replace(known.price, rate=None) if known.price else None,
            carriage=replace(known.carriage, rate=None) if known.carriage else None,
        )
    credit = (_Amount(line.credited, rate),) if line.credited and credit_counts else ()
    return replace(
        known, currency=line.currency or known.currency,
        price=_Amount(line.price, rate) if line.price is not None else known.price,
        carriage=_Amount(line.carriage, rate) if line.carriage is not None else known.carriage,
        credits=known.credits + credit,
        rate=known.rate or rate,
    )  # fmt: skip


def _changes(
    told: Told,
    before: dict[ChargeKind, Decimal | None],
    now: dict[ChargeKind, Decimal | None],
) -> list[Charge]:
    changes = []
    for kind, net in now.items():
        change = (net or NONE) - (before[kind] or NONE)
        if change:
            sign = -1 if kind is ChargeKind.CREDIT else 1
            changes.append(Charge(told.sheet.date, told.sheet.name, kind, sign * change))
    return changes


def _total(known: _Reckoning, nets: dict[ChargeKind, Decimal | None]) -> Decimal | None:
    price, carriage, credit = nets.values()
    if price is None or carriage is None or credit is None:
        return None
    told = known.price is not None or known.carriage is not None or known.credits
    return price + carriage - credit if told else None


def _rate_of(known: _Reckoning, own: str) -> Decimal | None:
    if known.currency == own:
        return None
    return (known.price.rate if known.price else None) or known.rate


def _above_price(part: Part, lines: Sequence[Told], whole: bool) -> list[Told]:
    """The lines whose credit, with those before, is more than price and carriage together."""
    found: list[Told] = []
    if part.price is None and not whole:
        return found
    most, credited = (part.price or NONE) + (part.carriage or NONE), NONE
    for told in lines:
        credit = told.line.credited or NONE
        if credited + credit > most:
            found.append(told)
        else:
            credited += credit
    return found


def _credit_problem(part: Part, told: Told) -> Problem:
    price = f"its price, {part.price}" if part.price is not None else "its price, which nobody told"
    paid = f"{price} and {part.carriage} carriage" if part.carriage else price
    before = part.credited or NONE
    more = f" besides {before} before" if before else ""
    return problem_at(
        told.sheet.source, ("parts", part.name, "credited"), "credit-above-price",
        f'{told.line.credited} for "{part.name}"{more} is more than {paid}',
        help="correct the credit or the price; both are for the whole quantity",
    )  # fmt: skip


def _rate_problems(
    part: Part, lines: Sequence[Told], own: str, missing: bool
) -> tuple[Problem, ...]:
    if missing:
        return (_no_rate(part, lines, own),)
    rated = [told for told in lines if told.line.rate]
    if part.currency != own or not rated:
        return ()
    return (
        problem_at(
            rated[0].sheet.source, ("parts", part.name, "rate"), "rate-without-currency",
            f'"{part.name}" has a rate of exchange, and its price is in {own} all the same',
            severity=Severity.WARNING,
            help="write currency: with the code of the supplier's currency, such as EUR",
        ),
    )  # fmt: skip


def _no_rate(part: Part, lines: Sequence[Told], own: str) -> Problem:
    at = next(told for told in reversed(lines) if told.line.currency)
    return problem_at(
        at.sheet.source, ("parts", part.name, "currency"), "no-exchange-rate",
        f'the price of "{part.name}" is in {part.currency}, and no rate to {own} is written',
        help=f"write rate: with what one {part.currency} cost in {own} on that day",
    )  # fmt: skip

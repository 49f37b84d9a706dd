"""The fold: every sheet that the owner may see, priced in order."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import groupby

from msgspec.structs import replace

from journal.digests.money import Agreed, Charge, ChargeKind, Money
from journal.digests.money.goods import extras_charges, goods_charges
from journal.ledgers.hours import Hours, Spent, fold_hours
from journal.ledgers.outwork import Outwork, fold_outwork
from journal.ledgers.parts import Parts, fold_parts
from journal.records.carfile import CarFile
from journal.records.fields import Named
from journal.records.problem import Problem, problem_at
from journal.records.sheet import Sheet, SheetFront
from journal.records.workshop import Hand, Workshop
from journal.words.money import shared_out
from journal.words.vocabulary import HourKind, Reader


def money_of(car: CarFile) -> Money:
    """The money of a car, from the ledgers of what is charged."""
    seen = charged(car)
    return digest_money(
        seen, hours=fold_hours(seen), parts=fold_parts(seen), outwork=fold_outwork(seen)
    )


def charged(car: CarFile) -> CarFile:
    """A car file without the sheets and lines that are for the workshop alone."""
    sheets = tuple(
        replace(sheet, front=_open(sheet.front))
        for sheet in car.sheets
        if sheet.front.widest is not Reader.WORKSHOP
    )
    return replace(car, sheets=sheets)


def _open(front: SheetFront) -> SheetFront:
    return front.model_copy(
        update={
            "parts": Named((n, p) for n, p in front.parts if p.for_ is not Reader.WORKSHOP),
            "outwork": Named((n, o) for n, o in front.outwork if o.for_ is not Reader.WORKSHOP),
            "extras": Named((n, e) for n, e in front.extras if e.for_ is not Reader.WORKSHOP),
        }
    )


def digest_money(car: CarFile, *, hours: Hours, parts: Parts, outwork: Outwork) -> Money:
    """Price a car file that holds only what is `charged`, with the ledgers of just that."""
    charges: list[Charge] = []
    uncharged: list[Spent] = []
    agreed: dict[str, Agreed] = {}
    spent: dict[str, list[Spent]] = defaultdict(list)
    for line in hours.spent:
        spent[line.sheet].append(line)
    goods: dict[str, list[Charge]] = defaultdict(list)
    for charge in goods_charges(parts, outwork):
        goods[charge.sheet].append(charge)
    for sheet in car.sheets:
        charges += _labour(sheet, spent.get(sheet.name, ()), car.workshop, uncharged)
        charges += goods.get(sheet.name, ())
        charges += extras_charges(sheet, agreed, car.workshop.currency)
    return Money(tuple(charges), tuple(uncharged), tuple(agreed.values()), car.car.estimate)


def _hand(workshop: Workshop, initials: str) -> Hand | None:
    """The hand of an hour; where one works alone the initials may be left out."""
    if not initials and len(workshop.hands) == 1:
        return next(hand for _, hand in workshop.hands)
    return workshop.hands.get(initials)


def _charged(hand: Hand | None, kind: HourKind) -> bool:
    return kind is HourKind.BILLABLE and hand is not None and len(hand.rate) > 0


def _labour(
    sheet: Sheet, hours: Iterable[Spent], workshop: Workshop, uncharged: list[Spent]
) -> Iterator[Charge]:
    spent = [s for s in hours if s.hours]
    for name, lines in groupby(sorted(spent, key=lambda s: s.hand), key=lambda s: s.hand):
        hand = _hand(workshop, name)
        billable: list[Spent] = []
        for line in lines:
            (billable if _charged(hand, line.kind) else uncharged).append(line)
        rate = hand.rate_on(sheet.date) if hand else None
        exact = [line.hours * Fraction(rate or 0) for line in billable]
        for line, net in zip(billable, shared_out(exact, workshop.currency), strict=True):
            yield Charge(
                sheet.date, sheet.name, line.subsystem, ChargeKind.LABOUR, name, net, line.hours,
                rate,
            )  # fmt: skip


def unpriced(car: CarFile) -> Iterator[Problem]:
    """Hours that are to be charged and cannot be priced."""
    for sheet in car.sheets:
        if sheet.front.widest is not Reader.WORKSHOP:
            yield from _no_rate(sheet, car)


def _no_rate(sheet: Sheet, car: CarFile) -> Iterator[Problem]:
    """Billable hours of a hand none of whose rates holds yet, each hand once."""
    told: set[str] = set()
    for subsystem, hands in sheet.front.hours:
        for name, lines in hands:
            hand = _hand(car.workshop, name)
            due = any(line.hours and _charged(hand, line.kind) for line in lines)
            if hand is None or not due or name in told or hand.rate_on(sheet.date) is not None:
                continue
            told.add(name)
            since = min(day for day, _ in hand.rate)
            yield problem_at(
                sheet.source, ("hours", subsystem, name), "no-rate",
                f"hours of {name or hand.name} on {sheet.date} have no rate, and are not charged",
                help="give the rate a day from which it held by then",
                note=f"the first rate holds from {since}",
                note_place=car.workshop_source.place("hands", name, "rate"),
            )  # fmt: skip

"""What parts, outwork and extras come to, sheet by sheet."""

from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal

from msgspec.structs import replace

from journal.digests.money import Agreed, Charge, ChargeKind
from journal.ledgers.outwork import Outwork
from journal.ledgers.parts import Parts
from journal.records.sheet import Sheet
from journal.words.money import to_coin

_NOTHING = Decimal(0)


def goods_charges(parts: Parts, outwork: Outwork) -> Iterator[Charge]:
    """What each sheet changed in the cost of each part and lot, as their ledgers have it."""
    for part in parts.parts:
        changes = [(c.day, c.sheet, c.net) for c in part.charges]
        subsystem = _subsystem(part.of, part.subsystem)
        yield from _by_sheet(ChargeKind.PARTS, part.name, subsystem, changes)
    for lot in outwork.batches:
        changes = [(c.day, c.sheet, c.net) for c in lot.charges]
        subsystem = _subsystem(lot.of, lot.subsystem)
        yield from _by_sheet(ChargeKind.OUTWORK, lot.name, subsystem, changes)


def _by_sheet(
    kind: ChargeKind, name: str, subsystem: str, changes: Iterable[tuple[date, str, Decimal]]
) -> Iterator[Charge]:
    sums: dict[str, Charge] = {}
    for day, sheet, net in changes:
        before = sums.get(sheet) or Charge(day, sheet, subsystem, kind, name, _NOTHING)
        sums[sheet] = replace(before, net=before.net + net)
    yield from (charge for charge in sums.values() if charge.net)


def _subsystem(of: tuple[str, ...], sheet: str) -> str:
    """Where goods are reckoned: with the first component they are of, else with their sheet."""
    return of[0].partition("/")[0] if of else sheet


def extras_charges(sheet: Sheet, agreed: dict[str, Agreed], home: str) -> Iterator[Charge]:
    """What the extras of a sheet add to their price told before; `agreed` is kept up to date."""
    for name, line in sheet.front.extras:
        before = agreed.get(name)
        subsystem = before.subsystem if before else _subsystem(line.of, sheet.front.subsystem[0])
        price = before.price if before else None
        price = price if line.price is None else to_coin(line.price, home)
        hours = line.hours if line.hours is not None or not before else before.hours
        agreed[name] = Agreed(
            sheet.date, sheet.name, subsystem, name, line.what, price, hours, line.decided
        )
        more = (price or _NOTHING) - ((before.price if before else None) or _NOTHING)
        if more:
            yield Charge(sheet.date, sheet.name, subsystem, ChargeKind.EXTRAS, name, more)

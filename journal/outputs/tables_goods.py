"""Parts, outwork and suppliers as tables."""

from datetime import date

from journal.digests.suppliers import SupplierRecord, digest_suppliers
from journal.ledgers.hours import fold_hours
from journal.ledgers.outwork import fold_outwork
from journal.ledgers.parts import Part, fold_parts
from journal.outputs.table import Cell, Table
from journal.records.carfile import CarFile
from journal.words.amounts import percent, plain_number


def table_parts(car: CarFile, day: date) -> Table:
    """One row a part: its counts, its days, and what it cost."""
    parts = fold_parts(car)
    lost = fold_hours(car).lost_to_parts()
    columns = (
        "part", "what", "number", "from", "of", "qty", "got", "sent back", "due", "state", "ordered",
        "promised", "received", "lead time", "late", "overdue", "why", "returned", "fitted", "price",
        "carriage", "credited", "currency", "rate", "net", "hours lost",
    )  # fmt: skip
    rows = tuple(
        (*_part_row(part, part.overdue(day, car.workshop)), lost.get(part.name))
        for part in parts.parts
    )
    total = (
        f"{len(parts.parts)} parts, {len(parts.waiting)} of them not here yet, "
        f"{car.workshop.currency} {parts.net} without tax. Lead time, late and overdue in working days."
    )
    return Table(columns, rows, total)


def _part_row(p: Part, overdue: int) -> tuple[Cell, ...]:
    priced = p.price is not None or p.carriage is not None or p.credited is not None
    return (
        p.name, p.what, p.number, p.supplier, ", ".join(p.of) or None, p.qty, p.got or None,
        p.sent_back or None, p.due or None, p.state.value, p.ordered, p.promised, p.received, p.lead,
        p.late, overdue or None, "; ".join(why for a in p.arrivals for why in a.why) or None,
        p.returned, p.fitted, p.price, p.carriage, p.credited, p.currency if priced else None, p.rate,
        p.net,
    )  # fmt: skip


def table_outwork(car: CarFile, day: date) -> Table:
    """One row a lot: out and back by count, whether it is late, what it came back as."""
    outwork = fold_outwork(car)
    columns = (
        "lot", "what", "to", "of", "sent", "back", "out", "first sent", "due", "overdue", "home",
        "away", "late", "finish", "certificate", "cost",
    )  # fmt: skip
    rows = tuple(
        (
            b.name, b.what, b.to, ", ".join(b.of) or None, b.sent, b.back, b.out or None,
            b.first_sent, b.due, b.overdue(day, car.workshop) or None, b.home, b.away, b.late,
            "; ".join(b.finishes) or None, "; ".join(b.certificates) or None, b.cost,
        )
        for b in outwork.batches
    )  # fmt: skip
    total = (
        f"{len(outwork.batches)} lots, {len(outwork.out)} with items out, "
        f"{len(outwork.overdue(day))} of them overdue on {day.isoformat()}, "
        f"{car.workshop.currency} {outwork.net} without tax. Away, late and overdue in working days."
    )
    return Table(columns, rows, total)


def table_suppliers(car: CarFile, day: date) -> Table:
    """One row a supplier: orders, right first time with its interval, lead time, hours lost."""
    suppliers = digest_suppliers(
        car, parts=fold_parts(car), outwork=fold_outwork(car), hours=fold_hours(car)
    )
    columns = (
        "supplier", "orders", "waiting", "inspected", "right first time", "95 % interval",
        "lead median", "lead least", "lead most", "promised", "late", "hours lost", "lots",
        "lots short", "lots late", "net",
    )  # fmt: skip
    total = (
        f"{len(suppliers.records)} suppliers, {plain_number(suppliers.hours_lost)} hours lost. Wilson "
        "interval with z = 1.96; lead times in working days."
    )
    return Table(columns, tuple(_supplier_row(r) for r in suppliers.records), total)


def _supplier_row(r: SupplierRecord) -> tuple[Cell, ...]:
    low, high = (percent(end) for end in r.right_between)
    lead = r.lead
    return (
        r.name, r.orders, len(r.waiting) or None, r.inspected or None,
        r.right if r.inspected else None, f"{low} to {high} %" if r.inspected else None,
        lead.median if lead else None, lead.least if lead else None, lead.most if lead else None,
        r.promised or None, r.late if r.promised else None, r.hours_lost or None,
        len(r.lots) or None, r.lots_short or None, r.lots_late or None, r.net,
    )  # fmt: skip

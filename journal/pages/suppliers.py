"""Suppliers: whose parts were right the first time, how long they took, and what the rest cost.

For the workshop alone.
"""

from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from journal.digests.suppliers import Spread, SupplierRecord
from journal.ledgers.parts import Part
from journal.pages.anchors import anchor
from journal.pages.charts import AxisMark, place
from journal.pages.common import frame, has_page
from journal.pages.links import Links, Ref
from journal.pages.page import Page
from journal.pages.partwords import part_name
from journal.pages.view import CarView
from journal.pages.words import (
    Figure,
    decimals_in,
    hours_figure,
    hours_words,
    in_words,
    money_words,
    percent_words,
    sentence,
    some,
    supplier_words,
)
from journal.words.amounts import plain_number

PATH = "suppliers.html"
_NOTHING = Decimal(0)

AXIS = (
    AxisMark("0", "0 %", 0, "start"),
    AxisMark("25", "25", 1, "middle"),
    AxisMark("50", "50 %", 0, "middle"),
    AxisMark("75", "75", 1, "middle"),
    AxisMark("100", "100 %", 0, "end"),
)


class Drawn(NamedTuple):
    """A share found in so many orders, at `x`, and the stretch in which the true one lies."""

    low: str
    width: str
    high: str
    x: str
    words: str


class Misfit(NamedTuple):
    """A part that was not right the first time."""

    ref: Ref
    found: str
    reasons: tuple[str, ...]
    lost: str


class SupplierRow(NamedTuple):
    """One supplier; `drawn` is absent before goods in has looked at any part of its."""

    anchor: str
    name: str
    does: str
    orders: str
    right: str
    between: str
    lead: str
    late: str
    lost: Figure
    cost: str
    lots: str
    drawn: Drawn | None
    misfits: tuple[Misfit, ...]


def page_suppliers(view: CarView) -> tuple[Page, ...]:
    """The record of every supplier with goods on this car."""
    if not has_page(view.reader, PATH):
        return ()
    links = Links(view, PATH)
    total = view.suppliers.hours_lost
    decimals = decimals_in((total, *(record.hours_lost for record in view.suppliers.records)))
    rows = tuple(_row(view, links, record, decimals) for record in view.suppliers.records)
    values = {
        **frame(links, "Suppliers"),
        "lead": _lead(view),
        "rows": rows,
        "drawn": tuple(row for row in rows if row.drawn),
        "misfits": tuple(row for row in rows if row.misfits),
        "axis": AXIS,
        "lost": hours_figure(total, decimals),
        "cost": money_words(
            view.car.workshop, sum((r.net for r in view.suppliers.records), start=_NOTHING)
        ),
    }
    return (Page(view.base + PATH, "suppliers.html", values),)


def _lead(view: CarView) -> str:
    records = view.suppliers.records
    if not records:
        return ""
    right, of = sum(r.right for r in records), sum(r.inspected for r in records)
    told = f" {sentence(in_words(right))} of {in_words(of)} orders were right the first time."
    lost = view.suppliers.hours_lost
    hours = f" The rest cost {hours_words(lost)} at the bench." if lost else ""
    count = sentence(some(len(records), "supplier"))
    return f"{count} of parts and outwork on this car.{told if of else ''}{hours}"


def _row(view: CarView, links: Links, record: SupplierRecord, decimals: int) -> SupplierRow:
    known = view.car.workshop.suppliers.get(record.name)
    seen = record.inspected > 0
    return SupplierRow(
        anchor("supplier", record.name),
        supplier_words(view.car.workshop, record.name) or record.name,
        known.does or "" if known else "",
        str(record.orders) if record.orders else "",
        f"{record.right} of {record.inspected}" if seen else "",
        percent_words(record.right_between) if seen else "",
        _lead_time(record.lead),
        f"{record.late} of {record.promised}" if record.promised else "",
        hours_figure(record.hours_lost or None, decimals),
        money_words(view.car.workshop, record.net) if record.net else "",
        _lots(record),
        _drawn(record) if seen else None,
        tuple(_misfit(view, links, part) for part in record.faulty),
    )


def _lead_time(lead: Spread | None) -> str:
    if lead is None:
        return ""
    median = plain_number(lead.median, 1)
    return median if lead.least == lead.most else f"{median} ({lead.least} to {lead.most})"


def _lots(record: SupplierRecord) -> str:
    said = [f"{in_words(record.lots_late)} late"] if record.lots_late else []
    said += [f"{in_words(record.lots_short)} back short"] if record.lots_short else []
    lots = f"{some(len(record.lots), 'lot')} of outwork"
    return ", ".join((lots, *said)) if record.lots else ""


def _drawn(record: SupplierRecord) -> Drawn:
    low, high = record.right_between
    left, right = Fraction(place(low)), Fraction(place(high))
    words = (
        f"{record.right} of {record.inspected} right the first time; "
        f"the true share lies in {percent_words(record.right_between)}"
    )
    return Drawn(
        place(low), plain_number(right - left), place(high),
        place(Fraction(record.right, record.inspected)), words,
    )  # fmt: skip


def _misfit(view: CarView, links: Links, part: Part) -> Misfit:
    lost = view.hours.lost_to_parts().get(part.name)
    found = dict.fromkeys(o.value for a in part.arrivals for o in a.outcomes)
    back = ["sent back"] if part.returns else []
    return Misfit(
        Ref(part_name(part), links.part(part.name)),
        ", ".join((*found, *back)),
        tuple(why for a in part.arrivals for why in a.why),
        hours_words(lost) if lost else "",
    )

"""Suppliers: whose parts were right the first time, how long they took, and what the rest cost.

For the workshop alone.
"""

from decimal import Decimal
from fractions import Fraction
from functools import partial
from typing import Any

from journal.digests.suppliers import Spread, SupplierRecord
from journal.ledgers.parts import Part
from journal.pages.anchors import anchor
from journal.pages.charts import AxisMark, place
from journal.pages.common import frame, has_page
from journal.pages.leafwords import AS_TOLD, contents, sections_told, titled, turn_words
from journal.pages.links import Links, Ref
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf, Section, parted
from journal.pages.partwords import part_name
from journal.pages.value import Value
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
# As many parts that were not right as one page holds.
ROOM = 150
_NOTHING = Decimal(0)

AXIS = (
    AxisMark("0", "0 %", 0, "start"),
    AxisMark("25", "25", 1, "middle"),
    AxisMark("50", "50 %", 0, "middle"),
    AxisMark("75", "75", 1, "middle"),
    AxisMark("100", "100 %", 0, "end"),
)


class Drawn(Value, frozen=True):
    """A share found in so many orders, at `x`, and the stretch in which the true one lies."""

    low: str
    width: str
    high: str
    x: str
    words: str


class Misfit(Value, frozen=True):
    """A part that was not right the first time."""

    ref: Ref
    found: str
    reasons: tuple[str, ...]
    lost: str


class Misfits(Value, frozen=True):
    """The parts of one supplier that were not right, or those of them that one page has."""

    anchor: str
    name: str
    parts: tuple[Misfit, ...]


class SupplierRow(Value, frozen=True):
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


def page_suppliers(view: CarView) -> tuple[Page, ...]:
    """The record of every supplier with goods on this car."""
    if not has_page(view.reader, PATH):
        return ()
    records = view.suppliers.records
    faulty = (Section(anchor("misfits", record.name), record.faulty) for record in records)
    start, leaves = Links(view, ""), parted(PATH, faulty, ROOM)
    return tuple(
        Page(view.base + leaf.path, "suppliers.html", Later(partial(_values, start, leaves, leaf)))
        for leaf in leaves
    )


def _values(start: Links, leaves: tuple[Leaf, ...], leaf: Leaf) -> dict[str, Any]:
    links, view = start.at(leaf.path), start.view
    total = view.suppliers.hours_lost
    decimals = decimals_in((total, *(record.hours_lost for record in view.suppliers.records)))
    rows = tuple(_row(view, links, record, decimals) for record in view.suppliers.records)
    headings = {anchor("misfits", r.name): _name(view, r) for r in view.suppliers.records}
    return {
        **frame(links, titled("Suppliers", leaf)),
        "lead": _lead(view),
        "first": leaf.number == 1,
        "rows": rows,
        "drawn": tuple(row for row in rows if row.drawn),
        "misfits": tuple(
            Misfits(s.key, headings[s.key], tuple(_misfit(view, links, part) for part in s.entries))
            for s in leaf.stretches
        ),
        "continued": leaf.continued,
        "contents": contents(links, leaves, headings),
        "turn": turn_words(links, leaves, sections_told(headings), AS_TOLD),
        "axis": AXIS,
        "lost": hours_figure(total, decimals),
        "cost": money_words(
            view.car.workshop, sum((r.net for r in view.suppliers.records), start=_NOTHING)
        ),
    }


def _name(view: CarView, record: SupplierRecord) -> str:
    return supplier_words(view.car.workshop, record.name) or record.name


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
        _name(view, record),
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

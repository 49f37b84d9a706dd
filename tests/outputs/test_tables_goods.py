"""Tables of parts, outwork and suppliers: the figures of the ledgers, and totals that are sums."""

from datetime import date
from decimal import Decimal
from typing import Any

from journal.outputs.table import Table
from journal.outputs.tables_goods import table_outwork, table_parts, table_suppliers
from journal.records.carfile import CarFile
from tests.writing import a_car, a_sheet

DAY = date(2024, 2, 12)


def a_chase() -> CarFile:
    """Two orders, one of them in part, and a lot that is short."""
    come = {"from": "northgate", "ordered": "2024-01-24", "received": "2024-02-09"}
    parts: dict[str, Any] = {
        "cylinders": {"qty": "6", "got": "4", "promised": "2024-02-05", "price": "171", **come},
        "wire": {"price": "48", "currency": "EUR", "rate": "0.852", "outcome": "reworked", **come},
    }
    lots = {"zinc": {"to": "northgate", "sent": "214", "due": "2024-02-02", "cost": "118"}}
    hours = {"MT": {"hours": "0.5", "because": "wire"}}
    return a_car(
        {},
        [
            a_sheet("2024-01-25", outwork=lots),
            a_sheet("2024-02-12", parts=parts, hours=hours, outwork={"zinc": {"back": "211"}}),
        ],
    )


def rows(table: Table) -> list[dict[str, Any]]:
    """Rows by column name."""
    return [dict(zip(table.columns, row, strict=True)) for row in table.rows]


def test_parts__tell_counts_days_and_cost() -> None:
    table = table_parts(a_chase(), DAY)
    cylinders, wire = rows(table)
    assert (4, 2, 5, None) == tuple(cylinders[c] for c in ("got", "due", "overdue", "lead time"))
    # 24 January to 9 February 2024: 12 working days; EUR 48.00 * 0.852 = 40.896.
    assert (12, Decimal("40.90"), Decimal("0.5")) == (
        wire["lead time"], wire["net"], wire["hours lost"],
    )  # fmt: skip
    assert "2 parts, 1 of them not here yet, GBP 211.90 without tax" in table.total


def test_outwork__tells_what_is_out_and_how_late() -> None:
    table = table_outwork(a_chase(), DAY)
    (lot,) = rows(table)
    assert (214, 211, 3, 6) == tuple(lot[c] for c in ("sent", "back", "out", "overdue"))
    assert "1 lots, 1 with items out, 1 of them overdue on 2024-02-12" in table.total


def test_suppliers__tell_k_of_n_with_its_interval() -> None:
    (supplier,) = rows(table_suppliers(a_chase(), DAY))
    # Wilson for 0 of 1 by hand: 3.8416 / 4.8416 = 0.793.
    assert (2, 1, 0, "0 to 79 %") == tuple(
        supplier[c] for c in ("orders", "inspected", "right first time", "95 % interval")
    )
    assert Decimal("329.90") == supplier["net"]  # 171.00 + 40.90 + 118.00

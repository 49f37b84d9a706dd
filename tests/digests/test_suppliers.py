"""Suppliers: k of n right the first time, lead times, and the hours that the rest cost."""

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from statsmodels.stats.proportion import proportion_confint

from journal.digests.suppliers import Spread, Suppliers, digest_suppliers, spread
from journal.ledgers.hours import fold_hours
from journal.ledgers.outwork import fold_outwork
from journal.ledgers.parts import fold_parts
from journal.records.carfile import CarFile
from journal.records.sheet import Sheet
from journal.words.amounts import OPEN
from tests.writing import a_car, a_sheet


def suppliers_of(*sheets: Sheet) -> Suppliers:
    """The digest of a car with these sheets."""
    return digested(a_car({"brakes/pipes": "first-fit"}, sheets))


def digested(car: CarFile) -> Suppliers:
    """The digest of a car."""
    return digest_suppliers(
        car, parts=fold_parts(car), outwork=fold_outwork(car), hours=fold_hours(car)
    )


def ordered(name: str, outcome: str, **more: Any) -> dict[str, dict[str, Any]]:
    """A part from northgate, ordered on Monday 4 March and here on Monday 11 March 2024."""
    line = {"from": "northgate", "ordered": "2024-03-04", "received": "2024-03-11"}
    return {name: {**line, "outcome": outcome, "why": "as it says", **more}}


def test_supplier__has_as_many_right_as_were_accepted_at_every_look() -> None:
    first = a_sheet(
        "2024-03-11",
        parts={
            **ordered("a", "accepted"), **ordered("b", "accepted"), **ordered("c", "reworked"),
            **ordered("d", "rejected"), **ordered("e", "accepted"), **ordered("f", "accepted"),
            "g": {"from": "northgate", "ordered": "today"},
        },
    )  # fmt: skip
    later = a_sheet(
        "2024-03-20",
        parts={"e": {"outcome": "rejected"}, "f": {"returned": "today"}},
    )
    (record,) = suppliers_of(first, later).records
    # a and b; c was reworked, d and e rejected, f went back, g is not here.
    assert (7, 2, 6) == (record.orders, record.right, record.inspected)
    assert ["c", "d", "e", "f"] == [part.name for part in record.faulty]
    assert ["g"] == [part.name for part in record.waiting]
    # Independent: statsmodels, whose z is 1.959964.
    low, high = proportion_confint(2, 6, alpha=0.05, method="wilson")
    assert [low, high] == pytest.approx([float(end) for end in record.right_between], abs=2e-5)


def test_supplier__that_nobody_looked_at_is_all_open() -> None:
    sheet = a_sheet("2024-03-11", parts={"a": {"from": "northgate", "ordered": "today"}})
    (record,) = suppliers_of(sheet).records
    assert (OPEN, None) == (record.right_between, record.lead)


def test_supplier__hours_lost_are_those_spent_because_of_its_parts() -> None:
    hours = {"MT": [{"hours": "1.25", "kind": "rework", "because": "c"}, "3"],
             "JB": {"hours": "0.5", "because": "c"}}  # fmt: skip
    parts = {**ordered("c", "reworked"), "z": {"from": "quiet-lane", "ordered": "today"}}
    suppliers = suppliers_of(a_sheet("2024-03-11", parts=parts, hours=hours))
    assert {"northgate": Fraction("1.75"), "quiet-lane": 0} == {
        r.name: r.hours_lost for r in suppliers.records
    }
    assert Fraction("1.75") == suppliers.hours_lost


def test_supplier__lead_time_is_the_median_of_orders_that_came_in_whole() -> None:
    # Working days from Monday 4 March 2024: 5 to the 11th, 10 to the 18th, 24 to 5 April.
    def came(name: str, day: str, **more: str) -> dict[str, dict[str, Any]]:
        return ordered(name, "accepted", received=day, promised="2024-03-15", **more)

    parts = {
        **came("a", "2024-03-11"),
        **came("b", "2024-03-18"),
        **came("c", "2024-04-05"),
        **came("d", "2024-03-11", qty="6", got="4"),
    }
    (record,) = suppliers_of(a_sheet("2024-04-05", parts=parts)).records
    assert Spread(3, 5, Fraction(10), 24) == record.lead
    assert (2, 3) == (record.late, record.promised)


@pytest.mark.parametrize(
    ("figures", "expected"),
    [
        ([], None),
        ([7], Spread(1, 7, Fraction(7), 7)),
        ([9, 2], Spread(2, 2, Fraction(11, 2), 9)),
        ([9, 2, 4], Spread(3, 2, Fraction(4), 9)),
        ([1, 100, 3, 2], Spread(4, 1, Fraction(5, 2), 100)),
    ],
)
def test_spread__has_the_middle_one_or_the_mean_of_the_middle_two(
    figures: list[int], expected: Spread | None
) -> None:
    assert expected == spread(figures)


def test_supplier__of_outwork_has_its_lots_and_what_was_short_or_late() -> None:
    out = {"zinc": {"to": "northgate", "sent": "9", "due": "2024-03-08", "cost": "40"}}
    sheets = [
        a_sheet("2024-03-01", outwork=out, parts=ordered("a", "accepted", price="12.50")),
        a_sheet("2024-03-11", outwork={"zinc": {"back": "8"}}),
        a_sheet("2024-03-12", outwork={"zinc": {"back": "1"}}),
    ]
    (record,) = suppliers_of(*sheets).records
    assert (1, 1, 1) == (len(record.lots), record.lots_short, record.lots_late)
    assert Decimal("52.50") == record.net


def test_suppliers__stand_with_most_orders_first_and_goods_of_nobody_in_none() -> None:
    parts = {"a": {"from": "quiet-lane"}, **ordered("b", "accepted"), **ordered("c", "accepted"),
             "d": {"ordered": "today"}}  # fmt: skip
    suppliers = suppliers_of(a_sheet("2024-03-11", parts=parts))
    assert ["northgate", "quiet-lane"] == [r.name for r in suppliers.records]
    assert None is suppliers.get("elsewhere")

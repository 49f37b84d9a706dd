"""Outwork: counted out, counted back, and what it came back as."""

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from journal.ledgers.outwork import Batch, Outwork, fold_outwork
from journal.records.carfile import CarFile
from tests.writing import WORKSHOP, a_car, a_sheet


def car_of(*days: tuple[str, dict[str, Any]], workshop: dict[str, Any] | None = None) -> CarFile:
    """A car with one lot, `zinc`, with a line of it on each day."""
    sheets = [
        a_sheet(day, name=f"n{n}", outwork={"zinc": line}) for n, (day, line) in enumerate(days)
    ]
    return a_car({"brakes/pipes": "first-fit"}, sheets, workshop={**WORKSHOP, **(workshop or {})})


def lots(*days: tuple[str, dict[str, Any]], **workshop: Any) -> Outwork:
    """What the ledger says."""
    return fold_outwork(car_of(*days, workshop=workshop))


def lot(*days: tuple[str, dict[str, Any]], **workshop: Any) -> Batch:
    """The only lot."""
    (batch,) = lots(*days, **workshop).batches
    return batch


SENT = ("2023-10-26", {"sent": "214", "due": "2023-11-24", "cost": "118.00"})
SHORT = ("2023-11-30", {"back": "211", "finish": "bright zinc", "certificate": "slip 3318"})
FOUND = ("2023-12-14", {"back": "3", "finish": "bright zinc"})


def test_lot__with_three_missing_is_short_until_they_are_found() -> None:
    outwork = lots(SENT, SHORT)
    assert (outwork.short, outwork.out) == (outwork.batches, outwork.batches)
    assert (3, True) == (outwork.batches[0].out, outwork.batches[0].short)
    found = lot(SENT, SHORT, FOUND)
    assert (0, False, True) == (found.out, found.short, found.was_short)
    assert date(2023, 12, 14) == found.home


def test_lot__tells_what_it_came_back_as_each_once() -> None:
    found = lot(SENT, SHORT, FOUND)
    assert (("bright zinc",), ("slip 3318",)) == (found.finishes, found.certificates)


def test_lot__all_home_knows_how_long_it_was_away_and_how_late() -> None:
    # Thursday 26 October to Thursday 14 December are seven weeks, 35 working days; due on Friday
    # 24 November, so that the 14 from Monday the 27th on are past it.
    found = lot(SENT, SHORT, FOUND)
    assert (35, 14) == (found.away, found.late)
    found = lot(SENT, SHORT, FOUND, holidays="2023-12-01")
    assert (34, 13) == (found.away, found.late)
    short = lot(SENT, SHORT)
    assert (None, None, None) == (short.home, short.away, short.late)


def test_lot__is_overdue_as_of_a_day_while_anything_is_out() -> None:
    car = car_of(SENT, SHORT)
    outwork = fold_outwork(car)
    (batch,) = outwork.batches
    days = [date(2023, 11, 24), date(2023, 11, 25), date(2023, 11, 28)]
    assert [0, 0, 2] == [batch.overdue(day, car.workshop) for day in days]
    assert [(), (batch,), (batch,)] == [outwork.overdue(day) for day in days]
    assert () == lots(SENT, SHORT, FOUND).overdue(date(2024, 6, 1))


def test_cost__corrected_later_charges_the_difference_on_that_day() -> None:
    outwork = lots(SENT, ("2023-11-30", {"back": "214", "cost": "124.50"}))
    charges = outwork.batches[0].charges
    assert [Decimal(118), Decimal("6.50")] == [charge.net for charge in charges]
    assert Decimal("124.50") == outwork.batches[0].cost == outwork.net
    assert (charges[1],) == outwork.of_sheet("2023-11-30-n1")


def test_more_back_than_sent__is_told_and_the_rest_of_the_line_kept() -> None:
    outwork = lots(("2024-01-01", {"sent": "10"}), ("2024-02-01", {"back": "12", "cost": "40"}))
    assert ["more-back-than-sent"] == [p.code for p in outwork.problems]
    assert (10, Decimal(40)) == (outwork.batches[0].out, outwork.batches[0].cost)


def test_due__before_it_went_is_told() -> None:
    outwork = lots(("2024-03-05", {"sent": "10", "due": "2023-03-19"}))
    assert ['"zinc" cannot be due on 2023-03-19 when it was sent on 2024-03-05'] == [
        p.message for p in outwork.problems
    ]


counts = st.integers(0, 9).map(str)
lines = st.fixed_dictionaries(
    {}, optional={"sent": counts, "back": counts, "cost": counts, "finish": st.just("zinc")}
)
days = st.integers(0, 60).map(lambda n: (date(2024, 1, 1) + timedelta(n)).isoformat())


@given(st.lists(st.tuples(days, lines), max_size=6))
def test_lot__never_has_more_back_than_went(told: list[tuple[str, dict[str, Any]]]) -> None:
    outwork = lots(*told)
    for batch in outwork.batches:
        assert batch.sent == batch.back + batch.out
        assert batch.out >= 0
        assert (batch.cost or 0) == sum(c.net for c in batch.charges)

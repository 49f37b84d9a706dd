"""Parts over several sheets: counts that agree, what they cost, how long they took."""

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from journal.ledgers.parts import ChargeKind, Part, Parts, PartState, fold_parts
from journal.records.carfile import CarFile
from journal.words.vocabulary import GoodsIn
from tests.writing import WORKSHOP, a_car, a_sheet


def car_of(*days: tuple[str, dict[str, Any]], workshop: dict[str, Any] | None = None) -> CarFile:
    """A car of one part, `nuts`, with a line of it on each day."""
    sheets = [a_sheet(day, parts={"nuts": line}) for day, line in days]
    return a_car({"brakes/pipes": "first-fit"}, sheets, workshop={**WORKSHOP, **(workshop or {})})


def nuts(*days: tuple[str, dict[str, Any]], **workshop: Any) -> Part:
    """What the ledger says of it."""
    (part,) = fold_parts(car_of(*days, workshop=workshop)).parts
    return part


def codes(parts: Parts) -> list[str]:
    return [problem.code for problem in parts.problems]


# Quantities


def test_part__that_comes_in_two_boxes_is_waited_for_until_the_second() -> None:
    first = ("2024-02-09", {"qty": "6", "ordered": "2024-01-24", "received": "today", "got": "4"})
    part = nuts(first)
    assert (4, 2, True) == (part.got, part.due, part.waiting)
    assert (None, None) == (part.complete, part.lead)
    part = nuts(first, ("2024-02-16", {"received": "today"}))
    assert [4, 2] == [a.count for a in part.arrivals]
    assert (6, 0, False) == (part.got, part.due, part.waiting)
    assert date(2024, 2, 16) == part.complete


def test_part__received_without_a_count_came_whole() -> None:
    part = nuts(("2024-02-09", {"qty": "6", "ordered": "2024-01-24", "received": "today"}))
    assert (6, 0, PartState.RECEIVED) == (part.got, part.due, part.state)


def test_part__cut_short_by_the_supplier_is_done_when_the_order_is() -> None:
    ordered = ("2024-01-24", {"qty": "6", "ordered": "today"})
    part = nuts(ordered, ("2024-02-09", {"got": "4"}), ("2024-02-12", {"qty": "4"}))
    assert (0, False, date(2024, 2, 9)) == (part.due, part.waiting, part.complete)


def test_inspection__is_of_what_was_not_looked_at_yet() -> None:
    part = nuts(
        ("2024-02-09", {"qty": "6", "received": "today", "got": "4", "outcome": "accepted"}),
        ("2024-02-16", {"received": "today"}),
        ("2024-02-17", {"outcome": "reworked", "why": "thread tight"}),
    )
    assert (4, 2, 0) == tuple(part.counted(o) for o in (GoodsIn.ACCEPTED, GoodsIn.REWORKED, None))
    assert ((), ("thread tight",)) == tuple(a.why for a in part.arrivals)
    assert part.right_first_time is False


def test_inspection__that_changes_its_mind_stands_and_the_first_is_not_forgotten() -> None:
    part = nuts(
        ("2024-08-01", {"received": "today", "outcome": "accepted"}),
        ("2024-08-13", {"outcome": "rejected", "why": "advance 34 degrees"}),
    )
    assert GoodsIn.REJECTED is part.outcome
    assert (GoodsIn.ACCEPTED, GoodsIn.REJECTED) == part.arrivals[0].outcomes
    assert part.right_first_time is False


def test_part__looked_at_without_an_arrival_is_here_and_on_no_day() -> None:
    part = nuts(("2024-02-09", {"ordered": "2024-02-01", "outcome": "accepted"}))
    assert (PartState.ACCEPTED, False, None) == (part.state, part.waiting, part.lead)
    part = nuts(
        ("2024-02-09", {"ordered": "2024-02-01", "outcome": "accepted"}),
        ("2024-02-12", {"received": "2024-02-08"}),
    )
    assert (1, 5, PartState.ACCEPTED) == (part.got, part.lead, part.state)


def test_part__sent_back_in_part_still_stands_by_what_is_here() -> None:
    came = {"qty": "12", "ordered": "2024-02-09", "received": "today", "got": "9",
            "outcome": "accepted"}  # fmt: skip
    part = nuts(
        ("2024-02-16", came),
        ("2024-02-17", {"got": "3", "outcome": "rejected", "why": "metric thread"}),
        ("2024-02-21", {"returned": "today", "sent-back": "3", "credited": "4.50"}),
    )
    assert (12, 3, 9) == (part.got, part.sent_back, part.here)
    assert (PartState.ACCEPTED, GoodsIn.REJECTED) == (part.state, part.outcome)


def test_part__replaced_under_its_own_name_is_here_again() -> None:
    bad = {"ordered": "2024-01-05", "received": "today", "outcome": "rejected", "why": "cone"}
    part = nuts(("2024-01-09", bad), ("2024-01-12", {"returned": "today"}))
    assert (PartState.RETURNED, 0) == (part.state, part.here)
    part = nuts(
        ("2024-01-09", {"qty": "1", "price": "30", **bad}),
        ("2024-01-12", {"returned": "today"}),
        ("2024-01-19", {"received": "today", "outcome": "accepted"}),
    )
    assert (PartState.ACCEPTED, 1, 2) == (part.state, part.here, part.got)
    assert not part.credit_due
    assert date(2024, 1, 9) == part.complete


def test_credit__is_awaited_until_it_or_a_replacement_comes() -> None:
    back = ("2024-01-09", {"price": "30", "received": "today", "returned": "today"})
    assert nuts(back).credit_due
    assert not nuts(back, ("2024-02-01", {"credited": "30"})).credit_due


def test_more_sent_back_than_is_here__is_told_and_not_counted() -> None:
    came = ("2024-03-01", {"qty": "12", "got": "8"})
    car = car_of(came, ("2024-03-05", {"returned": "today", "sent-back": "9"}))
    parts = fold_parts(car)
    assert ["more-returned-than-received"] == codes(parts)
    assert '9 of "nuts" cannot go back when 8 are here' == parts.problems[0].message
    assert (8, 0) == (parts.parts[0].here, parts.parts[0].sent_back)


def test_return__of_what_never_came_is_told_unless_a_sheet_could_not_be_read() -> None:
    car = car_of(("2024-03-05", {"ordered": "2024-03-01", "returned": "today"}))
    told = 'the part "nuts" cannot go back when none has come in'
    assert [told] == [p.message for p in fold_parts(car).problems]
    unread = replace(car, unread=frozenset({"2024-03-04-day"}))
    assert () == fold_parts(unread).problems


def test_more_than_was_ordered__is_told_and_counted() -> None:
    parts = fold_parts(car_of(("2024-03-01", {"qty": "12", "got": "21"})))
    assert ["more-received-than-ordered"] == codes(parts)
    assert 21 == parts.parts[0].got


# Days


def test_lead_time__is_in_working_days_and_late_is_reckoned_from_the_promise() -> None:
    # Ordered Friday 20 December 2024, promised Monday 6 January, here Wednesday 8 January 2025.
    # Closed 25 December to 1 January. Working: 23, 24 December, 2, 3, 6, 7 and 8 January.
    part = nuts(
        ("2025-01-08", {"ordered": "2024-12-20", "promised": "2025-01-06", "received": "today"}),
        holidays={"from": "2024-12-25", "to": "2025-01-01"},
    )
    assert (7, 2) == (part.lead, part.late)


def test_late__counts_backwards_for_what_came_early() -> None:
    part = nuts(("2024-03-01", {"promised": "2024-03-05", "received": "today"}))
    assert -2 == part.late


def test_overdue__is_told_of_a_day_while_anything_is_due() -> None:
    car = car_of(("2024-03-01", {"qty": "6", "ordered": "today", "promised": "2024-03-08"}))
    (part,) = fold_parts(car).parts
    days = [date(2024, 3, 8), date(2024, 3, 9), date(2024, 3, 12)]
    assert [0, 0, 2] == [part.overdue(day, car.workshop) for day in days]


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ({"ordered": "2024-03-09", "received": "2024-03-02"},
         "received on 2024-03-02 when it was ordered on 2024-03-09"),
        ({"received": "2024-03-09", "returned": "2024-03-02"},
         "returned on 2024-03-02 when it was received on 2024-03-09"),
        ({"received": "2024-03-09", "fitted": "2024-03-02"},
         "fitted on 2024-03-02 when it was received on 2024-03-09"),
        ({"ordered": "2024-03-09", "promised": "2023-03-20"},
         "promised for 2023-03-20 when it was ordered on 2024-03-09"),
    ],
)  # fmt: skip
def test_days__that_cannot_follow_each_other_are_told(line: dict[str, str], told: str) -> None:
    parts = fold_parts(car_of(("2024-03-10", line)))
    assert [f'the part "nuts" cannot be {told}'] == [p.message for p in parts.problems]


# Money


def test_cost__of_a_foreign_part_is_price_and_carriage_at_the_rate_written() -> None:
    # EUR 48.00 * 0.8520 = 40.896 -> 40.90; EUR 16.50 * 0.8520 = 14.058 -> 14.06; together 54.96.
    foreign = {"price": "48.00", "carriage": "16.50", "currency": "EUR", "rate": "0.8520"}
    part = nuts(("2024-09-05", {"ordered": "today", **foreign}))
    assert Decimal("54.96") == part.net
    assert [Decimal("40.90"), Decimal("14.06")] == [charge.net for charge in part.charges]


def test_cost__without_a_rate_is_told_and_left_out() -> None:
    parts = fold_parts(car_of(("2024-09-05", {"price": "48.00", "currency": "EUR"})))
    assert ["no-exchange-rate"] == codes(parts)
    assert (None, ()) == (parts.parts[0].net, parts.parts[0].charges)


def test_cost__whose_rate_comes_later_is_charged_on_that_day() -> None:
    part = nuts(
        ("2024-09-05", {"price": "48.00", "currency": "EUR"}), ("2024-09-24", {"rate": "0.85"})
    )
    assert [("2024-09-24-day", Decimal("40.80"))] == [(c.sheet, c.net) for c in part.charges]


def test_price__corrected_later_charges_the_difference_and_leaves_the_first_day_alone() -> None:
    part = nuts(("2024-01-01", {"price": "100"}), ("2024-02-01", {"price": "92.50"}))
    assert [("2024-01-01-day", 100), ("2024-02-01-day", Decimal("-7.50"))] == [
        (c.sheet, c.net) for c in part.charges
    ]
    assert Decimal("92.50") == part.net


def test_credits__add_up_each_at_the_rate_of_its_own_day() -> None:
    # 100.00 * 0.86 = 86.00; 20.00 * 0.85 = 17.00; 30.00 at the rate of the price, 25.80.
    part = nuts(
        ("2024-01-01", {"price": "100", "currency": "EUR", "rate": "0.86", "received": "today"}),
        ("2024-02-01", {"credited": "20", "rate": "0.85"}),
        ("2024-03-01", {"credited": "30"}),
    )
    assert Decimal(50) == part.credited
    assert [Decimal("86.00"), Decimal("-17.00"), Decimal("-25.80")] == [c.net for c in part.charges]
    assert [ChargeKind.PRICE, ChargeKind.CREDIT, ChargeKind.CREDIT] == [
        c.kind for c in part.charges
    ]
    assert (Decimal("43.20"), Decimal("0.86")) == (part.net, part.rate)


def test_credits__above_price_and_carriage_are_told_and_not_counted() -> None:
    parts = fold_parts(
        car_of(
            ("2024-01-01", {"price": "44", "carriage": "6", "received": "today"}),
            ("2024-02-01", {"credited": "30"}),
            ("2024-03-01", {"credited": "30"}),
            ("2024-04-01", {"credited": "20"}),
        )
    )
    assert [
        '30 for "nuts" besides 50 before is more than its price, 44 and 6 carriage'
    ] == [p.message for p in parts.problems]  # fmt: skip
    assert (Decimal(50), Decimal(0)) == (parts.parts[0].credited, parts.parts[0].net)


def test_rate__without_a_currency_is_told() -> None:
    parts = fold_parts(car_of(("2024-03-01", {"price": "212", "rate": "0.86"})))
    assert ["rate-without-currency"] == codes(parts)


def test_cost__of_a_part_without_any_price_is_not_known() -> None:
    assert nuts(("2024-03-01", {"ordered": "today"})).net is None


# Laws, whatever is written

FIRST = date(2024, 1, 1)
days = st.integers(0, 60).map(lambda n: (FIRST + timedelta(n)).isoformat())
amounts = st.integers(0, 9999).map(lambda n: str(Decimal(n) / 100))
lines = st.fixed_dictionaries(
    {},
    optional={
        "qty": st.integers(0, 9).map(str), "ordered": days, "promised": days, "received": days,
        "got": st.integers(0, 9).map(str), "outcome": st.sampled_from([o.value for o in GoodsIn]),
        "why": st.just("bent"), "returned": days, "sent-back": st.integers(0, 9).map(str),
        "price": amounts, "carriage": amounts, "credited": amounts,
        "currency": st.sampled_from(["EUR", "GBP", "JPY"]), "rate": st.sampled_from(["0.86", "0"]),
    },
)  # fmt: skip


@given(st.lists(st.tuples(days, lines), min_size=1, max_size=6))
def test_part__always_agrees_with_its_own_lines(told: list[tuple[str, dict[str, Any]]]) -> None:
    sheets = [
        a_sheet(day, name=f"n{n}", parts={"nuts": line}) for n, (day, line) in enumerate(told)
    ]
    parts = fold_parts(a_car({}, sheets))
    (part,) = parts.parts
    assert part.here == part.got - part.sent_back >= 0
    assert part.due >= 0
    sums = {o: part.counted(o) for o in (*GoodsIn, None)}
    assert part.got == sum(sums.values())
    assert parts.net == sum((c.net for c in part.charges), Decimal(0))
    assert part.net is None or part.net == parts.net
    assert parts.net == sum(
        (c.net for sheet in sheets for c in parts.of_sheet(sheet.name)), Decimal(0)
    )
    if part.price is not None:
        assert (part.credited or 0) <= part.price + (part.carriage or 0)


def test_credit__for_a_part_that_nobody_told_a_price_of_is_not_counted() -> None:
    car = car_of(("2024-03-05", {"credited": "30"}))
    parts = fold_parts(car)
    (problem,) = parts.problems
    assert ("credit-above-price", 0) == (problem.code, parts.net)
    assert '30 for "nuts" is more than its price, which nobody told' == problem.message
    # The price may stand in a sheet that cannot be read.
    assert () == fold_parts(replace(car, unread=frozenset({"2024-03-01-order"}))).problems

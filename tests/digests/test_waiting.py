"""Waiting: one list of what has not come, with what each holds up, what hurts most first."""

from datetime import date
from decimal import Decimal
from typing import Any

from journal.digests.waiting import Kind, Waiting, digest_waiting
from journal.ledgers.decisions import fold_decisions
from journal.ledgers.outwork import fold_outwork
from journal.ledgers.parts import fold_parts
from journal.ledgers.snags import fold_snags
from journal.records.sheet import Sheet
from tests.writing import WORKSHOP, a_car, a_sheet

REGISTER = {"brakes/pipes": "first-fit", "brakes/hoses": "first-fit", "trim/seat": "first-fit"}


def waiting(*sheets: Sheet, day: str = "2024-03-01", **car: Any) -> Waiting:
    file = a_car(REGISTER, sheets, **car)
    return digest_waiting(
        file, parts=fold_parts(file), outwork=fold_outwork(file), decisions=fold_decisions(file),
        snags=fold_snags(file), day=date.fromisoformat(day),
    )  # fmt: skip


def order(day: str, name: str = "hoses", **line: Any) -> Sheet:
    return a_sheet(day, name=name, parts={name: {"ordered": "today", "from": "northgate", **line}})


def test_order__waits_with_its_age_and_what_it_holds_up() -> None:
    (item,) = waiting(order("2024-02-01", of=["brakes/hoses", "trim/seat"], qty="3")).items
    assert (Kind.ORDER, "northgate", 29, Decimal(3)) == (
        item.kind, item.whom, item.age, item.count,
    )  # fmt: skip
    assert (("brakes/hoses", "trim/seat"), ("brakes", "trim")) == (item.components, item.subsystems)


def test_order__that_came_waits_no_more() -> None:
    here = a_sheet("2024-02-20", parts={"hoses": {"received": "today", "outcome": "accepted"}})
    assert () == waiting(order("2024-02-01"), here).items


def test_order__is_late_by_working_days_past_the_day_promised() -> None:
    # Promised for Friday 23 February 2024; on Friday 1 March that is five working days, and four
    # with the Monday off.
    asked = order("2024-02-01", promised="2024-02-23")
    assert [5] == [item.late for item in waiting(asked).items]
    closed = {**WORKSHOP, "holidays": ["2024-02-26"]}
    assert [4] == [item.late for item in waiting(asked, workshop=closed).items]
    assert [0] == [item.late for item in waiting(asked, day="2024-02-23").items]


def test_outwork__waits_until_all_of_it_is_back() -> None:
    sent = a_sheet("2024-01-01", outwork={"plating": {"sent": "214", "of": "brakes/pipes"}})
    back = a_sheet("2024-02-01", outwork={"plating": {"back": "211"}})
    (item,) = waiting(sent, back).items
    assert (Kind.OUTWORK, Decimal(3), date(2024, 1, 1)) == (item.kind, item.count, item.since)


def test_question__waits_for_the_one_asked() -> None:
    ask = {"raise": "which green?", "ask": "owner", "on": "trim/seat"}
    told = waiting(a_sheet("2024-01-01", snags={"green": ask}))
    assert [("owner", ("trim",))] == [(i.whom, i.subsystems) for i in told.asked_of("owner")]
    assert () == told.asked_of("workshop")


def test_departure__nobody_decided_waits_too() -> None:
    work = {"brakes/pipes": {"now": "service", "why": "rust"}}
    (item,) = waiting(a_sheet("2024-01-01", work=work)).items
    assert (Kind.DEPARTURE, None, ("brakes/pipes",)) == (item.kind, item.whom, item.components)


def test_hold__on_a_component_stops_the_handover_with_the_order_for_it() -> None:
    hold = a_sheet(
        "2024-01-05", snags={"weep": {"raise": "weeps", "hold": "yes", "on": "brakes/hoses"}}
    )
    (item,) = waiting(hold, order("2024-02-01", of="brakes/hoses")).items
    assert ("weep",) == item.holds
    assert () == waiting(order("2024-02-01", of="brakes/hoses")).items[0].holds


def test_question__that_is_itself_a_hold_stops_the_handover() -> None:
    ask = {"raise": "which hoses?", "ask": "owner", "hold": "yes"}
    (item,) = waiting(a_sheet("2024-01-01", snags={"hoses": ask})).items
    assert ("hoses",) == item.holds


def test_order_of_the_list__is_what_hurts_most() -> None:
    sheets = [
        order("2023-10-01", "promised", promised="2024-06-01"),
        order("2024-02-28", "new"),
        order("2024-01-02", "old"),
        order("2024-01-02", "old-for-two", of=["brakes/pipes", "trim/seat"]),
        order("2024-02-01", "late", promised="2024-02-28"),
        order("2024-02-01", "later", promised="2024-02-05"),
        a_sheet("2024-02-29", snags={"hold": {"raise": "x?", "ask": "owner", "hold": "yes"}}),
    ]
    # A hold; then late, the latest first; then nobody promised, the oldest first, and of two as old
    # the one that holds up more; then what is promised for a day to come.
    assert ["hold", "later", "late", "old-for-two", "old", "new", "promised"] == [
        item.name for item in waiting(*sheets).items
    ]


def test_nothing__waits_for_nobody() -> None:
    assert Waiting() == waiting()


def test_lot__waits_from_the_day_on_which_it_went_and_not_from_the_first_word_of_it() -> None:
    asked = a_sheet("2024-02-01", outwork={"zinc": {"what": "Bolts", "note": "asked the plater"}})
    gone = a_sheet("2024-02-09", outwork={"zinc": {"sent": "12"}})
    (item,) = waiting(asked, gone).items
    assert (date(2024, 2, 9), gone.name) == (item.since, item.sheet)


def test_question__that_was_put_off_comes_after_all_that_waits() -> None:
    asked = a_sheet("2024-01-01", snags={"tonneau": {"raise": "Order it?", "ask": "owner"}})
    put_off = a_sheet("2024-02-01", snags={"tonneau": {"defer": "wait a winter"}})
    items = waiting(asked, put_off, order("2024-02-20")).items
    assert [("hoses", None), ("tonneau", "wait a winter")] == [(i.name, i.put_off) for i in items]

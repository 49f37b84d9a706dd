"""Re-checks: asked for, counted from delivery, due by what comes first, done once.

When a re-check counts from, and that what comes first counts, is common practice, no source. Days and
readings are worked by hand beside each check.
"""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from journal.ledgers.keepers import fold_keepers
from journal.ledgers.rechecks import Recheck, Rechecks, RecheckState, fold_rechecks
from journal.records.sheet import Sheet
from tests.writing import a_car, a_sheet

REGISTER = {"engine/cylinder-head": "first-fit", "instruments/odometer": "first-fit"}
NUTS = {"what": "Cylinder head nuts", "on": "engine/cylinder-head", "after": "500 miles or 6 weeks"}
DELIVERED = "2025-06-20"


def _fold(*sheets: Sheet, **car: Any) -> Rechecks:
    file = a_car(REGISTER, sheets, **{"delivered": DELIVERED, **car})
    return fold_rechecks(file, exchanged=fold_keepers(file).exchanged)


def _only(*sheets: Sheet, **car: Any) -> Recheck:
    (recheck,) = _fold(*sheets, **car).rechecks
    return recheck


def _asks(day: str = DELIVERED, *, odometer: str | None = "48371", **line: Any) -> Sheet:
    return a_sheet(day, odometer=odometer, rechecks={"nuts": {**NUTS, **line}})


def _read(day: str, odometer: str) -> Sheet:
    return a_sheet(day, name="read", odometer=odometer)


def _ticks(day: str, **line: Any) -> Sheet:
    return a_sheet(day, rechecks={"nuts": {"done": "a sixteenth of a turn", "by": "MT", **line}})


def test_recheck__is_due_so_far_and_so_long_after_delivery() -> None:
    recheck = _only(_asks())
    # 48,371 + 500; 20 June + 42 days.
    assert (Decimal(48871), date(2025, 8, 1)) == (recheck.due_at, recheck.due_on)
    assert ("Cylinder head nuts", "engine") == (recheck.what, recheck.subsystem)


@pytest.mark.parametrize(
    ("day", "odometer", "state"),
    [
        ("2025-06-19", "48360", RecheckState.WAITING),
        ("2025-07-31", "48870", RecheckState.AHEAD),
        # What comes first counts: the reading, and the day.
        ("2025-07-01", "48871", RecheckState.DUE),
        ("2025-07-01", "48872", RecheckState.LATE),
        ("2025-08-01", "48400", RecheckState.DUE),
        ("2025-08-02", "48400", RecheckState.LATE),
    ],
)
def test_state__goes_by_the_day_or_the_reading_that_comes_first(
    day: str, odometer: str, state: RecheckState
) -> None:
    sheets = [_asks("2025-06-12", odometer="48371"), _read(day, odometer)]
    if state is not RecheckState.WAITING:
        sheets.append(_read(DELIVERED, "48371"))
    assert state is _only(*sheets).state(date.fromisoformat(day))


def test_recheck_by_distance_alone__has_no_day_and_one_by_time_no_reading() -> None:
    far, long = _only(_asks(after="500 miles")), _only(_asks(after="2 weeks"))
    assert (Decimal(48871), None) == (far.due_at, far.due_on)
    assert (None, date(2025, 7, 4)) == (long.due_at, long.due_on)
    assert RecheckState.AHEAD is far.state(date(2050, 1, 1))


def test_recheck_asked_for_after_delivery__counts_from_its_own_sheet() -> None:
    recheck = _only(_read(DELIVERED, "48371"), _asks("2025-09-01", odometer="48900"))
    assert (date(2025, 9, 1), Decimal(49400)) == (recheck.start, recheck.due_at)


def test_recheck_done_before_delivery__counts_from_its_own_sheet() -> None:
    recheck = _only(_asks("2025-03-20", odometer="48206"), _ticks("2025-04-24"))
    assert (date(2025, 3, 20), Decimal(48706)) == (recheck.start, recheck.due_at)
    assert not recheck.was_late


def test_car_that_is_not_delivered__has_nothing_due() -> None:
    recheck = _only(_asks(), delivered=None)
    assert (None, None, RecheckState.WAITING) == (
        recheck.due_on, recheck.due_at, recheck.state(date(2030, 1, 1)),
    )  # fmt: skip


def test_distance__cannot_be_told_without_a_reading_by_then() -> None:
    recheck = _only(_asks(odometer=None), _read("2025-07-10", "48400"))
    assert (None, None, date(2025, 8, 1)) == (recheck.start_at, recheck.due_at, recheck.due_on)


def test_distance__cannot_be_told_once_another_odometer_is_in() -> None:
    other = a_sheet("2025-07-02", work={"instruments/odometer": {"now": "period-used"}})
    recheck = _only(_asks(), other, _read("2025-07-10", "12"))
    assert (None, date(2025, 7, 2)) == (recheck.due_at, recheck.exchanged)
    assert RecheckState.AHEAD is recheck.state(date(2025, 7, 10))


def test_distance_in_miles__on_an_odometer_in_kilometres() -> None:
    # 500 miles are 804.672 km.
    assert Decimal(49176) == _only(_asks(), odometer="km").due_at


@pytest.mark.parametrize(
    ("day", "odometer", "late"),
    [("2025-07-30", "48871", False), ("2025-07-30", "48872", True), ("2025-08-02", "48400", True)],
)
def test_recheck_done__tells_whether_it_was_late(day: str, odometer: str, late: bool) -> None:
    recheck = _only(_asks(), _read(day, odometer), _ticks(day))
    assert recheck.done is not None
    assert ("a sixteenth of a turn", "MT") == (recheck.done.found, recheck.done.by)
    assert (RecheckState.DONE, late) == (recheck.state(date(2026, 1, 1)), recheck.was_late)


def test_recheck_done__may_ask_for_the_next_one_at_once() -> None:
    rechecks = _fold(
        _asks(), _read("2025-07-30", "48860"), _ticks("2025-07-30", after="1000 miles")
    )
    first, second = rechecks.rechecks
    assert (False, True, 2) == (first.open, second.open, second.turn)
    assert ("Cylinder head nuts", ("engine/cylinder-head",)) == (second.what, second.on)
    assert Decimal(49860) == second.due_at
    assert () == rechecks.problems


def test_open__has_what_falls_due_first_before_the_others() -> None:
    rechecks = _fold(
        a_sheet(
            DELIVERED, odometer="48371",
            rechecks={"a": "500 miles", "b": "2 weeks", "c": "50 miles", "d": "1 week"},
        )
    )  # fmt: skip
    assert ["d", "b", "c", "a"] == [r.name for r in rechecks.open]


def _told(*sheets: Sheet) -> list[tuple[str, str, str | None]]:
    return [(p.code, p.message, p.help) for p in _fold(*sheets).problems]


def test_tick__of_what_nobody_asked_for() -> None:
    asked = a_sheet(DELIVERED, rechecks={"head-nuts": "500 miles"})
    assert [("unknown-recheck", 'no re-check "nuts" was asked for before this day',
             "ask for it first with after: and when it is due")] == _told(_ticks("2025-07-01"))  # fmt: skip
    near = a_sheet("2025-07-01", rechecks={"head-nut": {"done": "tight"}})
    assert "write head-nuts" == _told(asked, near)[0][2]


def test_line__that_says_neither_when_nor_what_was_found() -> None:
    assert [
        ("missing-key", "after of nuts is missing", "add after: 500 miles or 6 weeks")
    ] == _told(a_sheet(DELIVERED, rechecks={"nuts": {"what": "Head nuts"}}))
    assert [("missing-key", "done of nuts is missing", "add done: and what was found")] == _told(
        _asks(), a_sheet("2025-07-01", rechecks={"nuts": {"by": "MT"}})
    )


def test_name__is_asked_for_and_done_one_turn_at_a_time() -> None:
    assert ["recheck-asked-twice"] == [code for code, *_ in _told(_asks(), _asks("2025-07-01"))]
    twice = _told(_asks(), _ticks("2025-07-01"), _ticks("2025-07-02"))
    assert ["recheck-done-twice"] == [code for code, *_ in twice]

"""Snags that open by themselves: stand-ins and trial fits, until the item itself is in or off again."""

from datetime import date
from typing import Any

import pytest

from journal.ledgers.snags import Snag, SnagKind, Snags, fold_snags
from journal.records.sheet import Sheet
from tests.writing import a_car, a_sheet

REGISTER = {
    "trim/seat": {"name": "Driver's seat", "as-found": "first-fit"},
    "trim/rail": {"as-found": "first-fit", "safety": "yes"},
    "steering/wheel": "first-fit",
}


def _fold(*sheets: Sheet) -> Snags:
    return fold_snags(a_car(REGISTER, sheets))


def _only(*sheets: Sheet) -> Snag:
    (snag,) = _fold(*sheets).snags
    return snag


def _work(day: str, key: str = "trim/seat", **work: Any) -> Sheet:
    return a_sheet(day, work={key: work})


TRIED = _work("2024-01-01", did="trial-fitted")


def test_trial_fit__is_open_by_itself_and_holds_nothing() -> None:
    snag = _only(TRIED)
    assert ("trial-fit trim/seat", "Tried in place, to be fitted: Driver's seat") == (
        snag.name,
        snag.text,
    )
    assert (True, False, SnagKind.TRIAL_FIT) == (snag.open, snag.hold, snag.kind)


@pytest.mark.parametrize("key", ["steering/wheel", "trim/rail"])
def test_trial_fit__holds_where_safety_hangs_on_it(key: str) -> None:
    assert _only(_work("2024-01-01", key, did="trial-fitted")).hold


@pytest.mark.parametrize(
    ("work", "how"),
    [
        ({"did": "fitted"}, "the item itself is fitted"),
        ({"now": "pattern"}, "the item itself is fitted"),
        ({"did": "removed"}, "taken off again"),
        ({"did": ["stripped", "painted"]}, "taken off again"),
        ({"stand-in": "shelf seat"}, "off again, with a stand-in in its place"),
    ],
)
def test_trial_fit__ends_when_the_item_is_fitted_or_off_again(work: Any, how: str) -> None:
    tried = _fold(TRIED, _work("2024-02-01", **work)).snags[0]
    assert (date(2024, 2, 1), "2024-02-01-day", how) == (tried.cleared, tried.cleared_in, tried.how)


def test_trial_fit__ends_when_the_item_is_sent_out() -> None:
    lot = a_sheet("2024-02-01", outwork={"cloth": {"of": "trim/seat", "sent": "1"}})
    assert "sent out for work" == _only(TRIED, lot).how


def test_trial_fit_of_a_day__counts_by_where_the_day_leaves_the_item() -> None:
    assert () == _fold(_work("2024-01-01", did=["trial-fitted", "removed"])).snags
    assert () == _fold(_work("2024-01-01", did=["trial-fitted", "fitted"])).snags
    assert _only(_work("2024-01-01", did=["removed", "repaired", "trial-fitted"])).open


def test_trial_fit__stays_open_while_the_item_is_only_looked_at_or_proved() -> None:
    assert _only(TRIED, _work("2024-02-01", did=["inspected", "cleaned", "proved"])).open


def test_trial_fit_again__keeps_the_day_from_which_the_place_has_waited() -> None:
    snag = _only(TRIED, _work("2024-03-01", did="trial-fitted"))
    assert (date(2024, 1, 1), 90) == (snag.raised, snag.age(date(2024, 3, 31)))


def test_trial_fit__may_be_opened_anew_after_it_ended() -> None:
    snags = _fold(
        TRIED, _work("2024-02-01", did="removed"), _work("2024-03-01", did="trial-fitted")
    )
    assert [date(2024, 3, 1)] == [snag.raised for snag in snags.open]


STOOD_IN = _work(
    "2024-01-01", "steering/wheel", **{"did": "trial-fitted", "stand-in": "slave wheel"}
)


def test_stand_in__holds_and_is_no_trial_fit() -> None:
    snag = _only(STOOD_IN)
    assert (True, SnagKind.STAND_IN) == (snag.hold, snag.kind)


@pytest.mark.parametrize("act", ["stripped", "repaired", "trial-fitted"])
def test_stand_in__holds_while_the_item_itself_is_worked_on_or_tried(act: str) -> None:
    held = _fold(STOOD_IN, _work("2024-02-01", "steering/wheel", did=act)).holds
    assert "stand-in steering/wheel" in [snag.name for snag in held]


@pytest.mark.parametrize("act", ["fitted", "removed"])
def test_stand_in__ends_when_the_item_is_fitted_or_the_place_is_empty(act: str) -> None:
    assert () == _fold(STOOD_IN, _work("2024-02-01", "steering/wheel", did=act)).open


def test_snag_put_off__keeps_every_reason_with_its_day() -> None:
    snag = _only(
        a_sheet("2024-01-01", snags={"mirror": "wing mirror wanted"}),
        a_sheet("2024-02-01", snags={"mirror": {"defer": "owner to choose"}}),
        a_sheet("2024-03-01", snags={"mirror": {"defer": "after the summer"}}),
    )
    assert "after the summer" == snag.deferred
    assert [date(2024, 2, 1), date(2024, 3, 1)] == [put_off.day for put_off in snag.put_off]

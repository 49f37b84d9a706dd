"""Hours of a day: no hand has more of them than the day."""

from typing import Any

from journal.checks.hours import check_hours
from journal.records.sheet import Sheet
from tests.writing import WORKSHOP, a_car, a_sheet


def _told(*sheets: Sheet, **workshop: Any) -> list[tuple[str, str]]:
    car = a_car({}, sheets, workshop={**WORKSHOP, **workshop})
    return [(p.place.path, p.message) for p in check_hours(car) if p.code == "day-too-long"]


def test_day__of_24_hours_is_long_and_can_be() -> None:
    assert [] == _told(a_sheet("2024-03-05", hours={"MT": "24", "JB": "0"}))


def test_day__is_added_up_over_its_sheets_and_told_where_it_grows_too_long() -> None:
    first = a_sheet("2024-03-05", name="a", hours={"MT": "13", "JB": "13"})
    second = a_sheet("2024-03-05", name="b", hours={"MT": "13", "JB": "11"})
    third = a_sheet("2024-03-06", name="a", hours={"MT": "13"})
    told = "hours of MT come to 26 on one day"
    assert [(second.source.path, told)] == _told(first, second, third)


def test_day__of_the_only_hand_is_the_same_with_initials_and_without() -> None:
    first = a_sheet("2024-03-05", name="a", hours="13")
    second = a_sheet("2024-03-05", name="b", hours={"MT": "12"})
    told = "hours of MT come to 25 on one day"
    hands = {"MT": "Margit Tolland"}
    assert [(second.source.path, told)] == _told(first, second, hands=hands)


def test_hours__of_which_none_are_told_are_whose_hours_of_nobody() -> None:
    assert [] == list(check_hours(a_car({}, [a_sheet("2024-03-05", hours=[])])))

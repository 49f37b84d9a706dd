"""Contradictions: the later line stands, and the two are shown together."""

from typing import Any

import pytest

from tests.ledgers.histories import said, worked
from tests.writing import a_car, a_sheet

_KEY = "brakes/cylinder"


@pytest.mark.parametrize(
    ("lines", "code", "message"),
    [
        (
            [dict(now="pattern", original="scrapped"), dict(did="fitted", now="first-fit")],
            "refit-of-gone",
            "brakes/cylinder: the item the works fitted is put back, but it was scrapped",
        ),
        (
            [dict(now="pattern", original="bin 3"), dict(now="upgrade", original="bin 4")],
            "displaced-twice",
            "brakes/cylinder: the original is said to come off, but it came off before",
        ),
        (
            [dict(did="removed", original="scrapped"), dict(did="painted")],
            "work-after-gone",
            "brakes/cylinder: there is work on it, but it was scrapped",
        ),
        (
            [dict(now="pattern", original="lost"), dict(did="stored", original="bin 3")],
            "work-after-gone",
            "brakes/cylinder: the original is said to be kept, but it was lost",
        ),
        (
            [dict(did="removed"), dict(did="removed")],
            "removed-twice",
            "brakes/cylinder: it is taken off twice, and not fitted in between",
        ),
        (
            [dict(did="removed"), dict(did="proved")],
            "proved-unfitted",
            "brakes/cylinder: it is proved before it is fitted",
        ),
        (
            [dict(retained="0.6"), dict(retained="0.8")],
            "retained-rises",
            "brakes/cylinder: more original material is left in it than before",
        ),
        (
            [dict(now="first-fit")],
            "already-there",
            "brakes/cylinder: another item is said to take its place, but the first-fit one is there already",
        ),
    ],
)
def test_contradiction__is_found_and_told(
    lines: list[dict[str, Any]], code: str, message: str
) -> None:
    sheets = [worked(f"2024-0{n}-01", _KEY, **line) for n, line in enumerate(lines, 1)]
    assert [(code, message)] == said(a_car({_KEY: "first-fit"}, sheets))


def test_contradiction__original_claimed_for_what_was_found_to_be_a_copy() -> None:
    sheets = [worked("2024-01-01", _KEY, now="old-stock", original="bin 3")]
    message = "brakes/cylinder: the original is said to come off, but what was there is pattern"
    assert [("not-original", message)] == said(a_car({_KEY: "pattern"}, sheets))


def test_contradiction__two_items_cannot_both_be_the_one_the_works_fitted() -> None:
    sheets = [
        worked("2024-01-01", _KEY, did="fitted", now="first-fit"),
        worked("2024-02-01", _KEY, was="first-fit"),
    ]
    message = (
        "brakes/cylinder: what was found is said to be first-fit, "
        "but another item is said to be that"
    )
    assert [("two-first-fit", message)] == said(a_car({_KEY: "pattern"}, sheets))


def test_contradiction__work_where_nothing_is() -> None:
    sheets = [worked("2024-01-01", _KEY, did="painted")]
    message = "brakes/cylinder: there is work on it, but nothing is there"
    assert [("work-on-absent", message)] == said(a_car({_KEY: "absent"}, sheets))


def test_contradiction__fitted_while_out_for_work() -> None:
    sheets = [
        a_sheet("2024-01-01", outwork={"sleeves": {"of": _KEY, "sent": "2"}}),
        worked("2024-01-02", _KEY, did="fitted"),
    ]
    message = "brakes/cylinder: it is fitted while it is out for work"
    assert [("fitted-while-out", message)] == said(a_car({_KEY: "first-fit"}, sheets))


def test_correction__may_say_that_more_metal_was_left() -> None:
    sheets = [
        worked("2024-01-01", _KEY, did="welded", retained="0.6"),
        a_sheet("2024-02-01", corrects="2024-01-01-day", work={_KEY: {"retained": "0.7"}}),
    ]
    assert [] == said(a_car({_KEY: "first-fit"}, sheets))

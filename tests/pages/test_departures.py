"""What pages say of departures, of items kept, of numbers in dispute, and of pictures that compare."""

from typing import Any

import pytest

from journal.records.carfile import CarFile
from tests.pages.test_pages import CARS, PHOTO, a_view, text_of
from tests.writing import a_car, a_sheet


def a_car_with(work: dict[str, Any], found: str = "first-fit") -> CarFile:
    sheet = a_sheet("2024-03-05", name="pipes", subsystem="brakes", work={"brakes/pipes": work})
    return a_car({"brakes/pipes": found}, [sheet])


def test_witness__is_said_to_stay_out_of_use_wherever_it_is_shown() -> None:
    work = {
        "did": "fitted", "now": "service", "original": "board", "usable": "no", "reversible": "yes",
    }  # fmt: skip
    view = a_view(a_car_with(work))
    for path in (
        "departures.html", "components/brakes/pipes.html", "sheets/2024-03-05-pipes.html",
        "subsystems/brakes.html", "ledger.html",
    ):  # fmt: skip
        assert "as a witness, not to go back into use" in text_of(view, path), path
    assert "no; kept as a witness" in text_of(view, "departures.html")


@pytest.mark.parametrize(
    ("found", "now", "passage", "left"),
    [
        ("first-fit", "upgrade", "gave way to", True),
        ("service", "service", "was a departure already, and was renewed as", False),
        ("service", "upgrade", "was a departure already, and gave way to", False),
        ("unknown", "service", "item; its place was taken by", True),
    ],
)
def test_departure__that_was_one_already_is_told_apart(
    found: str, now: str, passage: str, left: bool
) -> None:
    work = {"did": "fitted", "now": now, "came-off": "scrapped"}
    view = a_view(a_car_with(work, found))
    shown = text_of(view, "departures.html")
    assert f'<span class="to">{passage}</span>' in shown
    assert ("when the car came in, and renewed" in shown) is not left
    for path in ("subsystems/brakes.html", "components/brakes/pipes.html"):
        assert ("departs from the works specification</p>" in text_of(view, path)) is left


def test_ledger__has_its_lines_before_the_reckoning() -> None:
    shown = text_of(a_view(CARS["busy"]), "ledger.html")
    places = [shown.index(f'id="{name}"') for name in ("lines", "by-subsystem", "reckoned")]
    assert places == sorted(places)


def test_disputed_number__is_told_on_the_component_and_in_the_ledger() -> None:
    car = a_car(
        {"papers/tag": "first-fit"}, numbers={"body": {"on": "papers/tag", "found": "D 0398"}},
        papers={"card": {"title": "Build card", "numbers": {"body": "D 0393"}}},
    )  # fmt: skip
    for path in ("components/papers/tag.html", "ledger.html"):
        shown = text_of(a_view(car), path)
        assert "as D 0393 by Build card and as D 0398 by the car as found" in shown, path
        assert 'numbers.html#number-body"' in shown


def _pictured(first: list[str], last: list[str], now: str | None) -> CarFile:
    seats = ["trim/seat", "trim/squab", "trim/belt", "trim/piping"]
    work = {"trim/seat": {"did": "fitted", "now": now}} if now else {}
    before: dict[str, Any] = {"photos": {"file": PHOTO, "of": first, "stage": "as-found"}}
    after: dict[str, Any] = {"photos": {"file": PHOTO, "of": last, "stage": "as-finished"}}
    sheets = [a_sheet("2024-03-05", subsystem="trim", **before)]
    sheets.append(a_sheet("2024-03-06", name="after", subsystem="trim", work=work, **after))
    return a_car(dict.fromkeys(seats, "first-fit"), sheets, photos=[PHOTO])


@pytest.mark.parametrize(
    ("first", "last", "now", "paired"),
    [
        (["trim/seat"], ["trim/seat"], None, True),
        (["trim/seat"], ["trim/seat"], "pattern", False),
        (["trim/seat", "trim/squab"], ["trim/seat", "trim/squab"], "pattern", True),
        (["trim/seat"], ["trim/seat", "trim/squab", "trim/belt", "trim/piping"], None, False),
    ],
)
def test_before_and_after__needs_two_pictures_of_one_thing(
    first: list[str], last: list[str], now: str | None, paired: bool
) -> None:
    view = a_view(_pictured(first, last, now))
    assert ("Before and after" in text_of(view, "components/trim/seat.html")) is paired

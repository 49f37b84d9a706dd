"""Pages of parts, outwork and suppliers: what is told, to whom, and sums that are sums."""

import re
from decimal import Decimal
from html import unescape
from typing import Any

import pytest

from journal.outputs.theme import environment, theme_folder
from journal.pages.outwork import page_outwork
from journal.pages.page import Page
from journal.pages.parts import page_parts
from journal.pages.suppliers import page_suppliers
from journal.pages.view import view_of
from journal.readers import car_for
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.writing import a_car, a_sheet

TEMPLATES = environment(theme_folder())
MAKERS = {"parts": page_parts, "outwork": page_outwork, "suppliers": page_suppliers}
GRUMBLE = "cone bored wrong"


def a_chase() -> CarFile:
    """A car with a part of every fate and lots out and home."""
    foreign = {"price": "48.00", "carriage": "16.50", "currency": "EUR", "rate": "0.852"}
    come = {"ordered": "2024-01-24", "received": "2024-02-09", "from": "northgate"}
    parts: dict[str, Any] = {
        "cylinders": {"qty": "6", "price": "171", "promised": "2024-02-05", "got": "4", **come},
        "wire": {**foreign, **come, "outcome": "accepted", "fitted": "2024-02-12"},
        "ring": {
            "price": "44", **come, "outcome": "rejected", "why": GRUMBLE, "returned": "2024-02-12",
        },
    }  # fmt: skip
    lots = {
        "zinc": {"to": "northgate", "sent": "214", "due": "2024-02-02", "cost": "118"},
        "shoes": {"to": "northgate", "sent": "8", "cost": "96"},
    }
    first = a_sheet("2024-01-25", outwork=lots)
    second = a_sheet(
        "2024-02-12", parts=parts, hours={"MT": {"hours": "0.5", "because": "ring"}},
        outwork={"zinc": {"back": "211"}, "shoes": {"back": "8", "finish": "woven lining"}},
    )  # fmt: skip
    return a_car({"brakes/pipes": "first-fit"}, [first, second])


def pages(name: str, reader: Reader, car: CarFile | None = None) -> tuple[Page, ...]:
    view = view_of(car_for(reader, car or a_chase()), reader, pictures={})
    return MAKERS[name](view)


def text_of(name: str, reader: Reader = Reader.WORKSHOP, car: CarFile | None = None) -> str:
    (page,) = pages(name, reader, car)
    return unescape(TEMPLATES.get_template(page.template).render(page.values))


def test_suppliers__are_for_the_workshop_alone() -> None:
    assert 1 == len(pages("suppliers", Reader.WORKSHOP))
    assert () == pages("suppliers", Reader.OWNER) == pages("suppliers", Reader.PUBLIC)
    for name in ("parts", "outwork"):
        assert "suppliers.html" in text_of(name)
        assert "suppliers.html" not in text_of(name, Reader.OWNER) + text_of(name, Reader.PUBLIC)


def test_owner__sees_where_a_part_came_from_and_not_the_grumble() -> None:
    seen = text_of("parts", Reader.OWNER)
    assert "Northgate Gears" in seen
    assert "rejected" in seen
    assert GRUMBLE not in seen
    assert "lost by it" not in seen
    assert GRUMBLE in text_of("parts")
    assert "0.5 hours lost by it" in text_of("parts")


def test_public__sees_no_money_and_no_supplier() -> None:
    for name in ("parts", "outwork"):
        seen = text_of(name, Reader.PUBLIC)
        assert "£" not in seen
        assert "EUR" not in seen
        assert "Northgate" not in seen


def test_part__with_a_box_to_come_stands_under_still_to_come() -> None:
    seen = text_of("parts")
    waiting = seen[seen.index("Still to come") :]
    assert waiting.index("Cylinders") < waiting.index("Rejected or sent back")
    assert "4 received 9 February 2024" in waiting
    assert "5 working days overdue" in waiting


def test_part__from_abroad_tells_how_its_cost_came_about() -> None:
    seen = text_of("parts")
    for words in ("£54.96", "EUR 48.00 at 0.852", "EUR 16.50 carriage", "credit not in yet"):
        assert words in seen


@pytest.mark.parametrize("reader", [Reader.WORKSHOP, Reader.OWNER])
def test_costs__of_the_rows_add_up_to_the_cost_told_above_them(reader: Reader) -> None:
    (page,) = pages("parts", reader)
    rows = [row for group in page.values["groups"] for row in group.rows]
    total = sum((Decimal(row.cost.lstrip("£")) for row in rows if row.cost), Decimal(0))
    assert Decimal("269.96") == total  # 171.00 + 54.96 + 44.00
    assert f"£{total}" in page.values["lead"]


def test_outwork__short_and_overdue_is_told_in_words_and_in_red() -> None:
    seen = text_of("outwork")
    assert re.search(r'hold">214 sent, 211 back, 3 still out<', seen)
    assert re.search(r'hold">6 working days overdue<', seen)
    assert "Two lots sent to other trades, 3 items still out, one lot overdue." in seen
    assert "woven lining" in seen
    assert "£214.00" in seen


def test_suppliers__draw_the_share_within_its_interval() -> None:
    (page,) = pages("suppliers", Reader.WORKSHOP)
    (row,) = page.values["drawn"]
    low, width, high, at = (
        Decimal(v) for v in (row.drawn.low, row.drawn.width, row.drawn.high, row.drawn.x)
    )
    assert (50, high) == (at, low + width)
    assert low < at < high
    assert "1 of 2" == row.right
    assert "1 of 2 right the first time" in row.drawn.words


@pytest.mark.parametrize("name", MAKERS)
def test_page__without_anything_on_it_says_what_would_stand_there(name: str) -> None:
    seen = text_of(name, car=a_car({}))
    assert "<table" not in seen
    assert 'class="lead"' in seen

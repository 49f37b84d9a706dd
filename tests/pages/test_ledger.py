"""The page of the ledger: what its filter asks, and what each line answers."""

import re
from typing import Any

from journal.outputs.theme import environment, theme_folder
from journal.pages.ledger import page_ledger
from journal.pages.page import Page
from journal.pages.view import view_of
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.writing import a_car, a_sheet

REGISTER = {
    "brakes/pipes": "first-fit", "brakes/hoses": "service", "trim/seat": "unknown", "hood/frame": "pattern",
}  # fmt: skip


def printed(page: Page) -> str:
    return environment(theme_folder()).get_template(page.template).render(page.values)


def _page(car: CarFile) -> Any:
    (page,) = page_ledger(view_of(car, Reader.WORKSHOP, pictures={}))
    return page


def _choices(car: CarFile) -> dict[str, list[tuple[str, str]]]:
    return {choice.name: list(choice.answers) for choice in _page(car).values["choices"]}


def test_filter__asks_only_what_some_line_answers_in_the_order_of_the_words() -> None:
    assert {
        "origin": [(o, o) for o in ("first-fit", "pattern", "service", "unknown")],
        "subsystem": [("brakes", "Brakes"), ("trim", "Trim"), ("hood", "Hood")],
        "evidence": [("stated", "stated")],
    } == _choices(a_car(REGISTER))


def test_filter__counts_what_is_gone_as_absent_as_the_table_of_origins_does() -> None:
    gone = a_sheet("2024-03-05", work={"brakes/pipes": {"did": "removed", "original": "scrapped"}})
    car = a_car(REGISTER, [gone])
    assert ("absent", "absent") in _choices(car)["origin"]
    assert ("first-fit", "first-fit") not in _choices(car)["origin"]
    (absent,) = [row for row in _page(car).values["origins"] if row.mark.slug == "absent"]
    assert "1" == absent.now


def test_line__answers_every_question_in_its_markup() -> None:
    lines = re.findall(
        r'data-origin="(.*?)" data-subsystem="(.*?)" data-evidence="(.*?)"',
        printed(_page(a_car(REGISTER))),
    )
    assert [
        ("first-fit", "brakes", "stated"), ("service", "brakes", "stated"),
        ("unknown", "trim", "stated"), ("pattern", "hood", "stated"),
    ] == lines  # fmt: skip


def test_filter__waits_for_its_script() -> None:
    page = _page(a_car(REGISTER))
    assert ("filter.js",) == page.values["scripts"]
    assert re.search(r'<form class="filter"[^>]* hidden>', printed(page))


def test_filter__is_not_there_when_there_are_no_lines() -> None:
    assert '<form class="filter"' not in printed(_page(a_car({})))

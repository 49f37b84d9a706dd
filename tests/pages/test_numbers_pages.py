"""The pages of readings, of numbers and keepers, and of papers."""

from typing import Any

import pytest

from journal.outputs.theme import environment, theme_folder
from journal.pages.measured import page_measured
from journal.pages.numbers import page_numbers
from journal.pages.papers import page_papers
from journal.pages.view import view_of
from journal.readers import car_for
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.pages.picturing import published
from tests.writing import a_car, a_sheet

TEMPLATES = environment(theme_folder())
SCANS = {"book.jpg": published(width=1600, height=2250, folder="papers/files")}


def _shown(pages: Any, car: CarFile, reader: Reader = Reader.WORKSHOP, **more: Any) -> str:
    view = view_of(car_for(reader, car), reader, pictures={}, **more)
    (page,) = pages(view)
    text = TEMPLATES.get_template(page.template).render(page.values)
    return " ".join(text.replace("\N{NO-BREAK SPACE}", " ").split())


def _car(*sheets: Any, **more: Any) -> CarFile:
    papers = {
        "card": {
            "title": "Build card", "kind": "factory record", "numbers": {"body": "D 0393"}, "for": "public",
        },
        "book": {
            "title": "Registration book", "date": "1964-03-09", "file": "book.jpg", "registration": "TERN 58",
            "keepers": [
                {"name": "Miss Ada Fenwick", "from": "1958-05-22", "to": "1961-08-14"},
                {"name": "Mr Ben Harker", "from": "1962-02-05"},
            ],
        },
        "bill": {"title": "Garage bill", "date": "1967-11-20", "odometer": "31904"},
        "later": {"title": "Later bill", "date": "1969-06-03", "odometer": "29310"},
    }  # fmt: skip
    numbers = {"body": {"found": "D 0398", "on": "papers/body-tag"}}
    return a_car(
        {"papers/body-tag": "first-fit", "gearbox/laygear": "first-fit"}, sheets, papers=papers,
        **{"numbers": numbers, "owner": "Ben Harker", "mileage": "48,206", **more},
    )  # fmt: skip


def _laygear(day: str, *read: str) -> Any:
    data = {
        "on": "gearbox/laygear",
        "read": list(read),
        "unit": "mm",
        "limit": ["0.05", "0.15"],
    }
    return a_sheet(day, measured={"end float": data})


# Measured


def test_readings__are_told_in_both_systems() -> None:
    shown = _shown(page_measured, _car(_laygear("2024-01-01", "0.22", "0.24")))
    assert "0.22, 0.24 mm <small>8.7, 9.4 thou</small>" in shown
    assert "0.05 to 0.15 mm" in shown
    assert "2.0 to 5.9 thou" in shown


def test_readings__taken_again_are_drawn_and_the_change_is_told() -> None:
    car = _car(_laygear("2024-01-01", "0.22", "0.24"), _laygear("2024-02-01", "0.10", "0.11"))
    shown = _shown(page_measured, car)
    assert "0.125 mm less, on the mean" in shown
    assert (
        "End float: 0.22, 0.24 mm outside its limit; then 0.10, 0.11 mm within its limit" in shown
    )


def test_sides__stand_side_by_side() -> None:
    effort = {"read": ["182", "141"], "unit": "kgf", "note": "Near side, off side"}
    shown = _shown(page_measured, _car(a_sheet("2024-01-01", measured={"effort": effort})))
    for words in (
        "Near side</th>",
        "182 kgf <small>401 lbf</small>",
        "41 kgf",
        "23 % of the greater",
    ):
        assert words in shown


def test_page_of_readings__without_any_says_what_would_stand_there() -> None:
    assert "would stand here" in _shown(page_measured, a_car({}))


# Numbers and keepers


def test_numbers__in_dispute_stand_side_by_side() -> None:
    shown = _shown(page_numbers, _car())
    for words in (
        "One number",
        "one in dispute",
        "D 0393",
        "D 0398",
        "Differs from the factory record",
    ):
        assert words in shown


@pytest.mark.parametrize(
    ("delivered", "words"), [("2025-06-20", "As delivered"), (None, "As it stands")]
)
def test_numbers__are_as_delivered_once_the_car_is(delivered: str | None, words: str) -> None:
    more = {"delivered": delivered} if delivered else {}
    assert f"<dt>{words}</dt>" in _shown(page_numbers, _car(**more))


def test_keepers__stand_in_a_chain_with_its_gap() -> None:
    shown = _shown(page_numbers, _car())
    assert "Miss Ada Fenwick" in shown
    assert "No paper tells who had the car from 14 August 1961 to 5 February 1962" in shown


def test_odometer__that_runs_backwards_is_shown_with_both_papers() -> None:
    shown = _shown(page_numbers, _car())
    assert "Readings run backwards" in shown
    assert "Less than 31,904 miles on 20 November 1967" in shown
    assert "29,310 miles <small>47,170 km</small>" in shown


def test_page_of_numbers__for_the_public_claims_no_agreement_and_names_nobody() -> None:
    shown = _shown(page_numbers, _car(), Reader.PUBLIC)
    assert "the last characters of each are not shown here" in shown
    for word in (
        "Fenwick",
        "Harker",
        "TERN 58",
        "0398",
        "0393",
        "grees with",
        "nothing speaks against",
    ):
        assert word not in shown
    assert "No paper that is shown here tells who kept the car" in shown


def test_page_of_numbers__of_an_empty_car_says_what_would_stand_there() -> None:
    shown = _shown(page_numbers, a_car({}))
    assert (
        "Stamped numbers, as the papers give them and as they were read, would stand here" in shown
    )
    assert "would stand here" in shown


# Papers


def test_paper__shows_its_scan_with_a_caption() -> None:
    shown = _shown(page_papers, _car(), scans=SCANS)
    assert 'href="papers/files/a-1600.jpg"' in shown
    assert 'alt="Scan: Registration book, 9 March 1964"' in shown
    assert "<figcaption>Registration book, 9 March 1964</figcaption>" in shown


def test_paper__whose_scan_is_not_published_shows_none() -> None:
    assert "<figure" not in _shown(page_papers, _car())


def test_paper__tells_its_keepers_registration_and_odometer() -> None:
    shown = _shown(page_papers, _car())
    for words in (
        "Keepers: Miss Ada Fenwick (1958 to 1961) and Mr Ben Harker (from 1962)",
        "Registration: TERN 58",
        "Odometer: 31,904 miles",
    ):
        assert words in shown


def test_papers__of_the_owner_are_not_the_public_s() -> None:
    shown = _shown(page_papers, _car(), Reader.PUBLIC, scans=SCANS)
    assert "Build card" in shown
    assert "Registration book" not in shown

"""Words in the place of pictures: asked for wherever the owner sees one."""

from typing import Any

import pytest
from msgspec.structs import replace

from journal.checks.alttext import check_alttext
from journal.records.carfile import CarFile
from tests.writing import a_car, a_sheet

PHOTO = "2024-03-05/pipes.jpg"


def _car(photo: Any = "pipes.jpg", papers: Any = None, **front: Any) -> CarFile:
    sheet = a_sheet("2024-03-05", photos=[photo], **front)
    car = a_car({}, [sheet], papers=papers, photos=[PHOTO])
    return replace(car, paper_files=frozenset({"card.JPG", "card.pdf"}))


def _told(car: CarFile) -> list[str]:
    return [p.message for p in check_alttext(car)]


@pytest.mark.parametrize(
    ("photo", "front", "told"),
    [
        ("pipes.jpg", {}, True),
        ({"file": "pipes.jpg", "caption": "Nine pipes"}, {}, True),
        ({"file": "pipes.jpg", "for": "owner"}, {"for_": "owner"}, True),
        ({"file": "pipes.jpg", "alt": "Pipes.jpg"}, {}, True),
        ({"file": "pipes.jpg", "alt": "nine bent pipes on a board"}, {}, False),
        ({"file": "pipes.jpg", "for": "workshop"}, {}, False),
        ("pipes.jpg", {"for_": "workshop"}, False),
        ("lost.jpg", {}, False),
    ],
)
def test_photograph__that_the_owner_sees_has_words(
    photo: Any, front: dict[str, Any], told: bool
) -> None:
    message = 'the photograph "pipes.jpg" has no alt text'
    assert ([message] if told else []) == _told(_car(photo, **front))


@pytest.mark.parametrize(
    ("paper", "told"),
    [
        ({"file": "card.JPG"}, ['the scan "card.JPG" has no alt text']),
        ({"file": "card.JPG", "alt": "a filled-in card"}, []),
        ({"file": "card.JPG", "for": "workshop"}, []),
        ({"file": "card.pdf"}, []),
        ({"file": "lost.jpg"}, []),
        ({}, []),
    ],
)
def test_scan__that_is_a_picture_has_words(paper: dict[str, str], told: list[str]) -> None:
    car = _car({"file": "pipes.jpg", "alt": "nine bent pipes"}, {"card": {"title": "C", **paper}})
    assert told == _told(car)


def test_help__gives_the_line_as_it_is_to_be_written() -> None:
    (problem,) = check_alttext(_car())
    asked = "say what is seen, as in {file: pipes.jpg, alt: a gear wheel with three chipped teeth}"
    assert asked == problem.help

"""Which files a reader may be told of by name: what they read of, and nothing that lies beside it."""

import pytest

from journal.readers import car_for, files_told
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.writing import a_car, a_sheet

SHEETS = ("sheets/2024-03-05-day.md", "sheets/2024-03-06-day.md")
PHOTOS = ("photos/2024-03-05/a.jpg", "photos/2024-03-05/b.jpg")
FILES = (*SHEETS, *PHOTOS, "car.yaml", "sheets/gone.md", "photos/2024-03-05/unused.jpg")


def _car() -> CarFile:
    photos = ["a.jpg", {"file": "b.jpg", "for": "workshop"}]
    return a_car(
        {},
        [
            a_sheet("2024-03-05", photos=photos),
            a_sheet("2024-03-06", for_="workshop"),
        ],
        photos=["2024-03-05/a.jpg", "2024-03-05/b.jpg", "2024-03-05/unused.jpg"],
    )


@pytest.mark.parametrize(
    ("reader", "told"),
    [
        (Reader.WORKSHOP, set(FILES)),
        (Reader.OWNER, {SHEETS[0], PHOTOS[0], "car.yaml"}),
        (Reader.PUBLIC, set()),
    ],
)
def test_files__are_told_by_name_to_those_who_read_of_them(reader: Reader, told: set[str]) -> None:
    assert told == files_told(reader, car_for(reader, _car()), FILES)

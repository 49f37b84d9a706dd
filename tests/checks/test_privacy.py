"""File names of sheets: the public reads them, and nothing is masked in them."""

from typing import Any

import pytest

from journal.checks.privacy import check_privacy
from tests.writing import a_car, a_sheet


def _told(name: str, *, public: str = "yes", **front: Any) -> list[str]:
    car = a_car(
        {}, [a_sheet("2024-03-05", name=name, **front)],
        numbers={"chassis": {"found": "TD 58/0417"}, "gearbox": {"found": "41"}}, public=public,
    )  # fmt: skip
    return [p.message.split(",")[0] for p in check_privacy(car) if p.code == "telling-file-name"]


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("pipes-made", []),
        ("mrs-harrow-looks-in", ["the file name tells Mrs Eleanor Harrow"]),
        ("harrowing-day", []),
        ("birkett-on-holiday", ["the file name tells Jonah Birkett"]),
        ("td-58-0417-found", ["the file name tells TD 58/0417"]),
        ("41-bolts", []),
    ],
)
def test_file_name__tells_no_person_and_no_full_number(name: str, told: list[str]) -> None:
    assert told == _told(name)


def test_file_name__is_nobodys_business_where_the_public_does_not_read_it() -> None:
    assert [] == _told("mrs-harrow-looks-in", public="no")
    assert [] == _told("mrs-harrow-looks-in", for_="owner")

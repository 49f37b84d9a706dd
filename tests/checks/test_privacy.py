"""What stands where its readers cannot see it, and what is to be shown and is not there."""

from typing import Any

import pytest

from journal.checks.privacy import check_privacy
from tests.writing import a_car, a_sheet


def _codes(*, sheet: dict[str, Any] | None = None, **car: Any) -> list[str]:
    return [p.code for p in check_privacy(a_car({}, [a_sheet("2024-03-05", **sheet or {})], **car))]


@pytest.mark.parametrize(
    ("front", "codes"),
    [
        ({"for_": "workshop", "work": {"brakes/pipes": "fitted"}}, ["private-work"]),
        ({"for_": "workshop", "proving": {"brakes/oil": "up"}}, ["private-work"]),
        ({"for_": "owner", "work": {"brakes/pipes": "fitted"}}, []),
        ({"for_": "workshop"}, []),
    ],
)
def test_sheet_for_the_workshop__tells_of_no_work(front: dict[str, Any], codes: list[str]) -> None:
    assert codes == _codes(sheet=front)


def test_plate__that_the_public_is_to_see_is_written() -> None:
    assert ["no-plate"] == _codes(plate_shown="yes")
    assert [] == _codes(plate_shown="yes", plate="SVX 417")
    assert [] == _codes(plate_shown="no")

"""The page of readings: side against side."""

import pytest

from journal.pages.measured import page_measured
from tests.pages.searching import a_view
from tests.writing import a_car, a_sheet


@pytest.mark.parametrize(
    ("near", "off", "told"),
    [
        ("0.12", "0.04", "0.08 mm"),
        # The finer of the two readings decides: a tenth against eight hundredths is not nothing.
        ("0.1", "0.08", "0.02 mm"),
        ("0.08", "0.1", "0.02 mm"),
        ("0.1", "0.10", "the same"),
        (["3", "4"], ["3.5", "3.7"], "0.1 mm"),
    ],
)
def test_sides__are_as_far_apart_as_the_finer_reading_tells(
    near: str | list[str], off: str | list[str], told: str
) -> None:
    measured = {
        f"bore {side}": {"on": "brakes/drums", "read": read, "unit": "mm"}
        for side, read in (("near side", near), ("off side", off))
    }
    car = a_car({"brakes/drums": "first-fit"}, [a_sheet("2024-03-05", measured=measured)])
    (page,) = page_measured(a_view(car))
    (table,) = page.values["sides"]
    assert [told] == [pair.apart.replace("\N{NO-BREAK SPACE}", " ") for pair in table.pairs]

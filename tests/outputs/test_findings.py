"""What is wrong in a car is the same whoever folded it: its record alone, or a view for its pages."""

import pytest
from msgspec.structs import replace

from journal.outputs.findings import problems_of_car
from journal.pages.view import view_of
from journal.reading.content import read_content
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.published import CONTENT
from tests.test_twenty import TWENTY

CARS = {
    f"{root.name}/{car.name}": car for root in (CONTENT, TWENTY) for car in read_content(root).cars
}


@pytest.mark.parametrize("name", CARS)
def test_problems__are_the_same_by_the_folds_of_a_view(name: str) -> None:
    car = CARS[name]
    # A photograph that cannot be shown is none to the pages, and is one in the record.
    seen = view_of(replace(car, photo_files=frozenset()), Reader.WORKSHOP, pictures={})
    assert problems_of_car(car) == problems_of_car(car, seen)
    assert "originality" in vars(seen)


def test_problems__are_those_of_the_record_though_a_view_shows_less_of_it() -> None:
    car = CARS["twenty/tern"]
    less: CarFile = replace(car, sheets=car.sheets[:1])
    seen = view_of(less, Reader.WORKSHOP, pictures={})
    assert problems_of_car(car) == problems_of_car(car, seen)
    assert "originality" not in vars(seen)

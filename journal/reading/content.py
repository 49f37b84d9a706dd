"""A whole content folder: the workshop and every car in it."""

from pathlib import Path

from journal.reading.car import AFRESH, Ways, misnamed, read_car
from journal.reading.files import car_folders
from journal.records.carfile import CarFile, Content
from journal.records.fields import Named
from journal.records.place import Place, Source
from journal.records.problem import Problem, problem_order
from journal.records.terms import Terms
from journal.records.workshop import Workshop
from journal.words.names import is_slug

TERMS = "terms.yaml"


def read_content(root: Path) -> Content:
    """Everything under a content folder, with all that is wrong in it, in order.

    A car is a folder that holds a `car.yaml`. One broken sheet costs that sheet, one broken car
    file that car.
    """
    workshop, source, problems = read_workshop(root)
    cars: list[CarFile] = []
    if workshop is not None:
        names, wrong = car_folders(root)
        problems += wrong
        for name in names:
            car, wrong = read_car(root, name, workshop, source)
            problems += wrong
            if car is not None:
                cars.append(car)
        if not cars and not problems:
            problems.append(_no_cars())
    return Content(workshop, source, tuple(cars), tuple(sorted(problems, key=problem_order)))


def read_workshop(root: Path, ways: Ways = AFRESH) -> tuple[Workshop | None, Source, list[Problem]]:
    """The workshop, without subsystems of its own whose names can name no page; with what is wrong in its
    words for things and acts."""
    workshop, source, problems = ways.yaml(root, "workshop.yaml", Workshop)
    problems += read_terms(root, ways)[1]
    if workshop is None:
        return None, source, problems
    problems += misnamed(source, ("subsystems",), workshop.subsystems.names())
    own = Named((name, entry) for name, entry in workshop.subsystems if is_slug(name))
    return workshop.model_copy(update={"subsystems": own}), source, problems


def read_terms(root: Path, ways: Ways = AFRESH) -> tuple[Terms | None, list[Problem]]:
    """The workshop's own words for things and acts, None where it has none or they cannot be read."""
    if not (root / TERMS).exists():
        return None, []
    terms, _, problems = ways.yaml(root, TERMS, Terms)
    return terms, problems


def car_names(root: Path) -> tuple[str, ...]:
    """The names of the folders that hold a car file, in alphabetical order, without hidden ones."""
    return car_folders(root)[0]


def _no_cars() -> Problem:
    way = "open a car file with journal book-in"
    return Problem(Place("workshop.yaml", 1), "no-cars", "the workshop has no car file", help=way)

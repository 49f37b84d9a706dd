"""A whole content folder: the workshop and every car in it."""

from pathlib import Path

from journal.reading.car import read_car, read_yaml_file
from journal.records.carfile import CarFile, Content
from journal.records.place import Place
from journal.records.problem import Problem, problem_order
from journal.records.workshop import Workshop


def read_content(root: Path) -> Content:
    """Everything under a content folder, with all that is wrong in it, in order.

    A car is a folder that holds a `car.yaml`. One broken sheet costs that sheet, one broken car
    file that car.
    """
    workshop, source, problems = read_yaml_file(root, "workshop.yaml", Workshop)
    cars: list[CarFile] = []
    if workshop is not None:
        for name in car_names(root):
            car, wrong = read_car(root, name, workshop, source)
            problems += wrong
            if car is not None:
                cars.append(car)
        if not cars and not problems:
            problems.append(_no_cars())
    return Content(workshop, source, tuple(cars), tuple(sorted(problems, key=problem_order)))


def car_names(root: Path) -> tuple[str, ...]:
    """The names of the folders that hold a car file, in alphabetical order, without hidden ones."""
    names = (path.parent.name for path in root.glob("*/car.yaml"))
    return tuple(sorted(name for name in names if not name.startswith(".")))


def _no_cars() -> Problem:
    way = "open a car file with journal book-in"
    return Problem(Place("workshop.yaml", 1), "no-cars", "the workshop has no car file", help=way)

"""Everything that is wrong in a content folder: from reading, from the checks, from the folds."""

from msgspec.structs import replace

from journal.checks import check_car
from journal.digests.money.fold import unpriced
from journal.pages.view import CarView, view_of
from journal.records.carfile import CarFile, Content
from journal.records.problem import Problem, problem_order
from journal.words.vocabulary import Reader


def problems_of(content: Content) -> tuple[Problem, ...]:
    """All problems of all cars, each once, in order of place."""
    found = {*content.problems}
    for car in content.cars:
        found |= {*problems_of_car(car)}
    return tuple(sorted(found, key=problem_order))


def problems_of_car(car: CarFile, seen: CarView | None = None) -> tuple[Problem, ...]:
    """What the checks and the folds find in one car.

    `seen` is a view of it, if there is one: where that is of the same record, its folds serve for both.
    """
    view = seen if seen is not None and _same(car, seen.car) else _whole(car)
    folded = (
        *view.originality.problems,
        *view.snags.problems,
        *view.proving.problems,
        *view.parts.problems,
        *view.outwork.problems,
        *view.measured.problems,
        *view.keepers.problems,
        *view.rechecks.problems,
        *unpriced(car),
        *view.sums.problems,
    )
    return tuple(sorted({*check_car(car), *folded}, key=problem_order))


def _whole(car: CarFile) -> CarView:
    return view_of(car, Reader.WORKSHOP, pictures={})


def _same(car: CarFile, seen: CarFile) -> bool:
    """Whether two are the same but for their photographs, of which no fold finds anything wrong."""
    if seen.sheets is not car.sheets:
        return False
    return replace(seen, photo_files=car.photo_files, photo_facts=car.photo_facts) == car

"""A view of a car: every ledger is folded once."""

from functools import cached_property

from journal.pages.view import CarView, view_of
from journal.reading.content import read_content
from journal.records.place import Place
from journal.records.problem import Problem, Severity
from journal.words.vocabulary import Reader
from tests.published import CAR, CONTENT

FOUND = (Problem(Place("tern/car.yaml", 1), "bad-date", "must be a date", Severity.ERROR),)


def _view() -> CarView:
    car = next(car for car in read_content(CONTENT).cars if car.name == CAR)
    return view_of(car, Reader.WORKSHOP, pictures={})


def test_view_telling_of_problems__knows_all_that_was_folded() -> None:
    view = _view()
    folded = {name: getattr(view, name) for name in vars(CarView) if _is_folded(name)}
    told = view.telling(FOUND)
    assert (FOUND, ()) == (told.problems, view.problems)
    assert all(getattr(told, name) is ledger for name, ledger in folded.items())
    assert len(folded) > 20


def _is_folded(name: str) -> bool:
    return isinstance(vars(CarView)[name], cached_property)

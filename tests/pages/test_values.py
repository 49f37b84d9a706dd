"""The values of pages: of what types they are, so that their print tells all that a page shows of them."""

import importlib
import pkgutil
from collections.abc import Iterator
from types import NoneType, UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

import pytest
from markupsafe import Markup

import journal.pages
from journal.outputs.sealed import seals_of
from journal.pages import PAGES, page_workshop
from journal.pages.page import Page
from journal.pages.value import Value
from journal.pages.view import CarView, view_of
from journal.readers import car_for
from journal.reading.content import read_content
from journal.records.carfile import CarFile
from journal.records.sheet import photo_path
from journal.words.vocabulary import Reader
from tests.pages.picturing import published
from tests.pages.test_pages import a_busy_car
from tests.published import CONTENT

PLAIN = frozenset({str, Markup, int, bool, NoneType})
# These go to the dossier, whose values are made plain data by name and never printed as bytes.
OF_THE_DOSSIER = frozenset({"Section.values", "DayTold.passages"})


def _classes() -> tuple[type[Value], ...]:
    """The classes of all values, in order of modules."""
    for module in pkgutil.walk_packages(journal.pages.__path__, "journal.pages."):
        importlib.import_module(module.name)
    below = [Value]
    for shape in below:
        below += shape.__subclasses__()
    return tuple(sorted(below[1:], key=lambda shape: (shape.__module__, shape.__name__)))


def _stray(hint: Any) -> Iterator[str]:
    """What is no value in the type of a field."""
    if get_origin(hint) in (tuple, Union, UnionType):
        for inner in get_args(hint):
            yield from () if inner is ... else _stray(inner)
    elif hint not in PLAIN and not (isinstance(hint, type) and issubclass(hint, Value)):
        yield str(hint)


def test_classes_of_values__have_no_name_in_common() -> None:
    names = [shape.__name__ for shape in _classes()]
    assert [] == [name for name in names if names.count(name) > 1]
    assert len(names) == len({shape.__struct_config__.tag for shape in _classes()})


def test_fields_of_values__are_values() -> None:
    fields = {
        f"{shape.__name__}.{name}": hint
        for shape in _classes()
        for name, hint in get_type_hints(shape).items()
    }
    strays = [(name, stray) for name, hint in fields.items() for stray in _stray(hint)]
    assert [] == [(name, stray) for name, stray in strays if name not in OF_THE_DOSSIER]


def _strays(value: object, where: str) -> Iterator[str]:
    """What stands in a value and is none, with where it stands."""
    if isinstance(value, Value):
        for name in value.__struct_fields__:
            yield from _strays(getattr(value, name), f"{where}.{name}")
    elif type(value) is tuple:
        for item in value:
            yield from _strays(item, f"{where}[]")
    elif type(value) is dict:
        for key, item in value.items():
            yield from _strays(key, f"{where} key")
            yield from _strays(item, f"{where}.{key}")
    elif type(value) not in PLAIN:
        yield f"{where}: {type(value).__name__}"


def _strays_on(pages: tuple[Page, ...]) -> set[str]:
    return {
        stray
        for page in pages
        for name, value in page.values.items()
        for stray in _strays(value, f"{page.template} {name}")
    }


def _view(car: CarFile, reader: Reader, **known: Any) -> CarView:
    seen = car_for(reader, car)
    paths = {photo_path(s.date, photo.file) for s in seen.sheets for photo in s.front.photos}
    return view_of(seen, reader, pictures=dict.fromkeys(sorted(paths), published()), **known)


@pytest.mark.parametrize("reader", Reader)
def test_page_of_the_demonstration__shows_values_alone(reader: Reader) -> None:
    cars = read_content(CONTENT).cars
    views = [_view(car, reader, seals=seals_of(CONTENT, car)) for car in cars]
    pages = [page for view in views for make in PAGES for page in make(view)]
    assert set() == _strays_on((*pages, *page_workshop(views, ())))


@pytest.mark.parametrize("reader", Reader)
def test_page_of_a_busy_car__shows_values_alone(reader: Reader) -> None:
    view = _view(a_busy_car(), reader)
    assert set() == _strays_on(tuple(page for make in PAGES for page in make(view)))

"""Finding things: a field to search by, above an index by name for when no script runs."""

from collections.abc import Iterator
from itertools import groupby
from typing import NamedTuple

from journal.pages.anchors import anchor
from journal.pages.common import frame
from journal.pages.links import (
    Links,
    Ref,
    component_path,
    sheet_path,
    subsystem_names,
    subsystem_path,
)
from journal.pages.page import Page
from journal.pages.partwords import part_name
from journal.pages.searchdata import FOLDER
from journal.pages.searchdocs import PATH
from journal.pages.searchwords import fold
from journal.pages.view import CarView
from journal.pages.words import day_words

# In the order in which each builds on the one before it.
SCRIPTS = ("findwords.js", "finddata.js", "findtold.js", "find.js")

_ARTICLES = ("the ", "an ", "a ")
_FIGURES = "0–9"


class Named(NamedTuple):
    """One name in the index, and every place under it; a single place is the name's own link."""

    name: str
    places: tuple[Ref, ...]


class Letter(NamedTuple):
    """The names that begin with one letter."""

    letter: str
    anchor: str
    names: tuple[Named, ...]


def page_find(view: CarView) -> tuple[Page, ...]:
    """The search field and the index."""
    links = Links(view, PATH)
    shared = frame(links, "Find")
    values = {
        **shared,
        "scripts": (*shared["scripts"], *SCRIPTS),
        "folder": FOLDER,
        "letters": tuple(_letters(view, links)),
    }
    return (Page(view.base + PATH, "find.html", values),)


def _letters(view: CarView, links: Links) -> Iterator[Letter]:
    named = sorted(_named(view, links), key=lambda entry: (_sorted_as(entry[0]), entry[0]))
    for letter, of in groupby(named, key=lambda entry: _letter(entry[0])):
        merged = groupby(of, key=lambda entry: _sorted_as(entry[0]))
        names = tuple(_entry(tuple(same)) for _, same in merged)
        yield Letter(letter, anchor("letter", letter), names)


def _entry(same: tuple[tuple[str, Ref], ...]) -> Named:
    return Named(same[0][0], tuple(ref for _, ref in same))


def _sorted_as(name: str) -> str:
    """A name as an index sorts it: without case, accents and the article before it, figures first."""
    plain = " ".join(fold(name).split())
    for article in _ARTICLES:
        plain = plain.removeprefix(article)
    start = next((n for n, c in enumerate(plain) if c.isalnum()), 0)
    return plain[start:]


def _letter(name: str) -> str:
    first = _sorted_as(name)[:1]
    return first.upper() if first.isalpha() else _FIGURES


def _named(view: CarView, links: Links) -> Iterator[tuple[str, Ref]]:
    """Every name with the place it leads to; the words of the place tell what it is."""
    for name in subsystem_names(view):
        yield links.subsystem(name).text, Ref("subsystem", links.to(subsystem_path(name)))
    for component in view.car.register.components:
        where = links.subsystem(component.subsystem).text
        yield component.label, Ref(f"component, {where}", links.to(component_path(component.key)))
    for part in view.parts.parts:
        yield part_name(part), Ref("part", links.part(part.name))
    for name, paper in view.car.papers:
        yield paper.title, Ref("paper", links.paper(name).href)
    for sheet in view.car.sheets:
        yield sheet.title, Ref(day_words(sheet.date), links.to(sheet_path(sheet.name)))

"""Finding things: a field to search by, above an index by name for when no script runs."""

from collections.abc import Iterator
from functools import lru_cache, partial
from itertools import groupby
from typing import Any

from journal.pages.anchors import anchor
from journal.pages.common import frame
from journal.pages.leafwords import AS_TOLD, beginnings, sections_told, titled, turn_words
from journal.pages.links import (
    Links,
    Ref,
    component_path,
    sheet_path,
    subsystem_names,
    subsystem_path,
)
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf, Section, parted
from journal.pages.partwords import part_name
from journal.pages.searchdata import FOLDER
from journal.pages.searchdocs import PATH
from journal.pages.searchwords import fold
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words

# As many places as one page leads to by name, and as many as stand under one name.
ROOM = 600
MOST_PLACES = 100
# In the order in which each builds on the one before it.
SCRIPTS = ("findwords.js", "finddata.js", "findtold.js", "find.js")

_ARTICLES = ("the ", "an ", "a ")
_FIGURES = "0–9"


class Named(Value, frozen=True):
    """One name in the index, and every place under it; a single place is the name's own link."""

    name: str
    places: tuple[Ref, ...]


class Letter(Value, frozen=True):
    """The names that begin with one letter."""

    letter: str
    anchor: str
    names: tuple[Named, ...]


def page_find(view: CarView) -> tuple[Page, ...]:
    """The search field and the index."""
    start = Links(view, "")
    leaves = parted(PATH, _letters(start), ROOM)
    return tuple(
        Page(view.base + leaf.path, "find.html", Later(partial(_values, start, leaves, leaf)))
        for leaf in leaves
    )


def _values(start: Links, leaves: tuple[Leaf, ...], leaf: Leaf) -> dict[str, Any]:
    links, first = start.at(leaf.path), leaf.number == 1
    headings = {s.key: _letter(s.entries[0].name) for other in leaves for s in other.stretches}
    return {
        **frame(links, titled("Find", leaf)),
        "first": first,
        "scripts": SCRIPTS if first else (),
        "folder": FOLDER,
        "field": links.to(PATH),
        "letters": tuple(
            Letter(headings[s.key], s.key, tuple(_led(links, name) for name in s.entries))
            for s in leaf.stretches
        ),
        "jump": tuple(Ref(headings[s.key], to) for s, to in beginnings(links, leaves)),
        "continued": leaf.continued,
        "turn": turn_words(links, leaves, sections_told(headings), AS_TOLD),
    }


def _letters(start: Links) -> Iterator[Section]:
    """Every name by its letter, its places told from the folder of the car."""
    named = sorted(_named(start.view, start), key=lambda entry: (_sorted_as(entry[0]), entry[0]))
    for letter, of in groupby(named, key=lambda entry: _letter(entry[0])):
        merged = groupby(of, key=lambda entry: _sorted_as(entry[0]))
        entries = tuple(entry for _, same in merged for entry in _entries(tuple(same)))
        yield Section(anchor("letter", letter), entries, weigh=lambda entry: len(entry.places))


def _led(links: Links, name: Named) -> Named:
    """A name whose places are led to from a page."""
    places = (Ref(place.text, links.to(place.href or "")) for place in name.places)
    return Named(name.name, tuple(places))


def _entries(same: tuple[tuple[str, Ref], ...]) -> Iterator[Named]:
    """A name with its places, and again where it has very many."""
    for first in range(0, len(same), MOST_PLACES):
        places = same[first : first + MOST_PLACES]
        yield Named(same[0][0], tuple(ref for _, ref in places))


@lru_cache(maxsize=4096)
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

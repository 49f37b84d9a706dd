"""The demonstration, told as if no page had room: nothing is lost, and every link leads to its entry."""

import posixpath
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from html.parser import HTMLParser
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

import pytest

from journal.outputs.theme import environment, theme_folder
from journal.pages import PAGES, page_at
from journal.pages.page import Page
from journal.pages.parting import folder_of
from journal.pages.searchdocs import documents
from journal.pages.view import CarView
from journal.words.vocabulary import Reader
from tests.parsing import parsed
from tests.printing import demonstration

TEMPLATES = environment(theme_folder())
READERS = (Reader.WORKSHOP, Reader.PUBLIC)

# Where each long list has its room, and how much of it is left in these tests.
ROOMS = {
    "sheets.ROOM": 9, "subsystem.ROOM": 3, "component.ROOM": 4, "component.MARGIN_ROOM": 3,
    "component.LATEST": 2, "measured.ROOM": 11, "measured.POINTS": 3, "decisions.ROOM": 4,
    "departures.ROOM": 9, "numbers.ROOM": 2, "find.ROOM": 25, "sums.ROOM": 3, "seals.ROOM": 2,
    "suppliers.ROOM": 2, "placing.SNAGS_ROOM": 5, "placing.PARTS_ROOM": 7, "placing.LOTS_ROOM": 2,
    "placing.PROVING_ROOM": 20, "placing.EARLIER": 0, "placing.RECHECKS_ROOM": 2, "hours.MONTHS_ROOM": 2,
    "hours.WORST": 3,
}  # fmt: skip
# The places of entries that have one of their own, by how their names begin.
ENTRIES = ("snag-", "part-", "lot-", "question-", "recheck-", "seal-", "supplier-", "number-")


class Told(NamedTuple):
    """What a page holds: the places on it, where its links lead, and those in its lists alone."""

    ids: tuple[str, ...]
    targets: tuple[str, ...]
    entries: Counter[str]


class _Reading(HTMLParser):
    """Reads a page; what stands in a `nav` belongs to no list."""

    def __init__(self, path: str) -> None:
        super().__init__()
        self.path, self.navs, self.main = path, 0, False
        self.ids: list[str] = []
        self.targets: list[str] = []
        self.entries: Counter[str] = Counter()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        self.navs += tag == "nav"
        self.main |= tag == "main"
        if place := given.get("id"):
            self.ids.append(place)
        if tag == "a" and (href := given.get("href")) and not urlsplit(href).scheme:
            target = _resolved(self.path, href)
            self.targets.append(target)
            if self.main and not self.navs:
                self.entries[target.partition("#")[0]] += 1

    def handle_endtag(self, tag: str) -> None:
        self.navs -= tag == "nav"
        self.main &= tag != "main"


def _resolved(page: str, href: str) -> str:
    """A link of a page as a path within the archive, with its place on that page."""
    parts = urlsplit(href)
    path = posixpath.normpath(posixpath.join(posixpath.dirname(page), unquote(parts.path)))
    return f"{path if parts.path else page}#{parts.fragment}" if parts.fragment else path


def _pages(view: CarView) -> Iterator[Page]:
    for make in PAGES:
        yield from make(view)


def _printed(page: Page) -> str:
    return TEMPLATES.get_template(page.template).render(page.values)


def _read(view: CarView) -> dict[str, Told]:
    found = {}
    for page in _pages(view):
        reading = _Reading(page.path)
        reading.feed(_printed(page))
        found[page.path] = Told(tuple(reading.ids), tuple(reading.targets), reading.entries)
    return found


def _view(reader: Reader) -> CarView:
    """The demonstration, with nothing folded yet."""
    view, _ = demonstration(reader)
    return replace(view)


@cache
def _as_it_is(reader: Reader) -> dict[str, Told]:
    return _read(_view(reader))


def _list_of(path: str, others: dict[str, Told]) -> str:
    """The first page of the list that a page belongs to."""
    return next((other for other in others if path.startswith(folder_of(other))), path)


@pytest.fixture
def no_room(monkeypatch: pytest.MonkeyPatch) -> None:
    for reader in READERS:
        _as_it_is(reader)
    for name, room in ROOMS.items():
        monkeypatch.setattr(f"journal.pages.{name}", room)
    monkeypatch.setattr("journal.pages.proving.EARLIER", ROOMS["placing.EARLIER"])


@pytest.mark.usefixtures("no_room")
@pytest.mark.parametrize("reader", READERS)
def test_links__lead_to_the_page_on_which_their_entry_stands(reader: Reader) -> None:
    view = _view(reader)
    told = _read(view)
    broken = []
    for path, page in told.items():
        for target in page.targets:
            to, _, place = target.partition("#")
            if to.endswith(".html") and not (to in told and (not place or place in told[to].ids)):
                broken.append(f"{path}: {target}")
    assert [] == broken


@pytest.mark.usefixtures("no_room")
def test_search__finds_entries_on_the_page_on_which_they_stand() -> None:
    view = _view(Reader.WORKSHOP)
    told = _read(view)
    places = [found.href.partition("#") for found in documents(view)]
    assert [] == [to for to, _, place in places if place and place not in told[to].ids]


@pytest.mark.usefixtures("no_room")
@pytest.mark.parametrize("reader", READERS)
def test_entries__stand_on_exactly_one_page(reader: Reader) -> None:
    before = _as_it_is(reader)
    now = _read(_view(reader))
    for kind in ENTRIES:
        whole = [i for page in before.values() for i in page.ids if i.startswith(kind)]
        parts = [i for page in now.values() for i in page.ids if i.startswith(kind)]
        assert sorted(whole) == sorted(parts), kind


@pytest.mark.usefixtures("no_room")
@pytest.mark.parametrize("reader", READERS)
def test_lists__lose_nothing_on_the_way_from_page_to_page(reader: Reader) -> None:
    before = _as_it_is(reader)
    now: dict[str, Counter[str]] = {}
    for path, page in _read(_view(reader)).items():
        told = Counter(_list_of(to, before) for to in page.entries.elements())
        now.setdefault(_list_of(path, before), Counter()).update(told)
    for path, page in before.items():
        assert Counter() == page.entries - now[path], path


@pytest.mark.usefixtures("no_room")
def test_further_pages__are_sound_and_found_by_their_path() -> None:
    view = _view(Reader.WORKSHOP)
    before = _as_it_is(Reader.WORKSHOP)
    further = [page for page in _pages(view) if page.path not in before]
    assert 60 < len(further)
    lists = {_list_of(page.path, before) for page in further}
    assert {
        "sheets/index.html", "measured.html", "proving.html", "snags.html", "hours.html", "find.html",
        "parts.html", "outwork.html", "decisions.html", "departures.html", "numbers.html", "sums.html",
        "rechecks.html", "suppliers.html", "seals.html",
    } <= lists  # fmt: skip
    for page in further:
        text = _printed(page)
        told = parsed(text)
        assert (1,) == told.levels[:1], page.path
        assert all(b - a <= 1 for a, b in zip(told.levels, told.levels[1:], strict=False)), (
            page.path
        )
        assert len(set(told.ids)) == len(told.ids), page.path
        found = page_at(view, page.path)
        assert found is not None
        assert text == _printed(found)

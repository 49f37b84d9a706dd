"""The demonstration, told as if no page had room: nothing is lost, and every link leads to its entry."""

import posixpath
from collections import Counter
from functools import cache
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

import pytest
from msgspec.structs import replace

from journal.outputs.theme import environment, theme_folder
from journal.pages import page_at
from journal.pages.page import Page
from journal.pages.searchdocs import documents
from journal.pages.sheets import page_sheets
from journal.pages.view import CarView, view_of
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.benchmarks.generate import Size, generate
from tests.pages.roomless import all_pages, list_of, no_room
from tests.parsing import parsed
from tests.printing import demonstration

TEMPLATES = environment(theme_folder())
READERS = (Reader.WORKSHOP, Reader.PUBLIC)

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


def _printed(page: Page) -> str:
    return TEMPLATES.get_template(page.template).render(page.values)


def _read(view: CarView) -> dict[str, Told]:
    found = {}
    for page in all_pages(view):
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


def _broken(told: dict[str, Told]) -> list[str]:
    """Links that lead to no page, or to a place that their page has not."""
    broken = []
    for path, page in told.items():
        for target in page.targets:
            to, _, place = target.partition("#")
            if to.endswith(".html") and not (to in told and (not place or place in told[to].ids)):
                broken.append(f"{path}: {target}")
    return broken


@cache
def _without_room(reader: Reader) -> dict[str, Told]:
    with no_room():
        return _read(_view(reader))


@pytest.mark.parametrize("reader", READERS)
def test_links__lead_to_the_page_on_which_their_entry_stands(reader: Reader) -> None:
    assert [] == _broken(_without_room(reader))


def test_search__finds_entries_on_the_page_on_which_they_stand() -> None:
    told = _without_room(Reader.WORKSHOP)
    with no_room():
        places = [found.href.partition("#") for found in documents(_view(Reader.WORKSHOP))]
    assert [] == [to for to, _, place in places if place and place not in told[to].ids]


@pytest.mark.parametrize("reader", READERS)
def test_entries__stand_on_exactly_one_page(reader: Reader) -> None:
    before, now = _as_it_is(reader), _without_room(reader)
    for kind in ENTRIES:
        whole = [i for page in before.values() for i in page.ids if i.startswith(kind)]
        parts = [i for page in now.values() for i in page.ids if i.startswith(kind)]
        assert sorted(whole) == sorted(parts), kind


@pytest.mark.parametrize("reader", READERS)
def test_lists__lose_nothing_on_the_way_from_page_to_page(reader: Reader) -> None:
    before = _as_it_is(reader)
    now: dict[str, Counter[str]] = {}
    for path, page in _without_room(reader).items():
        told = Counter(list_of(to, before) for to in page.entries.elements())
        now.setdefault(list_of(path, before), Counter()).update(told)
    for path, page in before.items():
        assert Counter() == page.entries - now[path], path


def test_further_pages__are_sound_and_found_by_their_path() -> None:
    before = _as_it_is(Reader.WORKSHOP)
    with no_room():
        view = _view(Reader.WORKSHOP)
        further = [page for page in all_pages(view) if page.path not in before]
        assert {
            "sheets/index.html", "measured.html", "proving.html", "snags.html", "hours.html",
            "find.html", "parts.html", "outwork.html", "decisions.html", "departures.html",
            "numbers.html", "sums.html", "rechecks.html", "suppliers.html", "seals.html",
        } <= {list_of(page.path, before) for page in further}  # fmt: skip
        for page in further:
            told = parsed(_printed(page))
            assert (1,) == told.levels[:1], page.path
            assert all(b - a <= 1 for a, b in pairwise(told.levels)), page.path
            assert len(set(told.ids)) == len(told.ids), page.path
        for page in {list_of(page.path, before): page for page in further}.values():
            found = page_at(view, page.path)
            assert found is not None
            assert _printed(page) == _printed(found)


# A work of two years and a half, with 450 sheets, as the program tells it by itself.


@cache
def _long_work() -> CarView:
    with TemporaryDirectory() as folder:
        generate(Path(folder), Size(cars=1, sheets=450, pictures=0))
        (car,) = read_content(Path(folder)).cars
    return view_of(car, Reader.WORKSHOP, pictures={})


def test_long_work__is_told_on_pages_that_one_can_read() -> None:
    sizes = {page.path: len(_printed(page).encode()) for page in all_pages(_long_work())}
    assert {} == {path: size for path, size in sizes.items() if size > 250_000}
    assert {"sheets/index/2.html", "find/2.html", "proving/2.html"} <= sizes.keys()


def test_long_work__has_no_link_that_leads_nowhere() -> None:
    assert [] == _broken(_read(_long_work()))


def test_long_work__has_every_sheet_in_its_list_once() -> None:
    view = _long_work()
    listed = [
        entry.ref.href.rpartition("/")[2]
        for page in page_sheets(view)
        for month in page.values["months"]
        for entry in month.entries
    ]
    assert [f"{sheet.name}.html" for sheet in view.car.sheets] == listed


def test_long_work__changes_few_pages_of_the_list_of_sheets_with_one_sheet_more() -> None:
    view = _long_work()
    fewer = replace(view, car=replace(view.car, sheets=view.car.sheets[:-1]))
    before, after = ([_titles(page) for page in page_sheets(of)] for of in (fewer, view))
    assert before[:-1] == after[: len(before) - 1]


def _titles(page: Page) -> list[str]:
    return [entry.ref.text for month in page.values["months"] for entry in month.entries]

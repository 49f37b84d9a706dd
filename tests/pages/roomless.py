"""Pages made as if they had next to no room, so that every long list goes on over several."""

from collections.abc import Collection, Iterator
from contextlib import contextmanager

import pytest

from journal.pages import PAGES
from journal.pages.page import Page
from journal.pages.parting import folder_of
from journal.pages.view import CarView

# Where each long list has its room, and how much of it is left in these tests.
ROOMS = {
    "sheets.ROOM": 9, "subsystem.ROOM": 3, "component.ROOM": 4, "component.MARGIN_ROOM": 3,
    "component.LATEST": 2, "measured.ROOM": 11, "measured.POINTS": 3, "decisions.ROOM": 4,
    "departures.ROOM": 9, "numbers.ROOM": 2, "find.ROOM": 25, "sums.ROOM": 3, "seals.ROOM": 2,
    "suppliers.ROOM": 2, "placing.SNAGS_ROOM": 5, "placing.PARTS_ROOM": 7, "placing.LOTS_ROOM": 2,
    "placing.PROVING_ROOM": 20, "placing.EARLIER": 0, "placing.RECHECKS_ROOM": 2, "hours.MONTHS_ROOM": 2,
    "hours.WORST": 3,
}  # fmt: skip


@contextmanager
def no_room() -> Iterator[None]:
    """As long as this holds, pages are as short as can be."""
    with pytest.MonkeyPatch.context() as patch:
        for name, room in ROOMS.items():
            patch.setattr(f"journal.pages.{name}", room)
        patch.setattr("journal.pages.proving.EARLIER", ROOMS["placing.EARLIER"])
        yield


def all_pages(view: CarView) -> Iterator[Page]:
    """Every page of a car."""
    for make in PAGES:
        yield from make(view)


def list_of(path: str, lists: Collection[str]) -> str:
    """Of the pages with which lists begin, the one of the list that a page belongs to; else itself."""
    return next((first for first in lists if path.startswith(folder_of(first))), path)

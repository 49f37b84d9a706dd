"""Measurements: every reading by subsystem, against its limits."""

from typing import NamedTuple

from journal.pages.common import frame
from journal.pages.links import Links, Ref, subsystem_names
from journal.pages.page import Page
from journal.pages.readingwords import ReadingWords, reading_words
from journal.pages.view import CarView
from journal.pages.words import in_words, some

PATH = "measured.html"


class Bench(NamedTuple):
    """The readings of one subsystem."""

    ref: Ref
    readings: tuple[ReadingWords, ...]


def page_measured(view: CarView) -> tuple[Page, ...]:
    """All readings."""
    links = Links(view, PATH)
    readings = view.measured.readings
    values = {
        **frame(links, "Measured"),
        "how_many": some(len(readings), "reading"),
        "outside": in_words(out) if (out := sum(r.inside is False for r in readings)) else "none",
        "benches": tuple(_bench(view, links, n) for n in subsystem_names(view) if _has(view, n)),
    }
    return (Page(view.base + PATH, "measured.html", values),)


def _has(view: CarView, name: str) -> bool:
    return any(r.subsystem == name for r in view.measured.readings)


def _bench(view: CarView, links: Links, name: str) -> Bench:
    mine = (r for r in view.measured.readings if r.subsystem == name)
    return Bench(links.subsystem(name), tuple(reading_words(links, r) for r in mine))

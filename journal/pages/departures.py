"""Departures from the works specification, and the originals that are kept."""

from typing import NamedTuple

from journal.ledgers.originality import Line
from journal.ledgers.originality.items import Displacement
from journal.pages.common import frame
from journal.pages.lines import (
    WITNESS,
    DisplacedWords,
    ItemWords,
    departed_before,
    displaced_words,
    item_words,
    left_works,
)
from journal.pages.links import Links, Ref
from journal.pages.page import Page
from journal.pages.plates import Plate, plates_of
from journal.pages.view import CarView
from journal.pages.words import sentence, some
from journal.words.vocabulary import Origin, Stage

PATH = "departures.html"


class DepartureWords(NamedTuple):
    """One component that departs from the works specification on purpose or of need.

    `passage` says how one item followed the other, for they may be of one origin.
    """

    ref: Ref
    now: ItemWords
    passage: str
    works: str
    change: DisplacedWords
    picture: Plate | None


class KeptWords(NamedTuple):
    """One item that came off and is kept."""

    ref: Ref
    item: ItemWords
    where: str
    day: str
    sheet: Ref
    back: str
    witness: bool


def page_departures(view: CarView) -> tuple[Page, ...]:
    """Departures made in this work, those the car came with, and every item kept."""
    links = Links(view, PATH)
    lines = view.originality.lines
    departed = [line for line in lines if line.departure is not None]
    made = tuple(_departure(view, links, line) for line in departed if left_works(line))
    renewed = tuple(_departure(view, links, line) for line in departed if not left_works(line))
    came = [line for line in lines if line.now.departs and not line.changed and not line.now.gone]
    gone = [line for line in lines if line.now.gone]
    originals = _kept(view, links, first_fit=True)
    values = {
        **frame(links, "Departures and originals kept"),
        "made": made,
        "renewed": renewed,
        "reversible": _reversible(made + renewed),
        "witness": WITNESS,
        "came_so": tuple(
            (links.component(line.component.key, full=True), item_words(line.now),
             line.component.line.condition or "")
            for line in came
        ),
        "gone": tuple(
            (links.component(line.component.key, full=True), item_words(line.now)) for line in gone
        ),
        "originals": originals,
        "others": _kept(view, links, first_fit=False),
        "how_many": some(len(originals), "original"),
    }  # fmt: skip
    return (Page(view.base + PATH, "departures.html", values),)


def _departure(view: CarView, links: Links, line: Line) -> DepartureWords:
    assert line.departure is not None
    after = [p for p in view.gallery.of(line.component.key) if p.day >= line.departure.day]
    # The finished item is what a reader wants to see; else the latest picture.
    after.sort(key=lambda picture: picture.stage is Stage.AS_FINISHED)
    plates = plates_of(view, links, after)
    return DepartureWords(
        links.component(line.component.key, full=True),
        item_words(line.now),
        _passage(line, line.departure),
        line.component.line.works or "",
        displaced_words(view, links, line.departure),
        plates[-1] if plates else None,
    )


def _reversible(departures: tuple[DepartureWords, ...]) -> str:
    count = sum(d.change.recoverable for d in departures)
    kept = "an item that is kept" if count == 1 else "items that are kept"
    return sentence(f"{some(count, 'departure')} can be undone with {kept}.")


def _passage(line: Line, departure: Displacement) -> str:
    before = departure.item.origin
    same = before is line.now.origin
    if departed_before(departure):
        return f"was a departure already, and {'was renewed as' if same else 'gave way to'}"
    if before is Origin.UNKNOWN:
        return "item; its place was taken by"
    return "gave way to another" if same else "gave way to"


def _kept(view: CarView, links: Links, *, first_fit: bool) -> tuple[KeptWords, ...]:
    found = [
        (line, displaced)
        for line in view.originality.lines
        for displaced in line.displaced
        if displaced.item.kept and (displaced.item.origin is Origin.FIRST_FIT) is first_fit
    ]
    return tuple(_kept_words(view, links, line, displaced) for line, displaced in found)


def _kept_words(view: CarView, links: Links, line: Line, displaced: Displacement) -> KeptWords:
    words = displaced_words(view, links, displaced)
    return KeptWords(
        links.component(line.component.key, full=True),
        words.item, words.where, words.day, words.sheet, words.back, words.witness,
    )  # fmt: skip

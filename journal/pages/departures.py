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
    made, renewed = departures_of(view, links)
    gone = [line for line in lines if line.now.gone]
    originals = kept_items(view, links, first_fit=True)
    values = {
        **frame(links, "Departures and originals kept"),
        "made": made,
        "renewed": renewed,
        "reversible": reversible_sentence(made + renewed),
        "witness": WITNESS,
        "came_so": came_so(view, links),
        "gone": tuple(
            (links.component(line.component.key, full=True), item_words(line.now)) for line in gone
        ),
        "originals": originals,
        "others": kept_items(view, links, first_fit=False),
        "how_many": some(len(originals), "original"),
    }  # fmt: skip
    return (Page(view.base + PATH, "departures.html", values),)


def departures_of(
    view: CarView, links: Links
) -> tuple[tuple[DepartureWords, ...], tuple[DepartureWords, ...]]:
    """The departures made in this work, and those that were there already and were renewed."""
    departed = [line for line in view.originality.lines if line.departure is not None]
    return (
        tuple(_departure(view, links, line) for line in departed if left_works(line)),
        tuple(_departure(view, links, line) for line in departed if not left_works(line)),
    )


def came_so(view: CarView, links: Links) -> tuple[tuple[Ref, ItemWords, str], ...]:
    """What departed when the car came in and is as it was: the item, and its condition as found."""
    return tuple(
        (links.component(line.component.key, full=True), item_words(line.now),
         line.component.line.condition or "")
        for line in view.originality.lines
        if line.now.departs and not line.changed and not line.now.gone
    )  # fmt: skip


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


def reversible_sentence(departures: tuple[DepartureWords, ...]) -> str:
    """How many of some departures can be undone."""
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


def kept_items(view: CarView, links: Links, *, first_fit: bool) -> tuple[KeptWords, ...]:
    """Items that came off and are kept, those the works fitted or all others."""
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

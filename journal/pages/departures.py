"""Departures from the works specification, and the originals that are kept."""

from functools import partial
from typing import Any

from journal.ledgers.originality import Line
from journal.ledgers.originality.items import Displacement
from journal.pages.common import frame
from journal.pages.leafwords import AS_TOLD, contents, sections_told, titled, turn_words
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
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf, Section, parted
from journal.pages.plates import Plate, plates_of
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import sentence, some
from journal.words.vocabulary import Origin, Stage

PATH = "departures.html"
# As many items as one page holds.
ROOM = 300
HEADINGS = {
    "made": "Departures made in this work",
    "renewed": "Departed already when the car came in, and renewed",
    "came": "Found so, and still so",
    "gone": "Off, and nothing in its place yet",
    "originals": "Originals kept",
    "others": "Other items kept",
}


class DepartureWords(Value, frozen=True):
    """One component that departs from the works specification on purpose or of need.

    `passage` says how one item followed the other, for they may be of one origin.
    """

    ref: Ref
    now: ItemWords
    passage: str
    works: str
    change: DisplacedWords
    picture: Plate | None


class KeptWords(Value, frozen=True):
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
    start, sections = Links(view, ""), _sections(view)
    leaves = parted(PATH, sections, ROOM)
    count = sum(len(section.entries) for section in sections if section.key == "originals")
    return tuple(
        Page(
            view.base + leaf.path, "departures.html",
            Later(partial(_values, start, leaves, leaf, count)),
        )
        for leaf in leaves
    )  # fmt: skip


def _sections(view: CarView) -> tuple[Section, ...]:
    lines = view.originality.lines
    departed = [line for line in lines if line.departure is not None]
    return (
        Section("made", tuple(x for x in departed if left_works(x)), weigh=_departure_weight),
        Section(
            "renewed", tuple(x for x in departed if not left_works(x)), weigh=_departure_weight
        ),
        Section("came", tuple(line for line in lines if _came_so(line))),
        Section("gone", tuple(line for line in lines if line.now.gone)),
        Section("originals", _kept(view, first_fit=True)),
        Section("others", _kept(view, first_fit=False)),
    )


def _departure_weight(_: Line) -> int:
    """How many items kept take as much room as a departure with its reasons."""
    return 4


def _values(start: Links, leaves: tuple[Leaf, ...], leaf: Leaf, originals: int) -> dict[str, Any]:
    """What a page shows; `originals` are kept in all."""
    links, view = start.at(leaf.path), start.view
    made, renewed = departures_of(view, links)

    def departures(key: str) -> tuple[DepartureWords, ...]:
        return tuple(_departure(view, links, line) for line in leaf.entries(key))

    def kept(key: str) -> tuple[KeptWords, ...]:
        return tuple(_kept_words(view, links, *item) for item in leaf.entries(key))

    return {
        **frame(links, titled("Departures and originals kept", leaf)),
        "first": leaf.number == 1,
        "any": bool(made or renewed),
        "made": departures("made"),
        "renewed": departures("renewed"),
        "reversible": reversible_sentence(made + renewed),
        "witness": WITNESS,
        "came_so": tuple(_came_words(links, line) for line in leaf.entries("came")),
        "gone": tuple(
            (links.component(line.component.key, full=True), item_words(line.now))
            for line in leaf.entries("gone")
        ),
        "originals": kept("originals"),
        "any_originals": originals > 0,
        "others": kept("others"),
        "how_many": f"{some(originals, 'original')} of the car’s own came off and "
        f"{'is' if originals == 1 else 'are'} kept.",
        "continued": leaf.continued,
        "contents": contents(links, leaves, HEADINGS),
        "turn": turn_words(links, leaves, sections_told(HEADINGS), AS_TOLD),
    }


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
    return tuple(_came_words(links, line) for line in view.originality.lines if _came_so(line))


def _came_so(line: Line) -> bool:
    return line.now.departs and not line.changed and not line.now.gone


def _came_words(links: Links, line: Line) -> tuple[Ref, ItemWords, str]:
    label = links.component(line.component.key, full=True)
    return (label, item_words(line.now), line.component.line.condition or "")


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
    return tuple(_kept_words(view, links, *item) for item in _kept(view, first_fit=first_fit))


def _kept(view: CarView, *, first_fit: bool) -> tuple[tuple[Line, Displacement], ...]:
    return tuple(
        (line, displaced)
        for line in view.originality.lines
        for displaced in line.displaced
        if displaced.item.kept and (displaced.item.origin is Origin.FIRST_FIT) is first_fit
    )


def _kept_words(view: CarView, links: Links, line: Line, displaced: Displacement) -> KeptWords:
    words = displaced_words(view, links, displaced)
    return KeptWords(
        links.component(line.component.key, full=True),
        words.item, words.where, words.day, words.sheet, words.back, words.witness,
    )  # fmt: skip

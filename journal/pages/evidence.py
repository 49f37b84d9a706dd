"""The photographs as evidence: what the file of each says of itself, against the sheet it is told of."""

from collections.abc import Sequence
from typing import Any

from journal.ledgers.gallery import Picture
from journal.pages.anchors import anchor
from journal.pages.common import frame
from journal.pages.gallerywords import EVIDENCE, parts_words, room_ref, switch
from journal.pages.hanging import Leaf, Way, by_month, leaves, room_path
from journal.pages.links import Links, Ref
from journal.pages.page import Page
from journal.pages.photowords import NOT_OF_COPIES, PURPOSE, FactWords, agreement, fact_words
from journal.pages.plates import Plate, plate_of
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import some

TITLE = "Pictures as evidence"
# As many pictures of a date that cannot be as stand before all others.
DOUBTFUL = 30


class FactRow(Value, frozen=True):
    """One photograph and what its file says; `facts` are absent while nobody has looked at it."""

    anchor: str
    number: int
    plate: Plate
    sheet: Ref
    facts: FactWords | None


class MonthOfFacts(Value, frozen=True):
    """The photographs of a month; `all` leads to the page that has them, when this one has not."""

    ref: Ref
    anchor: str
    count_words: str
    rows: tuple[FactRow, ...]
    all: str | None


def page_evidence(view: CarView) -> tuple[Page, ...]:
    """What the files of all photographs say, with a page a month where one would be too long."""
    way = by_month(view, "evidence")
    start = Links(view, "")
    return tuple(
        Page(view.base + leaf.path, "evidence.html", _values(start.at(leaf.path), way, leaf))
        for leaf in leaves(way)
    )


def _values(links: Links, way: Way, leaf: Leaf) -> dict[str, Any]:
    room = leaf.room
    pictures = [p for r in way.rooms for p in r.pictures] if room is None else room.pictures
    doubtful = [] if room else [p for p in pictures if (p.days_off or 0) > 0]
    return {
        **frame(links, f"{TITLE}, {room_ref(links, way, room.key).text}" if room else TITLE),
        "over": Ref(TITLE, links.to(way.path)) if room else None,
        "switch": switch(links, EVIDENCE),
        "agreement": agreement(pictures),
        "doubtful": _rows(links, doubtful[:DOUBTFUL], "later"),
        "doubtful_count": _first_of(len(doubtful)),
        "purpose": PURPOSE,
        "not_of_copies": NOT_OF_COPIES,
        "months": tuple(_month(links, way, leaf, r.key, r.pictures) for r in leaf.rooms),
        "parts": parts_words(links, way, leaf),
        "led_from": leaf.led_from,
    }


def _first_of(count: int) -> str:
    shown = f"the first {DOUBTFUL} of " if count > DOUBTFUL else ""
    return shown + some(count, "photograph")


def _month(
    links: Links, way: Way, leaf: Leaf, key: str, pictures: tuple[Picture, ...]
) -> MonthOfFacts:
    count = next(len(room.pictures) for room in way.rooms if room.key == key)
    return MonthOfFacts(
        room_ref(links, way, key),
        f"m-{key}",
        some(count, "photograph"),
        () if leaf.led_from else _rows(links, pictures),
        links.to(room_path(way, key)) if leaf.led_from else None,
    )


def _rows(links: Links, pictures: Sequence[Picture], kind: str = "picture") -> tuple[FactRow, ...]:
    plated = ((picture, plate_of(links.view, links, picture)) for picture in pictures)
    return tuple(
        FactRow(
            anchor(kind, str(picture.number)), picture.number, plate,
            links.sheet(picture.sheet, plate.day), fact_words(picture),
        )
        for picture, plate in plated
        if plate is not None
    )  # fmt: skip

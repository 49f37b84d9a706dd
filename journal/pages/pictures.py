"""The gallery: every photograph by subsystem and component, by stage, and by month."""

from functools import partial
from typing import Any

from journal.ledgers.gallery import Picture
from journal.pages.common import frame
from journal.pages.gallerywords import parts_words, room_ref, switch
from journal.pages.hanging import (
    FIRST_FEW,
    Leaf,
    Room,
    Way,
    by_month,
    by_stage,
    by_subsystem,
    leaves,
    picture_anchor,
    room_anchor,
    room_path,
)
from journal.pages.links import Links, Ref
from journal.pages.page import Later, Page
from journal.pages.plates import Plate, plates_of
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, in_words, sentence, some

_LEADS = {
    "subsystems": "by subsystem and component, from as found to as finished",
    "stages": "by stage, from as found to as finished",
    "months": "month by month, in the order of the days",
}
_TITLES = {
    "subsystems": "Pictures by subsystem",
    "stages": "Pictures by stage",
    "months": "Pictures by month",
}


class Hung(Value, frozen=True):
    """A picture with what stands under it: the component that it shows, or its day."""

    anchor: str
    plate: Plate
    below: Ref | None


class RoomWords(Value, frozen=True):
    """Pictures that hang together under a heading; `all` leads to the rest of them."""

    ref: Ref
    anchor: str
    count_words: str
    hung: tuple[Hung, ...]
    all: Ref | None


def page_pictures(view: CarView) -> tuple[Page, ...]:
    """The gallery in its three ways, each with the pages of its rooms where one would be too long."""
    start = Links(view, "")
    return tuple(
        Page(view.base + leaf.path, "pictures.html", Later(partial(_values, start, way, leaf)))
        for way in (by_subsystem(view), by_stage(view), by_month(view))
        for leaf in leaves(way)
    )


def _values(start: Links, way: Way, leaf: Leaf) -> dict[str, Any]:
    links = start.at(leaf.path)
    room = leaf.room
    title = room_ref(links, way, room.key).text if room else _TITLES[way.name]
    return {
        **frame(links, title),
        "over": Ref(_TITLES[way.name], links.to(way.path)) if room else None,
        "switch": switch(links, way.path),
        "lead": _lead(way, leaf),
        "jump": _jump(links, way, leaf) if room is None else (),
        "rooms": tuple(_room(links, way, leaf, here) for here in leaf.rooms),
        "parts": parts_words(links, way, leaf),
    }


def _lead(way: Way, leaf: Leaf) -> str:
    if leaf.room is not None:
        return _lead_of_room(leaf, leaf.room)
    if not way.count:
        return ""
    lead = f"{sentence(some(way.count, 'photograph'))}, {_LEADS[way.name]}."
    if not leaf.led_from:
        return lead
    if not any(room.pictures for room in leaf.rooms):
        return f"{lead} Each has its own page."
    return f"{lead} The first {in_words(FIRST_FEW)} of each stand here, and lead to the others."


def _lead_of_room(leaf: Leaf, room: Room) -> str:
    count = sentence(some(len(room.pictures), "photograph"))
    days = [p.day for p in leaf.rooms[0].pictures]
    first, last = day_words(min(days)), day_words(max(days))
    stretch = f"of {first}" if first == last else f"from {first} to {last}"
    return f"{count}; those here are {stretch}." if leaf.parts > 1 else f"{count}, {stretch}."


def _jump(links: Links, way: Way, leaf: Leaf) -> tuple[Ref, ...]:
    return tuple(
        Ref(
            room_ref(links, way, room.key).text,
            links.to(room_path(way, room.key)) if leaf.led_from else f"#{room_anchor(room.key)}",
        )
        for room in leaf.rooms
    )


def _room(links: Links, way: Way, leaf: Leaf, room: Room) -> RoomWords:
    count = next(len(r.pictures) for r in way.rooms if r.key == room.key)
    rest = leaf.led_from and count > len(room.pictures)
    return RoomWords(
        room_ref(links, way, room.key),
        room_anchor(room.key),
        some(count, "photograph"),
        tuple(_hung(links, way, plate, picture)
              for picture in room.pictures
              for plate in plates_of(links.view, links, (picture,))),
        Ref(f"All {some(count, 'photograph')}", links.to(room_path(way, room.key)))
        if rest else None,
    )  # fmt: skip


def _hung(links: Links, way: Way, plate: Plate, picture: Picture) -> Hung:
    below: Ref | None = None
    if way.name == "months":
        below = links.sheet(picture.sheet, plate.day)
    elif picture.of:
        below = links.component(picture.of[0], full=way.name != "subsystems")
    return Hung(picture_anchor(picture.number), plate, below)

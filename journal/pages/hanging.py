"""How photographs are hung: by subsystem, by stage or by month, in rooms that one page can hold.

A page holds so many pictures and no more. When all of a car would be too many, the page that has
them all shows the first few of each room and leads to the rooms; a room that is too large itself is
cut into parts.
"""

from collections.abc import Iterable, Iterator
from itertools import groupby, pairwise

from msgspec import Struct

from journal.ledgers.gallery import Picture
from journal.pages.anchors import anchor
from journal.pages.links import subsystem_names
from journal.pages.view import CarView
from journal.words.names import file_name
from journal.words.vocabulary import Stage

MOST = 200
FIRST_FEW = 3
# As many rooms as may show their first few on one page.
ROOMS_WITH_FEW = 66

STAGES: tuple[Stage | None, ...] = (*Stage, None)
NO_STAGE = "no-stage"


class Room(Struct, frozen=True):
    """Pictures that hang together; `key` names them within their way of hanging."""

    key: str
    pictures: tuple[Picture, ...]


class Way(Struct, frozen=True):
    """One way to hang all pictures: the folder of its rooms, the page that has them all, its rooms."""

    name: str
    path: str
    rooms: tuple[Room, ...]

    @property
    def count(self) -> int:
        """How many pictures there are."""
        return sum(len(room.pictures) for room in self.rooms)


class Leaf(Struct, frozen=True):
    """One page of a way: its path within the car's folder, the rooms on it, and what of each.

    `room` is the room whose page this is, None on the page that has all. `part` counts from 1 to
    `parts`. On a leaf that is only `led_from`, the rooms show their first few, or none where there are
    very many rooms.
    """

    path: str
    rooms: tuple[Room, ...]
    room: Room | None = None
    part: int = 1
    parts: int = 1
    led_from: bool = False


def published_pictures(view: CarView) -> tuple[Picture, ...]:
    """The photographs that the archive shows, in order of sheets."""
    return tuple(p for p in view.gallery.pictures if p.path in view.pictures)


def by_subsystem(view: CarView) -> Way:
    """Hung by subsystem, component by component, each from as found to as finished."""
    shown = published_pictures(view)
    rooms = []
    for name in subsystem_names(view):
        pictures = [p for p in shown if p.subsystem == name]
        named = {key: n for n, key in enumerate(dict.fromkeys(p.of[0] for p in pictures if p.of))}
        # Components in the order first photographed, the work in general last.
        pictures.sort(key=lambda p: (named[p.of[0]] if p.of else len(named), STAGES.index(p.stage)))
        rooms.append(Room(name, tuple(pictures)))
    return Way("subsystems", "pictures/index.html", _filled(rooms))


def by_stage(view: CarView) -> Way:
    """Hung by stage, each in order of sheets."""
    shown = published_pictures(view)
    rooms = (
        Room(stage.value if stage else NO_STAGE, tuple(p for p in shown if p.stage is stage))
        for stage in STAGES
    )
    return Way("stages", "pictures/stages.html", _filled(rooms))


def by_month(view: CarView, name: str = "months") -> Way:
    """Hung by the month of the sheets, in their order; `name` names another list cut the same way."""
    months = groupby(published_pictures(view), key=lambda p: f"{p.day:%Y-%m}")
    rooms = (Room(month, tuple(pictures)) for month, pictures in months)
    return Way(name, f"pictures/{name}.html", _filled(rooms))


def _filled(rooms: Iterable[Room]) -> tuple[Room, ...]:
    return tuple(room for room in rooms if room.pictures)


def leaves(way: Way, most: int = MOST) -> tuple[Leaf, ...]:
    """The pages of a way of hanging, none with more than `most` pictures of a room."""
    if way.count <= most:
        return (Leaf(way.path, way.rooms),)
    shown = FIRST_FEW if len(way.rooms) <= ROOMS_WITH_FEW else 0
    few = tuple(Room(room.key, room.pictures[:shown]) for room in way.rooms)
    front = Leaf(way.path, few, led_from=True)
    return (front, *(leaf for room in way.rooms for leaf in _parts(way, room, most)))


def _parts(way: Way, room: Room, most: int) -> Iterator[Leaf]:
    cut = parts_of(room.pictures, most)
    for n, pictures in enumerate(cut, 1):
        yield Leaf(room_path(way, room.key, n), (Room(room.key, pictures),), room, n, len(cut))


def room_path(way: Way, key: str, part: int = 1) -> str:
    """The page of a room, or of a further part of it."""
    room = f"pictures/{way.name}/{file_name(key)}"
    return f"{room}.html" if part == 1 else f"{room}/{part}.html"


def room_place(way: Way, key: str, most: int = MOST) -> str:
    """Where a room is seen whole, or its first part: its own page, or its place on the page of all."""
    return room_path(way, key) if way.count > most else f"{way.path}#{room_anchor(key)}"


def room_anchor(key: str) -> str:
    """The place of a room on a page of several."""
    return anchor("room", key)


def parts_of(pictures: tuple[Picture, ...], most: int = MOST) -> tuple[tuple[Picture, ...], ...]:
    """Pictures cut into as few parts as hold at most so many each, of nearly the same size."""
    parts = max(1, -(-len(pictures) // most))
    return tuple(pictures[first:last] for first, last in bounds(len(pictures), parts))


def bounds(count: int, parts: int) -> tuple[tuple[int, int], ...]:
    """Where each of so many parts of a count begins and ends."""
    ends = [count * n // parts for n in range(parts + 1)]
    return tuple(pairwise(ends))


def where_hung(way: Way, most: int = MOST) -> dict[int, str]:
    """The page on which each picture hangs, with its place there, by its number."""
    return {
        picture.number: f"{leaf.path}#{picture_anchor(picture.number)}"
        for leaf in leaves(way, most)
        if not leaf.led_from
        for room in leaf.rooms
        for picture in room.pictures
    }


def picture_anchor(number: int) -> str:
    """The place of a picture on a page where it hangs among others."""
    return f"picture-{number}"

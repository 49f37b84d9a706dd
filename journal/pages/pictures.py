"""The gallery: every photograph by subsystem, component and stage."""

from typing import NamedTuple

from journal.ledgers.gallery import Picture
from journal.pages.common import frame
from journal.pages.links import Links, Ref, subsystem_names
from journal.pages.page import Page
from journal.pages.plates import Plate, plates_of
from journal.pages.view import CarView
from journal.pages.words import some
from journal.words.vocabulary import Stage

PATH = "pictures/index.html"

_STAGES: tuple[Stage | None, ...] = (*Stage, None)


class Hung(NamedTuple):
    """A picture under the component that it shows; `of` is absent for the work in general."""

    of: Ref | None
    plate: Plate


class Room(NamedTuple):
    """The pictures of one subsystem: component by component, each in order of stage and day."""

    ref: Ref
    anchor: str
    count_words: str
    hung: tuple[Hung, ...]


def page_pictures(view: CarView) -> tuple[Page, ...]:
    """The gallery."""
    links = Links(view, PATH)
    rooms = tuple(_room(view, links, name) for name in subsystem_names(view))
    values = {
        **frame(links, "Pictures"),
        "rooms": tuple(room for room in rooms if room.hung),
        "how_many": some(sum(p.path in view.pictures for p in view.gallery.pictures), "photograph"),
    }
    return (Page(view.base + PATH, "pictures.html", values),)


def _room(view: CarView, links: Links, name: str) -> Room:
    pictures = [p for p in view.gallery.pictures if p.subsystem == name and p.path in view.pictures]
    named = tuple(dict.fromkeys(p.of[0] for p in pictures if p.of))
    ordered = sorted(pictures, key=lambda p: (_component(p, named), _STAGES.index(p.stage)))
    hung = tuple(
        Hung(links.component(picture.of[0]) if picture.of else None, plate)
        for picture in ordered
        for plate in plates_of(view, links, (picture,))
    )
    return Room(links.subsystem(name), f"room-{name}", some(len(pictures), "photograph"), hung)


def _component(picture: Picture, named: tuple[str, ...]) -> int:
    """Components in the order first photographed, the work in general last."""
    return named.index(picture.of[0]) if picture.of else len(named)

"""Around the gallery: the switch between its ways of hanging, and what its rooms are called."""

from journal.pages.common import Place
from journal.pages.hanging import NO_STAGE, Leaf, Way, bounds, room_path
from journal.pages.links import Links, Ref
from journal.pages.plates import STAGE_WORDS
from journal.pages.words import sentence
from journal.words.dates import month_name
from journal.words.vocabulary import Stage

EVIDENCE = "pictures/evidence.html"
CONTACT = "pictures/contact.html"

# What can be chosen above the pictures, and where it leads.
WAYS = (
    ("By subsystem", "pictures/index.html"),
    ("By stage", "pictures/stages.html"),
    ("By month", "pictures/months.html"),
    ("As evidence", EVIDENCE),
    ("Contact sheet", CONTACT),
)


def switch(links: Links, chosen: str) -> tuple[Place, ...]:
    """The ways to look at the pictures; `chosen` is the path of the one that the page belongs to."""
    here = "page" if links.path == chosen else "true"
    return tuple(Place(label, links.to(to), here if to == chosen else "") for label, to in WAYS)


def room_ref(links: Links, way: Way, key: str) -> Ref:
    """What a room is called; that of a subsystem leads to its timeline."""
    if way.name == "subsystems":
        return links.subsystem(key)
    if way.name == "stages":
        return Ref(sentence(STAGE_WORDS[None if key == NO_STAGE else Stage(key)]))
    year, month = key.split("-")
    return Ref(month_name(int(year), int(month)))


def parts_words(links: Links, way: Way, leaf: Leaf) -> tuple[Place, ...]:
    """The parts of the room whose page this is, by the places of its pictures in it; none when it has
    but one."""
    if leaf.room is None or leaf.parts == 1:
        return ()
    return tuple(
        Place(
            f"{first + 1} to {last}", links.to(room_path(way, leaf.room.key, n)),
            "page" if n == leaf.part else "",
        )
        for n, (first, last) in enumerate(bounds(len(leaf.room.pictures), leaf.parts), 1)
    )  # fmt: skip

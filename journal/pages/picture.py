"""One photograph, large: what it shows, where it belongs, its file as evidence, and its neighbours."""

from collections.abc import Mapping, Sequence
from functools import partial
from itertools import islice, zip_longest
from typing import Any

from journal.ledgers.gallery import Picture
from journal.pages.common import frame
from journal.pages.gallerywords import EVIDENCE
from journal.pages.hanging import STAGES, by_subsystem, published_pictures, where_hung
from journal.pages.links import Links, picture_path
from journal.pages.page import Later, Page
from journal.pages.photowords import PURPOSE, fact_words
from journal.pages.plates import Plate, plate_of, plates_of
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words
from journal.words.vocabulary import Stage

# As many other pictures of the same thing as stand below one.
OTHERS = 6

# In hundredths of the height of the screen.
TALLEST = 82
# How wide the page is from which width of the screen on; on the narrowest, pictures go to its edges.
_PAGE_WIDTHS = (
    ("(min-width: 110rem) ", "94rem"), ("(min-width: 83rem) ", "76.5rem"),
    ("(min-width: 40rem) ", "92vw"), ("", "100vw"),
)  # fmt: skip

Shelf = Mapping[tuple[str, Stage | None], Sequence[Picture]]


class Neighbour(Value, frozen=True):
    """The page of the picture before or after, and what will be drawn there."""

    href: str
    srcset: str
    sizes: str


def page_picture(view: CarView) -> tuple[Page, ...]:
    """A page for every published photograph."""
    start = Links(view, "")
    pictures, hung = published_pictures(view), where_hung(by_subsystem(view))
    shelf = _shelf(pictures)

    def values(n: int, picture: Picture) -> dict[str, Any]:
        links = start.at(picture_path(picture.number))
        return _values(view, links, picture, shelf) | {
            "before": _neighbour(view, links, pictures[n - 1]) if n else None,
            "after": _neighbour(view, links, pictures[n + 1]) if n + 1 < len(pictures) else None,
            "position": f"{n + 1} of {len(pictures)}",
            "gallery": links.to(hung[picture.number]),
        }

    return tuple(
        Page(view.base + picture_path(p.number), "picture.html", Later(partial(values, n, p)))
        for n, p in enumerate(pictures)
    )


def _shelf(pictures: Sequence[Picture]) -> Shelf:
    shelf: dict[tuple[str, Stage | None], list[Picture]] = {}
    for picture in pictures:
        for key in picture.of:
            shelf.setdefault((key, picture.stage), []).append(picture)
    return shelf


def _neighbour(view: CarView, links: Links, picture: Picture) -> Neighbour | None:
    plate = plate_of(view, links, picture)
    if plate is None or plate.href is None:
        return None
    return Neighbour(plate.href, plate.srcset, large_sizes(plate))


def _values(view: CarView, links: Links, picture: Picture, shelf: Shelf) -> dict[str, Any]:
    plate = plate_of(view, links, picture)
    return {
        **frame(links, f"Picture {picture.number}"),
        "scripts": ("turning.js",),
        "plate": plate,
        "sizes": large_sizes(plate) if plate else "",
        "day": day_words(picture.day),
        "iso": picture.day.isoformat(),
        "sheet": links.sheet(picture.sheet),
        "of": links.components(picture.of),
        "subsystem": links.subsystem(picture.subsystem),
        "facts": fact_words(picture),
        "purpose": PURPOSE,
        "evidence": links.to(EVIDENCE),
        "others": plates_of(view, links, _others(picture, shelf)),
    }


def _others(picture: Picture, shelf: Shelf) -> tuple[Picture, ...]:
    """Some other pictures of what it shows: one of each stage in turn, its own stage last."""
    stages = sorted(STAGES, key=lambda stage: stage is picture.stage)
    rows = (
        [p for key in picture.of for p in islice(shelf.get((key, stage), ()), OTHERS + 1)]
        for stage in stages
    )
    turns = (p for turn in zip_longest(*rows) for p in turn if p not in (None, picture))
    found = islice(dict.fromkeys(turns), OTHERS)
    return tuple(sorted((p for p in found if p is not None), key=lambda p: p.number))


def large_sizes(plate: Plate) -> str:
    """How wide it is drawn: as wide as the page, and no taller than the style lets it be."""
    width = f"{round(TALLEST * plate.width / plate.height)}vh"
    return ", ".join(f"{when}min({page}, {width})" for when, page in _PAGE_WIDTHS)

"""One photograph, large: what it shows, where it belongs, its file as evidence, and its neighbours."""

from collections.abc import Sequence
from functools import cache, partial
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


class Neighbour(Value, frozen=True):
    """The page of the picture before or after, and what will be drawn there."""

    href: str
    srcset: str
    sizes: str


def page_picture(view: CarView) -> tuple[Page, ...]:
    """A page for every published photograph."""
    start = Links(view, "")
    pictures, hung = published_pictures(view), where_hung(by_subsystem(view))
    others = _Others(pictures)

    def values(n: int, picture: Picture) -> dict[str, Any]:
        links = start.at(picture_path(picture.number))
        return _values(view, links, picture) | {
            "others": plates_of(view, links, others.of(picture)),
            "before": _neighbour(view, links, pictures[n - 1]) if n else None,
            "after": _neighbour(view, links, pictures[n + 1]) if n + 1 < len(pictures) else None,
            "position": f"{n + 1} of {len(pictures)}",
            "gallery": links.to(hung[picture.number]),
        }

    return tuple(
        Page(view.base + picture_path(p.number), "picture.html", Later(partial(values, n, p)))
        for n, p in enumerate(pictures)
    )


class _Others:
    """Other pictures of what one shows."""

    def __init__(self, pictures: Sequence[Picture]) -> None:
        self._shelf: dict[tuple[str, Stage | None], list[Picture]] = {}
        for picture in pictures:
            for key in picture.of:
                self._shelf.setdefault((key, picture.stage), []).append(picture)
        self._known: dict[tuple[tuple[str, ...], Stage | None], tuple[Picture, ...]] = {}

    def of(self, picture: Picture) -> tuple[Picture, ...]:
        """Some of them: one of each stage in turn, its own stage last."""
        key = picture.of, picture.stage
        if key not in self._known:
            self._known[key] = self._by_turns(*key)
        found = [other for other in self._known[key] if other is not picture][:OTHERS]
        return tuple(sorted(found, key=lambda other: other.number))

    def _by_turns(self, keys: tuple[str, ...], last: Stage | None) -> tuple[Picture, ...]:
        """One more than are wanted, so that one of them may be the picture itself."""
        rows = (
            [p for key in keys for p in islice(self._shelf.get((key, stage), ()), OTHERS + 1)]
            for stage in sorted(STAGES, key=lambda stage: stage is last)
        )
        turns = (p for turn in zip_longest(*rows) for p in turn if p is not None)
        return tuple(islice({p.number: p for p in turns}.values(), OTHERS + 1))


def _neighbour(view: CarView, links: Links, picture: Picture) -> Neighbour | None:
    plate = plate_of(view, links, picture)
    if plate is None or plate.href is None:
        return None
    return Neighbour(plate.href, plate.srcset, large_sizes(plate))


def _values(view: CarView, links: Links, picture: Picture) -> dict[str, Any]:
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
    }


def large_sizes(plate: Plate) -> str:
    """How wide it is drawn: as wide as the page, and no taller than the style lets it be."""
    return _large_sizes(plate.width, plate.height)


# A camera takes pictures of one size or two.
@cache
def _large_sizes(across: int, high: int) -> str:
    width = f"{round(TALLEST * across / high)}vh"
    return ", ".join(f"{when}min({page}, {width})" for when, page in _PAGE_WIDTHS)

"""One photograph, large: what it shows, where it belongs, and its neighbours."""

from typing import Any

from journal.ledgers.gallery import Picture
from journal.pages.common import frame
from journal.pages.links import Links, picture_path
from journal.pages.page import Page
from journal.pages.plates import STAGE_WORDS, plate_of
from journal.pages.view import CarView
from journal.pages.words import day_words, sentence


def page_picture(view: CarView) -> tuple[Page, ...]:
    """A page for every published photograph."""
    start = Links(view, "")
    pictures = [p for p in view.gallery.pictures if p.path in view.pictures]
    pages = []
    for n, picture in enumerate(pictures):
        path = picture_path(picture.number)
        links = start.at(path)
        values = _values(view, links, picture) | {
            "before": links.picture(pictures[n - 1].number) if n else None,
            "after": links.picture(pictures[n + 1].number) if n + 1 < len(pictures) else None,
            "position": f"{n + 1} of {len(pictures)}",
        }
        pages.append(Page(view.base + path, "picture.html", values))
    return tuple(pages)


def _values(view: CarView, links: Links, picture: Picture) -> dict[str, Any]:
    stage = sentence(STAGE_WORDS[picture.stage]) if picture.stage else ""
    others = [p for p in view.gallery.pictures if set(p.of) & set(picture.of) and p != picture]
    same = (plate_of(view, links, p) for p in others)
    return {
        **frame(links, f"Picture {picture.number}"),
        "plate": plate_of(view, links, picture),
        "stage": stage,
        "day": day_words(picture.day),
        "iso": picture.day.isoformat(),
        "sheet": links.sheet(picture.sheet),
        "of": links.components(picture.of),
        "subsystem": links.subsystem(picture.subsystem),
        "others": tuple(p for p in same if p is not None),
    }

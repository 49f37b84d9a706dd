"""Photographs as a page shows them: published renditions, words, and where they lead."""

from collections.abc import Iterable
from typing import NamedTuple

from journal.ledgers.gallery import Picture
from journal.pages.links import Links
from journal.pages.view import CarView
from journal.pages.words import day_words, sentence
from journal.pictures.published import Published
from journal.words.text import listed
from journal.words.vocabulary import Stage

STAGE_WORDS: dict[Stage | None, str] = {
    Stage.AS_FOUND: "as found",
    Stage.STRIPPED: "stripped",
    Stage.DURING: "during the work",
    Stage.EVIDENCE: "evidence",
    Stage.AS_FINISHED: "as finished",
    None: "without a stage",
}


class Plate(NamedTuple):
    """One photograph ready to print. `small` is its narrowest rendition, for lists; `stage` and
    `caption` may be empty; `shape` is `tall` for an upright picture, else `wide`."""

    number: int
    src: str
    srcset: str
    width: int
    height: int
    small: str
    alt: str
    caption: str
    stage: str
    day: str
    href: str | None
    shape: str


def plates_of(view: CarView, links: Links, pictures: Iterable[Picture]) -> tuple[Plate, ...]:
    """The published ones of some photographs, in the order given."""
    found = (plate_of(view, links, picture) for picture in pictures)
    return tuple(plate for plate in found if plate is not None)


def plate_of(view: CarView, links: Links, picture: Picture) -> Plate | None:
    """One photograph, or None when it is not published."""
    published = view.pictures.get(picture.path)
    if published is None or not published.renditions:
        return None
    return _plate(
        links, published, picture.number, picture.alt or _alt(view, picture),
        picture.caption or "", sentence(STAGE_WORDS[picture.stage]) if picture.stage else "",
        day_words(picture.day), links.picture(picture.number),
    )  # fmt: skip


def plate_at(view: CarView, links: Links, path: str) -> Plate | None:
    """The photograph at a path under `photos/` that a sheet tells of, or None."""
    picture = view.gallery.at(path)
    return plate_of(view, links, picture) if picture else None


def cover_of(view: CarView, links: Links) -> Plate | None:
    """The cover of the car; it may be a photograph that no sheet tells of."""
    path = view.car.car.cover
    if path is None:
        return None
    told = plate_at(view, links, path)
    published = view.pictures.get(path)
    if told is not None or published is None or not published.renditions:
        return told
    return _plate(links, published, 0, view.car.car.name, "", "", "", None)


def plate_of_scan(view: CarView, links: Links, file: str, caption: str) -> Plate | None:
    """The scan of a paper, or None when it is not published; it opens in its widest rendition."""
    published = view.scans.get(file)
    if published is None or not published.renditions:
        return None
    opens = links.to(published.large.path)
    return _plate(links, published, 0, f"Scan: {caption}", caption, "", "", opens)


def _plate(
    links: Links, published: Published, number: int, alt: str, caption: str, stage: str, day: str,
    href: str | None,
) -> Plate:  # fmt: skip
    sizes = published.renditions
    shown = next((r for r in sizes if max(r.width, r.height) >= 1000), published.large)
    srcset = ", ".join(f"{links.to(r.path)} {r.width}w" for r in sizes)
    return Plate(
        number, links.to(shown.path), srcset, shown.width, shown.height,
        links.to(published.small.path), alt, caption, stage, day, href,
        "tall" if shown.height > shown.width else "wide",
    )  # fmt: skip


def _alt(view: CarView, picture: Picture) -> str:
    """What can be said of a photograph that was given no words of its own."""
    if picture.caption:
        return picture.caption
    components = [view.car.component(key) for key in picture.of]
    names = [c.label for c in components if c is not None]
    stage = f", {STAGE_WORDS[picture.stage]}" if picture.stage else ""
    if names:
        return f"{listed(names)}{stage}"
    return f"Photograph of {day_words(picture.day)}{stage}"


def before_and_after(
    view: CarView, links: Links, key: str, *, same: bool = True
) -> tuple[Plate, Plate] | None:
    """The first picture of a component as found and the last as finished, if they compare.

    Two pictures compare when at least a third of the components that either shows are in both.
    When the item is not the `same` any more, something beside it must be in both, or they would
    show two things.
    """
    pictures = [p for p in view.gallery.of(key) if plate_of(view, links, p) is not None]
    found = [p for p in pictures if p.stage is Stage.AS_FOUND]
    finished = [p for p in pictures if p.stage is Stage.AS_FINISHED]
    pairs = [(b, a) for a in reversed(finished) for b in found if _compare(b, a, key, same)]
    if not pairs:
        return None
    before, after = plates_of(view, links, pairs[0])
    return before, after


def _compare(before: Picture, after: Picture, key: str, same: bool) -> bool:
    both, either = {*before.of} & {*after.of}, {*before.of} | {*after.of}
    return 3 * len(both) >= len(either) and (same or both != {key})

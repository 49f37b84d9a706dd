"""Photographs as a page shows them: published renditions, words, and where they lead."""

import re
from collections.abc import Iterable
from fractions import Fraction
from functools import cache

from journal.ledgers.gallery import Picture
from journal.pages.links import Links
from journal.pages.value import Value
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


class Plate(Value, frozen=True):
    """One photograph ready to print. `src` is the JPEG for whatever cannot show WebP; `stage` and
    `caption` may be empty; `shape` is `tall` for an upright picture, else `wide`; `ratio` names the
    common proportion nearest to its own, `r3x2` for three wide and two high."""

    number: int
    src: str
    srcset: str
    width: int
    height: int
    alt: str
    caption: str
    stage: str
    day: str
    href: str | None
    shape: str
    ratio: str


# Where the picture stands on its page: it opens there, so that nothing else moves from one to the next.
LARGE = "#picture"
# Width by height; the style has a rule for each.
RATIOS = ((1, 2), (2, 3), (3, 4), (1, 1), (5, 4), (4, 3), (3, 2), (16, 9), (2, 1), (5, 2), (3, 1))
# What says no more of a photograph than the name of a file.
_FILE_NAME = re.compile(r".+\.(?:jpe?g|png|webp|avif|gif|bmp|tiff?|hei[cf])", re.IGNORECASE)


def plates_of(view: CarView, links: Links, pictures: Iterable[Picture]) -> tuple[Plate, ...]:
    """The published ones of some photographs, in the order given."""
    known = _known_from(view, links)
    found = (_one_of(known, view, links, picture) for picture in pictures)
    return tuple(plate for plate in found if plate is not None)


def plate_of(view: CarView, links: Links, picture: Picture) -> Plate | None:
    """One photograph, or None when it is not published."""
    return _one_of(_known_from(view, links), view, links, picture)


def _known_from(view: CarView, links: Links) -> dict[int, Plate | None]:
    """Those that were made already for pages from which links start like this, by their number: a picture
    hangs on many pages."""
    return view.once(_known_plates).setdefault(links.home, {})


def _known_plates(_: CarView) -> dict[str, dict[int, Plate | None]]:
    return {}


def _one_of(
    known: dict[int, Plate | None], view: CarView, links: Links, picture: Picture
) -> Plate | None:
    if picture.number not in known:
        known[picture.number] = _plate_of(view, links, picture)
    return known[picture.number]


def _plate_of(view: CarView, links: Links, picture: Picture) -> Plate | None:
    published = view.pictures.get(picture.path)
    if published is None:
        return None
    said = view.once(_said)
    if picture.number not in said:
        said[picture.number] = (
            _alt(view, picture), caption_of(picture), stage_label(picture.stage),
            day_words(picture.day),
        )  # fmt: skip
    page = links.picture(picture.number)
    opens = f"{page}{LARGE}" if page else None
    return _plate(links, published, picture.number, *said[picture.number], opens)


def _said(_: CarView) -> dict[int, tuple[str, str, str, str]]:
    """What is said of a photograph wherever it hangs, by its number."""
    return {}


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
    if told is not None or published is None:
        return told
    return _plate(links, published, 0, view.car.car.name, "", "", "", None)


def plate_of_scan(
    view: CarView, links: Links, file: str, caption: str, alt: str | None = None
) -> Plate | None:
    """The scan of a paper, or None when it is not published; it opens in its widest rendition."""
    published = view.scans.get(file)
    if published is None:
        return None
    opens = links.to(published.jpeg.path)
    return _plate(links, published, 0, alt or f"Scan: {caption}", caption, "", "", opens)


def _plate(
    links: Links, published: Published, number: int, alt: str, caption: str, stage: str, day: str,
    href: str | None,
) -> Plate:  # fmt: skip
    srcset = ", ".join(f"{links.to(r.path)} {r.width}w" for r in published.webp)
    shown = published.jpeg
    return Plate(
        number, links.to(shown.path), srcset, shown.width, shown.height, alt, caption, stage, day, href,
        "tall" if shown.height > shown.width else "wide", ratio_of(shown.width, shown.height),
    )  # fmt: skip


@cache
def ratio_of(width: int, height: int) -> str:
    """The common proportion nearest to that of a picture: `r3x2`, `r2x3`, `r16x9`."""

    def apart(ratio: tuple[int, int]) -> Fraction:
        times = Fraction(width * ratio[1], height * ratio[0])
        return max(times, 1 / times)

    return "r{}x{}".format(*min(RATIOS, key=apart))


def stage_label(stage: Stage | None) -> str:
    """A stage as it stands before a caption; empty without one."""
    return sentence(STAGE_WORDS[stage]) if stage else ""


def caption_of(picture: Picture) -> str:
    """The caption, unless it is no more than the name of a file."""
    return _told(picture.caption, picture.path)


def _told(words: str | None, path: str) -> str:
    words = (words or "").strip()
    stem = path.rpartition("/")[2].rpartition(".")[0]
    # A lone word such as `dashboard` may well be both.
    bare = words.casefold() == stem.casefold() and not words.isalpha()
    return "" if bare or _FILE_NAME.fullmatch(words) else words


def _alt(view: CarView, picture: Picture) -> str:
    """What a photograph shows, for who cannot see it: its own words, else its caption, else what can
    be said without either."""
    words = _told(picture.alt, picture.path) or caption_of(picture)
    if words:
        return words
    components = [view.car.component(key) for key in picture.of]
    names = [c.label for c in components if c is not None]
    stage = f", {STAGE_WORDS[picture.stage]}" if picture.stage else ""
    if names:
        return f"{listed(names)}{stage}"
    return f"Photograph of {day_words(picture.day)}{stage}"

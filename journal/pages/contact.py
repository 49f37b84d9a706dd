"""The contact sheet: every photograph small, with number and day, to print on A4."""

from typing import Any

from journal.ledgers.gallery import Picture
from journal.pages.common import Place, frame
from journal.pages.gallerywords import CONTACT, switch
from journal.pages.hanging import parts_of, published_pictures
from journal.pages.links import Links
from journal.pages.page import Page
from journal.pages.plates import Plate, plate_of
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import some

# Characters of a caption that stay within two short lines.
ROOM = 48


class Cell(Value, frozen=True):
    """One small picture with what stands under it."""

    number: int
    plate: Plate
    words: str


def page_contact(view: CarView) -> tuple[Page, ...]:
    """The contact sheet, in parts when there are many pictures."""
    pictures = published_pictures(view)
    parts = parts_of(pictures)
    start = Links(view, "")
    pages = []
    for n, part in enumerate(parts, 1):
        links = start.at(_path(n))
        values = _values(links, part, len(pictures)) | {"parts": _choices(links, parts, n)}
        pages.append(Page(view.base + links.path, "contact.html", values))
    return tuple(pages)


def _path(part: int) -> str:
    return CONTACT if part == 1 else f"pictures/contact/{part}.html"


def _values(links: Links, pictures: tuple[Picture, ...], count: int) -> dict[str, Any]:
    plated = ((picture, plate_of(links.view, links, picture)) for picture in pictures)
    return {
        **frame(links, "Contact sheet"),
        "switch": switch(links, CONTACT),
        "how_many": some(count, "photograph"),
        "cells": tuple(
            Cell(picture.number, plate, short_caption(plate.caption or plate.alt))
            for picture, plate in plated
            if plate is not None
        ),
    }


def _choices(links: Links, parts: tuple[tuple[Picture, ...], ...], here: int) -> tuple[Place, ...]:
    if len(parts) == 1:
        return ()
    return tuple(
        Place(
            f"{part[0].number} to {part[-1].number}",
            links.to(_path(n)),
            "page" if n == here else "",
        )
        for n, part in enumerate(parts, 1)
    )


def short_caption(words: str, room: int = ROOM) -> str:
    """The first words of a caption, cut where a part of the sentence or at least a word ends."""
    if len(words) <= room:
        return words
    head = words[: room + 1]
    stop = max(head.rfind(mark) for mark in (". ", ": ", "; ", ", "))
    if stop > room // 2:
        return head[:stop]
    return head[: max(head.rfind(" "), 0) or room].rstrip(" ,;:.") + "\N{NO-BREAK SPACE}…"

"""Every page of the demonstration as a browser parses it: parsed once a run, and what tests ask of it."""

from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import NamedTuple
from xml.etree.ElementTree import Element

import html5lib

from journal.words.vocabulary import Reader
from tests.published import archive_for, pages
from tests.shared import worked_out_once

SVG = "{http://www.w3.org/2000/svg}"
_HEADINGS = frozenset(f"h{level}" for level in range(1, 7))


class Parsed(NamedTuple):
    """What is kept of a page; the whole tree of every page would not fit in memory.

    `targets` is every address that the page names, with the element that names it; `levels` are those of
    its headings in order; `images` the names of each image's attributes; `charts` tells of each drawing
    whether it is named or hidden; `summed` are the tables that have a row of the class `total`.
    """

    targets: tuple[tuple[str, str], ...]
    ids: tuple[str, ...]
    levels: tuple[int, ...]
    images: tuple[frozenset[str], ...]
    charts: tuple[bool, ...]
    summed: tuple[Element, ...]


def parsed_pages(reader: Reader) -> dict[Path, Parsed]:
    """Every page of a reader's archive, in order, parsed by the HTML standard's algorithm.

    Any parse error raises: html5lib in strict mode.
    """
    folder = archive_for(reader)
    told = worked_out_once(f"parsed-{reader.value}", partial(_parsed_pages, folder))
    return {folder / path: page for path, page in told.items()}


def _parsed_pages(folder: Path) -> dict[str, Parsed]:
    return {
        page.relative_to(folder).as_posix(): parsed(page.read_text(encoding="utf-8"))
        for page in pages(folder)
    }


def parsed(text: str) -> Parsed:
    """What a page says of itself; a parse error raises."""
    tree = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(text)
    elements = [element for element in tree.iter() if isinstance(element.tag, str)]
    return Parsed(
        tuple(target for element in elements for target in _targets(element)),
        tuple(element.attrib["id"] for element in elements if "id" in element.attrib),
        tuple(int(element.tag[1]) for element in elements if element.tag in _HEADINGS),
        tuple(frozenset(element.attrib) for element in elements if element.tag == "img"),
        tuple(_named(element) for element in elements if element.tag == f"{SVG}svg"),
        tuple(e for e in elements if e.tag == "table" and e.find(".//tr[@class='total']") is not None),
    )  # fmt: skip


def _targets(element: Element) -> Iterator[tuple[str, str]]:
    for name in ("href", "src", "poster", "action", "data"):
        if name in element.attrib:
            yield element.tag, element.attrib[name]
    for candidate in element.attrib.get("srcset", "").split(","):
        if candidate.strip():
            yield element.tag, candidate.split()[0]


def _named(chart: Element) -> bool:
    hidden = chart.attrib.get("aria-hidden") == "true"
    return hidden or chart.find(f"{SVG}title") is not None or "aria-label" in chart.attrib

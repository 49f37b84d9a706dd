"""The pages of an archive as a browser parses them."""

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple
from xml.etree.ElementTree import Element

import html5lib


class Found(NamedTuple):
    """An element of a page: its name and the names of its attributes."""

    tag: str
    attributes: tuple[str, ...]


def parsed(page: Path) -> Element:
    """The root of a page. It parses without any error, as HTML5 defines them."""
    parser = html5lib.HTMLParser(namespaceHTMLElements=False)
    tree: Element = parser.parse(page.read_text(encoding="utf-8"))
    assert [] == parser.errors, f"{page.name}: {parser.errors}"
    return tree


def structure(root: Element) -> list[Found]:
    """The elements of a page in order."""
    return [Found(str(e.tag), tuple(sorted(map(str, e.attrib)))) for e in elements(root)]


def elements(root: Element) -> Iterator[Element]:
    """All elements, without comments."""
    return (e for e in root.iter() if isinstance(e.tag, str))


def texts(root: Element) -> Iterator[str]:
    """Every text of a page, those of attributes too."""
    for element in elements(root):
        yield from (str(value) for value in element.attrib.values())
        yield element.text or ""
        yield element.tail or ""

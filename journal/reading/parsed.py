"""What a parser makes of the text of a sheet, as far as it is the same wherever the text is shown.

Parsing takes longer than anything else that is done to a text, and the same text always comes to the
same. Whoever has kept what it came to hands it back with `remember`.
"""

from collections.abc import Iterator, Mapping
from functools import lru_cache

from markdown_it.token import Token
from msgspec import Struct

from journal.reading.markdown import body_parser, leads_outward, link_target, tokens_of

_PARSER = body_parser()
_EVERY_LINK = body_parser(every_link=True)
# Without one of these a text has neither link nor picture (CommonMark 0.31, 6.3 to 6.5).
_BRACKETS = frozenset("[<")
# Set otherwise from page to page: headings in order under a title, links by where the page lies.
_BY_PAGE = frozenset({"heading_open", "link_open", "image"})


class Link(Struct, frozen=True):
    """A link, or a picture, in a text: where it leads, whether to a whole address, and the line its
    paragraph starts on, counted from 0."""

    line: int
    target: str
    outward: bool
    picture: bool


class Parsed(Struct, frozen=True):
    """`lines` are the paragraphs and headings of a text without marks, and blocks of code as they are;
    `opening` is the first paragraph with words, without pictures; `html` is the whole of it, None where it
    is set otherwise from page to page; `links` are all that it has, also those that are not shown."""

    lines: tuple[str, ...]
    opening: str
    html: str | None
    links: tuple[Link, ...]


_before: Mapping[str, Parsed] = {}


def remember(known: Mapping[str, Parsed]) -> None:
    """From now on, take from here what texts come to that were parsed before."""
    global _before
    _before = known


# Room for the texts of several thousand sheets: their list, their pages, the feed and the search read
# each of them in turn.
@lru_cache(maxsize=4096)
def parsed(text: str) -> Parsed:
    """What a text comes to."""
    return _before.get(text) or _parsed(text)


def _parsed(text: str) -> Parsed:
    tokens = tokens_of(text)
    return Parsed(tuple(_lines(tokens)), _opening(tokens), _html(tokens), tuple(_links(text)))


def _lines(tokens: tuple[Token, ...]) -> Iterator[str]:
    for token in tokens:
        if token.type == "inline" and token.children:
            yield "".join(_words(child, ("html_inline", "image")) for child in token.children)
        elif token.type in ("fence", "code_block", "html_block"):
            yield token.content


def _opening(tokens: tuple[Token, ...]) -> str:
    for token in tokens:
        if token.type == "inline" and token.level == 1 and token.children:
            words = "".join(_words(child) for child in token.children).strip()
            if words:
                return words
    return ""


def _words(token: Token, more: tuple[str, ...] = ()) -> str:
    if token.type in ("softbreak", "hardbreak"):
        return " "
    return token.content if token.type in ("text", "code_inline", *more) else ""


def _html(tokens: tuple[Token, ...]) -> str | None:
    children = (child for token in tokens for child in token.children or ())
    if any(token.type in _BY_PAGE for of in (tokens, children) for token in of):
        return None
    html: str = _PARSER.renderer.render(tokens, _PARSER.options, {})
    return html


def _links(text: str) -> Iterator[Link]:
    if not _BRACKETS & set(text):
        return
    for token in _EVERY_LINK.parse(text):
        for child in token.children or ():
            if child.type in ("link_open", "image"):
                line = token.map[0] if token.map else 0
                yield Link(line, link_target(child), leads_outward(child), child.type == "image")

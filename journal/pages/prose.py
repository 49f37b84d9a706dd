"""The text of a sheet as HTML.

Raw HTML in a text is shown as text. Headings are put in order under the title of the page. A
link whose target names a sheet or a component leads to its page; other relative links lead nowhere
in an archive and keep their words alone. Pictures in the text are drawn only when they are
photographs of the car, so that no page asks anything of any other place.
"""

from collections.abc import Sequence
from datetime import date
from html import escape

from markdown_it.token import Token
from markupsafe import Markup

from journal.pages.links import Links
from journal.pages.plates import Plate, plate_at
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.reading.markdown import body_parser, leads_outward, link_target, tokens_of
from journal.reading.parsed import parsed
from journal.records.sheet import Block, photo_path
from journal.words.vocabulary import Reader

_PARSER = body_parser()
_LEADING = frozenset({"link_open", "image"})

BLOCK_LABEL = {
    Reader.WORKSHOP: "For the workshop only",
    Reader.OWNER: "For the workshop and the owner",
    Reader.KEEPER: "For the workshop, the owner and the next keeper",
    Reader.PUBLIC: "",
}


class Passage(Value, frozen=True):
    """A stretch of text for one circle of readers; `label` is empty when it is for all."""

    label: str
    html: Markup


class Prose:
    """Turns the blocks of one sheet into HTML for the page that `links` starts from."""

    def __init__(self, view: CarView, links: Links, day: date) -> None:
        self._view, self._links, self._day = view, links, day
        self._level = 1
        self.shown: set[int] = set()

    def passages(self, blocks: Sequence[Block]) -> tuple[Passage, ...]:
        """The blocks in order. `shown` then holds the numbers of the pictures set in the text."""
        return tuple(Passage(BLOCK_LABEL[b.reader], self._html(b.text)) for b in blocks)

    def _html(self, text: str) -> Markup:
        if (html := parsed(text).html) is not None:
            return Markup(html)
        tokens = [self._settled(token) for token in tokens_of(text)]
        # The parser escapes all text itself and lets no raw HTML through.
        return Markup(_PARSER.renderer.render(tokens, _PARSER.options, {}))

    def _settled(self, token: Token) -> Token:
        if token.type in ("heading_open", "heading_close"):
            return self._heading(token)
        if any(child.type in _LEADING for child in token.children or ()):
            return token.copy(children=self._inline(token.children or []))
        return token

    def _heading(self, heading: Token) -> Token:
        """Keep headings between h2 and h6 with no level left out on the way down."""
        if heading.type == "heading_open":
            wanted = max(2, int(heading.tag[1]))
            self._level = min(wanted, self._level + 1, 6)
        return heading.copy(tag=f"h{self._level}")

    def _inline(self, tokens: list[Token]) -> list[Token]:
        kept: list[Token] = []
        followed: list[bool] = []
        for token in tokens:
            if token.type == "link_open":
                link = self._followed(token)
                followed.append(link is not None)
                kept += [link] if link else []
            elif token.type == "link_close":
                kept += [token] if followed.pop() else []
            elif token.type == "image":
                kept.append(self._picture(token))
            else:
                kept.append(token)
        return kept

    def _followed(self, link: Token) -> Token | None:
        """A link as the page has it, None where it leads nowhere."""
        if leads_outward(link):
            return link.copy(attrs={**link.attrs, "rel": "noreferrer"})
        target = link_target(link)
        name = target.rsplit("/", 1)[-1].removesuffix(".md")
        href = self._links.sheet(name).href or self._links.component(target).href
        return link.copy(attrs={**link.attrs, "href": href}) if href else None

    def _picture(self, image: Token) -> Token:
        path = photo_path(self._day, link_target(image))
        plate = plate_at(self._view, self._links, path)
        if plate is None:
            return Token("text", "", 0, content=image.content)
        self.shown.add(plate.number)
        return Token("html_inline", "", 0, content=_img(plate, image.content or plate.alt))


def _img(plate: Plate, alt: str) -> str:
    sizes = "(min-width: 110rem) 47rem, (min-width: 44rem) 38.3rem, 92vw"
    return (
        f'<picture><source type="image/webp" srcset="{escape(plate.srcset)}" sizes="{sizes}">'
        f'<img src="{escape(plate.src)}" width="{plate.width}" height="{plate.height}" '
        f'alt="{escape(alt)}" loading="lazy" decoding="async"></picture>'
    )


def excerpt(blocks: Sequence[Block], room: int = 170) -> str:
    """The first words of what a sheet tells all its readers, cut at a sentence or a word."""
    for block in blocks:
        words = parsed(block.text).opening if block.reader is Reader.PUBLIC else ""
        if words:
            return _cut(words, room)
    return ""


def _cut(words: str, room: int) -> str:
    if len(words) <= room:
        return words
    head = words[: room + 1]
    stop = max(head.rfind(mark) for mark in (". ", "? ", "! "))
    if stop > room // 3:
        return head[: stop + 1]
    return head[: head.rfind(" ")].rstrip(",;:") + " …"

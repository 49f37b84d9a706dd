"""The text of a sheet: CommonMark, with blocks that only some readers see.

    ::: workshop
    What only the workshop reads.
    :::

Anything that looks like such a block and is not clearly one keeps the whole text for the workshop:
a slip must never publish what was meant to be private.
"""

import re
from collections.abc import Callable
from functools import lru_cache
from urllib.parse import unquote

from markdown_it import MarkdownIt
from markdown_it.token import Token
from mdit_py_plugins.container import container_plugin

from journal.records.place import Place
from journal.records.problem import Problem
from journal.records.sheet import Block
from journal.words.hidden import without_hidden
from journal.words.names import nearest
from journal.words.text import normal
from journal.words.vocabulary import Reader

READERS = tuple(reader.value for reader in Reader)

# A run of three colons anywhere, or two before a reader's name at the start of a line.
_MARK = re.compile(
    rf":::+\s*(\S*)|^(?:[\s>*+-]|\d+[.)])*::?\s*({'|'.join(READERS)})\s*$", re.IGNORECASE
)
_COLONS = ":::"
_CLOSING = re.compile(r" {0,3}:::+\s*")


class _EveryLink(MarkdownIt):
    """A parser that takes a link for one wherever it leads; nothing that it parses is shown."""

    def validateLink(self, url: str) -> bool:  # noqa: N802 - the library's own name
        """Any link."""
        return True


def body_parser(*, raw_html: bool = False, every_link: bool = False) -> MarkdownIt:
    """A CommonMark parser with reader blocks. Raw HTML is shown as text unless `raw_html`.

    What looks like a link to a script or to data is shown as text too; with `every_link` it is a
    link, so that it can be found.
    """
    kind = _EveryLink if every_link else MarkdownIt
    parser = kind("commonmark", {"html": raw_html})
    for reader in READERS:
        parser.use(container_plugin, name=reader, validate=_validator(reader))
    return parser


_OUTWARD = ("http://", "https://", "mailto:")


def leads_outward(link: Token) -> bool:
    """Whether a link leads to a whole address, which a reader may follow; nothing else is one."""
    return str(link.attrs.get("href", "")).startswith(_OUTWARD)


def link_target(token: Token) -> str:
    """Where a link or picture leads, as a person writes it: the parser writes blanks and accents in
    code. For names of things in the journal alone, never for an address to be followed."""
    written = str(token.attrs.get("src" if token.type == "image" else "href", ""))
    return " ".join(normal(without_hidden(unquote(written))[0]).split())


def _validator(reader: str) -> Callable[[str, str], bool]:
    def validate(params: str, _markup: str) -> bool:
        return params.strip() == reader

    return validate


_PARSER = body_parser()


# Room for the texts of several thousand sheets: their list, their pages, the feed and the search read
# each of them in turn.
@lru_cache(maxsize=4096)
def tokens_of(text: str) -> tuple[Token, ...]:
    """What a parser makes of a text. All who read it share it: whoever wants it otherwise takes copies."""
    return tuple(_PARSER.parse(text))


def read_body(text: str, path: str, first_line: int) -> tuple[tuple[Block, ...], list[Problem]]:
    """The blocks of a sheet's text in order, each with its widest reader.

    `first_line` is the line of the file on which `text` starts.
    """
    lines = text.split("\n")
    spans = _closed_blocks(_PARSER.parse(text), lines) if _COLONS in text else []
    problems = _stray_marks(spans, lines, path, first_line)
    if problems:
        return _block(Reader.WORKSHOP, lines, 0, len(lines), first_line), problems
    blocks: list[Block] = []
    here = 0
    for start, end, reader in spans:
        blocks += _block(Reader.PUBLIC, lines, here, start, first_line)
        blocks += _block(reader, lines, start + 1, end, first_line)
        here = end + 1
    blocks += _block(Reader.PUBLIC, lines, here, len(lines), first_line)
    return tuple(blocks), problems


def _closed_blocks(tokens: list[Token], lines: list[str]) -> list[tuple[int, int, Reader]]:
    """Blocks at the margin that are closed: the lines of their two marks, and their reader."""
    marks = [t for t in tokens if t.type.startswith("container_") and t.level == 0]
    opened = [(t.map[0], t.map[1], Reader(t.info.strip())) for t in marks[::2] if t.map]
    return [
        (start, end, reader)
        for start, end, reader in opened
        if end < len(lines) and _CLOSING.fullmatch(lines[end])
    ]


def _block(reader: Reader, lines: list[str], start: int, end: int, first: int) -> tuple[Block, ...]:
    while start < end and not lines[start].strip():
        start += 1
    text = "\n".join(lines[start:end]).rstrip()
    return (Block(reader, text, first + start),) if text else ()


def _stray_marks(
    spans: list[tuple[int, int, Reader]], lines: list[str], path: str, first_line: int
) -> list[Problem]:
    """Marks that open or close no block: misspelt, indented, nested, or never closed.

    A closing mark left over by an opening one that is wrong is an echo, and is not reported.
    """
    used = {line for start, end, _ in spans for line in (start, end)}
    marks = [(n, _name(line)) for n, line in enumerate(lines) if _MARK.search(line)]
    stray = [(number, name) for number, name in marks if number not in used]
    named = [number for number, name in stray if name]
    return [_stray(lines[n], n, path, first_line) for n in named or [n for n, _ in stray]]


def _name(line: str) -> str:
    """The reader that a mark names, or the word that stands there instead."""
    match = _MARK.search(line)
    return (match.group(1) or match.group(2) or "") if match else ""


def _stray(line: str, number: int, path: str, first_line: int) -> Problem:
    name = _name(line)
    meant = nearest(name, READERS) if name else None
    if name and ":::" not in line:
        message = "a block is marked with three colons"
        way = f"write ::: {meant}"
    elif name in READERS and line.rstrip().endswith(name):
        message = f'the block "{name}" is not closed, or does not start at the margin'
        way = "start it at the margin and close it with ::: on a line of its own"
    elif name in READERS:
        message = f'the mark of the block "{name}" has more words after it'
        way = f"write ::: {name} on a line of its own"
    elif name:
        message = f'there are no blocks for "{name}"'
        way = f"write ::: {meant}" if meant else f"write one of ::: {', ::: '.join(READERS)}"
    else:
        message = "this ::: closes no block"
        way = "open the block with ::: workshop or ::: owner, or take the line out"
    return Problem(
        Place(path, first_line + number), "bad-block", message, quoted=line, help=way,
        note="until this is mended the whole text of the sheet is shown to the workshop alone",
    )  # fmt: skip

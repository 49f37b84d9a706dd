"""Do the links in the text of every sheet lead somewhere?"""

from collections.abc import Iterator

from markdown_it.token import Token
from msgspec.structs import replace

from journal.reading.markdown import body_parser, leads_outward, link_target
from journal.records.carfile import CarFile
from journal.records.problem import Problem, problem_at
from journal.records.sheet import Block
from journal.words.names import nearest

_PARSER = body_parser(every_link=True)
# Without one of these a text has neither link nor picture (CommonMark 0.31, 6.3 to 6.5).
_BRACKETS = frozenset("[<")


def check_links(car: CarFile) -> Iterator[Problem]:
    """Links that name no sheet of the car, and pictures in the text, which belong under photos."""
    known = {sheet.name for sheet in car.sheets} | {c.key for c in car.register.components}
    known |= car.unread
    for sheet in car.sheets:
        for block in sheet.body:
            for line, token in _inline(block):
                source = replace(sheet.source, marks={(): line})
                if token.type == "image":
                    yield problem_at(
                        source, (), "picture-in-text", "a picture stands in the text",
                        help="name it under photos: in the front matter",
                    )  # fmt: skip
                    continue
                target = link_target(token)
                if leads_outward(token) or target in known:
                    continue
                meant = nearest(target, known - {sheet.name})
                way = f"write {meant}" if meant else "write the name of a sheet, or a whole address"
                yield problem_at(
                    source, (), "unknown-link", f'a link leads to "{target}", which is no sheet',
                    help=way,
                )  # fmt: skip


def _inline(block: Block) -> Iterator[tuple[int, Token]]:
    """Links and pictures of a block, each with the line of the file its paragraph starts on."""
    if not _BRACKETS & set(block.text):
        return
    for token in _PARSER.parse(block.text):
        for child in token.children or ():
            if child.type in ("link_open", "image"):
                yield block.line + (token.map[0] if token.map else 0), child

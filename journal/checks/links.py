"""Do the links in the text of every sheet lead somewhere?"""

from collections.abc import Iterator

from msgspec.structs import replace

from journal.reading.parsed import parsed
from journal.records.carfile import CarFile
from journal.records.problem import Problem, problem_at
from journal.words.names import nearest


def check_links(car: CarFile) -> Iterator[Problem]:
    """Links that name no sheet of the car, and pictures in the text, which belong under photos."""
    known = {sheet.name for sheet in car.sheets} | {c.key for c in car.register.components}
    known |= car.unread
    for sheet in car.sheets:
        for block in sheet.body:
            for link in parsed(block.text).links:
                source = replace(sheet.source, marks={(): block.line + link.line})
                if link.picture:
                    yield problem_at(
                        source, (), "picture-in-text", "a picture stands in the text",
                        help="name it under photos: in the front matter",
                    )  # fmt: skip
                    continue
                if link.outward or link.target in known:
                    continue
                meant = nearest(link.target, known - {sheet.name})
                way = f"write {meant}" if meant else "write the name of a sheet, or a whole address"
                yield problem_at(
                    source, (), "unknown-link", f'a link leads to "{link.target}", which is no sheet',
                    help=way,
                )  # fmt: skip

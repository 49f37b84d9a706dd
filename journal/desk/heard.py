"""What was said, sent to the desk: it is heard, and answered as lines that somebody confirms one by one.

Nothing is written anywhere. The page keeps the words, and the lines, until they stand in a sheet.
"""

from collections.abc import Collection, Sequence
from datetime import date
from pathlib import PurePosixPath
from typing import Any

from anyio import to_thread
from msgspec import Struct
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from journal.desk.asking import API, Way, car_named, said
from journal.desk.desk import Desk
from journal.desk.linetold import lines_told
from journal.desk.placed import Place, carried_to
from journal.desk.state import CarState
from journal.hearing.hear import hear
from journal.hearing.heard import Heard
from journal.hearing.known import known_words
from journal.outputs.sheets.fromtalk import sheets_from
from journal.outputs.sheets.merging import Told
from journal.outputs.sheets.print import NewSheet, line_told, new_text
from journal.outputs.sheets.spoken import parted, plainly
from journal.reading.talk import TALK_BYTES, talk_from
from journal.reading.text import SHEET_BYTES
from journal.records.problem import Problem
from journal.records.talk import Talk
from journal.words.dates import parse_date
from journal.words.vocabulary import Reader

# What was typed or dictated into the page has no name of a file.
_DICTATED = "talk.txt"
_TOO_LONG = (
    "This is more than one sheet holds. Cut it in two, or bring it in at the terminal with journal write "
    "CONTENT --from FILE, which makes as many sheets of it as it needs."
)


class Said(Struct, frozen=True):
    """What a page sends: the words as bytes of a file of some name, of which day, by whose hand, and what
    they are likely about; the last two are empty where nobody says."""

    raw: bytes
    name: str
    day: date
    hand: str
    subsystem: str


async def post_heard(desk: Desk, request: Request) -> Response:
    """Hear what was said, and answer with what it would put into a sheet."""
    car = car_named(desk, request)
    if car is None:
        return said("There is no such car.", 404)
    asked = request.query_params
    try:
        day = parse_date(asked.get("day", ""))
    except ValueError:
        return said("Say first of which day this tells.", 400)
    workshop = car.file.workshop
    sent = Said(
        await request.body(), asked.get("name") or _DICTATED, day,
        _one_of(workshop.hands.names(), asked.get("hand")),
        _one_of(workshop.all_subsystems(), asked.get("subsystem")),
    )  # fmt: skip
    return await to_thread.run_sync(_heard, desk, car, sent)


def _one_of(known: Collection[str], name: str | None) -> str:
    return name if name and name in known else ""


def _heard(desk: Desk, car: CarState, sent: Said) -> Response:
    talk, problems = talk_from(sent.raw, PurePosixPath(sent.name))
    if talk is None:
        return said(_sentence(problems[0]), 422)
    if len(talk.text.encode("utf-8")) > SHEET_BYTES:
        return said(_TOO_LONG, 413)
    known, _ = known_words(desk.root)
    heard = hear(talk, car.file, sent.day, known, sent.hand, sent.subsystem)
    front: Told = {"date": sent.day.isoformat(), "subsystem": _branch(car, heard)}
    sheet, *others = sheets_from(heard, front, car.file)
    if others or len(new_text(sheet).encode("utf-8")) > SHEET_BYTES:
        return said(_TOO_LONG, 413)
    return JSONResponse(_told(car, talk, heard, sheet, problems))


def _branch(car: CarState, heard: Heard) -> str:
    """Any subsystem, for a sheet has one."""
    return next(iter(heard.subsystem), next(iter(car.file.workshop.all_subsystems())))


def _told(
    car: CarState, talk: Talk, heard: Heard, sheet: NewSheet, problems: Sequence[Problem]
) -> dict[str, Any]:
    _, spoken = parted(sheet.body)
    text = spoken.text if spoken else ""
    words = plainly(text)
    places = carried_to(words, talk.text, [Place(line.start, line.end) for line in heard.lines])
    kinds, of = [line.kind.value for line in heard.lines], [line.of for line in heard.lines]
    lines = [line_told(line) for line in sheet.front.draft]
    return {
        "title": heard.title, "subsystem": [*heard.subsystem], "said": words,
        "talk": {"text": text, "for": Reader.WORKSHOP.value},
        "lines": [*lines_told(car.file, words, lines, places, kinds, of)],
        "notes": [*(f"{_sentence(p)}, line {p.place.line}" for p in problems), *heard.notes],
    }  # fmt: skip


def _sentence(problem: Problem) -> str:
    text = problem.message[:1].upper() + problem.message[1:]
    return f"{text}; {problem.help}" if problem.help else text


WAYS: tuple[Way, ...] = (Way("POST", f"{API}/heard/{{car}}", post_heard, TALK_BYTES),)

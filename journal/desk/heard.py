"""What was said, sent to the desk: it is heard, and answered as lines that somebody confirms one by one.

Nothing is written anywhere. The page keeps the words, and the lines, until they stand in a sheet.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import PurePosixPath
from typing import Any

from anyio import to_thread
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from journal.desk.asking import API, Way, car_named, said
from journal.desk.desk import Desk
from journal.desk.linetold import lines_told
from journal.desk.placed import Place, carried_to
from journal.desk.state import CarState
from journal.hearing.hear import hear
from journal.hearing.heard import Heard, Line
from journal.hearing.known import known_words
from journal.outputs.sheets.draft import draft_told
from journal.outputs.sheets.merging import Told, keyed, listed
from journal.outputs.sheets.print import NewSheet, new_text
from journal.outputs.sheets.spoken import Spoken, plainly, together
from journal.reading.talk import TALK_BYTES, talk_in
from journal.reading.text import SHEET_BYTES
from journal.records.problem import Problem
from journal.records.sheet import SheetFront
from journal.records.talk import Talk
from journal.words.dates import parse_date
from journal.words.moments import moment_text
from journal.words.text import shortened
from journal.words.vocabulary import Reader

# What was typed or dictated into the page has no name of a file.
_DICTATED = "talk.txt"
# Words that a line came from are read at a glance; all that was said stands in the text.
_MOST_WORDS = 400
# What is called by its name in later sheets too.
_CALLED_BY_NAME = ("parts", "outwork", "snags", "rechecks")
_TOO_LONG = (
    "This is more than one sheet holds. Cut it in two, or bring it in at the terminal with journal write "
    "CONTENT --from FILE, which makes as many sheets of it as it needs."
)


@dataclass(frozen=True)
class Said:
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
    talk, problems = talk_in(sent.raw, PurePosixPath(sent.name))
    if talk is None:
        return said(_sentence(problems[0]), 422)
    known, _ = known_words(desk.root)
    heard = hear(talk, car.file, sent.day, known, sent.hand, sent.subsystem)
    lines = _named(car, sent.day, heard)
    if _size(sent.day, heard, lines) > SHEET_BYTES:
        return said(_TOO_LONG, 413)
    return JSONResponse(_told(car, talk, heard, lines, problems))


def _told(
    car: CarState, talk: Talk, heard: Heard, lines: Sequence[Told], problems: Sequence[Problem]
) -> dict[str, Any]:
    words = plainly(heard.narrative)
    places = carried_to(words, talk.text, [Place(line.start, line.end) for line in heard.lines])
    kinds, of = [line.kind.value for line in heard.lines], [line.of for line in heard.lines]
    return {
        "title": heard.title, "subsystem": [*heard.subsystem], "said": words,
        "talk": {"text": heard.narrative, "for": Reader.WORKSHOP.value},
        "lines": [*lines_told(car.file, lines, places, kinds, of)],
        "notes": [*(f"{_sentence(p)}, line {p.place.line}" for p in problems), *heard.notes],
    }  # fmt: skip


def _named(car: CarState, day: date, heard: Heard) -> list[Told]:
    """The lines as they stand in a draft, new things under names that nothing else has."""
    front: Told = {"date": day.isoformat(), "subsystem": _branch(car, heard)}
    told = draft_told(front, [_line(line) for line in heard.lines], _taken(car))
    return [keyed(line) for line in listed(told.get("draft"))]


def _branch(car: CarState, heard: Heard) -> str:
    """Any subsystem, for a sheet has one."""
    return next(iter(heard.subsystem), next(iter(car.file.workshop.all_subsystems())))


def _line(line: Line) -> Told:
    told: Told = {"words": shortened(line.words, _MOST_WORDS)}
    told |= {"at": moment_text(line.at)} if line.at is not None else {}
    told |= {"ask": line.ask} if line.ask else {}
    return told | dict(line.told)


def _taken(car: CarState) -> Mapping[str, set[str]]:
    return {
        kind: {name for sheet in car.file.sheets for name in getattr(sheet.front, kind).names()}
        for kind in _CALLED_BY_NAME
    }


def _size(day: date, heard: Heard, lines: Sequence[Told]) -> int:
    """How many bytes a sheet has that holds nothing but the talk and its lines."""
    told = {"date": day.isoformat(), "subsystem": "papers", "draft": [*lines]}
    front = SheetFront.model_validate(told, context=day)
    body = together("", Spoken(heard.narrative, Reader.WORKSHOP))
    return len(new_text(NewSheet(front, body)).encode("utf-8"))


def _sentence(problem: Problem) -> str:
    text = problem.message[:1].upper() + problem.message[1:]
    return f"{text}; {problem.help}" if problem.help else text


WAYS: tuple[Way, ...] = (Way("POST", f"{API}/heard/{{car}}", post_heard, TALK_BYTES),)

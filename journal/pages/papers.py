"""Papers, and the car's numbers as papers and readings give them, with what is in dispute."""

from typing import NamedTuple

from journal.ledgers.numbers import NumberLine, Statement
from journal.pages.common import frame
from journal.pages.links import Links, Ref, anchor
from journal.pages.page import Page
from journal.pages.view import CarView
from journal.pages.words import day_words, some
from journal.records.papers import Paper
from journal.words.names import title_of
from journal.words.text import comparable

PATH = "papers.html"


class ValueWords(NamedTuple):
    """One reading of a number, and everything that gives it so."""

    value: str
    sources: tuple[tuple[Ref, str], ...]


class NumberWords(NamedTuple):
    """One stamped number with everything that speaks for and against it."""

    name: str
    on: Ref | None
    note: str
    disputed: bool
    values: tuple[ValueWords, ...]


class PaperWords(NamedTuple):
    """One paper: what it is, whence it comes, what it tells, and the sheets that used it."""

    anchor: str
    title: str
    kind: str
    day: str
    source: str
    says: str
    numbers: tuple[tuple[str, str], ...]
    supports: tuple[Ref, ...]
    used: tuple[Ref, ...]


def page_papers(view: CarView) -> tuple[Page, ...]:
    """Papers and numbers."""
    links = Links(view, PATH)
    values = {
        **frame(links, "Papers and numbers"),
        "how_many": some(len(view.car.papers), "paper"),
        "numbers": tuple(_number(links, line) for line in view.numbers.lines),
        "disputes": some(sum(line.disputed for line in view.numbers.lines), "number"),
        "disputed": any(line.disputed for line in view.numbers.lines),
        "papers": tuple(_paper(view, links, name, paper) for name, paper in view.car.papers),
    }
    return (Page(view.base + PATH, "papers.html", values),)


def _number(links: Links, line: NumberLine) -> NumberWords:
    values: dict[str, list[Statement]] = {}
    for statement in line.statements:
        values.setdefault(comparable(statement.value), []).append(statement)
    return NumberWords(
        title_of(line.name),
        links.component(line.on) if line.on else None,
        line.note or "",
        line.disputed,
        tuple(
            ValueWords(same[0].value, tuple(_source(links, s) for s in same))
            for same in values.values()
        ),
    )


def _source(links: Links, statement: Statement) -> tuple[Ref, str]:
    source = Ref("As found on the car")
    if statement.kind == "paper" and statement.ref:
        source = links.paper(statement.ref)
    elif statement.ref:
        source = links.sheet(statement.ref)
    return source, day_words(statement.day) if statement.day else ""


def _paper(view: CarView, links: Links, name: str, paper: Paper) -> PaperWords:
    supports = [c.key for c in view.car.register.components if name in c.line.paper]
    used = [s.name for s in view.car.sheets if name in s.front.papers]
    return PaperWords(
        anchor("paper", name),
        paper.title,
        paper.kind or "",
        day_words(paper.date) if paper.date else paper.dated or "",
        paper.source or "",
        paper.says or "",
        tuple((title_of(number), value) for number, value in paper.numbers),
        tuple(links.component(key, full=True) for key in supports),
        tuple(links.sheet(sheet) for sheet in used),
    )

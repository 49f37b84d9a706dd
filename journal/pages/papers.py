"""Papers, and the car's numbers as papers and readings give them, with what is in dispute."""

from typing import NamedTuple

from journal.pages.common import frame
from journal.pages.links import Links, Ref, anchor
from journal.pages.numberwords import number_words
from journal.pages.page import Page
from journal.pages.view import CarView
from journal.pages.words import day_words, some
from journal.records.papers import Paper
from journal.words.names import title_of

PATH = "papers.html"


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
        "numbers": tuple(number_words(links, line) for line in view.numbers.lines),
        "disputes": some(sum(line.disputed for line in view.numbers.lines), "number"),
        "disputed": any(line.disputed for line in view.numbers.lines),
        "papers": tuple(_paper(view, links, name, paper) for name, paper in view.car.papers),
    }
    return (Page(view.base + PATH, "papers.html", values),)


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

"""Papers: what each of them is and says, its scan, and what leans on it."""

from collections.abc import Iterator

from journal.pages.anchors import anchor
from journal.pages.common import frame
from journal.pages.keeperwords import distance_words
from journal.pages.links import Links, Ref
from journal.pages.page import Page
from journal.pages.plates import Plate, plate_of_scan
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, some
from journal.records.papers import Keeper, Paper
from journal.words.names import title_of
from journal.words.text import listed

PATH = "papers.html"


class PaperWords(Value, frozen=True):
    """One paper: what it is, whence it comes, what it tells, its scan, and what leans on it."""

    anchor: str
    title: str
    kind: str
    day: str
    source: str
    says: str
    numbers: tuple[tuple[str, str], ...]
    tells: tuple[str, ...]
    scan: Plate | None
    supports: tuple[Ref, ...]
    used: tuple[Ref, ...]


def page_papers(view: CarView) -> tuple[Page, ...]:
    """All papers that the reader may see."""
    links = Links(view, PATH)
    values = {
        **frame(links, "Papers"),
        "how_many": some(len(view.car.papers), "paper"),
        "numbers_page": links.to("numbers.html"),
        "papers": tuple(paper_words(view, links, name, paper) for name, paper in view.car.papers),
    }
    return (Page(view.base + PATH, "papers.html", values),)


def paper_words(view: CarView, links: Links, name: str, paper: Paper) -> PaperWords:
    """One paper in words."""
    supports = [c.key for c in view.car.register.components if name in c.line.paper]
    used = [s.name for s in view.car.sheets if name in s.front.papers]
    day = day_words(paper.date) if paper.date else paper.dated or ""
    caption = f"{paper.title}, {day}" if day else paper.title
    return PaperWords(
        anchor("paper", name),
        paper.title,
        paper.kind or "",
        day,
        paper.source or "",
        paper.says or "",
        tuple((title_of(number), value) for number, value in paper.numbers),
        tuple(_tells(view, paper)),
        plate_of_scan(view, links, paper.file, caption, paper.alt) if paper.file else None,
        tuple(links.component(key, full=True) for key in supports),
        tuple(links.sheet(sheet) for sheet in used),
    )


def _tells(view: CarView, paper: Paper) -> Iterator[str]:
    """What a paper tells of keepers, registration and odometer."""
    if paper.keepers:
        one = "Keeper" if len(paper.keepers) == 1 else "Keepers"
        yield f"{one}: {listed([_keeper(keeper) for keeper in paper.keepers])}"
    if paper.registration:
        yield f"Registration: {paper.registration}"
    if paper.odometer is not None:
        yield f"Odometer: {distance_words(paper.odometer, view.keepers.unit.value)}"


def _keeper(keeper: Keeper) -> str:
    years = [str(day.year) for day in (keeper.from_, keeper.to) if day]
    if not years:
        return keeper.name
    if keeper.from_ and not keeper.to:
        return f"{keeper.name} (from {years[0]})"
    return f"{keeper.name} ({'to ' if not keeper.from_ else ''}{' to '.join(dict.fromkeys(years))})"

"""The timeline of one subsystem: every sheet that touched it, and its components beside."""

from collections.abc import Container, Iterator, Sequence
from functools import partial
from typing import Any

from journal.ledgers.originality import Line
from journal.pages.branch import branch_sentences
from journal.pages.common import cautions_for, frame
from journal.pages.figures import FigureWords, kept_words, three_figures
from journal.pages.leafwords import OLDEST_FIRST, days_told, titled, turn_words
from journal.pages.lines import ledger_row, left_works
from journal.pages.links import Links, Ref, subsystem_names, subsystem_path
from journal.pages.page import Later, Page
from journal.pages.pairs import pairs_under
from journal.pages.parting import Leaf, Section, parted
from journal.pages.plates import Plate, plates_of
from journal.pages.prose import excerpt
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, days_words, sentence, some
from journal.pages.workwords import WorkWords, work_of_sheet
from journal.records.sheet import Sheet
from journal.words.groups import grouped_by_each

# As many sheets as one page holds, and as many pictures of one of them as stand on the line.
ROOM = 80
PLATES = 3
WENT = "went"


class TimelineEntry(Value, frozen=True):
    """One sheet on the line; `departs` when the car left the works specification that day. `more`
    tells of pictures that stand in the sheet alone."""

    ref: Ref
    day: str
    iso: str
    excerpt: str
    work: tuple[WorkWords, ...]
    plates: tuple[Plate, ...]
    more: Ref | None
    departs: bool


def page_subsystem(view: CarView) -> tuple[Page, ...]:
    """A page for every subsystem that anything is written of, and further ones where it is long."""
    start = Links(view, "")
    touched = grouped_by_each(view.car.sheets, _touched)
    lines = {name: (Section(WENT, touched.get(name, ())),) for name in subsystem_names(view)}
    return tuple(
        page
        for name, line in lines.items()
        for page in _pages(start, name, parted(subsystem_path(name), line, ROOM))
    )


def _touched(sheet: Sheet) -> Iterator[str]:
    """The subsystems that a sheet is of, or tells of work on."""
    yield from sheet.front.subsystem
    yield from (key.split("/")[0] for key, _ in sheet.front.work)


def _pages(start: Links, name: str, leaves: tuple[Leaf, ...]) -> Iterator[Page]:
    for leaf in leaves:
        values = Later(partial(_values, start, name, leaves, leaf))
        yield Page(start.view.base + leaf.path, "subsystem.html", values)


def _values(start: Links, name: str, leaves: tuple[Leaf, ...], leaf: Leaf) -> dict[str, Any]:
    links, view = start.at(leaf.path), start.view
    lines = [line for line in view.originality.lines if line.component.subsystem == name]
    safety = any(line.component.line.safety for line in lines)
    left = {line.departure.sheet for line in lines if line.departure and left_works(line)}
    first = leaf.number == 1
    pairs = pairs_under(view, links, name) if first else ()
    return {
        **frame(links, titled(links.subsystem(name).text, leaf)),
        "scripts": ("pictures.js",) if pairs else (),
        "first": first,
        "pairs": pairs,
        "sentences": branch_sentences(view, name),
        "figures": _figures(view, name, lines) if first else (),
        "entries": tuple(_entry(links, sheet, name, left) for sheet in leaf.entries(WENT)),
        "components": tuple(ledger_row(line, links) for line in lines) if first else (),
        "snags": _snags(view, links, name) if first else (),
        "cautions": cautions_for(view, (name,), safety),
        "continued": leaf.continued,
        "turn": turn_words(links, leaves, _told, OLDEST_FIRST),
    }


def _told(leaf: Leaf) -> str:
    return days_told([sheet.date for sheet in leaf.entries(WENT)])


def _figures(view: CarView, name: str, lines: Sequence[Line]) -> tuple[FigureWords, ...]:
    summary = dict(view.originality.subsystems).get(name)
    back = sum(d.recoverable for line in lines for d in line.displaced)
    return three_figures(summary, kept_words(back)) if summary and summary.weight else ()


def _entry(links: Links, sheet: Sheet, name: str, left: Container[str]) -> TimelineEntry:
    """A sheet on the line; `left` are those with which the car left the works specification."""
    view = links.view
    pictures = [p for p in view.gallery.in_sheet(sheet.name) if p.subsystem == name]
    plates = plates_of(view, links, pictures)
    return TimelineEntry(
        links.sheet(sheet.name),
        day_words(sheet.date),
        sheet.date.isoformat(),
        excerpt(sheet.body, 260),
        work_of_sheet(view, links, sheet, name),
        plates[:PLATES],
        _more(links, sheet, len(plates) - PLATES),
        sheet.name in left,
    )


def _more(links: Links, sheet: Sheet, more: int) -> Ref | None:
    if more <= 0:
        return None
    return Ref(
        f"{sentence(some(more, 'more photograph'))} in the sheet", links.sheet(sheet.name).href
    )


def _snags(view: CarView, links: Links, name: str) -> tuple[tuple[Ref, str, bool], ...]:
    """Open snags: words, age, and whether each holds the handover."""
    return tuple(
        (
            Ref(snag.text, links.snag(snag.name)),
            f"open for {days_words(snag.age(view.until))}",
            snag.hold,
        )
        for snag in view.snags.open
        if snag.subsystem == name
    )

"""The timeline of one subsystem: every sheet that touched it, and its components beside."""

from functools import partial
from typing import Any, NamedTuple

from journal.pages.branch import branch_sentences
from journal.pages.common import cautions_for, frame
from journal.pages.figures import kept_words, three_figures
from journal.pages.lines import ledger_row, left_works
from journal.pages.links import Links, Ref, subsystem_names, subsystem_path
from journal.pages.page import Later, Page
from journal.pages.pairs import pairs_under
from journal.pages.plates import Plate, plates_of
from journal.pages.prose import excerpt
from journal.pages.view import CarView
from journal.pages.words import day_words, days_words, sentence, some
from journal.pages.workwords import WorkWords, work_of_sheet
from journal.records.sheet import Sheet

# As many pictures of one sheet as stand on the line.
PLATES = 3


class TimelineEntry(NamedTuple):
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
    """A page for every subsystem that anything is written of."""
    start = Links(view, "")
    return tuple(
        Page(
            view.base + subsystem_path(name), "subsystem.html",
            Later(partial(_values, view, start, name)),
        )
        for name in subsystem_names(view)
    )  # fmt: skip


def _values(view: CarView, start: Links, name: str) -> dict[str, Any]:
    links = start.at(subsystem_path(name))
    lines = [line for line in view.originality.lines if line.component.subsystem == name]
    summary = dict(view.originality.subsystems).get(name)
    back = sum(d.recoverable for line in lines for d in line.displaced)
    kept = kept_words(back)
    safety = any(line.component.line.safety for line in lines)
    pairs = pairs_under(view, links, name)
    return {
        **frame(links, links.subsystem(name).text),
        "scripts": ("pictures.js",) if pairs else (),
        "pairs": pairs,
        "sentences": branch_sentences(view, name),
        "figures": three_figures(summary, kept) if summary and summary.weight else (),
        "entries": tuple(
            _entry(view, links, sheet, name) for sheet in view.car.sheets if _touches(sheet, name)
        ),
        "components": tuple(ledger_row(line, links) for line in lines),
        "snags": _snags(view, links, name),
        "cautions": cautions_for(view, (name,), safety),
    }


def _touches(sheet: Sheet, name: str) -> bool:
    front = sheet.front
    return name in front.subsystem or any(key.split("/")[0] == name for key, _ in front.work)


def _entry(view: CarView, links: Links, sheet: Sheet, name: str) -> TimelineEntry:
    pictures = [p for p in view.gallery.in_sheet(sheet.name) if p.subsystem == name]
    departs = any(
        line.departure is not None and line.departure.sheet == sheet.name
        for line in view.originality.lines
        if line.component.subsystem == name and left_works(line)
    )
    plates = plates_of(view, links, pictures)
    return TimelineEntry(
        links.sheet(sheet.name),
        day_words(sheet.date),
        sheet.date.isoformat(),
        excerpt(sheet.body, 260),
        work_of_sheet(view, links, sheet, name),
        plates[:PLATES],
        _more(links, sheet, len(plates) - PLATES),
        departs,
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

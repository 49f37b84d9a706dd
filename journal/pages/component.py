"""The biography of one component: as found, now, every change, where displaced items are."""

from functools import partial
from typing import Any, NamedTuple

from journal.ledgers.gallery import Picture
from journal.ledgers.originality import Line
from journal.ledgers.originality.items import Entry, Link
from journal.pages.common import cautions_for, frame
from journal.pages.hanging import by_subsystem, room_place
from journal.pages.lines import (
    WITNESS,
    contradiction_words,
    displaced_words,
    item_words,
    learned_words,
    left_works,
)
from journal.pages.links import Links, Ref, component_path
from journal.pages.numberwords import number_disputes
from journal.pages.page import Later, Page
from journal.pages.pairs import before_and_after
from journal.pages.photowords import clock_note
from journal.pages.plates import plates_of
from journal.pages.readingwords import reading_words
from journal.pages.recheckwords import recheck_ref, when_words
from journal.pages.view import CarView
from journal.pages.words import day_words, sentence, some
from journal.pages.workwords import WorkWords, work_of_entry
from journal.words.amounts import plain_number
from journal.words.vocabulary import EVIDENCE_MEANING

# As many pictures as hang on the page of one component.
WALL = 60


class EntryWords(NamedTuple):
    """One line of the biography; `told` is there when it was written down on a later day, and
    `departs` when the car left the works specification with it."""

    day: str
    iso: str
    told: str
    work: WorkWords
    departs: bool


class EvidenceWords(NamedTuple):
    """One piece of evidence; `clock` is what the camera says of the day, `wrong` if it cannot be."""

    kind: str
    ref: Ref
    day: str
    clock: str = ""
    wrong: bool = False


def page_component(view: CarView) -> tuple[Page, ...]:
    """A page for every component of the register."""
    start = Links(view, "")
    return tuple(
        Page(
            view.base + component_path(line.component.key), "component.html",
            Later(partial(_values, view, start, line)),
        )
        for line in view.originality.lines
    )  # fmt: skip


def _values(view: CarView, start: Links, line: Line) -> dict[str, Any]:
    component = line.component
    links = start.at(component_path(component.key))
    pair = before_and_after(view, links, component.key, same=not line.changed)
    paired = {pair.before.number, pair.after.number} if pair else set()
    pictures = tuple(
        p
        for p in view.gallery.of(component.key)
        if p.path in view.pictures and p.number not in paired
    )
    return {
        **frame(links, component.label),
        "scripts": ("pictures.js",) if pair else (),
        "subsystem": links.subsystem(component.subsystem),
        "works": component.line.works or "",
        "works_papers": tuple(links.paper(name) for name in component.line.paper),
        "condition": component.line.condition or "",
        "weight": plain_number(line.weight),
        "found": item_words(line.as_found),
        "learned": tuple(
            (sentence(learned_words(new.before, new.day)), links.sheet(new.sheet))
            for new in line.learned
        ),
        "now": item_words(line.now),
        "changed": line.changed,
        "position": line.position.value,
        "since": day_words(line.now.since) if line.now.since else "",
        "stand_in": _stand_in(links, line),
        "evidence": line.evidence.value,
        "evidence_meaning": EVIDENCE_MEANING[line.evidence],
        "links": tuple(_evidence(view, links, link) for link in telling_links(line)),
        "contradictions": (
            *number_disputes(view, links, component.key),
            *(contradiction_words(links, c) for c in line.contradictions),
        ),
        "entries": tuple(_entry(view, links, line, entry) for entry in line.biography),
        "witness": WITNESS,
        "displaced": tuple(displaced_words(view, links, d) for d in line.displaced),
        "rechecks": tuple(
            (recheck_ref(links, r), sentence(when_words(view, r)))
            for r in view.rechecks.open
            if component.key in r.on
        ),
        "readings": tuple(reading_words(links, r) for r in view.measured.on(component.key)),
        "pair": pair,
        "plates": plates_of(view, links, _first_and_last(pictures)),
        "more_pictures": _more(view, links, component.subsystem, pictures),
        "cautions": cautions_for(view, (component.subsystem,), component.line.safety),
    }  # fmt: skip


def _stand_in(links: Links, line: Line) -> tuple[str, str, Ref] | None:
    if line.stand_in is None:
        return None
    held = line.stand_in
    return (held.what, day_words(held.day), links.sheet(held.sheet))


def telling_links(line: Line) -> tuple[Link, ...]:
    """The evidence worth listing: words only when there is nothing better, since the biography
    has them already."""
    better = tuple(link for link in line.links if link.kind != "words")
    return better or line.links


def _evidence(view: CarView, links: Links, link: Link) -> EvidenceWords:
    day = day_words(link.day) if link.day else ""
    sheet = links.sheet(link.sheet) if link.sheet else Ref("the register")
    if link.kind == "paper":
        return EvidenceWords("Paper", links.paper(link.ref), day)
    if link.kind == "photo":
        picture = view.gallery.at(link.ref)
        text = picture.caption if picture and picture.caption else sheet.text
        href = links.picture(picture.number) if picture else None
        return EvidenceWords("Photograph", Ref(text, href or sheet.href), day, *_clock(picture))
    if link.kind == "number":
        return EvidenceWords("Number", Ref(f"{link.ref}, read in {sheet.text}", sheet.href), day)
    return EvidenceWords("Words", sheet, day)


def _clock(picture: Picture | None) -> tuple[str, bool]:
    if picture is None:
        return "", False
    return clock_note(picture), (picture.days_off or 0) > 0


def _first_and_last(pictures: tuple[Picture, ...]) -> tuple[Picture, ...]:
    if len(pictures) <= WALL:
        return pictures
    return (*pictures[: WALL // 2], *pictures[-WALL // 2 :])


def _more(view: CarView, links: Links, subsystem: str, pictures: tuple[Picture, ...]) -> Ref | None:
    """Where the pictures hang that are too many for one page."""
    if len(pictures) <= WALL:
        return None
    place = links.to(room_place(by_subsystem(view), subsystem))
    return Ref(f"The first and the last of {some(len(pictures), 'photograph')}; all of them", place)


def _entry(view: CarView, links: Links, line: Line, entry: Entry) -> EntryWords:
    left = line.departure if left_works(line) else None
    departs = left is not None and left.sheet == entry.sheet
    told = day_words(entry.told) if entry.told != entry.day else ""
    work = work_of_entry(view, links, entry)
    return EntryWords(day_words(entry.day), entry.day.isoformat(), told, work, departs)

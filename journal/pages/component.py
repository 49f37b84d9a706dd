"""The biography of one component: as found, now, every change, where displaced items are."""

from collections.abc import Iterator
from functools import partial
from typing import Any

from journal.ledgers.gallery import Picture
from journal.ledgers.originality import Line
from journal.ledgers.originality.items import Entry, Link
from journal.pages.common import cautions_for, frame
from journal.pages.hanging import by_subsystem, room_place
from journal.pages.leafwords import (
    AS_TOLD,
    beginnings,
    contents,
    sections_told,
    titled,
    turn_words,
)
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
from journal.pages.parting import Leaf, Section, parted
from journal.pages.photowords import clock_note
from journal.pages.plates import plates_of
from journal.pages.readingwords import reading_words
from journal.pages.recheckwords import recheck_ref, when_words
from journal.pages.sumwords import sum_words
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, in_words, sentence, some
from journal.pages.workwords import WorkWords, work_of_entry
from journal.words.amounts import plain_number
from journal.words.vocabulary import EVIDENCE_MEANING

# As many lines of its life, pieces of evidence, readings and sums as one page holds in all.
ROOM = 120
# As many pieces of evidence as stand in the margin, and as many of more than those.
MARGIN_ROOM, LATEST = 40, 12
# As many pictures as hang on the page of one component.
WALL = 60
HEADINGS = {
    "life": "Its life in this work",
    "evidence": "Every piece of evidence",
    "measured": "Measured",
    "sums": "Bench sums",
}


class EntryWords(Value, frozen=True):
    """One line of the biography; `told` is there when it was written down on a later day, and
    `departs` when the car left the works specification with it."""

    day: str
    iso: str
    told: str
    work: WorkWords
    departs: bool


class EvidenceWords(Value, frozen=True):
    """One piece of evidence; `clock` is what the camera says of the day, `wrong` if it cannot be."""

    kind: str
    ref: Ref
    day: str
    clock: str = ""
    wrong: bool = False


def page_component(view: CarView) -> tuple[Page, ...]:
    """A page for every component of the register, and further ones where much is told of it."""
    start = Links(view, "")
    return tuple(page for line in view.originality.lines for page in _pages(start, line))


def _pages(start: Links, line: Line) -> Iterator[Page]:
    path = component_path(line.component.key)
    leaves = parted(path, _sections(start.view, line), ROOM)
    for leaf in leaves:
        values = _first_values if leaf.number == 1 else _further_values
        made = Later(partial(values, start, line, leaves, leaf))
        yield Page(start.view.base + leaf.path, "component.html", made)


def _sections(view: CarView, line: Line) -> tuple[Section, ...]:
    key, links = line.component.key, telling_links(line)
    return (
        Section("life", line.biography),
        Section("evidence", links if len(links) > MARGIN_ROOM else ()),
        Section("measured", view.measured.on(key)),
        Section("sums", view.sums.on(key)),
    )


def _further_values(
    start: Links, line: Line, leaves: tuple[Leaf, ...], leaf: Leaf
) -> dict[str, Any]:
    """What every page of a component shows: what it has of the long lists."""
    links, view, component = start.at(leaf.path), start.view, line.component
    return {
        **frame(links, titled(component.label, leaf)),
        "first": False,
        **dict.fromkeys(("pair", "more_pictures")),
        **dict.fromkeys(("plates", "rechecks"), ()),
        "subsystem": links.subsystem(component.subsystem),
        "entries": tuple(_entry(view, links, line, entry) for entry in leaf.entries("life")),
        "all_links": tuple(_evidence(view, links, link) for link in leaf.entries("evidence")),
        "readings": tuple(reading_words(links, r) for r in leaf.entries("measured")),
        "sums": tuple(sum_words(links, kept) for kept in leaf.entries("sums")),
        "cautions": cautions_for(view, (component.subsystem,), component.line.safety),
        "continued": leaf.continued,
        "contents": contents(links, leaves, HEADINGS),
        "turn": turn_words(links, leaves, sections_told(HEADINGS), AS_TOLD),
    }


def _first_values(start: Links, line: Line, leaves: tuple[Leaf, ...], leaf: Leaf) -> dict[str, Any]:
    """What the first page shows: all that is known of it, and the beginning of the long lists."""
    links, view, component = start.at(leaf.path), start.view, line.component
    pair = before_and_after(view, links, component.key, same=not line.changed)
    paired = {pair.before.number, pair.after.number} if pair else set()
    pictures = tuple(
        p
        for p in view.gallery.of(component.key)
        if p.path in view.pictures and p.number not in paired
    )
    told = telling_links(line)
    shown = told if len(told) <= MARGIN_ROOM else told[-LATEST:]
    return {
        **_further_values(start, line, leaves, leaf),
        "first": True,
        "scripts": ("pictures.js",) if pair else (),
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
        "links": tuple(_evidence(view, links, link) for link in shown),
        "more_links": _more_links(links, leaves, len(told)) if len(told) > len(shown) else None,
        "contradictions": (
            *number_disputes(view, links, component.key),
            *(contradiction_words(links, c) for c in line.contradictions),
        ),
        "witness": WITNESS,
        "displaced": tuple(displaced_words(view, links, d) for d in line.displaced),
        "rechecks": tuple(
            (recheck_ref(links, r), sentence(when_words(view, r)))
            for r in view.rechecks.open
            if component.key in r.on
        ),
        "pair": pair,
        "plates": plates_of(view, links, _first_and_last(pictures)),
        "more_pictures": _more(view, links, component.subsystem, pictures),
    }


def _more_links(links: Links, leaves: tuple[Leaf, ...], count: int) -> Ref:
    place = next(to for stretch, to in beginnings(links, leaves) if stretch.key == "evidence")
    return Ref(
        f"The latest {in_words(LATEST)} of {some(count, 'piece')} of evidence; all of them", place
    )


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
    work = work_of_entry(view, links, line.component.key, entry)
    return EntryWords(day_words(entry.day), entry.day.isoformat(), told, work, departs)

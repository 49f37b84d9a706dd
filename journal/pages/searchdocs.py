"""What can be found: everything of a car that has a name and a place, with the sentences told of it.

Made from the view alone, which holds only what its reader may see. What the pages show of money is
left out.
"""

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from msgspec import Struct

from journal.ledgers.measured import Reading
from journal.ledgers.originality import Line
from journal.ledgers.outwork import Batch
from journal.pages.anchors import anchor
from journal.pages.common import MORE_PLACES, PLACES, has_page
from journal.pages.lines import displaced_words
from journal.pages.links import Links, component_path, subsystem_names, subsystem_path
from journal.pages.partwords import part_row
from journal.pages.placing import RECHECKS
from journal.pages.plates import STAGE_WORDS, plate_of
from journal.pages.recheckwords import recheck_ref, value_words, when_words
from journal.pages.searchsheets import sheet_sentences
from journal.pages.searchwords import sentences
from journal.pages.sumwords import sum_sentences
from journal.pages.view import CarView
from journal.pages.words import (
    day_words,
    in_words,
    limit_words,
    readings_words,
    sentence,
    supplier_words,
)
from journal.records.papers import Paper
from journal.words.names import title_of
from journal.words.text import listed
from journal.words.vocabulary import Position

PATH = "find.html"
_MOST_NAMED = 2


class Kind(Struct, frozen=True):
    """What a thing is called, alone and among its like."""

    one: str
    many: str


class Thumb(NamedTuple):
    """A small picture: its file and its size in pixels."""

    src: str
    width: int
    height: int


class Document(Struct, frozen=True):
    """One thing that can be found. `note` says where it belongs and when; `also` holds further
    words that find it and are not shown."""

    kind: Kind
    title: str
    href: str
    note: str = ""
    sentences: tuple[str, ...] = ()
    also: str = ""
    picture: Thumb | None = None


PAGE, SUBSYSTEM = Kind("Page", "Pages"), Kind("Subsystem", "Subsystems")
COMPONENT, SHEET = Kind("Component", "Components"), Kind("Sheet", "Sheets")
PART, OUTWORK = Kind("Part", "Parts"), Kind("Outwork", "Outwork")
READING, SNAG = Kind("Reading", "Readings"), Kind("Snag", "Snags")
RECHECK, SUM = Kind("Re-check", "Re-checks"), Kind("Bench sum", "Bench sums")
PICTURE, PAPER = Kind("Picture", "Pictures"), Kind("Paper", "Papers")


def documents(view: CarView) -> tuple[Document, ...]:
    """Everything that can be found in a car's archive, kind by kind."""
    links = Links(view, PATH)
    return tuple(found for of in _KINDS for found in of(view, links))


def _of(links: Links, keys: tuple[str, ...]) -> tuple[str, tuple[str, ...]]:
    """The components that a thing is of: for its note, where there is room for two, and a sentence
    with all of them when there are more."""
    names = [links.component(key).text for key in keys]
    if len(names) <= _MOST_NAMED:
        return listed(names), ()
    shown = ", ".join(names[:_MOST_NAMED])
    return f"{shown} and {in_words(len(names) - _MOST_NAMED)} more", (f"Of {listed(names)}",)


def _pages(view: CarView, links: Links) -> Iterator[Document]:
    for label, path, _ in (*PLACES, *MORE_PLACES):
        if path != PATH and has_page(view.reader, path):
            yield Document(PAGE, label, links.to(path))


def _subsystems(view: CarView, links: Links) -> Iterator[Document]:
    register = view.car.register
    for name in subsystem_names(view):
        of = listed([component.label for component in register.of(name)])
        told = (f"{of}.",) if of else ()
        label, href = links.subsystem(name).text, links.to(subsystem_path(name))
        yield Document(SUBSYSTEM, label, href, sentences=told, also=name)


def _components(view: CarView, links: Links) -> Iterator[Document]:
    for line in view.originality.lines:
        component = line.component
        yield Document(
            COMPONENT,
            component.label,
            links.to(component_path(component.key)),
            links.subsystem(component.subsystem).text,
            tuple(_ledger(view, links, line)),
            component.key,
        )


def _ledger(view: CarView, links: Links, line: Line) -> Iterator[str]:
    """What the ledger says of a component, in words."""
    found, now = sentence(line.as_found.origin.value), line.now.origin.value
    states = f"{found} as found, {now} now" if line.changed else f"{found} as found and now"
    where = "" if line.position is Position.ON else f"; {line.position.value}"
    yield f"{states}{where}; evidence: {line.evidence.value}."
    told = (
        ("The works fitted", line.component.line.works),
        ("Condition", line.component.line.condition),
        ("On the car for now", line.stand_in.what if line.stand_in else None),
    )
    yield from (f"{label}: {text}" for label, text in told if text)
    for displaced in line.displaced:
        words = displaced_words(view, links, displaced)
        said = (
            ("why", words.why), ("decided by", words.decided), ("the way back", words.undo),
            ("now", words.where),
        )  # fmt: skip
        facts = "; ".join(f"{label}: {text}" for label, text in said if text)
        yield f"The {displaced.item.origin.value} item came off {words.day}; {facts}"
    yield from (contradiction.says for contradiction in line.contradictions)


def _sheets(view: CarView, links: Links) -> Iterator[Document]:
    for sheet in view.car.sheets:
        branches = listed([links.subsystem(name).text for name in sheet.front.subsystem])
        yield Document(
            SHEET,
            sheet.title,
            links.sheet(sheet.name).href or "",
            f"{day_words(sheet.date)} · {branches}",
            sheet_sentences(view, links, sheet),
            sheet.date.isoformat(),
        )


def _parts(view: CarView, links: Links) -> Iterator[Document]:
    for part in view.parts.parts:
        row = part_row(view, links, part)
        number = f"No. {row.number}" if row.number else ""
        supplier = f"from {row.supplier.text}" if row.supplier.text else ""
        said = ("; ".join(filter(None, (number, supplier))), "; ".join(row.story), *row.reasons)
        of, all_of = _of(links, part.of)
        told = tuple(filter(None, (*said, row.late, row.lost, *all_of)))
        yield Document(PART, row.what, links.part(part.name), of, told)


def _outwork(view: CarView, links: Links) -> Iterator[Document]:
    for lot in view.outwork.batches:
        href = links.lot(lot.name)
        of, all_of = _of(links, lot.of)
        title = lot.what or title_of(lot.name)
        yield Document(OUTWORK, title, href, of, (*_lot(view, lot), *all_of))


def _lot(view: CarView, lot: Batch) -> Iterator[str]:
    to = supplier_words(view.car.workshop, lot.to)
    days = [day_words(move.day) for move in lot.movements]
    if to or days:
        yield "; ".join(filter(None, (f"To {to}" if to else "", ", ".join(dict.fromkeys(days)))))
    yield from (*lot.finishes, *lot.certificates)
    yield from (move.note for move in lot.movements if move.note)


def _readings(view: CarView, links: Links) -> Iterator[Document]:
    """One document for a dimension of a component, however often it was read."""
    same: dict[tuple[str, str], list[Reading]] = {}
    for reading in view.measured.readings:
        same.setdefault((reading.name.casefold(), reading.on or reading.sheet), []).append(reading)
    for of in same.values():
        last = of[-1]
        on = links.component(last.on) if last.on else None
        href = (on.href if on else None) or links.sheet(last.sheet).href or ""
        note = on.text if on else links.subsystem(last.subsystem).text
        told = tuple(_reading(reading) for reading in reversed(of))
        yield Document(READING, sentence(last.name), href, note, told)


def _reading(reading: Reading) -> str:
    limit = limit_words(reading.least, reading.most)
    inside = {None: "", True: "inside", False: "outside"}[reading.inside]
    said = [f"{day_words(reading.day)}: {readings_words(reading.values, reading.unit)}"]
    said += [f"{inside} its limit: {limit}"] if limit else []
    return "; ".join([*said, *filter(None, (reading.tool, reading.note))])


def _sums(view: CarView, links: Links) -> Iterator[Document]:
    """One document for a sum, as it was worked out last."""
    for kept in view.sums.latest:
        href = f"{links.sheet(kept.sheet).href}#{anchor('sum', kept.name)}"
        of, all_of = _of(links, kept.of)
        note = " · ".join(filter(None, (kept.answer.sum.title, day_words(kept.day), of)))
        yield Document(SUM, kept.title, href, note, (*sum_sentences(kept), *all_of))


def _snags(view: CarView, links: Links) -> Iterator[Document]:
    for snag in view.snags.snags:
        href = links.snag(snag.name)
        state = "open" if snag.open else "cleared"
        where = links.component(snag.on) if snag.on else links.subsystem(snag.subsystem)
        said = [f"Put off: {off.why}" for off in snag.put_off]
        said += [f"Cleared: {snag.how}"] if snag.how else []
        note = " · ".join((state, day_words(snag.raised), where.text))
        yield Document(SNAG, snag.text, href, note, tuple(said))


def _rechecks(view: CarView, links: Links) -> Iterator[Document]:
    """One document for a name, however often it was asked for."""
    if not has_page(view.reader, RECHECKS):
        return
    last = {recheck.name: recheck for recheck in view.rechecks.rechecks}
    for recheck in last.values():
        done, value = recheck.done, value_words(recheck.value)
        note = f"done {day_words(done.day)}" if done else when_words(view, recheck)
        said = [f"Should be: {value}"] if value else []
        said += [f"Found: {done.found}"] if done else []
        ref = recheck_ref(links, recheck)
        of, all_of = _of(links, recheck.on)
        note = " · ".join(filter(None, (note, of)))
        yield Document(RECHECK, ref.text, ref.href or "", note, (*said, *all_of))


def _pictures(view: CarView, links: Links) -> Iterator[Document]:
    """Photographs of which something is said."""
    for picture in view.gallery.pictures:
        plate = plate_of(view, links, picture)
        if plate is None or plate.href is None or not (picture.caption or picture.alt):
            continue
        small = view.pictures[picture.path].small
        of, all_of = _of(links, picture.of)
        stage = STAGE_WORDS[picture.stage] if picture.stage else ""
        note = " · ".join(filter(None, (stage, day_words(picture.day), of)))
        told = dict.fromkeys(filter(None, (picture.caption, picture.alt)))
        thumb = Thumb(links.to(small.path), small.width, small.height)
        said = tuple(part for text in told for part in sentences(text))
        title = f"Picture {picture.number}"
        yield Document(PICTURE, title, plate.href, note, (*said, *all_of), picture=thumb)


def _papers(view: CarView, links: Links) -> Iterator[Document]:
    for name, paper in view.car.papers:
        day = day_words(paper.date) if paper.date else paper.dated or ""
        note = " · ".join(filter(None, (paper.kind, day)))
        href = links.paper(name).href or ""
        yield Document(PAPER, paper.title, href, note, tuple(_paper(paper)))


def _paper(paper: Paper) -> Iterable[str]:
    yield from sentences(paper.says or "")
    numbers = [f"{title_of(name)} {value}" for name, value in paper.numbers]
    keepers = [
        f"{keeper.name}, {keeper.place}" if keeper.place else keeper.name
        for keeper in paper.keepers
    ]
    told = (
        ("Numbers", "; ".join(numbers)), ("Keepers", "; ".join(keepers)),
        ("Registration", paper.registration), ("From", paper.source),
    )  # fmt: skip
    yield from (f"{label}: {text}" for label, text in told if text)


_KINDS: tuple[Callable[[CarView, Links], Iterator[Document]], ...] = (
    _pages, _subsystems, _components, _sheets, _parts, _outwork, _readings, _sums, _snags, _rechecks,
    _pictures, _papers,
)  # fmt: skip

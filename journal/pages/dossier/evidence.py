"""The evidence index: from every claim to its sheets, photographs and papers, and their hashes."""

from collections.abc import Iterable

from msgspec.structs import replace

from journal.ledgers.originality import Line
from journal.ledgers.originality.items import Link
from journal.ledgers.seals import Standing
from journal.pages.component import telling_links
from journal.pages.dossier.book import Book, Section
from journal.pages.dossier.identity import PaperLine, paper_lines
from journal.pages.links import Ref
from journal.pages.photowords import agreement, fact_words, hash_groups
from journal.pages.plates import caption_of, stage_label
from journal.pages.value import Value
from journal.pages.words import day_words, in_words, sentence, some
from journal.records.sheet import Sheet
from journal.words.text import listed


class ClaimRow(Value, frozen=True):
    """A line of the ledger and what it rests on: its grade, and codes of sheets, photographs and
    papers; `numbers` are those read on it."""

    ref: Ref
    claim: str
    grade: str
    evidence: tuple[Ref, ...]
    numbers: str


class ClaimsOf(Value, frozen=True):
    """The claims of one subsystem."""

    label: str
    claims: tuple[ClaimRow, ...]


class SheetRow(Value, frozen=True):
    """One day sheet. `groups` is its hash by eight, empty when no seal has looked at it; `standing` is
    empty for what is sealed and unchanged."""

    code: Ref
    place: str
    day: str
    title: str
    subsystems: str
    standing: str
    groups: tuple[str, ...]


class PhotographRow(Value, frozen=True):
    """One photograph, its hash and what the camera says; `wrong` marks a day that cannot be."""

    code: Ref
    place: str
    caption: str
    sheet: Ref
    taken: str
    wrong: bool
    groups: tuple[str, ...]


class PaperRow(Value, frozen=True):
    """One paper with the hash of its scan, where there is one."""

    line: PaperLine
    place: str
    groups: tuple[str, ...]


def evidence(book: Book) -> Section:
    """Claims, sheets, photographs and papers."""
    view = book.view
    pictures = [p for p in view.gallery.pictures if p.path in view.pictures]
    sheets = tuple(_sheet(book, s, n) for n, s in enumerate(view.car.sheets, 1))
    return Section(
        "evidence",
        "Evidence index",
        {
            "claims": tuple(
                ClaimsOf(
                    book.places.subsystem(name).text,
                    tuple(
                        _claim(book, line)
                        for line in view.originality.lines
                        if line.component.subsystem == name
                    ),
                )
                for name, _ in view.originality.subsystems
            ),
            "sheets": sheets,
            "sheets_lead": _sheets_lead(book, sheets),
            "photographs": _photographs(book),
            "agreement": agreement(pictures),
            "papers": _papers(book),
        },
    )


def _claim(book: Book, line: Line) -> ClaimRow:
    links = telling_links(line)
    before, now = line.as_found.origin.value, line.now.origin.value
    return ClaimRow(
        book.places.component(line.component.key),
        f"{before}, then {now}" if line.changed else now,
        line.evidence.value,
        tuple(dict.fromkeys(_codes(book, links))),
        listed(list(dict.fromkeys(link.ref for link in links if link.kind == "number"))),
    )


def _codes(book: Book, links: Iterable[Link]) -> Iterable[Ref]:
    for link in links:
        picture = book.view.gallery.at(link.ref) if link.kind == "photo" else None
        if picture is not None:
            yield book.places.picture_code(picture.number)
        elif link.kind == "paper" and book.places.paper_code(link.ref).text:
            yield book.places.paper_code(link.ref)
        elif link.sheet and book.places.sheet_code(link.sheet).text:
            yield book.places.sheet_code(link.sheet)


def _sheets_lead(book: Book, sheets: tuple[SheetRow, ...]) -> str:
    """How the sheets stand to the seals; what differs is told beside each."""
    if not sheets:
        return "No day sheet is written."
    if not book.seals.files:
        return "No seal has looked at the sheets, so no hash of them stands here."
    firm = sum(not row.standing for row in sheets)
    if firm == len(sheets):
        return "Every sheet is sealed, and is what was sealed."
    told = f"{in_words(firm) if firm else 'none'} of {some(len(sheets), 'sheet')}"
    verb = "is" if firm == 1 else "are"
    return sentence(f"{told} {verb} sealed and unchanged; how another stands is told beside it.")


def _sealed(book: Book, path: str) -> tuple[str, tuple[str, ...]]:
    """How a file stands to the seals unless it is as sealed, and its hash; nothing without seals."""
    file = book.seals.of(path)
    if file is None:
        return "", ()
    standing = "" if file.standing is Standing.SEALED else file.standing.value
    return standing, hash_groups(file.now) if file.now else ()


def _sheet(book: Book, sheet: Sheet, number: int) -> SheetRow:
    path = sheet.source.path.removeprefix(f"{book.view.car.name}/")
    standing, groups = _sealed(book, path)
    return SheetRow(
        Ref(book.places.sheet_code(sheet.name).text),
        f"sheet-{number}",
        day_words(sheet.date),
        sheet.title,
        listed([book.places.subsystem(name).text for name in sheet.front.subsystem]),
        standing,
        groups,
    )


def _photographs(book: Book) -> tuple[PhotographRow, ...]:
    rows = []
    for picture in book.view.gallery.pictures:
        if picture.path not in book.view.pictures:
            continue
        facts = fact_words(picture)
        words = caption_of(picture) or stage_label(picture.stage)
        rows.append(
            PhotographRow(
                Ref(book.places.picture_code(picture.number).text),
                f"picture-{picture.number}",
                words,
                book.places.sheet_code(picture.sheet),
                facts.taken if facts else "",
                bool(facts and facts.wrong),
                facts.groups if facts else (),
            )
        )
    return tuple(rows)


def _papers(book: Book) -> tuple[PaperRow, ...]:
    rows = []
    lines = paper_lines(book)
    for number, ((_, paper), line) in enumerate(zip(book.view.car.papers, lines, strict=True), 1):
        _, groups = _sealed(book, f"papers/{paper.file}") if paper.file else ("", ())
        rows.append(PaperRow(replace(line, code=Ref(line.code.text)), f"paper-{number}", groups))
    return tuple(rows)

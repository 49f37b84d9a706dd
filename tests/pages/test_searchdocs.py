"""What can be found: one document for everything with a name, told in sentences the reader may see."""

import re
from urllib.parse import urlsplit

import pytest

from journal.outputs.theme import environment, theme_folder
from journal.pages import PAGES
from journal.pages.searchdocs import Document, documents
from journal.words.vocabulary import Reader
from tests.pages.searching import a_view
from tests.writing import a_car, a_sheet

TEMPLATES = environment(theme_folder())


def _of(kind: str) -> list[Document]:
    return [document for document in documents(a_view()) if document.kind.one == kind]


def test_kinds__are_found_in_their_order() -> None:
    kinds = dict.fromkeys(document.kind.one for document in documents(a_view()))
    assert [
        "Page", "Subsystem", "Component", "Sheet", "Part", "Outwork", "Reading", "Snag", "Paper",
    ] == list(kinds)  # fmt: skip


def test_sheet__is_told_by_its_text_and_then_by_its_facts() -> None:
    sheet, _ = _of("Sheet")
    assert "Pipes off" == sheet.title
    assert "sheets/2024-03-05-pipes.html" == sheet.href
    assert "5 March 2024 · Brakes" == sheet.note
    assert "2024-03-05" == sheet.also
    assert (
        "Nine pipes, all of them thin.",
        "No. 4 wept.",
        "A quoted line",
        "in code",
        "Pipes: removed and fitted; first-fit gives way to upgrade; the original: kept, bin B-2; "
        "why: rusted through; decided by: the owner; can be undone: yes; the way back: make the set "
        "again.",
        "bore on Pipes: 3.2\N{NO-BREAK SPACE}mm; limit 3 to 4",
        "Unions; no. CB-1; Northgate Gears; cross-threaded",
        "Clips to plate; Northgate Gears; dull zinc",
        "Snag: bleed the brakes",
        "At work: Margit Tolland.",
    ) == sheet.sentences


def test_sheet__tells_how_a_snag_was_cleared_and_what_it_corrects() -> None:
    _, sheet = _of("Sheet")
    told = ("bleed the brakes: cleared, bled twice", "Corrects an earlier sheet: ten pipes")
    assert told == sheet.sentences[1:]


def test_component__is_told_as_the_ledger_tells_it() -> None:
    pipes, seat = _of("Component")
    assert ("Pipes", "components/brakes/pipes.html", "Brakes", "brakes/pipes") == (
        pipes.title, pipes.href, pipes.note, pipes.also,
    )  # fmt: skip
    assert (
        "First-fit as found, upgrade now; fitted; evidence: stated.",
        "The works fitted: terne-coated steel",
        "Condition: thin",
        "The first-fit item came off 5 March 2024; why: rusted through; decided by: the owner; "
        "the way back: make the set again; now: bin B-2",
    ) == pipes.sentences
    assert ("Unknown as found and now; evidence: stated.",) == seat.sentences


def test_reading__is_one_document_however_often_it_was_taken() -> None:
    (bore,) = _of("Reading")
    assert ("Bore", "components/brakes/pipes.html", "Pipes") == (bore.title, bore.href, bore.note)
    assert (
        "6 March 2024: 3.5\N{NO-BREAK SPACE}mm",
        "5 March 2024: 3.2\N{NO-BREAK SPACE}mm; inside its limit: 3 to 4",
    ) == bore.sentences


def test_part_outwork_snag_and_paper__lead_to_their_place_on_a_page() -> None:
    (part,), (lot,), (snag,), (paper,) = map(_of, ("Part", "Outwork", "Snag", "Paper"))
    assert ("Unions", "parts.html#part-unions") == (part.title, part.href)
    assert ("No. CB-1; from Northgate Gears", "cross-threaded") == part.sentences
    assert ("Clips to plate", "outwork.html#lot-clips") == (lot.title, lot.href)
    assert ("To Northgate Gears; 5 March 2024", "dull zinc") == lot.sentences
    assert ("bleed the brakes", "snags.html#snag-bleed") == (snag.title, snag.href)
    assert ("Cleared: bled twice",) == snag.sentences
    assert ("Build card", "papers.html#paper-card") == (paper.title, paper.href)
    assert (
        "Left hand.", "Sent to Calder.", "Numbers: Chassis TD 1", "Keepers: A. Fenn, Calder",
    ) == paper.sentences  # fmt: skip


def test_many_components__are_named_in_part_and_all_found() -> None:
    keys = [f"brakes/{name}" for name in ("drum", "shoe", "hose", "pipe")]
    sheet = a_sheet("2024-03-05", parts={"kit": {"what": "Kit", "of": keys}})
    view = a_view(a_car(dict.fromkeys(keys, "first-fit"), [sheet]))
    (part,) = [document for document in documents(view) if document.kind.one == "Part"]
    assert "Drum, Shoe and two more" == part.note
    assert "Of Drum, Shoe, Hose and Pipe" == part.sentences[-1]


@pytest.mark.parametrize("reader", [Reader.WORKSHOP, Reader.OWNER, Reader.PUBLIC])
@pytest.mark.parametrize("base", ["", "tern/"])
def test_document__leads_to_a_place_that_is_there(reader: Reader, base: str) -> None:
    view = a_view(base=base, reader=reader)
    pages = {
        page.path: TEMPLATES.get_template(page.template).render(page.values)
        for made in PAGES
        for page in made(view)
    }
    for document in documents(view):
        to = urlsplit(document.href)
        assert base + to.path in pages, document
        ids = re.findall(r'id="([^"]+)"', pages[base + to.path])
        assert not to.fragment or to.fragment in ids, document


def test_money__is_told_nowhere() -> None:
    told = " ".join(str(document) for document in documents(a_view()))
    assert "Unions" in told
    assert [] == re.findall(r"12\.00|£|GBP", told)


def test_page_that_a_reader_has_not__is_not_found() -> None:
    def paths(reader: Reader) -> set[str]:
        return {d.href for d in documents(a_view(reader=reader)) if d.kind.one == "Page"}

    assert "money.html" in paths(Reader.OWNER)
    assert "money.html" not in paths(Reader.PUBLIC)

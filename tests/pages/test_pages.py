"""Pages: each kind once, every link leads somewhere, and each thing is told where it belongs."""

import itertools
import re
from html import unescape
from pathlib import PurePosixPath
from typing import Any

import html5lib
import pytest

from journal.outputs.theme import environment, theme_folder
from journal.pages import FILES, PAGES, file_at, page_at, page_workshop
from journal.pages.page import Page
from journal.pages.standing import standing_sentences
from journal.pages.view import CarView, view_of
from journal.records.carfile import CarFile
from journal.words.cautions import CAUTIONS, GENERAL
from journal.words.vocabulary import Reader
from tests.pages.picturing import published
from tests.writing import WORKSHOP, a_car, a_sheet

TEMPLATES = environment(theme_folder())
PHOTO = "2024-03-05/pipes.jpg"
PICTURES = {PHOTO: published()}


def a_view(car: CarFile, *, base: str = "", reader: Reader = Reader.WORKSHOP) -> CarView:
    return view_of(car, reader, base=base, pictures=PICTURES)


def a_busy_car() -> CarFile:
    """One car with a thing of every kind."""
    departure = {
        "did": ["removed", "fitted"], "now": "upgrade", "original": "bin B-2", "why": "rust",
        "decided": "owner", "reversible": "yes", "undo": "make the set again",
    }  # fmt: skip
    first = a_sheet(
        "2024-03-05", name="pipes", title="Pipes off", hours={"MT": "3.5"}, body="Nine pipes.",
        work={"brakes/pipes": departure}, photos={"file": "pipes.jpg", "of": "brakes/pipes"},
        parts={"unions": {"what": "Unions", "from": "northgate", "price": "12.00"}},
        outwork={"clips": {"what": "Clips", "to": "northgate", "sent": "9"}},
        measured={"bore": {"on": "brakes/pipes", "read": "3.2", "unit": "mm", "limit": ["3", "4"]}},
        snags={"bleed": {"raise": "bleed the brakes", "hold": "yes"}}, papers="card",
    )  # fmt: skip
    second = a_sheet(
        "2024-03-06", name="again", title="Pipes again", snags={"bleed": {"clear": "bled"}},
        corrects={"sheet": first.name, "what": "ten pipes"}, body=f"See [yesterday]({first.name}).",
    )  # fmt: skip
    register = {"brakes/pipes": "first-fit", "trim/seat": "unknown"}
    papers = {"card": {"title": "Build card", "numbers": {"chassis": "TD 1"}}}
    return a_car(register, [first, second], papers=papers, photos=[PHOTO])


def all_pages(view: CarView) -> tuple[Page, ...]:
    return tuple(page for pages in PAGES for page in pages(view))


def printed(page: Page) -> str:
    return TEMPLATES.get_template(page.template).render(page.values)


def text_of(view: CarView, path: str) -> str:
    (page,) = [page for page in all_pages(view) if page.path == path]
    return printed(page)


CARS = {"busy": a_busy_car(), "empty": a_car({})}


def test_table__every_page_and_file_is_found_where_the_table_says_it_lies() -> None:
    for base in ("", "tern/"):
        view = a_view(a_busy_car(), base=base)
        for page in all_pages(view):
            found = page_at(view, page.path.removeprefix(base))
            assert found is not None
            assert (page.path, page.template) == (found.path, found.template)
            assert printed(page) == printed(found)
        for files in FILES:
            for file in files(view):
                assert file == file_at(view, file.path.removeprefix(base))
        assert page_at(view, "sheets/2024-03-05-nothing.html") is None
        assert page_at(view, "nothing.html") is None
        assert file_at(view, "find/nothing.js") is None


def test_table__names_every_kind_in_the_order_written() -> None:
    assert [pages.__name__ for pages in PAGES] == [
        "page_front", "page_sheets", "page_sheet", "page_subsystems", "page_subsystem",
        "page_component", "page_ledger", "page_departures", "page_decisions", "page_waiting",
        "page_progress", "page_parts", "page_outwork", "page_suppliers", "page_snags", "page_proving",
        "page_rechecks", "page_hours", "page_money", "page_statement", "page_measured", "page_pictures",
        "page_picture", "page_evidence", "page_contact", "page_papers", "page_numbers", "page_seals",
        "page_find",
    ]  # fmt: skip


def test_table__uses_every_template_of_the_theme() -> None:
    used = {page.template for page in all_pages(a_view(CARS["busy"]))}
    shared = {"base.html", "macros.html", "workshop.html"}
    assert used | shared == {path.name for path in theme_folder().glob("*.html")}


@pytest.mark.parametrize("car", CARS)
def test_paths__are_unique(car: str) -> None:
    paths = [page.path for page in all_pages(a_view(CARS[car]))]
    assert sorted(set(paths)) == sorted(paths)


@pytest.mark.parametrize("car", CARS)
def test_page__is_sound_markup(car: str) -> None:
    for page in all_pages(a_view(CARS[car])):
        html5lib.HTMLParser(strict=True).parse(printed(page))


@pytest.mark.parametrize("car", CARS)
@pytest.mark.parametrize("base", ["", "tern/"])
def test_links__lead_to_pages_of_the_archive(car: str, base: str) -> None:
    view = a_view(CARS[car], base=base)
    pages = all_pages(view)
    files = {f"{base}{r.path}" for p in PICTURES.values() for r in (*p.webp, p.jpeg)}
    files |= {file.path for make in FILES for file in make(view)}
    scripts = {path.name for path in theme_folder().glob("*.js")}
    there = {page.path for page in pages} | files | scripts | {"style.css", "icon.svg"}
    # Beside every statement lies the same as a table.
    there |= {p.path.replace(".html", ".csv") for p in pages if p.template == "statement.html"}
    there |= {"index.html"} if base else set()
    for page in pages:
        for href in re.findall(r'(?:href|src)="([^"#]+)', printed(page)):
            assert href == "data:," or _joined(page.path, href) in there, (page.path, href)


def _joined(path: str, href: str) -> str:
    parts: list[str] = list(PurePosixPath(path).parent.parts)
    for step in href.split("/"):
        if step == "..":
            parts.pop()
        else:
            parts.append(step)
    return "/".join(parts)


@pytest.mark.parametrize("car", CARS)
def test_page__says_where_the_reader_is(car: str) -> None:
    for page in all_pages(a_view(CARS[car])):
        here = [p.label for p in (*page.values["nav"], *page.values["more"]) if p.current]
        assert len(here) == (0 if page.path == "index.html" else 1), page.path


@pytest.mark.parametrize("car", CARS)
def test_headings__leave_no_level_out(car: str) -> None:
    for page in all_pages(a_view(CARS[car])):
        levels = [int(n) for n in re.findall(r"<h([1-6])", printed(page))]
        assert levels[0] == levels.count(1) == 1, page.path
        assert all(b <= a + 1 for a, b in itertools.pairwise(levels)), page.path


def test_sheet__leads_to_the_one_before_and_the_one_after() -> None:
    view = a_view(CARS["busy"])
    assert 'rel="next" href="../sheets/2024-03-06-again.html"' in text_of(
        view, "sheets/2024-03-05-pipes.html"
    )
    assert 'rel="prev" href="../sheets/2024-03-05-pipes.html"' in text_of(
        view, "sheets/2024-03-06-again.html"
    )


def test_correction__is_told_on_both_sheets() -> None:
    view = a_view(CARS["busy"])
    assert "This sheet corrects that of 5 March 2024" in text_of(
        view, "sheets/2024-03-06-again.html"
    )
    assert "Corrected by the sheet of 6 March 2024" in text_of(view, "sheets/2024-03-05-pipes.html")


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("<script>x</script>", "&lt;script&gt;"),
        ("[the day before](2024-03-05-day.md)", '<a href="../sheets/2024-03-05-day.html">'),
        ("[the pipes](brakes/pipes)", '<a href="../components/brakes/pipes.html">'),
        ("[nowhere](2020-01-01-lost)", "<p>nowhere</p>"),
        ("[run](javascript:alert)", "[run](javascript:alert)"),
        ("![a seat](http://elsewhere.example/seat.jpg)", "<p>a seat</p>"),
        ("#### Deep at once", "<h2>Deep at once</h2>"),
        ("## One\n\n#### Three", "<h3>Three</h3>"),
    ],
)
def test_text_of_a_sheet__shows_no_more_than_it_may(written: str, shown: str) -> None:
    sheets = [a_sheet("2024-03-05"), a_sheet("2024-03-06", name="b", body=written)]
    view = a_view(a_car({"brakes/pipes": "first-fit"}, sheets))
    assert shown in text_of(view, "sheets/2024-03-06-b.html")


@pytest.mark.parametrize(
    ("subsystem", "caution"), [("brakes", CAUTIONS["brakes"]), ("hoist", GENERAL)]
)
def test_caution__stands_with_work_that_can_hurt(subsystem: str, caution: str) -> None:
    workshop: dict[str, Any] = {
        **WORKSHOP,
        "subsystems": {"hoist": {"label": "Hoist", "safety": "yes"}},
    }
    car = a_car({}, [a_sheet("2024-03-05", subsystem=subsystem)], workshop=workshop)
    block = re.compile(r'<aside class="caution".*?</aside>', re.S)
    for path in ("sheets/2024-03-05-day.html", f"subsystems/{subsystem}.html"):
        found = block.search(text_of(a_view(car), path))
        assert found is not None
        assert caution in unescape(found.group())


def test_caution__stands_with_a_component_marked_for_safety() -> None:
    car = a_car({"trim/belts": {"as-found": "first-fit", "safety": "yes"}})
    assert 'class="caution"' in text_of(a_view(car), "components/trim/belts.html")


def test_every_page__says_that_it_certifies_nothing() -> None:
    assert all(GENERAL in unescape(printed(page)) for page in all_pages(a_view(CARS["empty"])))


@pytest.mark.parametrize(
    ("reader", "words"),
    [
        (Reader.WORKSHOP, "The workshop’s archive"),
        (Reader.OWNER, "The owner’s archive"),
        (Reader.PUBLIC, "The public archive"),
    ],
)
def test_page__says_whose_archive_it_is(reader: Reader, words: str) -> None:
    assert words in unescape(text_of(a_view(CARS["empty"], reader=reader), "index.html"))


def test_standing__tells_what_was_done_and_what_holds_the_car() -> None:
    sheet = a_sheet(
        "2024-03-05", hours={"MT": "4"}, work={"brakes/pipes": ["removed", "fitted"]},
        snags={"bleed": {"raise": "bleed the brakes", "hold": "yes"}},
    )  # fmt: skip
    car = a_car({"brakes/pipes": "first-fit", "brakes/hoses": "first-fit"}, [sheet])
    assert standing_sentences(a_view(car)) == (
        "Booked in on 11 September 2023.",
        "Up to 5 March 2024 the sheets tell of 1 day and 4 hours of work.",
        "One of two components is fitted again; one never taken off.",
        "One thing still holds the handover, and eight proofs are wanting.",
    )


def test_standing__ends_with_the_handover() -> None:
    car = a_car({}, [a_sheet("2024-03-05")], delivered="2024-03-05")
    assert standing_sentences(a_view(car))[-1] == "Delivered on 5 March 2024."


def test_workshop__lists_its_cars_and_what_is_wrong() -> None:
    views = tuple(a_view(CARS["busy"], base=base) for base in ("one/", "two/"))
    (page,) = page_workshop(views, ())
    shown = printed(page)
    html5lib.HTMLParser(strict=True).parse(shown)
    assert 'href="one/index.html"' in shown
    assert 'href="two/index.html"' in shown
    assert "the checks found nothing wrong" in shown

"""The gallery, one picture large, the pictures as evidence, and the contact sheet."""

import re
from datetime import date, time, timedelta
from html import unescape
from typing import Any

import pytest
from msgspec.structs import replace

from journal.outputs.theme import environment, theme_folder
from journal.pages.contact import page_contact, short_caption
from journal.pages.evidence import DOUBTFUL, page_evidence
from journal.pages.hanging import MOST
from journal.pages.page import Page
from journal.pages.picture import OTHERS, page_picture
from journal.pages.pictures import page_pictures
from journal.pages.view import CarView, view_of
from journal.records.photofacts import PhotoFacts
from journal.words.vocabulary import Reader, Stage
from tests.pages.picturing import facts, published
from tests.pages.test_pages import text_of
from tests.writing import a_car, a_sheet

TEMPLATES = environment(theme_folder())


def a_gallery(
    days: int, each: int = 1, *, told: dict[int, PhotoFacts] | None = None, **photo: Any
) -> CarView:
    """A car with a sheet every third day from 5 March 2024 on and so many photographs in each, by
    turns of a pipe and a seat; `told` are facts by number."""
    sheets, paths, subsystems = [], [], ("brakes", "trim")
    keys, stages = ("brakes/pipes", "trim/seat"), tuple(Stage)
    for n in range(days):
        day = date(2024, 3, 5) + timedelta(3 * n)
        photos = [
            {
                "file": f"{k}.jpg", "of": keys[n % 2], "stage": stages[(n + k) % 5].value,
                "caption": f"Number {k} of the day", **photo,
            }
            for k in range(each)
        ]  # fmt: skip
        sheets.append(a_sheet(f"{day}", subsystem=subsystems[n % 2], photos=photos))
        paths += [f"{day}/{k}.jpg" for k in range(each)]
    car = a_car(dict.fromkeys(keys, "first-fit"), sheets, photos=paths)
    looked = {paths[number - 1]: found for number, found in (told or {}).items()}
    return view_of(
        replace(car, photo_facts=looked), Reader.OWNER, pictures=dict.fromkeys(paths, published())
    )


def printed(pages: tuple[Page, ...]) -> dict[str, str]:
    return {p.path: TEMPLATES.get_template(p.template).render(p.values) for p in pages}


def _plain(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def test_gallery__hangs_in_three_ways_with_a_switch_between_them() -> None:
    shown = printed(page_pictures(a_gallery(4)))
    assert ["pictures/index.html", "pictures/stages.html", "pictures/months.html"] == list(shown)
    for path, label in zip(shown, ("By subsystem", "By stage", "By month"), strict=True):
        (chosen,) = re.findall(r'aria-current="page">([^<]+)</a></li>', shown[path])[-1:]
        assert label == chosen
    assert (
        "Four photographs, by stage, from as found to as finished." in shown["pictures/stages.html"]
    )
    rooms = re.findall(r"<h2 id[^>]*>(.*?)</h2>", shown["pictures/months.html"], re.S)
    assert ["March 2024 four photographs"] == [_plain(room) for room in rooms]


def test_gallery__of_one_page_fetches_its_first_picture_first_and_the_rest_when_needed() -> None:
    text = printed(page_pictures(a_gallery(6)))["pictures/index.html"]
    images = re.findall(r"<img[^>]*>", text)
    assert 6 == len(images)
    assert 'fetchpriority="high" decoding="async">' in images[0]
    assert all('loading="lazy" decoding="async">' in image for image in images[1:])


def test_pages__hold_no_more_pictures_than_they_can_however_many_there_are() -> None:
    """Two thousand pictures: the page of all leads to the rooms, and they are cut at 200."""
    view = a_gallery(100, 20)
    made = (*page_pictures(view), *page_evidence(view), *page_contact(view))
    shown = printed(made)
    counts = {path: text.count("<img ") for path, text in shown.items()}
    assert max(counts.values()) <= MOST == 200
    assert 2 * 3 == counts["pictures/index.html"]
    # A thousand pictures of each subsystem, in five parts; four hundred of each stage, in two.
    assert 200 == counts["pictures/subsystems/brakes.html"]
    assert 200 == counts["pictures/subsystems/brakes/5.html"]
    assert 200 == counts["pictures/stages/as-found/2.html"]
    assert 200 == counts["pictures/contact/10.html"]
    assert 0 == counts["pictures/evidence.html"]
    for folder in ("subsystems", "stages", "months", "evidence"):
        assert 2000 == sum(
            n for path, n in counts.items() if path.startswith(f"pictures/{folder}/")
        ), folder


def test_room__says_what_it_holds_and_leads_to_its_parts() -> None:
    shown = printed(page_pictures(a_gallery(30, 20)))
    text = shown["pictures/subsystems/brakes/2.html"]
    assert "<h1>Brakes</h1>" in text
    # 300 pictures on fifteen days, every sixth day from 5 March 2024; the second half from the
    # middle of the eighth.
    assert "300 photographs; those here are from 5 March 2024 to 28 May 2024." in text
    room = "../../../pictures/subsystems/brakes"
    assert f'<a href="{room}.html">1 to 150</a>' in text
    assert f'<a href="{room}/2.html" aria-current="page">151 to 300</a>' in text
    assert '<a href="../../../pictures/index.html">Pictures by subsystem</a>' in text


@pytest.mark.parametrize(("number", "before", "after"), [(1, None, 2), (2, 1, 3), (3, 2, None)])
def test_picture__leads_to_its_neighbours_and_back(
    number: int, before: int | None, after: int | None
) -> None:
    text = text_of(a_gallery(3), f"pictures/{number}.html")
    for rel, neighbour in (("prev", before), ("next", after)):
        link = re.search(rf'rel="{rel}" href="([^"]+)" data-srcset="([^"]+)"', text)
        assert (f"../pictures/{neighbour}.html#picture" if neighbour else None) == (
            link.group(1) if link else None
        )
        assert link is None or "../pictures/files/a-400.webp 400w" in link.group(2)
    assert f'class="all" href="../pictures/index.html#picture-{number}"' in text
    assert f"{number} of 3" in text
    assert '<script src="../turning.js" defer></script>' in text


def test_picture__goes_back_to_the_very_page_where_it_hangs() -> None:
    text = text_of(a_gallery(30, 20), "pictures/600.html")
    assert 'href="../pictures/subsystems/trim/2.html#picture-600"' in text


def test_picture__shows_others_of_the_same_one_of_each_stage_in_turn() -> None:
    (values,) = [p.values for p in page_picture(a_gallery(2, 50)) if p.path == "pictures/1.html"]
    others = values["others"]
    assert OTHERS == len(others)
    # Numbers 1 to 50 are of the pipes, as found, stripped, during, evidence, as finished by turns.
    assert [2, 3, 4, 5, 7, 8] == [plate.number for plate in others]


@pytest.mark.parametrize(
    ("size", "sizes"),
    [
        # As wide as 0.82 of the height of the screen allows: 82 * 800 / 533 = 123.
        (
            (800, 533),
            "(min-width: 110rem) min(94rem, 123vh), (min-width: 83rem) min(76.5rem, 123vh), "
            "(min-width: 40rem) min(92vw, 123vh), min(100vw, 123vh)",
        ),
        (
            (600, 900),
            "(min-width: 110rem) min(94rem, 55vh), (min-width: 83rem) min(76.5rem, 55vh), "
            "(min-width: 40rem) min(92vw, 55vh), min(100vw, 55vh)",
        ),
    ],
)
def test_picture__is_fetched_as_wide_as_it_is_drawn(size: tuple[int, int], sizes: str) -> None:
    view = a_gallery(1)
    (path,) = view.pictures
    wide = view_of(view.car, Reader.OWNER, pictures={path: published("a", *size)})
    (page,) = page_picture(wide)
    assert sizes == page.values["sizes"]


def test_picture__tells_what_its_file_says() -> None:
    text = _plain(text_of(a_gallery(1, told={1: facts()}), "pictures/1.html"))
    assert (
        "What its file says Taken on 5 March 2024 at 14:20 by the camera’s clock, the day of the"
        " sheet. The original JPEG, 4032 × 3024 pixels, 3.2 MB (3,214,551 bytes) Its SHA-256"
        " 01234567 89abcdef 01234567 89abcdef 01234567 89abcdef 01234567 89abcdef"
    ) in text.replace("\N{NO-BREAK SPACE}", " ")
    assert 'href="../pictures/evidence.html"' in text_of(
        a_gallery(1, told={1: facts()}), "pictures/1.html"
    )


def test_picture__says_nothing_of_a_file_that_nobody_looked_at() -> None:
    assert "What its file says" not in text_of(a_gallery(1), "pictures/1.html")


def test_evidence__puts_dates_that_cannot_be_before_all_others() -> None:
    late, same = facts(date(2024, 3, 9)), facts(date(2024, 3, 8))
    (page,) = page_evidence(a_gallery(2, told={1: late, 2: same}))
    text = printed((page,))[page.path]
    headings = [_plain(h) for h in re.findall(r"<h2[^>]*>(.*?)</h2>", text, re.S)]
    assert ["Later than their sheets one photograph", "March 2024 two photographs"] == headings
    assert "puts one on the day of their sheets and one after, which cannot be." in _plain(text)
    assert ["later-1", "picture-1", "picture-2"] == re.findall(r'<tr id="([^"]+)"', text)


def test_evidence__of_a_camera_that_was_never_set_stays_short() -> None:
    late = facts(date(2031, 1, 1), time(0, 0))
    front, *_ = page_evidence(a_gallery(30, 10, told=dict.fromkeys(range(1, 301), late)))
    assert DOUBTFUL == len(front.values["doubtful"])
    assert "the first 30 of 300 photographs" == front.values["doubtful_count"]


def test_component__says_in_its_evidence_what_the_camera_dates() -> None:
    view = a_gallery(3, told={1: facts(), 3: facts(date(2024, 3, 14))})
    text = _plain(text_of(view, "components/brakes/pipes.html"))
    assert "Photograph, 5 March 2024, as the camera dates it" in text
    assert "Photograph, 11 March 2024 The camera dates it three days later, which cannot be" in text


def test_contact_sheet__is_made_to_be_printed_at_once() -> None:
    (page,) = page_contact(a_gallery(3))
    text = printed((page,))[page.path]
    # Pictures that are fetched only when they come into view are missing on paper in some browsers.
    assert 'loading="lazy"' not in text
    assert 1 == text.count('fetchpriority="high"')
    assert [("1", "5 March 2024"), ("2", "8 March 2024"), ("3", "11 March 2024")] == re.findall(
        r"<p><b>(\d+)</b> <span>([^<]+)</span></p>", text
    )


@pytest.mark.parametrize(
    ("words", "short"),
    [
        ("All nine pipes", "All nine pipes"),
        (
            "As she stood in the barn: no bumpers, one headlamp, and primer",
            "As she stood in the barn: no bumpers",
        ),
        (
            "Chassis plate on the bulkhead before anything was wiped off it",
            "Chassis plate on the bulkhead before anything\N{NO-BREAK SPACE}…",
        ),
        ("x" * 60, "x" * 48 + "\N{NO-BREAK SPACE}…"),
    ],
)
def test_caption__is_cut_where_it_makes_sense(words: str, short: str) -> None:
    assert short == short_caption(words)


def test_component__with_very_many_pictures_shows_the_first_and_the_last() -> None:
    view = a_gallery(20, 20)
    text = text_of(view, "components/brakes/pipes.html")
    # 200 pictures of the pipes; two of them stand as a pair.
    assert 62 == text.count("<img ")
    assert "The first and the last of 198 photographs; all of them" in text
    assert 'href="../../pictures/subsystems/brakes.html"' in text


def test_subsystem__shows_a_few_pictures_of_a_sheet_and_counts_the_others() -> None:
    text = text_of(a_gallery(1, 20, stage="during"), "subsystems/brakes.html")
    assert 3 == text.count("<img ")
    assert (
        '<a href="../sheets/2024-03-05-day.html">Seventeen more photographs in the sheet</a>'
        in text
    )

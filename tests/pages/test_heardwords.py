"""What was said, on the sheet's page: moments of recordings, and lines that wait."""

from html import unescape
from typing import Any

import html5lib
import pytest

from journal.outputs.theme import environment, theme_folder
from journal.pages.heardwords import puts_words
from journal.pages.sheet import page_sheet
from journal.pages.view import view_of
from journal.readers import car_for
from journal.records.draft import DraftLine
from journal.words.vocabulary import Reader
from tests.writing import a_car, a_sheet

REGISTER = {
    "brakes/pipes": "first-fit",
    "brakes/front-cylinders": {"as-found": "first-fit", "name": "Front wheel cylinders"},
}
MOMENTS = [
    "talk.mp4",
    {"file": "film.mov", "at": "1:02:05", "of": "brakes/pipes"},
    {"file": "talk.mp4", "at": "0:12", "of": "brakes/front-cylinders", "words": "both are off"},
]


def _shown(reader: Reader = Reader.WORKSHOP, **front: Any) -> str:
    car = a_car(REGISTER, [a_sheet("2024-03-05", **front)])
    (page,) = page_sheet(view_of(car_for(reader, car), reader, pictures={}))
    printed = environment(theme_folder()).get_template(page.template).render(page.values)
    html5lib.HTMLParser(strict=True).parse(printed)
    return unescape(printed)


def test_archive__has_moments_as_words_and_leads_to_no_recording() -> None:
    shown = _shown(recording=MOMENTS)
    assert '<h2 id="recordings">In the recording</h2>' in shown
    assert '<span class="at">0:12</span> <q>both are off</q>' in shown
    assert '<span class="at">1:02:05</span>' in shown
    assert "recordings/" not in shown


def test_recordings__stand_in_the_order_in_which_they_are_named_first() -> None:
    shown = _shown(recording=MOMENTS)
    assert 1 == shown.count("talk.mp4")
    assert shown.index("talk.mp4") < shown.index("both are off") < shown.index("film.mov")


@pytest.mark.parametrize("reader", [Reader.OWNER, Reader.KEEPER, Reader.PUBLIC])
def test_archive_of_others__has_no_moments(reader: Reader) -> None:
    shown = _shown(reader, recording=MOMENTS)
    assert "In the recording" not in shown
    assert "talk.mp4" not in shown


def test_sheet_with_lines_that_wait__says_until_when_it_is_the_workshops() -> None:
    shown = _shown(draft=[{"words": "both are off", "at": "0:12", "ask": "Front or rear?"}, "so"])
    assert (
        'For the workshop only, until <a href="#heard">two lines that were heard are confirmed</a>'
        in shown
    )
    assert '<q>both are off</q><small class="ask">Front or rear?</small>' in shown


def test_sheet_for_the_workshop__says_so_without_a_draft() -> None:
    assert '<p class="for-whom">For the workshop only</p>' in _shown(for_="workshop")


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ({"ask": "Front or rear?"}, []),
        ({"subsystem": "brakes"}, ["Subsystem: Brakes"]),
        ({"hours": {"MT": "3.5"}}, ["3.5 hours, MT"]),
        ({"hours": {"brakes": {"MT": "1"}}}, ["1 hour, MT, Brakes"]),
        (
            {"hours": {"JB": {"hours": "2", "kind": "rework", "because": "kit"}}},
            ["2 hours, rework, because of kit, JB"],
        ),
        (
            {"work": {"brakes/front-cylinders": {"did": ["removed", "cleaned"], "found": "worn",
                                                 "came-off": "bin 4", "usable": "no"}}},
            ["Front wheel cylinders: removed, cleaned; found worn; came off bin 4; usable no"],
        ),
        ({"work": {"brakes/other": "removed"}}, ["brakes/other: removed"]),
        (
            {"parts": {"kit": {"number": "WC-114", "qty": "2", "received": "2024-03-05",
                               "outcome": "rejected", "why": "too long"}}},
            ["Part kit: number WC-114; qty 2; received 2024-03-05; outcome rejected; why too long"],
        ),
        ({"outwork": {"drums": {"to": "northgate", "sent": "2"}}},
         ["Out for work, drums: to northgate; sent 2"]),
        (
            {"measured": {"bore": {"on": "brakes/pipes", "read": ["12", "14"], "unit": "thou",
                                   "limit": ["5", "15"]}}},
            ["Measured, bore: 12, 14\N{NO-BREAK SPACE}thou, limit 5 to 15, on Pipes"],
        ),
        ({"snags": {"leak": {"raise": "weeps", "hold": "yes", "on": "brakes/pipes"}}},
         ["Snag leak: weeps, holds the handover, on Pipes"]),
        ({"snags": {"leak": {"clear": "dry now", "by": "MT"}}}, ["Snag leak: cleared, dry now, by MT"]),
        ({"rechecks": {"nuts": {"after": "500 miles", "value": {"limit": {"least": "60"}, "unit": "Nm"}}}},
         ["Re-check nuts: after 500 miles; value limit at least 60; unit Nm"]),
        ({"proving": {"no-leaks": {"found": "dry", "by": "MT", "passed": "yes"}}},
         ["Proof no-leaks: found dry; by MT"]),
    ],
)  # fmt: skip
def test_line__says_in_plain_words_what_it_would_put(
    line: dict[str, Any], words: list[str]
) -> None:
    assert words == [*puts_words(a_car(REGISTER), DraftLine.model_validate(line))]

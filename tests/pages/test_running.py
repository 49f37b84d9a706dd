"""Progress, waiting and decisions as pages: who has them, and what they say."""

import re
from datetime import date
from decimal import Decimal
from fractions import Fraction
from html import unescape
from typing import Any

import html5lib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.digests.progress.earned import Earned
from journal.outputs.theme import environment, theme_folder
from journal.pages.bars import hour_bars, stretch
from journal.pages.common import READERS
from journal.pages.decisions import page_decisions
from journal.pages.front import page_front
from journal.pages.page import Page
from journal.pages.progress import page_progress
from journal.pages.view import CarView, view_of
from journal.pages.waiting import page_waiting
from journal.readers import car_for
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.writing import a_car, a_sheet

TEMPLATES = environment(theme_folder())
MAKERS = {
    "progress.html": page_progress,
    "waiting.html": page_waiting,
    "decisions.html": page_decisions,
}
REGISTER = {"brakes/pipes": "first-fit", "body/door": "first-fit", "trim/seat": "first-fit"}


def a_running_car() -> CarFile:
    work = {"body/door": ["removed", "repaired"], "brakes/pipes": {"now": "service", "why": "rust"}}
    first = a_sheet(
        "2024-01-08", subsystem="body", hours={"MT": "12.25"}, work=work,
        snags={"green": {"raise": "which green?", "ask": "owner", "on": "trim/seat"}},
        parts={"hide": {"what": "two hides", "from": "quiet-lane", "ordered": "today",
                        "promised": "2024-01-22", "of": "trim/seat"}},
        extras={"heater": {"what": "a heater", "hours": "7", "of": "body/door",
                           "decided": {"by": "owner", "advice": "take it"}}},
    )  # fmt: skip
    then = a_sheet("2024-02-05", subsystem="brakes", hours={"MT": "3.5"})
    estimate = {"body": "84", "brakes": "44", "paint": "10.75"}
    return a_car(REGISTER, [first, then], estimate=estimate, target="2024-12-20")


def view_for(reader: Reader, car: CarFile | None = None) -> CarView:
    return view_of(car_for(reader, car or a_running_car()), reader, pictures={})


def text_of(path: str, view: CarView) -> str:
    (page,) = MAKERS[path](view)
    return printed(page)


def printed(page: Page) -> str:
    shown = TEMPLATES.get_template(page.template).render(page.values)
    html5lib.HTMLParser(strict=True).parse(shown)
    return unescape(shown)


@pytest.mark.parametrize("path", MAKERS)
def test_page__is_for_the_workshop_and_the_owner__and_decisions_for_the_next_keeper(
    path: str,
) -> None:
    handed_on = (Reader.KEEPER,) if path == "decisions.html" else ()
    assert (Reader.WORKSHOP, Reader.OWNER, *handed_on) == READERS[path]
    for reader in Reader:
        view = view_for(reader)
        assert bool(MAKERS[path](view)) is (reader in READERS[path])
        (front,) = page_front(view)
        assert (f'href="{path}"' in printed(front)) is (reader in READERS[path])


@pytest.mark.parametrize("path", MAKERS)
def test_page__of_a_car_of_which_nothing_is_written_says_so(path: str) -> None:
    words = {
        "progress.html": "No hours were agreed by subsystem",
        "waiting.html": "Nothing is waited for",
        "decisions.html": "Nothing is written down",
    }
    assert words[path] in text_of(path, view_for(Reader.WORKSHOP, a_car({})))


def _columns(shown: str) -> list[list[str]]:
    """The rows of the table of hours as printed, without their names."""
    table = next(t for t in re.findall(r"<table.*?</table>", shown, re.S) if "Agreed" in t)
    rows = re.findall(r"<tr.*?</tr>", table, re.S)[1:]
    cells = (re.findall(r"<td[^>]*>(.*?)</td>", row) for row in rows)
    return [[re.sub(r"<.*?>", "", cell) for cell in row] for row in cells]


def test_progress__adds_up_as_printed() -> None:
    *lines, whole = _columns(text_of("progress.html", view_for(Reader.OWNER)))
    # Agreed, planned, earned, spent; what follows are shares and paces.
    for n in range(4):
        assert Decimal(whole[n]) == sum(Decimal(line[n]) for line in lines)
    assert "145.75" == whole[0]
    assert "" == whole[-1]


def test_progress__says_why_no_date_is_given() -> None:
    shown = text_of("progress.html", view_for(Reader.WORKSHOP))
    assert "No finishing date is given" in shown
    assert "It is wanted by 20 December 2024." in shown


def test_progress__gives_the_date_as_an_interval_with_its_method() -> None:
    spent = ["6", "11", "0", "8", "14", "3", "9", "12", "5", "10"]
    weeks = [
        a_sheet(f"2024-{1 + n // 4:02d}-{1 + 7 * (n % 4):02d}", subsystem="body", hours={"MT": h},
                work={"body/door": ["removed"] if n else ["inspected"]})
        for n, h in enumerate(spent)
    ]  # fmt: skip
    car = a_car(REGISTER, weeks, estimate={"body": "200"}, target="2024-12-20")
    shown = text_of("progress.html", view_for(Reader.OWNER, car))
    assert re.search(r"Finished between \d+ \w+ \d{4} and \d+ \w+ \d{4}, eight times in ten", shown)
    assert "drawn by lot from the last" in shown
    assert 'class="ahead-days"' in shown


def test_progress__of_a_car_handed_over_tells_no_more_of_what_is_to_come() -> None:
    sheet = a_sheet(
        "2024-01-08", subsystem="body", hours={"MT": "9"}, work={"body/door": "removed"}
    )
    estimate = {"body": "12"}
    gone = a_car(REGISTER, [sheet], estimate=estimate, delivered="2024-01-08")
    shown = text_of("progress.html", view_for(Reader.OWNER, gone))
    assert "The car was handed over on 8 January 2024." in shown
    assert "Going on as so far" not in shown
    # Three of ten parts of the door are done: 3.6 of 12 hours, with 2.5 spent for each.
    here = text_of(
        "progress.html", view_for(Reader.OWNER, a_car(REGISTER, [sheet], estimate=estimate))
    )
    assert "Going on as so far it comes to about 30 hours, 18 more than agreed." in here


def test_progress__with_little_earned_says_so() -> None:
    found = {"body/door": {"found": "rust"}}
    sheet = a_sheet("2024-01-08", subsystem="body", hours={"MT": "9"}, work=found)
    car = a_car(REGISTER, [sheet], estimate={"body": "12"})
    shown = text_of("progress.html", view_for(Reader.OWNER, car))
    assert "less than a fifth is earned, so take that lightly." in shown


def test_waiting__tells_the_owner_what_is_asked_and_no_private_supplier() -> None:
    for reader, seen, of in (
        (Reader.WORKSHOP, True, "the owner"), (Reader.OWNER, False, "you"),
    ):  # fmt: skip
        shown = text_of("waiting.html", view_for(reader))
        assert f"Asked of {of}" in shown
        assert "Which green?" in shown
        assert "10 working days late" in shown
        assert "Trim: Seat" in shown
        assert ("Quiet Lane Trimmers" in shown) is seen


def test_question__put_off_does_not_wait_and_says_why() -> None:
    raised = a_sheet(
        "2024-01-08", subsystem="trim",
        snags={"green": {"raise": "which green?", "ask": "owner", "on": "trim/seat"}},
    )  # fmt: skip
    rested = a_sheet("2024-01-09", subsystem="trim", snags={"green": {"defer": "after the paint"}})
    view = view_for(Reader.OWNER, a_car(REGISTER, [raised, rested]))
    waiting, decisions = text_of("waiting.html", view), text_of("decisions.html", view)
    assert "Nothing is waited for." in waiting
    assert "Put off: after the paint" in waiting
    assert "No questions wait for an answer; one was put off." in decisions
    assert "Asked, and put off" in decisions
    assert "Asked, and not answered" not in decisions
    (front,) = page_front(view)
    assert not front.values["asked"]
    assert "asked 8 January 2024; put off: after the paint" in printed(front)


def test_waiting__of_the_first_day_says_today() -> None:
    sheet = a_sheet(
        "2024-01-08", subsystem="trim",
        parts={"hide": {"what": "two hides", "ordered": "today", "of": "trim/seat"}},
    )  # fmt: skip
    shown = text_of("waiting.html", view_for(Reader.OWNER, a_car(REGISTER, [sheet])))
    assert '<p class="day"><span>today</span></p>' in shown


def test_decisions__says_who_decided_and_what_nobody_did() -> None:
    shown = text_of("decisions.html", view_for(Reader.OWNER))
    assert "One question waits for an answer. One departure does not say who decided." in shown
    assert "Decided by the owner, on this advice: take it" in shown


hours = st.fractions(min_value=0, max_value=200, max_denominator=8)


@given(st.lists(st.builds(Earned, hours, st.none(), hours, hours), max_size=6))
def test_bars__stay_in_the_frame_and_keep_their_order(lines: list[Earned]) -> None:
    drawn = hour_bars(lines)
    for line, bar in zip(lines, drawn.bars, strict=True):
        for drawn_as in (bar.agreed, bar.earned, bar.spent):
            assert 0 <= Decimal(drawn_as) <= 100
        assert (line.earned < line.spent) is False or Decimal(bar.earned) <= Decimal(bar.spent)
    assert all(0 <= Decimal(mark.x) <= 100 for mark in drawn.scale)


days = st.dates(date(2024, 1, 1), date(2030, 1, 1))


@given(st.lists(days, min_size=4, max_size=4).map(sorted), st.none() | days)
def test_stretch__lies_on_its_axis(ordered: list[date], wanted: date | None) -> None:
    drawn = stretch(*ordered, wanted)
    places: list[Any] = [drawn.x, drawn.middle, Fraction(drawn.x) + Fraction(drawn.width)]
    assert all(0 <= Fraction(at) <= 100 + Fraction(1, 50) for at in places)
    assert Fraction(drawn.x) <= Fraction(drawn.middle) + Fraction(1, 100)
    assert bool(drawn.wanted) is (wanted is not None and wanted > ordered[0])

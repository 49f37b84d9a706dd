"""The page of running in and re-checks, for the readers who have the car in hand."""

from html import unescape
from typing import Any

import html5lib
import pytest

from journal.outputs.theme import environment, theme_folder
from journal.pages.component import page_component
from journal.pages.front import page_front
from journal.pages.rechecks import page_rechecks
from journal.pages.recheckwords import counting_words, lead_words, rechecks_due, value_words
from journal.pages.searchdocs import documents
from journal.pages.sheet import page_sheet
from journal.pages.standing import standing_sentences
from journal.pages.view import CarView, view_of
from journal.readers import car_for
from journal.records.carfile import CarFile
from journal.records.recheck import Wanted
from journal.words.cautions import CAUTIONS
from journal.words.vocabulary import Reader
from tests.writing import a_car, a_sheet

TEMPLATES = environment(theme_folder())
REGISTER = {"brakes/pipes": "first-fit", "instruments/odometer": "first-fit"}
ASKED = {
    "hoses": {
        "what": "brake hoses", "on": "brakes/pipes", "after": "500 miles or 6 weeks",
        "value": "dry to a finger",
    },
    "drain-plug": "50 miles",
}  # fmt: skip
DELIVERED = a_sheet("2025-06-20", title="Delivered", odometer="48371", rechecks=ASKED)
DONE = a_sheet(
    "2025-07-10", name="tried", title="Tried on the road", odometer="48430",
    rechecks={"drain-plug": {"done": "a flat tighter", "by": "MT"}},
)  # fmt: skip


def _car(*later: Any, **car: Any) -> CarFile:
    return a_car(REGISTER, [DELIVERED, *later], **{"delivered": "2025-06-20", **car})


def _view(car: CarFile, reader: Reader = Reader.OWNER) -> CarView:
    return view_of(car_for(reader, car), reader, pictures={})


def _shown(make: Any, view: CarView, which: int = 0) -> str:
    page = make(view)[which]
    printed = TEMPLATES.get_template(page.template).render(page.values)
    html5lib.HTMLParser(strict=True).parse(printed)
    return unescape(printed)


def test_page__says_what_is_to_come_when_and_what_should_be_found() -> None:
    shown = _shown(page_rechecks, _view(_car()))
    assert "Two things are to be looked at again; none are due by 20 June 2025." in shown
    assert "counts from delivery on 20 June 2025, when the odometer read 48,371 miles." in shown
    assert "At 48,871 miles or on 1 August 2025, whichever comes first" in shown
    assert "Should be: dry to a finger" in shown
    # Nobody has driven since, so that what is left is the stretch itself.
    assert "to go" not in shown


def test_page__says_what_is_past_due_by_how_much_and_what_was_found() -> None:
    late = a_sheet("2025-08-04", name="read", odometer="48900")
    shown = _shown(page_rechecks, _view(_car(DONE, late)))
    assert "One thing is to be looked at again; one is due by 4 August 2025; one has" in shown
    assert '<span class="hold">Past due:</span> at 48,871 miles or on 1 August 2025' in shown
    assert "29 miles past when the odometer was last read, on 4 August 2025; 3 days past" in shown
    assert "A flat tighter" in shown
    assert "by Margit Tolland; it was due at 48,421 miles" in shown
    assert "Done after it was due" in shown


def test_page__shows_the_cautions_and_defers_to_the_maker() -> None:
    shown = _shown(page_rechecks, _view(_car()))
    assert CAUTIONS["brakes"] in shown
    assert "Let a qualified person look at it, with the maker’s book open." in shown


def test_page_without_any__says_what_would_stand_there() -> None:
    shown = _shown(page_rechecks, _view(a_car(REGISTER)))
    assert "Nothing is written down." in shown


def test_page__is_for_workshop_and_owner() -> None:
    assert page_rechecks(_view(_car(), Reader.WORKSHOP))
    assert () == page_rechecks(_view(_car(), Reader.PUBLIC))


def test_car_in_the_workshop__counts_nothing_yet() -> None:
    view = _view(_car(delivered=None))
    assert ("Two things are to be looked at again once the car is on the road.", "") == (
        lead_words(view), counting_words(view),
    )  # fmt: skip
    assert "500 miles or 6 weeks after delivery, whichever comes first" in _shown(
        page_rechecks, view
    )


def test_distance_that_cannot_be_told__is_said_with_its_reason() -> None:
    other = a_sheet("2025-07-02", work={"instruments/odometer": {"now": "period-used"}})
    shown = _shown(page_rechecks, _view(_car(other)))
    assert "another odometer went in on 2 July 2025, so that the distance cannot be told" in shown
    unread = a_sheet("2025-06-20", rechecks={"hoses": "500 miles"})
    shown = _shown(page_rechecks, _view(a_car(REGISTER, [unread], delivered="2025-06-20")))
    assert "500 miles after 20 June 2025; the odometer was not read by then" in shown


def test_standing__tells_the_owner_what_is_due_and_not_the_public() -> None:
    car = _car(a_sheet("2025-08-04", odometer="48900"))
    assert "Delivered on 20 June 2025. Two re-checks are due." in standing_sentences(_view(car))
    assert "Two re-checks are due." == rechecks_due(_view(car))
    assert "Delivered on 20 June 2025." in standing_sentences(_view(car, Reader.PUBLIC))


def test_front__leads_to_them_while_any_is_open() -> None:
    late = a_sheet("2025-08-04", odometer="48900")
    for car, words in ((_car(), "none of them due"), (_car(late), "two of them due")):
        shown = _shown(page_front, _view(car))
        assert f'<a href="rechecks.html">All re-checks, {words}</a>' in shown
    assert "All re-checks" not in _shown(page_front, _view(_car(), Reader.PUBLIC))
    assert "All re-checks" not in _shown(page_front, _view(a_car(REGISTER)))


@pytest.mark.parametrize("reader", list(Reader))
def test_sheet__tells_what_it_asked_for_and_ticked_and_the_public_no_hand(reader: Reader) -> None:
    view = _view(_car(DONE), reader)
    asked, done = _shown(page_sheet, view), _shown(page_sheet, view, 1)
    assert "<h2>Re-checks</h2>" in asked
    assert "to be looked at after 500 miles or 6 weeks" in asked
    assert "done: a flat tighter" in done
    assert (reader is not Reader.PUBLIC) == ('href="../rechecks.html#recheck-drain-plug"' in done)


def test_hand_that_looked__is_not_in_what_the_public_sees() -> None:
    for reader, by in ((Reader.OWNER, "MT"), (Reader.PUBLIC, None)):
        line = car_for(reader, _car(DONE)).sheets[1].front.rechecks.get("drain-plug")
        assert line is not None
        assert by == line.by


def test_component__leads_to_what_is_to_be_looked_at_again() -> None:
    shown = _shown(page_component, _view(_car()))
    assert 'href="../../rechecks.html#recheck-hoses">Brake hoses</a>' in shown
    assert "At 48,871 miles or on 1 August 2025, whichever comes first" in shown


def test_search__finds_a_recheck_once_by_its_name() -> None:
    again = a_sheet("2025-07-10", rechecks={"drain-plug": {"done": "tight", "after": "500 miles"}})
    found = [d for d in documents(_view(_car(again))) if d.kind.one == "Re-check"]
    assert [
        ("Brake hoses", "rechecks.html#recheck-hoses"),
        ("Drain plug", "rechecks.html#recheck-drain-plug"),
    ] == [(d.title, d.href) for d in found]
    assert () == tuple(
        d for d in documents(_view(_car(), Reader.PUBLIC)) if d.kind.one == "Re-check"
    )


@pytest.mark.parametrize(
    ("value", "words"),
    [
        ({"says": "dry"}, "dry"),
        ({"limit": {"least": "48", "most": "52"}, "unit": "lbf ft", "says": "cold"}, "48 to 52 lbf ft; cold"),
        ({"limit": {"most": "0.1"}, "unit": "mm"}, "at most 0.1 mm"),
    ],
)  # fmt: skip
def test_value__is_words_limits_or_both(value: Any, words: str) -> None:
    assert words == value_words(Wanted.model_validate(value))

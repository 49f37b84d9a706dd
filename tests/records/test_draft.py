"""What was heard and is not confirmed: the same shapes as in a sheet, and nothing that counts."""

from typing import Any

import pytest

from journal.pages.searchdocs import documents
from journal.pages.view import CarView, view_of
from journal.readers import car_for
from journal.records.draft import SECTIONS, DraftLine
from journal.records.sheet import SheetFront
from journal.words.vocabulary import Reader
from tests.writing import a_car, a_sheet

LINE: dict[str, Any] = {
    "words": "took both front cylinders off", "at": "0:12", "ask": "Front or rear?",
    "subsystem": "gearbox",
    "hours": {"MT": "2"},
    "work": {"brakes/pipes": {"did": "removed", "stand-in": "a borrowed one"}},
    "parts": {"cylinder": {"ordered": "2024-03-05", "from": "northgate", "price": "20"}},
    "outwork": {"plating": {"to": "northgate", "sent": "2"}},
    "measured": {"bore": {"read": "19", "unit": "mm", "limit": {"most": "18"}}},
    "snags": {"leak": {"raise": "weeps", "hold": "yes"}},
    "rechecks": {"nuts": {"after": "500 miles"}},
    "proving": {"no-leaks": {"found": "dry", "by": "MT"}},
}  # fmt: skip


@pytest.mark.parametrize("section", SECTIONS)
def test_section__is_typed_as_in_a_sheet(section: str) -> None:
    line, front = DraftLine.model_fields[section], SheetFront.model_fields[section]
    assert (line.annotation, line.alias) == (front.annotation, front.alias)
    # A sheet must have a subsystem; a line need not.
    assert line.metadata == [m for m in front.metadata if "not_empty" not in repr(m)]


def test_sections__are_those_that_a_talk_can_tell() -> None:
    assert (
        "subsystem", "hours", "work", "parts", "outwork", "measured", "proving", "snags", "rechecks",
    ) == SECTIONS  # fmt: skip


def test_line__heard_bare_is_its_words() -> None:
    sheet = a_sheet("2024-03-05", draft="the pipe weeps")
    assert [DraftLine(words="the pipe weeps")] == [*sheet.front.draft]


def _view(**front: Any) -> CarView:
    sheet = a_sheet("2024-03-05", hours={"MT": "1"}, work={"brakes/pipes": "cleaned"}, **front)
    car = a_car({"brakes/pipes": "first-fit", "gearbox/laygear": "first-fit"}, [sheet])
    return view_of(car, Reader.WORKSHOP, pictures={})


_LEDGERS = (
    "originality", "snags", "hours", "parts", "outwork", "measured", "sums", "gallery", "numbers",
    "keepers", "decisions", "proving", "completeness", "rechecks", "progress", "forecast", "waiting",
    "news", "suppliers", "money", "statements",
)  # fmt: skip


@pytest.mark.parametrize("ledger", _LEDGERS)
def test_ledger__does_not_hear_of_it(ledger: str) -> None:
    told, heard = _view(for_="workshop"), _view(draft=[LINE, LINE])
    assert getattr(told, ledger) == getattr(heard, ledger)


def test_search__does_not_find_it() -> None:
    assert documents(_view(for_="workshop")) == documents(_view(draft=[LINE]))


def test_sheet__is_for_the_workshop_alone_until_nothing_waits() -> None:
    assert Reader.WORKSHOP is a_sheet("2024-03-05", draft=[LINE]).front.widest
    assert Reader.PUBLIC is a_sheet("2024-03-05").front.widest
    assert Reader.OWNER is a_sheet("2024-03-05", for_="owner").front.widest


@pytest.mark.parametrize("reader", [Reader.OWNER, Reader.KEEPER, Reader.PUBLIC])
def test_reader__sees_nothing_of_the_sheet_and_nothing_that_leans_on_it(reader: Reader) -> None:
    heard = a_sheet(
        "2024-03-05", name="heard", draft=[LINE], photos=["a.jpg"],
        parts={"cylinder": {"ordered": "2024-03-05"}},
    )  # fmt: skip
    later = a_sheet(
        "2024-03-06", name="later", corrects="2024-03-05-heard", photos=["b.jpg"],
        work={"brakes/pipes": {"did": "fitted", "part": "cylinder"}},
    )  # fmt: skip
    photos = ("2024-03-05/a.jpg", "2024-03-06/b.jpg")
    car = a_car({"brakes/pipes": "first-fit"}, [heard, later], photos=photos, cover=photos[0])
    seen = car_for(reader, car)
    assert ["2024-03-06-later"] == [sheet.name for sheet in seen.sheets]
    (front,) = (sheet.front for sheet in seen.sheets)
    assert () == front.corrects
    assert {"2024-03-06/b.jpg"} == seen.photo_files
    assert seen.car.cover is None
    assert [None] == [work.part for _, work in front.work]


@pytest.mark.parametrize("reader", [Reader.OWNER, Reader.KEEPER, Reader.PUBLIC])
def test_recording__is_the_workshops_alone(reader: Reader) -> None:
    moment = {"file": "talk.mp4", "at": "0:12", "words": "it weeps"}
    car = a_car({"brakes/pipes": "first-fit"}, [a_sheet("2024-03-05", recording=[moment])])
    (seen,) = car_for(reader, car).sheets
    assert () == seen.front.recording
    assert car_for(reader, car).recording_files is None

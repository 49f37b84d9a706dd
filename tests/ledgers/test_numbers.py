"""Stamped numbers: what the papers say, what is read on the car, and where the two part."""

from datetime import date
from typing import Any

import pytest

from journal.ledgers.numbers import NumberLine, Verdict, fold_numbers
from journal.readers import car_for
from journal.readers.numbers import mask_number
from journal.records.sheet import Sheet
from journal.words.vocabulary import Evidence, Reader
from tests.writing import a_car, a_sheet


def _numbers(tag: str, record: str, *readings: str) -> bool:
    sheets = [
        a_sheet(f"2024-01-{day:02d}", work={"papers/body-tag": {"number": reading}})
        for day, reading in enumerate(readings, 1)
    ]
    car = a_car(
        {"papers/body-tag": "first-fit"},
        sheets,
        papers={"record": {"title": "Factory record", "numbers": {"body": record}}},
        numbers={"body": {"found": tag, "on": "papers/body-tag"}},
    )
    numbers = fold_numbers(car)
    (line,) = numbers.lines
    assert ({"papers/body-tag"} if line.disputed else set()) == set(numbers.disputed_components)
    return line.disputed


def test_number__that_agrees_with_the_record_is_not_disputed() -> None:
    assert not _numbers("D 0398", "D 0398")


def test_number__differing_in_a_digit_is_disputed() -> None:
    assert _numbers("D 0398", "D 0393")


def test_number__written_with_other_blanks_and_strokes_is_the_same() -> None:
    assert not _numbers("D 0398", "d-0398", "D0398")


def test_number__read_otherwise_later_is_disputed() -> None:
    assert _numbers("D 0398", "D 0398", "D 0393")


def test_number__known_to_papers_alone_is_kept() -> None:
    car = a_car({}, papers={"book": {"title": "Log book", "numbers": {"key": "FA 311"}}})
    assert [("key", None)] == [(line.name, line.on) for line in fold_numbers(car).lines]


# As recorded, as found, as delivered


RECORD = {"title": "Build card", "kind": "factory record", "numbers": {"engine": "TE 431"}}


def _line(*sheets: Any, papers: Any = None, **car: Any) -> NumberLine:
    numbers = {"engine": {"found": "TE 431", "on": "engine/boss"}}
    written = a_car(
        {"engine/boss": "first-fit"}, sheets, papers={"card": RECORD} if papers is None else papers,
        photos=["2024-01-01/boss.jpg"], **{"numbers": numbers, **car},
    )  # fmt: skip
    return fold_numbers(written).lines[0]


def _read(day: str, number: str | None, **more: Any) -> Sheet:
    work = {"did": "inspected", **({"number": number} if number else {}), **more}
    return a_sheet(day, work={"engine/boss": work})


def test_number__is_told_as_found_and_as_it_was_read_last() -> None:
    line = _line(_read("2024-01-01", "TE 431"), _read("2024-05-01", "TE-431"))
    assert line.found is not None
    assert line.delivered is not None
    assert ("as found", date(2024, 5, 1)) == (line.found.kind, line.delivered.day)


def test_number__first_read_in_a_sheet_is_as_found() -> None:
    line = _line(_read("2024-01-01", "TE 431"), numbers={"engine": {"on": "engine/boss"}})
    assert line.found is not None
    assert "2024-01-01-day" == line.found.ref


def test_number__of_another_item_is_no_dispute_and_is_what_is_delivered() -> None:
    line = _line(_read("2024-05-01", "TE 999", now="period-used"))
    assert not line.disputed
    assert line.delivered is not None
    assert "TE 999" == line.delivered.value
    assert Verdict.AGREES == line.record


def test_number__of_another_item_that_nobody_read_is_not_known() -> None:
    line = _line(_read("2024-05-01", None, now="period-used"))
    assert line.delivered is None
    assert "2024-05-01-day" == line.moved


def test_number__of_the_first_item_put_back_must_agree_again() -> None:
    away = _read("2024-05-01", "TE 999", now="period-used")
    assert _line(away, _read("2024-06-01", "TE 432", now="first-fit")).disputed


def test_evidence__of_a_number_is_a_paper_a_reading_and_a_photograph() -> None:
    photo = a_sheet("2024-01-01", photos={"file": "boss.jpg", "of": "engine/boss"})
    assert Evidence.PROVEN == _line(photo).evidence
    assert Evidence.SHOWN == _line(photo, papers={}).evidence
    assert Evidence.STATED == _line().evidence
    assert Evidence.DISPUTED == _line(photo, _read("2024-02-01", "TE 437")).evidence


def test_record__is_the_factory_s_own_and_no_other_paper() -> None:
    assert Verdict.AGREES == _line().record
    other = {**RECORD, "numbers": {"engine": "TE 437"}}
    assert Verdict.DIFFERS == _line(papers={"card": other}).record
    assert Verdict.SILENT == _line(papers={"card": {**RECORD, "kind": "invoice"}}).record


def test_record__speaks_for_the_same_number_in_another_place() -> None:
    stamp = {"engine-stamp": {"found": "TE 431", "on": "engine/boss"}}
    assert Verdict.AGREES == _line(numbers=stamp).record


def test_masked_number__agrees_with_nothing_since_nobody_can_tell() -> None:
    other = {**RECORD, "numbers": {"engine": "TE 437"}, "for": "public"}
    car = a_car(
        {"engine/boss": "first-fit"}, papers={"card": other},
        numbers={"engine": {"found": "TE 431", "on": "engine/boss"}},
    )  # fmt: skip
    (line,) = fold_numbers(car_for(Reader.PUBLIC, car)).lines
    assert mask_number("TE 431") in [s.value for s in line.statements]
    assert line.masked
    assert Verdict.MASKED == line.record


# 49 CFR 565 holds from model year 1981 on; the number is its worked example, with X in ninth place.
@pytest.mark.parametrize(
    ("year", "number", "remark"),
    [
        ("1958", "TD 58/0417", None),
        ("1980", "SHORT1", None),
        (
            "about 1989",
            "1M8GDM9AXKP042788",
            "its ninth character, X, is the check digit of 49 CFR 565.15",
        ),
        ("1981", "SHORT1", "has 6 characters where 49 CFR 565 and ISO 3779 have 17"),
        ("not known", "SHORT1", None),
    ],
)
def test_remark__is_made_from_1981_on(year: str, number: str, remark: str | None) -> None:
    car = a_car({}, year=year, numbers={"chassis": number})
    assert remark == fold_numbers(car).lines[0].remark


def test_remark__is_not_made_on_engine_numbers_nor_on_masked_ones() -> None:
    car = a_car({}, year="1990", numbers={"engine": "X1", "chassis": "1M8GDM9A1KP042788"})
    assert [None, True] == [line.remark and True for line in fold_numbers(car).lines]
    public = fold_numbers(car_for(Reader.PUBLIC, car)).lines
    assert [None, None] == [line.remark for line in public]

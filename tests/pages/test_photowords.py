"""What the file of a photograph says of itself, in words."""

from datetime import date, time

import pytest

from journal.ledgers.gallery import Picture
from journal.pages.photowords import (
    agreement,
    clock_note,
    fact_words,
    hash_groups,
    size_words,
    taken_words,
)
from journal.records.photofacts import PhotoFacts
from tests.pages.picturing import SHA, facts

SHEET = date(2024, 3, 5)
NBSP = "\N{NO-BREAK SPACE}"


def _picture(told: PhotoFacts | None) -> Picture:
    return Picture(
        1, "2024-03-05/a.jpg", SHEET, "2024-03-05-day", "brakes", (), None, None, None, told
    )


def _taken(day: int, month: int = 3, at: time | None = time(14, 20)) -> Picture:
    return _picture(facts(date(2024, month, day), at))


@pytest.mark.parametrize(
    ("picture", "words"),
    [
        (_taken(5), "Taken on 5 March 2024 at 14:20 by the camera’s clock, the day of the sheet."),
        (_taken(5, at=None), "Taken on 5 March 2024 by the camera’s clock, the day of the sheet."),
        (
            _taken(5, at=time(9, 5, 59)),
            "Taken on 5 March 2024 at 09:05 by the camera’s clock, the day of the sheet.",
        ),
        (
            _taken(4),
            "Taken on 4 March 2024 at 14:20 by the camera’s clock, one day before the sheet’s date.",
        ),
        # 2024 is a leap year: from 29 February to 5 March are five days.
        (
            _taken(29, 2),
            "Taken on 29 February 2024 at 14:20 by the camera’s clock, five days before the sheet’s date.",
        ),
        (
            _taken(7),
            "Taken on 7 March 2024 at 14:20 by the camera’s clock, two days after the date of the"
            " sheet, which cannot be: the camera’s clock or the sheet is wrong.",
        ),
        (_picture(facts(None)), "The file does not say when it was taken."),
        (_picture(None), "The file does not say when it was taken."),
    ],
)
def test_taken__is_told_against_the_day_of_the_sheet(picture: Picture, words: str) -> None:
    assert words == taken_words(picture)


@pytest.mark.parametrize(
    ("picture", "words"),
    [
        (_taken(5), "as the camera dates it"),
        (_taken(2), "the camera dates it three days before"),
        (_taken(6), "the camera dates it one day later, which cannot be"),
        (_picture(facts(None)), ""),
        (_picture(None), ""),
    ],
)
def test_note__is_quiet(picture: Picture, words: str) -> None:
    assert words == clock_note(picture)


@pytest.mark.parametrize(
    ("size", "words"),
    [
        (1, "1 byte"),
        (999, "999 bytes"),
        (1000, f"1{NBSP}kB (1,000 bytes)"),
        (184_220, f"184{NBSP}kB (184,220 bytes)"),
        (999_499, f"999{NBSP}kB (999,499 bytes)"),
        (999_500, f"1.0{NBSP}MB (999,500 bytes)"),
        (3_214_551, f"3.2{NBSP}MB (3,214,551 bytes)"),
    ],
)
def test_size__is_told_roundly_and_exactly(size: int, words: str) -> None:
    assert words == size_words(size)


def test_hash__is_cut_where_an_eye_can_rest() -> None:
    groups = hash_groups(SHA)
    assert ("01234567", "89abcdef") * 4 == groups
    assert SHA == "".join(groups)


@pytest.mark.parametrize(
    ("pictures", "words"),
    [
        ((), ""),
        (
            (_taken(5),),
            "Taken on 5 March 2024 at 14:20 by the camera’s clock, the day of the sheet.",
        ),
        (
            (_taken(5), _taken(5), _taken(5)),
            "Of three photographs the camera’s clock puts three on the day of their sheets.",
        ),
        (
            (_taken(5), _taken(5), _taken(1), _taken(8), _picture(facts(None))),
            "Of five photographs the camera’s clock puts two on the day of their sheets, one before"
            " and one after, which cannot be; one does not say when it was taken.",
        ),
        (
            (_picture(None), _picture(facts(None))),
            "Of two photographs two do not say when they were taken.",
        ),
    ],
)
def test_agreement__counts_them_all(pictures: tuple[Picture, ...], words: str) -> None:
    assert words == agreement(pictures)


def test_facts__are_absent_until_the_file_was_looked_at() -> None:
    assert fact_words(_picture(None)) is None


@pytest.mark.parametrize(
    ("picture", "wrong"), [(_taken(5), False), (_taken(4), False), (_taken(6), True)]
)
def test_facts__say_when_a_date_cannot_be(picture: Picture, wrong: bool) -> None:
    told = fact_words(picture)
    assert told is not None
    assert (wrong, f"4032{NBSP}×{NBSP}3024 pixels", "JPEG") == (told.wrong, told.pixels, told.form)

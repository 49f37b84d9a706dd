"""Recordings are where the sheets say, or are told as missing, or are kept elsewhere."""

import pytest
from msgspec.structs import replace

from journal.checks.recordings import check_recordings
from journal.records.carfile import CarFile
from journal.records.problem import Severity
from tests.writing import a_car, a_sheet


def _car(there: frozenset[str] | None) -> CarFile:
    moments = ["talk.mp4", {"file": "talk.mp4", "at": "0:12"}, {"file": "film.mov", "at": "1:00"}]
    return replace(a_car({}, [a_sheet("2024-03-05", recording=moments)]), recording_files=there)


@pytest.mark.parametrize(
    ("there", "missing"),
    [
        ({"talk.mp4", "film.mov"}, []),
        ({"talk.mp4"}, ["film.mov"]),
        (set(), ["talk.mp4", "film.mov"]),
    ],
)
def test_recording_that_is_not_there__is_told_once_a_sheet(
    there: set[str], missing: list[str]
) -> None:
    problems = [*check_recordings(_car(frozenset(there)))]
    assert [f'there is no recording "{file}"' for file in missing] == [p.message for p in problems]
    assert all(p.severity is Severity.WARNING for p in problems)


def test_car_without_a_folder_of_recordings__keeps_them_elsewhere() -> None:
    assert [] == [*check_recordings(_car(None))]

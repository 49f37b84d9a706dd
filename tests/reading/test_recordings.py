"""Recordings and drafts as they are read: by their names alone, and never shown by a slip."""

from pathlib import Path

import pytest

from journal.outputs.findings import problems_of
from journal.readers import car_for
from journal.reading.content import read_content
from journal.records.carfile import CarFile
from journal.words.text import normal
from journal.words.vocabulary import Reader
from tests.tern import SHEET, put_content, put_file, sheet_text


def _car(root: Path, front: str) -> CarFile:
    (car,) = read_content(put_content(root, **{SHEET: sheet_text(front)})).cars
    return car


def test_recordings__are_the_files_below_their_folder(tmp_path: Path) -> None:
    put_file(tmp_path, "tern/recordings/talk.mp4", b"")
    put_file(tmp_path, "tern/recordings/2024/film.mov", b"")
    put_file(tmp_path, "tern/recordings/.hidden", b"")
    assert {"talk.mp4", "2024/film.mov"} == _car(tmp_path, "").recording_files


def test_folder_of_recordings__may_be_missing_or_empty(tmp_path: Path) -> None:
    assert _car(tmp_path / "a", "").recording_files is None
    (tmp_path / "b/tern/recordings").mkdir(parents=True)
    assert frozenset() == _car(tmp_path / "b", "").recording_files


def test_recording__is_found_by_either_form_of_its_name(tmp_path: Path) -> None:
    apart = "e\N{COMBINING ACUTE ACCENT}loge.mp4"
    put_file(tmp_path, f"tern/recordings/{apart}", b"")
    content = read_content(
        put_content(tmp_path, **{SHEET: sheet_text(f"recording: {normal(apart)}")})
    )
    assert () == problems_of(content)
    (sheet,) = content.cars[0].sheets
    assert apart == sheet.front.recording[0].file


@pytest.mark.parametrize(
    "draft",
    [
        "draft: the pipe weeps",
        "draft: [[the, pipe]]",
        "draft: {did: x}",
        'draft: [{at: "12"}]',
        "draft: [{work: weeps}]",
        "draft: [{hours: {MT: many}}]",
    ],
)
def test_draft_of_which_nothing_can_be_read__still_keeps_the_sheet_from_others(
    draft: str, tmp_path: Path
) -> None:
    car = _car(tmp_path, draft)
    assert 1 == len(car.sheets)
    assert () == car_for(Reader.OWNER, car).sheets

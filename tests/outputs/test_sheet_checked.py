"""One sheet looked at within its car before it is saved, with each problem beside its field."""

from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from journal.outputs.findings import problems_of_car
from journal.outputs.sheets.checked import check_sheet
from journal.reading.content import read_content
from journal.reading.spans import loc_at
from journal.records.carfile import CarFile
from tests.published import CONTENT
from tests.tern import put_content, sheet_text

PATH = "tern/sheets/2024/2024-03-06-next.md"
FIRST = "tern/sheets/2024/2024-03-05-gearbox.md"


@pytest.fixture
def car(tmp_path: Path) -> CarFile:
    first = sheet_text("snags: {leak: {raise: weeps}}\nwork: {gearbox/laygear: {did: removed}}")
    (found,) = read_content(put_content(tmp_path, **{FIRST: first})).cars
    return found


def remarks(car: CarFile, front: str, body: str = "", **more: Any) -> list[tuple[Any, str]]:
    raw = sheet_text(front, body, date="2024-03-06").encode()
    return [(r.field, r.problem.message) for r in check_sheet(car, PATH, raw, **more).remarks]


def test_good_sheet__has_no_remarks(car: CarFile) -> None:
    assert [] == remarks(car, "hours: {MT: 3.5}\nsnags: {leak: {clear: new seal}}")


def test_remarks__stand_beside_the_field_that_they_are_about(car: CarFile) -> None:
    front = """\
hours: 2,5
work:
  gearbox/laygeer: {did: fitted}
  gearbox/front-bearing:
    did: removed
    verdict: perhaps
snags:
  drip: {clear: gone}
photos:
  - {file: laygear.jpg, alt: a gear}
  - {file: none.jpg, alt: nothing}
"""
    assert [
        (("hours",), 'hours must be a number with a decimal point, found "2,5"'),
        (("work", "gearbox/laygeer"), 'there is no component "gearbox/laygeer"'),
        (
            ("work", "gearbox/front-bearing", "verdict"),
            'verdict of gearbox/front-bearing cannot be "perhaps"',
        ),
        (("snags", "drip"), 'no snag "drip" was raised before this day'),
        (("photos", 0), 'there is no photograph "2024-03-06/laygear.jpg"'),
        (("photos", 1), 'there is no photograph "2024-03-06/none.jpg"'),
    ] == remarks(car, front)


def test_sheet_that_cannot_be_read__is_told_with_what_is_known_of_it(car: CarFile) -> None:
    checked = check_sheet(car, PATH, b"---\ndate: tomorrow\nsubsystem: gearbox\n---\n")
    assert checked.sheet is None
    assert [(("date",), 'date must be a date, found "tomorrow"')] == [
        (r.field, r.problem.message) for r in checked.remarks
    ]


def test_photographs_on_their_way__count_as_there(car: CarFile) -> None:
    on_its_way = replace(car, photo_files=car.photo_files | {"2024-03-06/new.jpg"})
    assert [] == remarks(on_its_way, "photos:\n  - {file: new.jpg, alt: a gear}")


def test_sheet_that_is_there__gives_way_to_the_one_being_written(car: CarFile) -> None:
    raw = sheet_text("snags: {drip: {raise: weeps}}").encode()
    assert () == check_sheet(car, FIRST, raw).remarks


def test_what_a_change_breaks_in_other_sheets__is_told_when_asked(tmp_path: Path) -> None:
    first = sheet_text("snags: {leak: {raise: weeps}}")
    later = sheet_text("snags: {leak: {clear: new seal}}", date="2024-03-06")
    (car,) = read_content(put_content(tmp_path, **{FIRST: first, PATH: later})).cars
    checked = check_sheet(car, FIRST, sheet_text().encode(), known=problems_of_car(car))
    assert ((), ['no snag "leak" was raised before this day']) == (
        checked.remarks,
        [p.message for p in checked.elsewhere],
    )
    assert checked.elsewhere == checked.problems


def test_demonstration__every_sheet_is_as_clean_by_itself_as_in_the_whole() -> None:
    for car in read_content(CONTENT).cars:
        for sheet in car.sheets[::12]:
            raw = (CONTENT / sheet.source.path).read_bytes()
            checked = check_sheet(car, sheet.source.path, raw, known=problems_of_car(car))
            assert ((), ()) == (checked.remarks, checked.elsewhere)


@pytest.mark.parametrize(
    ("line", "loc"),
    [
        (1, ()), (2, ("date",)), (3, ("work",)), (4, ("work",)), (5, ("work", "a/b")),
        (6, ("work", "c/d")), (7, ("work", "c/d", "did")), (8, ("photos",)), (9, ("photos", 0)),
        (10, ("photos", 1)), (11, ("photos", 1, "of")), (12, ()), (13, ()),
    ],
)  # fmt: skip
def test_line__is_that_of_what_has_a_line_of_its_own(line: int, loc: Any) -> None:
    text = """\
---
date: 2024-03-05
work:
# comment
  a/b: {did: removed, found: x}
  c/d:
    did: fitted
photos:
  - {file: a.jpg}
  - file: b.jpg
    of: a/b
---
text
"""
    assert loc == loc_at(text.encode(), line)

"""Kept sums: worked out from the sheets alone, told wrong at their line, seen by whom they are for."""

from typing import Any

import pytest

from journal.bench.base.definition import Job
from journal.digests.sums import digest_sums
from journal.outputs.bag.sheets import record_files
from journal.outputs.findings import problems_of
from journal.readers import car_for
from journal.reading.content import read_content
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.tern import SHEET, put_content, put_file
from tests.writing import a_car, a_sheet

SHIMS = {
    "sum": "shim-pack", "of": "gearbox/laygear", "target": "0.42 mm", "tolerance": "0.02 mm",
    "shims": {"0.10 mm": "3", "0.15 mm": "2", "0.12 mm": "1"},
}  # fmt: skip


def _car(*sums: dict[str, Any], **front: Any) -> CarFile:
    sheets = [
        a_sheet(f"2024-03-{n:02}", name="shims", subsystem="brakes", sums=kept, **front)
        for n, kept in enumerate(sums, 5)
    ]
    return a_car({"gearbox/laygear": "first-fit"}, sheets)


def _words(car: CarFile) -> list[str]:
    return [kept.answer.worked.verdict for kept in digest_sums(car).kept]


def test_sum__is_worked_out_from_its_inputs() -> None:
    (kept,) = digest_sums(_car({"laygear-shims": SHIMS})).kept
    assert ("Laygear shims", "gearbox", ("gearbox/laygear",)) == (
        kept.title,
        kept.subsystem,
        kept.of,
    )
    assert (
        "2 of 0.15 mm and 1 of 0.12 mm come to 0.42 mm, just right." == kept.answer.worked.verdict
    )


@pytest.mark.parametrize(
    "drawer",
    [
        "0.10 mm x 3, 0.15 x 2, 0.12 x 1",
        "0.10 mm x 3\n0.15 x 2\n0.12 x 1\n",
        ["0.10 mm x 3", "0.15 mm x 2", "0.12 mm x 1"],
        [["0.10 mm", "3"], ["0.15 mm", "2"], ["0.12 mm", "1"]],
        [
            {"thickness": "0.10 mm", "count": "3"}, {"thickness": "0.15 mm", "count": "2"},
            {"thickness": "0.12 mm"},
        ],
        {"0.10 mm": "3", "0.15 mm": "2", "0.12 mm": "1"},
        {"0.10 mm": {"count": "3"}, "0.15 mm": {"count": "2"}, "0.12 mm": {"count": "1"}},
    ],
)  # fmt: skip
def test_rows__may_be_written_in_any_way_that_a_sheet_has(drawer: Any) -> None:
    told = _words(_car({"s": {**SHIMS, "shims": drawer}}))
    assert ["2 of 0.15 mm and 1 of 0.12 mm come to 0.42 mm, just right."] == told


def test_sum__of_the_same_name_takes_the_place_of_an_earlier_one() -> None:
    later = {**SHIMS, "target": "0.30 mm"}
    sums = digest_sums(_car({"laygear-shims": SHIMS}, {"laygear-shims": later}))
    assert 2 == len(sums.kept)
    assert [2] == [k.answer.worked.results[1].exact for k in sums.latest]
    assert sums.kept == sums.on("gearbox/laygear") == sums.serving(Job.FITTING)
    assert 1 == len(sums.of_sheet("2024-03-05-shims"))


SHEET_WITH = """\
---
date: 2024-03-05
subsystem: gearbox
sums:
  laygear-shims:
    sum: shim-pack
    of: gearbox/layger
    target: 12 psi
    tolerance: 0.02 mm
    spares: 3
    shims:
      0.10 mm: 3
      0.15 bar: 2
---
"""


def test_mistakes__are_told_at_the_line_of_their_input(tmp_path: Any) -> None:
    root = put_content(tmp_path)
    put_file(root, SHEET, SHEET_WITH.encode())
    told = [(p.place.line, p.code, p.message) for p in problems_of(read_content(root))]
    assert [
        (7, "unknown-component", 'there is no component "gearbox/layger"'),
        (8, "bad-quantity", 'target of laygear-shims must be a length, found "12 psi"'),
        (10, "unknown-key", "spares of laygear-shims is not asked for by shim-pack"),
        (
            11, "bad-quantity",
            'shims of laygear-shims has a thickness that must be a length, found "0.15 bar"',
        ),
    ] == told  # fmt: skip


# Readers


@pytest.mark.parametrize(
    ("for_", "seen"),
    [
        (None, {Reader.WORKSHOP, Reader.OWNER, Reader.KEEPER, Reader.PUBLIC}),
        ("owner", {Reader.WORKSHOP, Reader.OWNER}),
        ("workshop", {Reader.WORKSHOP}),
    ],
)
def test_sum__is_seen_by_those_that_it_is_for(for_: str | None, seen: set[Reader]) -> None:
    car = _car({"laygear-shims": SHIMS | ({"for": for_} if for_ else {})})
    assert seen == {reader for reader in Reader if digest_sums(car_for(reader, car)).kept}


def test_sum__follows_its_sheet() -> None:
    car = _car({"laygear-shims": SHIMS}, for_="workshop")
    assert () == digest_sums(car_for(Reader.OWNER, car)).kept


def test_note__is_not_for_the_public() -> None:
    car = _car({"laygear-shims": {**SHIMS, "note": "as Jonah measured"}})
    assert [None] == [k.note for k in digest_sums(car_for(Reader.PUBLIC, car)).kept]


def test_figures__are_not_taken_for_the_numbers_of_the_car() -> None:
    """A chassis number that is also a measure must not spoil the sum, nor be hidden in it by chance."""
    car = a_car(
        {"gearbox/laygear": "first-fit"},
        [a_sheet("2024-03-05", sums={"s": {**SHIMS, "shims": "0.142 mm x 3"}})],
        numbers={"chassis": {"found": "0.142"}},
    )
    assert _words(car) == _words(car_for(Reader.PUBLIC, car))


def test_names__of_people_in_what_a_valve_is_called_are_masked() -> None:
    valves = "Eleanor Harrow: inlet, 2.50 mm, 0.22 mm"
    car = _car({"v": {"sum": "valve-shims", "inlet": "0.20 mm", "valves": valves}})
    (kept,) = digest_sums(car_for(Reader.PUBLIC, car)).kept
    assert "Harrow" not in str(kept.answer.given)
    assert Reader.PUBLIC is not Reader.OWNER


def test_record__that_is_handed_over_reads_back_as_the_same_sum(tmp_path: Any) -> None:
    root = put_content(tmp_path / "one")
    right = SHEET_WITH
    for wrong, meant in (
        ("12 psi", "0.42 mm"), ("0.15 bar", "0.15 mm"), ("    spares: 3\n", ""), ("layger", "laygear"),
    ):  # fmt: skip
        right = right.replace(wrong, meant)
    put_file(root, SHEET, right.encode())
    (car,) = read_content(root).cars
    for path, text in record_files(car):
        put_file(tmp_path / "two", path, text.encode())
    (again,) = read_content(tmp_path / "two").cars
    assert [s.front.sums for s in car.sheets] == [s.front.sums for s in again.sheets]
    assert _words(car) == _words(again)
    assert 1 == len(_words(car))

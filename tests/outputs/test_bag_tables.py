"""Tables in the bag: RFC 4180, every column explained, and no money for one who sees none."""

import csv
import io
from datetime import date
from pathlib import Path

import pytest

from journal.digests.gate import Gate
from journal.outputs.bag.columns import COLUMNS, MONEY
from journal.outputs.bag.pictures import Packed
from journal.outputs.bag.tables import bag_tables
from journal.readers import car_for
from journal.reading.content import read_content
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.published import CAR, CONTENT
from tests.tern import FILES, SHEET, put_content, sheet_text

DAY = date(2025, 6, 20)


def seen(reader: Reader) -> CarFile:
    cars = read_content(CONTENT).cars
    car = next(c for c in cars if c.name == CAR)
    return car_for(reader, car, tuple(c for c in cars if c is not car))


def packed_of(car: CarFile) -> tuple[Packed, ...]:
    """Every photograph as if it lay in the bag."""
    return tuple(
        Packed(f"{car.name}/photos/{p}", f"{car.name}/photos/{p}", "a" * 64, "b" * 64, 7, True)
        for p in sorted(car.photo_files)
    )


def tables(reader: Reader) -> dict[str, list[dict[str, str]]]:
    car = seen(reader)
    texts = dict(bag_tables(car, DAY, packed_of(car), Gate(), reader))
    return {name: rows(text) for name, text in texts.items()}


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


@pytest.mark.parametrize("reader", [Reader.OWNER, Reader.PUBLIC])
def test_every_column_of_every_table__is_explained_and_no_other(reader: Reader) -> None:
    car = seen(reader)
    texts = dict(bag_tables(car, DAY, packed_of(car), Gate(), reader))
    there = [
        (name, column)
        for name, text in texts.items()
        if name != "columns"
        for column in next(csv.reader(io.StringIO(text, newline="")))
    ]
    about = rows(texts["columns"])
    assert there == [(row["table"], row["column"]) for row in about]
    assert all(row["meaning"] for row in about)
    if reader is Reader.OWNER:
        assert set(COLUMNS) == set(texts) - {"columns"}
        assert {(n, c) for n, columns in COLUMNS.items() for c in columns} == set(there)


def test_table__has_the_form_of_the_standard(tmp_path: Path) -> None:
    # RFC 4180, section 2: lines end in CRLF, fields with commas, quotes or line ends stand in quotes.
    put_content(
        tmp_path,
        **{
            "tern/sheets/2024/2024-03-05-a.md": sheet_text(
                'snags: {weld: {raise: "old, \\"bad\\" weld"}}'
            )
        },
    )
    (car,) = read_content(tmp_path).cars
    text = dict(bag_tables(car_for(Reader.OWNER, car), DAY, (), Gate(), Reader.OWNER))["snags"]
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert 'weld,"old, ""bad"" weld",' in text


def test_money__is_there_for_the_owner_in_the_workshops_currency() -> None:
    told = tables(Reader.OWNER)
    assert "net" in told["parts"][0]
    units = {row["unit"] for row in told["columns"] if row["column"] == "net"}
    assert {"GBP"} == units


def test_money__has_no_column_for_one_who_sees_none() -> None:
    told = tables(Reader.PUBLIC)
    assert "money" not in told
    assert not {"price", "net", "cost", "currency"} & set(told["parts"][0]) | set(
        told["outwork"][0]
    ) & {"cost"}
    assert MONEY not in {row["unit"] for row in told["columns"]}


@pytest.mark.parametrize(("shown", "columns"), [("yes", {"price", "net"}), ("no", set())])
def test_prices__are_in_the_next_keepers_tables_by_the_owners_leave(
    shown: str, columns: set[str], tmp_path: Path
) -> None:
    front = "parts: {ring: {from: northgate, price: 431.17, ordered: today}}"
    car_yaml = FILES["tern/car.yaml"] + f"prices-shown: {shown}\n"
    put_content(tmp_path, **{SHEET: sheet_text(front), "tern/car.yaml": car_yaml})
    (car,) = read_content(tmp_path).cars
    told = dict(bag_tables(car_for(Reader.KEEPER, car), DAY, (), Gate(), Reader.KEEPER))
    assert columns == {"price", "net"} & set(told["parts"].split("\r\n")[0].split(","))
    assert bool(columns) == ("431.17" in told["parts"])
    # What the work came to stays between workshop and owner.
    assert "money" not in told


def test_pictures__tell_both_hashes_and_where_they_lie() -> None:
    car, told = seen(Reader.OWNER), tables(Reader.OWNER)["pictures"]
    assert len(car.photo_files) == len({row["file"] for row in told})
    assert ("b" * 64, "a" * 64, "7", "yes") == tuple(
        told[0][c] for c in ("sha-256", "original sha-256", "bytes", "pixels as taken")
    )


def test_departures_and_originals__say_why_who_and_the_way_back(tmp_path: Path) -> None:
    work = """\
work:
  gearbox/laygear:
    {now: service, why: no old gear to be had, original: bin G-4, reversible: yes, undo: swap the gears,
     decided: {by: owner, on: 2024-03-04}}
  brakes/pipes: {now: pattern, came-off: scrapped}
"""
    put_content(tmp_path, **{"tern/sheets/2024/2024-03-05-a.md": sheet_text(work)})
    (car,) = read_content(tmp_path).cars
    told = dict(bag_tables(car_for(Reader.OWNER, car), DAY, (), Gate(), Reader.OWNER))
    absent, laygear = sorted(rows(told["departures"]), key=lambda row: row["component"])
    assert "brightwork/front-bumper" == absent["component"]
    assert {
        "component": "gearbox/laygear", "works specification": "", "as found": "first-fit",
        "now": "service", "since": "2024-03-05", "sheet": "2024-03-05-a",
        "why": "no old gear to be had", "decided by": "owner", "decided on": "2024-03-04", "advice": "",
        "reversible": "yes", "way back": "swap the gears", "came off": "first-fit", "kept at": "bin G-4",
        "can be put back": "yes",
    } == laygear  # fmt: skip
    kept, gone = rows(told["originals"])
    assert ("gearbox/laygear", "yes", "bin G-4", "") == tuple(
        kept[c] for c in ("component", "works' own", "kept at", "gone")
    )
    assert ("brakes/pipes", "", "scrapped") == tuple(
        gone[c] for c in ("component", "kept at", "gone")
    )


def test_sheets__are_listed_with_their_hours_and_files(tmp_path: Path) -> None:
    sheet = sheet_text("title: Apart\nhours: {MT: 3.5, JB: 1}\nwork: {gearbox/laygear: stripped}")
    put_content(tmp_path, **{"tern/sheets/2024/2024-03-05-a.md": sheet})
    (car,) = read_content(tmp_path).cars
    (row,) = rows(
        dict(bag_tables(car_for(Reader.OWNER, car), DAY, (), Gate(), Reader.OWNER))["sheets"]
    )
    assert {
        "sheet": "2024-03-05-a", "day": "2024-03-05", "title": "Apart", "subsystems": "gearbox",
        "hours": "4.5", "components": "gearbox/laygear", "photographs": "", "corrects": "",
        "file": "tern/sheets/2024/2024-03-05-a.md",
    } == row  # fmt: skip

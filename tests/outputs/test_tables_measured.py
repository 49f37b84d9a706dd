"""The tables of readings, numbers and keepers."""

from datetime import date
from typing import Any

from journal.outputs.tables import TABLES, as_csv, as_json
from journal.records.carfile import CarFile
from tests.writing import a_car, a_sheet

DAY = date(2024, 6, 1)


def _car(**more: Any) -> CarFile:
    reading = {
        "on": "gearbox/laygear",
        "read": ["0.22", "0.24"],
        "unit": "mm",
        "limit": {"most": "0.15"},
    }
    sheet = a_sheet("2024-01-01", measured={"end float": reading}, odometer="48210")
    papers = {
        "card": {"title": "Card", "kind": "factory record", "numbers": {"chassis": "TD 1"}},
        "bill": {"title": "Bill", "date": "1967-11-20", "odometer": "50000", "keepers": ["Ada Fenwick"]},
    }  # fmt: skip
    return a_car({"gearbox/laygear": "first-fit"}, [sheet], papers=papers, **more)


def _row(name: str, number: int = 0) -> dict[str, Any]:
    table = TABLES[name](_car(numbers={"chassis": "TD 2"}), DAY)
    return dict(zip(table.columns, table.rows[number], strict=True))


def test_readings__are_there_in_both_systems() -> None:
    row = _row("measured")
    assert ("0.22, 0.24", "mm", "8.7, 9.4", "thou") == (
        row["read"], row["unit"], row["other read"], row["other unit"],
    )  # fmt: skip
    assert row["inside"] is False
    assert "5.9" == str(row["other most"])


def test_numbers__tell_how_they_stand() -> None:
    row = _row("numbers")
    assert ("TD 1", "TD 2", True) == (row["recorded"], row["found"], row["disputed"])
    assert "differs from the factory record" == row["factory record"]


def test_keepers__readings_and_findings_are_rows_of_one_table() -> None:
    table = TABLES["keepers"](_car(), DAY)
    assert ["keeper", "keeper", "odometer", "odometer", "finding"] == [row[0] for row in table.rows]
    assert "less than 50000 by bill" == table.rows[3][-1]
    assert table.total.startswith("2 keepers, 2 odometer readings in mile, 2 that do not fit")


def test_tables__can_be_told_as_csv_and_json() -> None:
    for name in ("measured", "numbers", "keepers"):
        table = TABLES[name](_car(), DAY)
        assert as_csv(table).splitlines()[0].startswith(table.columns[0])
        assert as_json(table).startswith("[")

"""Days and numbers at the very ends of what can be written: reckoned with, or refused at their line."""

from pathlib import Path

import pytest

from journal.outputs.findings import problems_of
from journal.outputs.tables import TABLES
from journal.reading.content import read_content
from tests.commands.running import run
from tests.hostile.filling import DAY, SHEET, put_filled
from tests.hostile.test_markup import archive_for
from tests.tern import put_content, put_file, sheet_text

MOST = "999999999999.999999999"
LEAST = "0.000000001"


@pytest.mark.parametrize("day", ["0001-01-01", "1799-12-31", "2200-01-01", "9999-12-31"])
def test_day_that_no_car_file_can_mean__is_told_with_the_days_that_can(
    day: str, tmp_path: Path
) -> None:
    content = put_content(tmp_path, **{"tern/sheets/a.md": sheet_text(date=day)})
    (problem,) = problems_of(read_content(content))
    told = f"date must be a day from 1800 to 2199, found {day}"
    assert (("tern/sheets/a.md", 2), "out-of-range", told) == (
        problem.place, problem.code, problem.message,
    )  # fmt: skip
    result = run("show", "ledger", content, "--as-of", day)
    assert (2, True) == (result.exit_code, f'"{day}" is no day from 1800 to 2199' in result.output)


def test_first_and_last_day__make_an_archive_like_any_other(tmp_path: Path) -> None:
    first = sheet_text("hours: {MT: 3}\nparts: {a: {ordered: today, price: 1}}", date="1800-01-01")
    last = sheet_text(
        "hours: {MT: 3}\nparts: {a: {received: today}}\nsnags: {x: weeps}", date="2199-12-31"
    )
    content = put_content(
        tmp_path / "content",
        **{"tern/sheets/1800-01-01-a.md": first, "tern/sheets/2199-12-31-a.md": last},
    )
    car = (
        (content / "tern/car.yaml").read_text(encoding="utf-8").replace("2024-03-01", "1800-01-01")
    )
    ends = "target: 2199-12-31\ndelivered: 2199-12-31\nestimate: {gearbox: 900}\n"
    put_file(content, "tern/car.yaml", f"{car}{ends}".encode())
    assert (archive_for(content) / "hours.html").is_file()
    (read,) = read_content(content).cars
    for table in TABLES.values():
        table(read, read.sheets[-1].date)


@pytest.mark.parametrize("number", [MOST, LEAST, "0"])
def test_same_extreme_in_every_number__makes_an_archive(number: str, tmp_path: Path) -> None:
    content = put_filled(tmp_path / "content", lambda _: "plain words")
    for file in content.rglob("*.yaml"):
        text = file.read_text(encoding="utf-8")
        file.write_text(text.replace("'1'", number), encoding="utf-8")
    sheet = content / SHEET
    text = sheet.read_text(encoding="utf-8").replace("'1'", number)
    sheet.write_text(text.replace("hours: '1.5'", "hours: 24"), encoding="utf-8")
    archive = archive_for(content)
    assert (archive / "sheets" / f"{DAY}-day.html").is_file()
    for table in TABLES:
        for form in ("table", "csv", "json"):
            assert 0 == run("show", table, content, "--as", form).exit_code

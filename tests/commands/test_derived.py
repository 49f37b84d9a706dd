"""The commands that derive: tables in three forms, statements, schemas."""

import csv
import io
import json
from datetime import date
from pathlib import Path

import pytest

from journal.outputs.schemas import schemas
from journal.outputs.tables import SEALED_TABLES, TABLES
from tests.commands.running import files, run

# show


def test_show__as_csv_is_rfc_4180_and_runs_nothing(content: Path) -> None:
    raw = run("show", "parts", content, "--as", "csv").stdout_bytes.decode()
    assert raw.endswith("\r\n")
    assert "\n" not in raw.replace("\r\n", "")
    (row,) = csv.DictReader(io.StringIO(raw, newline=""), strict=True)
    assert ("laygear", "'=HYPERLINK(1)", "'-A", "212.00", "2024-03-05", "") == (
        row["part"], row["what"], row["number"], row["price"], row["ordered"], row["received"],
    )  # fmt: skip


def test_show__as_csv_quotes_commas_and_quotes(content: Path) -> None:
    raw = run("show", "snags", content, "--as", "csv").stdout_bytes.decode()
    assert '"weeps, ""badly"""' in raw
    (row,) = csv.DictReader(io.StringIO(raw, newline=""), strict=True)
    assert ('weeps, "badly"', "yes", "0") == (row["what"], row["hold"], row["age in days"])


def test_show__as_json_has_the_same_rows_under_the_same_names(content: Path) -> None:
    raw = run("show", "hours", content, "--as", "csv").stdout_bytes.decode()
    rows = json.loads(run("show", "hours", content, "--as", "json").stdout)
    told = [{key: value or "" for key, value in row.items()} for row in rows]
    assert list(csv.DictReader(io.StringIO(raw, newline=""))) == told
    assert [("JB", "1"), ("MT", "3.5")] == [(row["hand"], row["hours"]) for row in rows]


def test_show__as_a_table_leaves_empty_columns_out(content: Path) -> None:
    result = run("show", "hours", content)
    assert 0 == result.exit_code
    assert [
        "month week subsystem hand kind hours",
        "2024-03 2024-W10 gearbox JB billable 1",
        "2024-03 2024-W10 gearbox MT billable 3.5",
        "4.5 hours in all.",
    ] == [" ".join(line.split()) for line in result.stdout.splitlines()]
    parts = run("show", "parts", content).stdout
    assert "ordered" in parts
    assert "returned" not in parts


@pytest.mark.parametrize("table", [*TABLES, *SEALED_TABLES])
@pytest.mark.parametrize("form", ["table", "csv", "json"])
def test_show__of_every_table_in_every_form_ends_clean(
    table: str, form: str, content: Path
) -> None:
    result = run("show", table, content, "--as", form)
    assert 0 == result.exit_code
    assert result.stdout


def test_show__as_of_a_day_knows_nothing_later(content: Path) -> None:
    result = run("show", "parts", content, "--as-of", "2024-03-04", "--as", "json")
    assert (0, []) == (result.exit_code, json.loads(result.stdout))


def test_show__of_an_unknown_table_is_a_wrong_call(content: Path) -> None:
    result = run("show", "ledgers", content)
    assert 2 == result.exit_code
    known = ", ".join(f"'{table}'" for table in (*TABLES, *SEALED_TABLES))
    assert f"'ledgers' is not one of {known}." in " ".join(result.stderr.split())


# statement


def test_statement__is_written_printed_and_not_written_again(content: Path) -> None:
    order = ("statement", content, "--to", "2024-03-31", "--issued", "2024-04-02")
    done = run(*order)
    assert 0 == done.exit_code
    # MT 3.5 h at 50, JB 1 h at 48 and a part of 212.00; no tax is set.
    assert "GBP 435.00 in all; the balance is GBP 435.00." in done.stdout
    assert f"wrote {content / 'tern/statements/2024-03-31.yaml'}" in done.stdout
    again = run(*order)
    assert 2 == again.exit_code
    assert "the next statement starts on 2024-04-01" in again.stderr


def test_statement__without_a_day_of_issue_is_issued_today(content: Path) -> None:
    assert 0 == run("statement", content, "--to", "2024-03-31").exit_code
    (file,) = (content / "tern/statements").iterdir()
    assert f"issued: {date.today()}" in file.read_text(encoding="utf-8")


# schema


def test_schema__prints_them_all_or_writes_one_a_file(tmp_path: Path) -> None:
    assert schemas() == json.loads(run("schema").stdout)
    result = run("schema", tmp_path / "schemas")
    assert f"{len(schemas())} schemas in {tmp_path / 'schemas'}\n" == result.stdout
    written = {path: json.loads(data) for path, data in files(tmp_path / "schemas").items()}
    assert {f"{name}.schema.json": shape for name, shape in schemas().items()} == written


def test_show__becomes_entries_where_the_table_does_not_fit(
    content: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Words are never broken to squeeze a table into a narrow terminal."""
    monkeypatch.setenv("COLUMNS", "60")
    narrow = run("show", "ledger", content).stdout
    assert "gearbox/laygear\n  weight: 1; as found: first-fit; now: first-fit; own" in narrow
    monkeypatch.setenv("COLUMNS", "200")
    wide = run("show", "ledger", content).stdout.splitlines()
    assert ["component", "weight", "as", "found"] == wide[0].split()[:4]

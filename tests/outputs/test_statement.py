"""Issuing a statement: written once, read back as it was, refused where money might be wrong."""

import csv
import io
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from journal.digests.money.fold import money_of
from journal.digests.statement import Stated, Statements, digest_statement
from journal.outputs.archive import Order
from journal.outputs.statement import issue_statement
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall
from tests.plainly import publish
from tests.tern import put_content, put_file, sheet_text

MARCH, APRIL = date(2024, 3, 31), date(2024, 4, 30)
DAY = "tern/sheets/2024/2024-03-05-gearbox.md"
ODD = "tern/sheets/2024/2024-03-06 “odd” name #2.md"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    root = put_content(tmp_path / "content")
    shop = (root / "workshop.yaml").read_text(encoding="utf-8")
    put_file(root, "workshop.yaml", (shop + "tax: 20\n").encode())
    car = (root / "tern/car.yaml").read_text(encoding="utf-8")
    paid = 'payments:\n  - {on: 2024-03-01, amount: 100.00, what: "deposit, \\"cash\\""}\n'
    put_file(root, "tern/car.yaml", (car + paid).encode())
    put_file(root, DAY, sheet_text("hours: {MT: 3.5, JB: {hours: 1, kind: rework}}").encode())
    put_file(root, ODD, sheet_text("hours: {JB: 0.25}", date="2024-03-06").encode())
    return root


def _issue(root: Path, to: date, issued: date | None = None) -> tuple[str, Stated]:
    content = read_content(root)
    return issue_statement(root, content, content.cars[0], to=to, issued=issued or to)


def _statements(root: Path, until: date) -> Statements:
    (car,) = read_content(root).cars
    return digest_statement(car, lines=money_of(car).by_sheet(), until=until)


def test_statement__reads_back_as_it_was_issued(root: Path) -> None:
    path, stated = _issue(root, MARCH)
    assert "tern/statements/2024-03-31.yaml" == path
    # 3.5 h at 50 and 0.25 h at 48 are 187.00; tax 37.40; less the deposit of 100.
    assert (Decimal("187.00"), Decimal("224.40")) == (stated.net, stated.total)
    assert Decimal("124.40") == stated.carried
    (again,) = _statements(root, APRIL).issued
    for figure in ("lines", "adjusted", "tax", "total", "carried", "payments", "from_", "to"):
        assert getattr(stated, figure) == getattr(again, figure), figure
    assert () == read_content(root).problems


def test_statement__file_is_plain_to_read(root: Path) -> None:
    path, _ = _issue(root, MARCH, date(2024, 4, 2))
    assert """\
# A statement as it was issued. It is never changed: a sheet that is altered later shows as
# an adjustment in the next one.
from: 2024-03-01
to: 2024-03-31
issued: 2024-04-02
sheets:
  2024-03-05-gearbox: {on: 2024-03-05, hours: 3.5, uncharged: 1, labour: 175.00, parts: 0, outwork: 0, \
extras: 0}
  "2024-03-06 “odd” name #2": {on: 2024-03-06, hours: 0.25, labour: 12.00, parts: 0, outwork: 0, extras: 0}
adjustments: 0
tax: 37.40
total: 224.40
payments:
  - {on: 2024-03-01, amount: 100.00, what: "deposit, \\"cash\\""}
""" == (root / path).read_text(encoding="utf-8")


def test_statement__of_days_that_are_stated_is_refused(root: Path) -> None:
    path, _ = _issue(root, MARCH)
    before = (root / path).read_bytes()
    with pytest.raises(WrongCall, match="days up to 2024-03-31 are stated already"):
        _issue(root, MARCH)
    assert before == (root / path).read_bytes()


def test_statement__is_never_written_over_a_file_that_is_there(root: Path) -> None:
    (root / "tern/statements/2024-03-31.yaml").parent.mkdir()
    put_file(root, "tern/statements/2024-03-31.yaml", b"from: 2024-02-01\nto: 2024-02-29\n"
             b"issued: 2024-03-01\nadjustments: 0\ntax: 0\ntotal: 0\n")  # fmt: skip
    with pytest.raises(WrongCall, match="is there already"):
        _issue(root, MARCH)


def test_statement__with_nothing_in_it_is_refused(root: Path) -> None:
    _issue(root, MARCH)
    with pytest.raises(WrongCall, match="nothing to state from 2024-04-01 to 2024-04-30"):
        _issue(root, APRIL)


def test_statement__before_its_period_is_over_is_refused(root: Path) -> None:
    with pytest.raises(WrongCall, match="cannot be issued on 2024-03-30"):
        _issue(root, MARCH, date(2024, 3, 30))


def test_statement__while_something_is_wrong_is_refused(root: Path) -> None:
    put_file(root, DAY, sheet_text("hours: {XX: 3.5}").encode())
    with pytest.raises(WrongCall, match="what is written holds 1 error"):
        _issue(root, MARCH)
    assert not (root / "tern/statements").exists()


def test_statement__while_lines_are_not_confirmed_is_refused(root: Path) -> None:
    put_file(root, DAY, sheet_text("draft: [{words: two hours, hours: {MT: 2}}]").encode())
    with pytest.raises(WrongCall, match="what is written holds 1 error"):
        _issue(root, MARCH)


def test_archive__has_a_page_and_a_table_for_every_statement(root: Path, tmp_path: Path) -> None:
    _issue(root, MARCH)
    put_file(root, DAY, sheet_text("hours: {MT: 4.5}").encode())
    for reader in (Reader.WORKSHOP, Reader.OWNER):
        target = tmp_path / reader.value
        assert () == publish(read_content(root), Order(root, target, reader))
        names = sorted(p.name for p in (target / "statements").iterdir())
        assert ["running.csv", "running.html", "statement-1.csv", "statement-1.html"] == names
        text = (target / "statements/running.html").read_text(encoding="utf-8")
        assert "£50.00" in text
        assert 'href="../statements/running.csv"' in text
        raw = (target / "statements/running.csv").read_bytes().decode()
        rows = list(csv.DictReader(io.StringIO(raw)))
        # One hour more at 50, with 10.00 of tax; what was rework is no longer told.
        assert [("adjustment", "50.00"), ("net", "50.00"), ("tax", "10.00"), ("total", "60.00"),
                ("brought forward", "124.40"), ("balance", "184.40")] == [
            (row["line"], row["amount"]) for row in rows
        ]  # fmt: skip
        assert raw.endswith("\r\n")
        assert "\n" not in raw.replace("\r\n", "")


def test_archive__of_the_public_has_no_money(root: Path, tmp_path: Path) -> None:
    car = (root / "tern/car.yaml").read_text(encoding="utf-8")
    put_file(root, "tern/car.yaml", (car + "public: yes\n").encode())
    _issue(root, MARCH)
    target = tmp_path / "public"
    publish(read_content(root), Order(root, target, Reader.PUBLIC))
    assert not (target / "statements").exists()
    assert not (target / "money.html").exists()
    for page in target.rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        assert "money.html" not in text
        assert "£" not in text

"""The statements that a workshop issued to its owners, one a quarter, each as it would have been."""

from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

from msgspec.structs import replace

from journal.digests.money.fold import money_of
from journal.digests.statement import digest_statement
from journal.outputs.statement import statement_yaml
from journal.reading.content import read_content
from journal.records.carfile import CarFile
from journal.records.place import Source
from journal.records.statement import Statement


def issue_statements(root: Path) -> None:
    """Write every statement of every car in a content folder that has none yet; the last weeks stay open."""
    for car in read_content(root).cars:
        folder = root / car.name / "statements"
        folder.mkdir(exist_ok=True)
        for name, text in _issued(car):
            (folder / f"{name}.yaml").write_text(text, encoding="utf-8")


def _issued(car: CarFile) -> Iterator[tuple[str, str]]:
    lines = money_of(car).by_sheet()
    for day in _quarters(car):
        stated = digest_statement(car, lines=lines, until=day).running
        if stated.empty:
            continue
        file = stated.issue(day + timedelta(3))
        yield str(day), statement_yaml(file)
        issued = Statement(str(day), Source(f"{car.name}/statements/{day}.yaml"), file)
        car = replace(car, statements=(*car.statements, issued))


def _quarters(car: CarFile) -> Iterator[date]:
    """The last days of the quarters from booking in to a while before the last sheet."""
    day = car.car.booked_in
    until = car.sheets[-1].date - timedelta(30) if car.sheets else day
    while True:
        month = (day.month - 1) // 3 * 3 + 4
        first = date(day.year + month // 13, (month - 1) % 12 + 1, 1)
        if first > until:
            return
        yield first - timedelta(1)
        day = first

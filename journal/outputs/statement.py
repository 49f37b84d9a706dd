"""Issuing a statement: the file of the next period, written once and never over another."""

import re
from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

from journal.digests.money.fold import money_of
from journal.digests.statement import Stated, digest_statement
from journal.outputs.bookin import quoted
from journal.outputs.findings import problems_of
from journal.outputs.refused import writing
from journal.outputs.sheets.disk import clear_left, locked, put_new
from journal.records.carfile import CarFile, Content
from journal.records.fields import Named
from journal.records.problem import Severity
from journal.records.statement import StatedLine, StatementFile
from journal.words.amounts import plain_number
from journal.words.text import counted
from journal.words.wrong import WrongCall

_PLAIN = re.compile(r"[a-z0-9]+(-[a-z0-9]+)+")


def issue_statement(
    root: Path, content: Content, car: CarFile, *, to: date, issued: date
) -> tuple[str, Stated]:
    """Write the statement from the day after the last one to a day; its path, and what it states.

    The path is relative to the content folder. Raises WrongCall when the period is stated already,
    is not over, or holds nothing; when something written is wrong, so that money might be missing;
    when the file is there, and when the disk refuses it.
    """
    _refuse_wrong(content, car)
    path = f"{car.name}/statements/{to}.yaml"
    with writing(path, lambda: "nothing is stated"), locked(root / car.name):
        clear_left((root / path).parent)
        stated = digest_statement(car, lines=money_of(car).by_sheet(), until=to).running
        _refuse_period(stated, to, issued)
        text = statement_yaml(stated.issue(issued))
        if not put_new(root / path, text.encode("utf-8")):
            raise WrongCall(f"{path} is there already; an issued statement is never changed")
    return path, stated


def _refuse_wrong(content: Content, car: CarFile) -> None:
    own = (f"{car.name}/", "workshop.yaml")
    wrong = [
        p for p in problems_of(content)
        if p.severity is Severity.ERROR and p.place.path.startswith(own)
    ]  # fmt: skip
    if wrong:
        raise WrongCall(
            f"what is written holds {counted(len(wrong), 'error')}, and money might be missing; "
            "journal check says what is wrong"
        )


def _refuse_period(stated: Stated, to: date, issued: date) -> None:
    if to < stated.from_:
        before = stated.from_ - timedelta(days=1)
        raise WrongCall(
            f"days up to {before} are stated already, or come before the booking in; "
            f"the next statement starts on {stated.from_}"
        )
    if issued < to:
        raise WrongCall(f"the period ends on {to}; it cannot be issued on {issued} before that")
    if stated.empty:
        raise WrongCall(f"there is nothing to state from {stated.from_} to {to}")


def statement_yaml(file: StatementFile) -> str:
    """An issued statement as it is written; reading it gives the same statement back."""
    lines = [
        "# A statement as it was issued. It is never changed: a sheet that is altered later shows as",
        "# an adjustment in the next one.",
        f"from: {file.from_}",
        f"to: {file.to}",
        f"issued: {file.issued}",
        *_sheets("sheets", file.sheets),
        *_sheets("adjusted", file.adjusted),
        f"adjustments: {file.adjustments:f}",
        f"tax: {file.tax:f}",
        f"total: {file.total:f}",
    ]
    if file.payments:
        lines.append("payments:")
    for paid in file.payments:
        what = f", what: {quoted(paid.what)}" if paid.what else ""
        lines.append(f"  - {{on: {paid.on}, amount: {paid.amount:f}{what}}}")
    return "\n".join(lines) + "\n"


def _sheets(key: str, entries: Named[StatedLine]) -> Iterator[str]:
    if len(entries):
        yield f"{key}:"
    for name, line in entries:
        word = name if _PLAIN.fullmatch(name) else quoted(name)
        day = f"on: {line.on}, " if line.on else ""
        hours = f"hours: {_hours(line.hours)}"
        told = f", uncharged: {_hours(line.uncharged)}" if line.uncharged else ""
        money = ", ".join(
            f"{figure}: {getattr(line, figure):f}"
            for figure in ("labour", "parts", "outwork", "extras")
        )
        yield f"  {word}: {{{day}{hours}{told}, {money}}}"


def _hours(hours: Decimal) -> str:
    return plain_number(hours, 9)

"""Do the issued statements follow one another day by day, and does each add up?"""

from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal

from journal.records.carfile import CarFile
from journal.records.place import Place
from journal.records.problem import Problem, problem_at
from journal.records.statement import Statement


def check_statements(car: CarFile) -> Iterator[Problem]:
    """Periods that end before they start, overlap or leave days out, and sums that do not agree."""
    sound = []
    for statement in car.statements:
        backwards = tuple(_backwards(statement))
        yield from backwards
        yield from _sums(statement)
        if not backwards:
            sound.append(statement)
    if sound:
        yield from _after_booking_in(sound[0], car)
    last = sound[0] if sound else None
    for statement in sound[1:]:
        assert last is not None
        yield from _follows(last, statement)
        last = max(last, statement, key=lambda s: s.file.to)


def _backwards(statement: Statement) -> Iterator[Problem]:
    file = statement.file
    if file.to < file.from_:
        yield problem_at(
            statement.source, ("to",), "statement-backwards",
            f"the period ends on {file.to}, before it starts on {file.from_}",
            help="correct the day that is wrong",
        )  # fmt: skip
    elif file.issued < file.to:
        yield problem_at(
            statement.source, ("issued",), "statement-backwards",
            f"the statement is issued on {file.issued}, and its period ends on {file.to}",
            help="issue it on its last day or later",
        )  # fmt: skip


def _after_booking_in(first: Statement, car: CarFile) -> Iterator[Problem]:
    if first.file.from_ > car.car.booked_in:
        yield _gap(
            first, car.car.booked_in, "the booking in is here", car.source.place("booked-in")
        )


def _follows(before: Statement, statement: Statement) -> Iterator[Problem]:
    ends, starts = before.file.to, statement.file.from_
    place = before.source.place("to")
    if starts <= ends:
        yield problem_at(
            statement.source, ("from",), "statement-overlap",
            f"the period starts on {starts}, and an earlier one lasts to {ends}",
            help=f"write from: {ends + timedelta(days=1)}, with the sheets of its own days alone",
            note="the earlier one ends here", note_place=place,
        )  # fmt: skip
    elif starts > ends + timedelta(days=1):
        yield _gap(statement, ends + timedelta(days=1), "the one before it ends here", place)


def _gap(statement: Statement, due: date, note: str, place: Place) -> Problem:
    starts = statement.file.from_
    return problem_at(
        statement.source, ("from",), "statement-gap",
        f"the period starts on {starts}, and days from {due} on are in no statement",
        help=f"write from: {due}, or add the statement that is missing",
        note=note, note_place=place,
    )  # fmt: skip


def _sums(statement: Statement) -> Iterator[Problem]:
    file = statement.file
    named = sum((line.net for _, line in file.adjusted), Decimal(0))
    if len(file.adjusted) and named != file.adjustments:
        yield problem_at(
            statement.source, ("adjustments",), "statement-sum",
            f"adjustments are {file.adjustments}, and those listed come to {named}", help=_LEAVE,
        )  # fmt: skip
    due = sum((line.net for _, line in file.sheets), Decimal(0)) + file.adjustments + file.tax
    if due != file.total:
        yield problem_at(
            statement.source, ("total",), "statement-sum",
            f"the total is {file.total}, and sheets, adjustments and tax come to {due}",
            help=_LEAVE,
        )  # fmt: skip


_LEAVE = "put back what was issued; a sheet that changed shows in the next statement by itself"

"""Do the days agree: of the file name, the sheet, the booking in, and what is told of them?"""

import re
from collections.abc import Iterator

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.records.sheet import Sheet

_DATED = re.compile(r"\d{4}-\d{2}-\d{2}(?!\d)")


def check_days(car: CarFile) -> Iterator[Problem]:
    """Sheets dated otherwise than their file, or before the car came in; lines told too early."""
    for sheet in car.sheets:
        yield from _file_name(sheet)
        yield from _before_booking_in(sheet, car)
        for key, work in sheet.front.work:
            if work.since and work.since > sheet.date:
                yield problem_at(
                    sheet.source, ("work", key, "since"), "since-after-sheet",
                    f"since of {key} is {work.since}, after the day of the sheet",
                    help="write the day from which it was true, or leave since: out",
                )  # fmt: skip


def _file_name(sheet: Sheet) -> Iterator[Problem]:
    match = _DATED.match(sheet.name)
    if match and match.group() != sheet.date.isoformat():
        yield problem_at(
            sheet.source, ("date",), "date-differs",
            f"the date is {sheet.date}, and the file name says {match.group()}",
            severity=Severity.WARNING, help=f"write {match.group()}, or rename the file",
        )  # fmt: skip


def _before_booking_in(sheet: Sheet, car: CarFile) -> Iterator[Problem]:
    if sheet.date < car.car.booked_in:
        yield problem_at(
            sheet.source, ("date",), "before-booking-in",
            f"the date is {sheet.date}, and the car was booked in on {car.car.booked_in}",
            severity=Severity.WARNING, note="the booking in is here",
            note_place=car.source.place("booked-in"),
        )  # fmt: skip

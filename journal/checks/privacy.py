"""Does anything that the ledgers need stand where the owner cannot see it?"""

from collections.abc import Iterator

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.words.vocabulary import Reader


def check_privacy(car: CarFile) -> Iterator[Problem]:
    """Work in a sheet for the workshop alone: the owner's ledger would not know of it."""
    for sheet in car.sheets:
        if sheet.front.for_ is Reader.WORKSHOP and len(sheet.front.work):
            yield problem_at(
                sheet.source, ("work",), "private-work",
                "the sheet is for the workshop alone and tells of work on the car",
                severity=Severity.WARNING,
                help="put the work in a sheet of its own, and the private words in a block ::: workshop",
            )  # fmt: skip

"""Does anything stand where its readers cannot see it, or is it to be shown and is not there?"""

from collections.abc import Iterator

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.words.vocabulary import Reader


def check_privacy(car: CarFile) -> Iterator[Problem]:
    """Work in a sheet for the workshop alone: the owner's ledger would not know of it. A plate that
    the public is to see and that nobody wrote."""
    if car.car.plate_shown and not car.car.plate:
        yield problem_at(
            car.source, ("plate-shown",), "no-plate",
            "plate-shown lets the public see the registration plate, and no plate is written",
            severity=Severity.WARNING, help="write plate: with it, or take plate-shown out",
        )  # fmt: skip
    for sheet in car.sheets:
        if sheet.front.for_ is not Reader.WORKSHOP:
            continue
        told = [key for key in ("work", "proving") if len(getattr(sheet.front, key))]
        if told:
            yield problem_at(
                sheet.source, (told[0],), "private-work",
                "the sheet is for the workshop alone and tells of work on the car",
                severity=Severity.WARNING,
                help="put the work in a sheet of its own, and the private words in a block ::: workshop",
            )  # fmt: skip

"""Do the cameras agree: was every photograph there on the day of the sheet that tells of it?"""

from collections.abc import Iterator

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.records.sheet import photo_path


def check_capture(car: CarFile) -> Iterator[Problem]:
    """Photographs that the camera's clock puts after the sheet that tells of them.

    An earlier day is no mistake: owners bring photographs, and yesterday's are written up today.
    """
    for sheet in car.sheets:
        for n, photo in enumerate(sheet.front.photos):
            facts = car.photo_facts.get(photo_path(sheet.date, photo.file))
            if facts and facts.taken_on and facts.taken_on > sheet.date:
                yield problem_at(
                    sheet.source, ("photos", n, "file"), "taken-later",
                    f'the camera says that "{photo.file}" was taken on {facts.taken_on}, '
                    f"after the day of the sheet, {sheet.date}",
                    severity=Severity.WARNING,
                    help="tell of it in a sheet of that day; a camera with a wrong clock should be set",
                )  # fmt: skip

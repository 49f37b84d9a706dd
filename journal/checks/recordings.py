"""Do the recordings lie where the sheets say?"""

from collections.abc import Iterator

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.words.names import nearest


def check_recordings(car: CarFile) -> Iterator[Problem]:
    """Recordings that a sheet names and that are not there, each told once a sheet.

    Films are large: a car without a folder for them has them kept elsewhere, and nothing is missing.
    """
    there = car.recording_files
    if there is None:
        return
    for sheet in car.sheets:
        named = [moment.file for moment in sheet.front.recording]
        for file in dict.fromkeys(named):
            if file in there:
                continue
            meant = nearest(file, there)
            way = "put the file into the folder recordings/"
            yield problem_at(
                sheet.source, ("recording", named.index(file)), "unknown-recording",
                f'there is no recording "{file}"', severity=Severity.WARNING,
                help=f"write {meant}, or {way}" if meant else way,
            )  # fmt: skip

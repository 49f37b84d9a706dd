"""What is wrong with one sheet as it is being written, before it is on the disk."""

from collections.abc import Collection

from msgspec import Struct
from msgspec.structs import replace

from journal.checks.hours import check_hours
from journal.checks.names import check_names
from journal.outputs.findings import problems_of_car
from journal.reading.followed import readers_followed
from journal.reading.sheet import sheet_of
from journal.reading.spans import loc_at
from journal.records.carfile import CarFile
from journal.records.place import Loc
from journal.records.problem import Problem, Severity, problem_order
from journal.records.sheet import Sheet, sheet_order


class Remark(Struct, frozen=True):
    """A problem of the sheet beside the entry that it is about: `("hours",)`, `("work",
    "brakes/pipes")`, `("photos", 0)`; empty where it is about the whole sheet or its text."""

    field: Loc
    problem: Problem


class Checked(Struct, frozen=True):
    """A sheet looked at within its car. `sheet` is absent when it could not be read at all.

    `remarks` are what is wrong in it; `elsewhere` what it makes wrong in other files.
    """

    sheet: Sheet | None
    remarks: tuple[Remark, ...]
    elsewhere: tuple[Problem, ...] = ()

    @property
    def problems(self) -> tuple[Problem, ...]:
        """All that is wrong, in order of place."""
        own = (remark.problem for remark in self.remarks)
        return tuple(sorted({*own, *self.elsewhere}, key=problem_order))


def check_sheet(
    car: CarFile, path: str, raw: bytes, *, known: Collection[Problem] | None = None
) -> Checked:
    """What is wrong with the bytes of a sheet if they lay at `path` in the content folder.

    The car file is as it was read; a sheet of that path in it gives way to this one, and photographs
    that are on their way must be among its `photo_files`. `known` are the problems that the car has
    without the change (`problems_of_car`); without them those of other files are not told.
    """
    sheet, problems = sheet_of(raw, path)
    found = {*problems}
    if sheet is not None:
        found |= {*problems_of_car(with_sheet(car, sheet, whole=not _errors(problems)))}
    own = sorted((p for p in found if p.place.path == path), key=problem_order)
    others = () if known is None else [p for p in found if p.place.path != path and p not in known]
    remarks = tuple(Remark(loc_at(raw, p.place.line), p) for p in own)
    return Checked(sheet, remarks, tuple(sorted(others, key=problem_order)))


def _errors(problems: Collection[Problem]) -> bool:
    return any(problem.severity is Severity.ERROR for problem in problems)


def with_sheet(car: CarFile, sheet: Sheet, *, whole: bool = True) -> CarFile:
    """The car file with a sheet in the place of the one of its path, or besides the others; `whole`
    when all that is written in it could be read."""
    others = [s for s in car.sheets if s.source.path != sheet.source.path]
    partly = car.partly - {sheet.name} if whole else car.partly | {sheet.name}
    in_order = readers_followed(sorted([*others, sheet], key=sheet_order))
    return replace(car, sheets=in_order, partly=partly, unread=car.unread - {sheet.name})


def check_at_once(car: CarFile, path: str, raw: bytes) -> tuple[Problem, ...]:
    """What cannot be read in the bytes of a sheet, and which names and hours in it are wrong.

    It is told while somebody waits with a finger on a key: ledgers are not asked. Otherwise as
    `check_sheet`, of which it is a part.
    """
    sheet, problems = sheet_of(raw, path)
    found = {*problems}
    if sheet is not None:
        there = with_sheet(car, sheet, whole=not _errors(problems))
        found |= {*check_names(there), *check_hours(there)}
    return tuple(sorted((p for p in found if p.place.path == path), key=problem_order))

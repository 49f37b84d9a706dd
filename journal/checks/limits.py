"""Can the limits of every reading be kept at all?"""

from collections.abc import Iterator

from journal.records.carfile import CarFile
from journal.records.problem import Problem, problem_at


def check_limits(car: CarFile) -> Iterator[Problem]:
    """Limits whose lower end lies above the upper one, and limits without either end."""
    for sheet in car.sheets:
        for name, measured in sheet.front.measured:
            limit = measured.limit
            if limit is None:
                continue
            loc = ("measured", name, "limit")
            if limit.least is None and limit.most is None:
                yield problem_at(
                    sheet.source, loc, "limit-empty", f"limit of {name} has neither end",
                    help="write [least, most], {least: 0.05} or {most: 0.15}",
                )  # fmt: skip
            elif limit.least is not None and limit.most is not None and limit.least > limit.most:
                yield problem_at(
                    sheet.source, loc, "limits-crossed",
                    f"limit of {name} starts at {limit.least} and ends at {limit.most}",
                    help=f"write [{limit.most}, {limit.least}]",
                )  # fmt: skip

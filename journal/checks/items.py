"""Is what a line says of an item complete and free of contradiction within itself?"""

from collections.abc import Iterator

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.records.sheet import Sheet
from journal.records.work import Work
from journal.words.vocabulary import Origin


def check_items(car: CarFile) -> Iterator[Problem]:
    """Lines that say two things at once, or leave out what they need."""
    for component in car.register.components:
        if component.line.conforms is not None and not component.line.condition:
            yield problem_at(
                car.register.source,
                ("components", component.subsystem, component.slug, "conforms"), "conforms-why",
                f"conforms of {component.key} is stated without a reason",
                help="add condition: with the reason",
            )  # fmt: skip
    for sheet in car.sheets:
        for key, work in sheet.front.work:
            yield from _line(sheet, key, work)


def _line(sheet: Sheet, key: str, work: Work) -> Iterator[Problem]:
    if work.original and work.came_off:
        yield problem_at(
            sheet.source, ("work", key, "came-off"), "two-places",
            f"{key} has both original and came-off",
            help="keep original: when the works fitted it, else came-off:",
        )  # fmt: skip
    if work.conforms is not None and not work.why:
        yield problem_at(
            sheet.source, ("work", key, "conforms"), "conforms-why",
            f"conforms of {key} is stated without a reason", help="add why: with the reason",
        )  # fmt: skip
    if work.retained is not None and work.now not in (None, Origin.FIRST_FIT):
        yield problem_at(
            sheet.source, ("work", key, "retained"), "retained-of-another",
            f"retained of {key} is told of an item that the works did not fit",
            severity=Severity.WARNING, help="leave retained: out; it counts for first-fit items only",
        )  # fmt: skip

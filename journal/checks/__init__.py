"""Checks: one question a function, over records alone. `CHECKS` is the list of them, in order."""

from collections.abc import Callable, Iterable

from journal.checks.alttext import check_alttext
from journal.checks.capture import check_capture
from journal.checks.days import check_days
from journal.checks.departures import check_departures
from journal.checks.drafts import check_drafts
from journal.checks.fastening import check_fastening
from journal.checks.hours import check_hours
from journal.checks.items import check_items
from journal.checks.limits import check_limits
from journal.checks.links import check_links
from journal.checks.names import check_names
from journal.checks.privacy import check_privacy
from journal.checks.proving import check_proving
from journal.checks.recordings import check_recordings
from journal.checks.statements import check_statements
from journal.records.carfile import CarFile
from journal.records.problem import Problem, problem_order

Check = Callable[[CarFile], Iterable[Problem]]

CHECKS: tuple[Check, ...] = (
    check_names,
    check_hours,
    check_days,
    check_items,
    check_departures,
    check_limits,
    check_links,
    check_privacy,
    check_alttext,
    check_statements,
    check_fastening,
    check_proving,
    check_capture,
    check_recordings,
    check_drafts,
)


def check_car(car: CarFile) -> tuple[Problem, ...]:
    """All that the checks find in one car file, in order of place."""
    return tuple(sorted((p for check in CHECKS for p in check(car)), key=problem_order))

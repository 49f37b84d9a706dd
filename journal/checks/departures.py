"""Does every departure from the works specification say why, who decided, and the way back?"""

from collections.abc import Iterator

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.records.work import Work
from journal.words.text import listed
from journal.words.vocabulary import Origin

_DEPARTS = frozenset({Origin.SERVICE, Origin.UPGRADE})


def check_departures(car: CarFile) -> Iterator[Problem]:
    """Departures that leave out what a later keeper will ask."""
    for sheet in car.sheets:
        for key, work in sheet.front.work:
            missing = _missing(work) if work.now in _DEPARTS else []
            if missing:
                yield problem_at(
                    sheet.source, ("work", key, "now"), "departure-incomplete",
                    f"{key} departs from the works specification without {listed(missing)}",
                    severity=Severity.WARNING,
                    help=f"add {listed([m + ':' for m in missing])}",
                )  # fmt: skip


def _missing(work: Work) -> list[str]:
    missing = [] if work.why else ["why"]
    if work.decided is None:
        missing.append("decided")
    if work.reversible is None:
        missing.append("reversible")
    elif work.reversible and not work.undo:
        missing.append("undo")
    return missing

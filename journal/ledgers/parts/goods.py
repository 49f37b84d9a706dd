"""Goods in and goods back: the quantities of a part, reconciled over the sheets that tell of it."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import Any

from msgspec.structs import replace

from journal.ledgers.parts.part import NONE, Arrival, GoodsBack, Part
from journal.ledgers.parts.told import Told
from journal.records.problem import Problem, Severity, problem_at


def moved(part: Part, lines: Sequence[Told], whole: bool) -> tuple[Part, tuple[Problem, ...]]:
    """Let the part live through its lines: what came, how it was found, what went back.

    `whole` says that every sheet could be read: only then can more have gone back than came.
    """
    problems: list[Problem] = []
    for told in lines:
        part = _arrived(part, told)
        part = _inspected(part, told)
        part, problem = _sent_back(part, told, whole)
        problems += [problem] if problem else []
        if part.qty is not None and part.here > part.qty and told.line.got is not None:
            problems.append(_more_than_ordered(part, told))
    return part, tuple(problems)


def _arrived(part: Part, told: Told) -> Part:
    """A count that is not told is all that is still due, or all that went back and is replaced.

    When nothing is due, the line tells the day of the last arrival anew.
    """
    line = told.line
    if line.received is None and line.got is None:
        return part
    day = line.received or told.sheet.date
    blank = [n for n, a in enumerate(part.arrivals) if a.day is None]
    count = line.got if line.got is not None else _expected(part)
    if blank and count:
        return _at(part, blank[-1], day=day, sheet=told.sheet.name, count=count)
    if count:
        return replace(part, arrivals=(*part.arrivals, Arrival(day, told.sheet.name, count)))
    restated = line.got is None and part.arrivals
    return _at(part, -1, day=day, sheet=told.sheet.name) if restated else part


def _expected(part: Part) -> Decimal:
    still = part.wanted - part.got
    return still if still > 0 else max(part.wanted - part.here, NONE) if part.qty else NONE


def _at(part: Part, place: int, **new: Any) -> Part:
    arrivals = list(part.arrivals)
    arrivals[place] = replace(arrivals[place], **new)
    return replace(part, arrivals=tuple(arrivals))


def _inspected(part: Part, told: Told) -> Part:
    """An outcome is of what was not looked at yet; without any such, of the last arrival again."""
    line = told.line
    outcomes, why = (line.outcome,) if line.outcome else (), (line.why,) if line.why else ()
    if not outcomes and not why:
        return part
    if not part.arrivals:
        if not outcomes:
            return replace(part, notes=(*part.notes, *why))
        return replace(part, arrivals=(Arrival(None, told.sheet.name, NONE, outcomes, why),))
    new = [n for n, a in enumerate(part.arrivals) if not a.outcomes] if outcomes else []
    for place in new or [len(part.arrivals) - 1]:
        a = part.arrivals[place]
        part = _at(part, place, outcomes=(*a.outcomes, *outcomes), why=(*a.why, *why))
    return part


def _sent_back(part: Part, told: Told, whole: bool) -> tuple[Part, Problem | None]:
    line = told.line
    if line.returned is None and line.sent_back is None:
        return part, None
    day = line.returned or told.sheet.date
    count = line.sent_back if line.sent_back is not None else part.here
    if count > part.here or (count == 0 and not part.arrivals):
        return part, _more_than_here(part, told, count) if whole else None
    if count == 0:
        return (_last_return_on(part, day) if part.returns else part), None
    back = GoodsBack(day, told.sheet.name, count)
    return replace(part, returns=(*part.returns, back)), None


def _last_return_on(part: Part, day: date) -> Part:
    return replace(part, returns=(*part.returns[:-1], replace(part.returns[-1], day=day)))


def _more_than_here(part: Part, told: Told, count: Decimal) -> Problem:
    key = "sent-back" if told.line.sent_back is not None else "returned"
    how_many = f'{count} of "{part.name}"' if count else f'the part "{part.name}"'
    here = f"{part.here} are here" if part.here else "none has come in"
    return problem_at(
        told.sheet.source, ("parts", part.name, key), "more-returned-than-received",
        f"{how_many} cannot go back when {here}",
        help="correct the count, or write when the rest came in with received: and got:",
    )  # fmt: skip


def _more_than_ordered(part: Part, told: Told) -> Problem:
    return problem_at(
        told.sheet.source, ("parts", part.name, "got"), "more-received-than-ordered",
        f'{part.here} of "{part.name}" are here when {part.qty} were ordered',
        severity=Severity.WARNING,
        help="correct the count or the qty, or send back what is too many",
    )  # fmt: skip

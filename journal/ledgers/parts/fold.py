"""Parts: from the order through goods in to the car, by the name that carries a part through sheets.

Hears `parts` in sheets, and `part:` in work that fits one. Words, quantities and prices that a
later sheet tells anew replace the earlier ones; what came, what went back and what was credited
add up. Ignores hours, and tax.
"""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from msgspec.structs import replace

from journal.ledgers.parts.goods import moved
from journal.ledgers.parts.money import charged
from journal.ledgers.parts.part import NONE, Part, Parts
from journal.ledgers.parts.told import Fitting, Told, fitting, gather
from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.records.sheet import Sheet
from journal.records.workshop import Workshop
from journal.words.calendar import working_days


def fold_parts(car: CarFile) -> Parts:
    """Every part with its quantities reconciled, its cost and its lead time."""
    parts: list[Part] = []
    problems: list[Problem] = []
    for name, lines in gather(car).items():
        fitted = fitting(name, lines)
        part = _words(name, lines, fitted)
        part, wrong_counts = moved(part, lines, whole=not car.unread)
        part, wrong_money = charged(part, lines, car.workshop.currency, whole=not car.unread)
        parts.append(_timed(part, car.workshop))
        problems += (*wrong_counts, *wrong_money, *_out_of_order(parts[-1], lines, fitted))
    return Parts(tuple(parts), tuple(problems))


def _words(name: str, lines: Sequence[Told], fitted: Fitting | None) -> Part:
    """What stands at the end of all that was told and not counted."""
    part = Part(name, (), lines[0].sheet.front.subsystem[0])
    for told in lines:
        line = told.line
        said: dict[str, Any] = {
            "what": line.what, "number": line.number, "supplier": line.from_, "qty": line.qty,
            "price": line.price, "carriage": line.carriage, "ordered": line.ordered,
            "promised": line.promised,
        }  # fmt: skip
        part = replace(
            part, **{field: value for field, value in said.items() if value is not None},
            of=_joined(part.of, (*line.of, *told.fitted_to)),
            notes=part.notes + ((line.note,) if line.note else ()),
            sheets=_joined(part.sheets, (told.sheet.name,)),
        )  # fmt: skip
    return replace(part, fitted=fitted.day if fitted else None)


def _joined(old: Sequence[str], new: Sequence[str]) -> tuple[str, ...]:
    return (*old, *dict.fromkeys(word for word in new if word not in old))


def _timed(part: Part, workshop: Workshop) -> Part:
    complete = _completed(part)
    if complete is None:
        return part
    lead = working_days(workshop, part.ordered, complete) if part.ordered else None
    late = working_days(workshop, part.promised, complete) if part.promised else None
    return replace(part, complete=complete, lead=lead, late=late)


def _completed(part: Part) -> date | None:
    """The day on which as many had come as are wanted, replacements not counted twice."""
    reached = NONE
    for day, count in sorted((a.day, a.count) for a in part.arrivals if a.day is not None):
        reached += count
        if reached >= part.wanted:
            return day
    return None


def _out_of_order(part: Part, lines: Sequence[Told], fitted: Fitting | None) -> Iterator[Problem]:
    """Days that cannot be: here before it was ordered, gone or fitted before it was here."""
    sheets = {told.sheet.name: told.sheet for told in lines}
    first = min((a.day for a in part.arrivals if a.day), default=None)
    for arrival in part.arrivals:
        if part.ordered and arrival.day and arrival.day < part.ordered:
            yield _early(
                part, sheets[arrival.sheet], "received", arrival.day, "ordered", part.ordered
            )
    for back in part.returns:
        if first and back.day < first:
            yield _early(part, sheets[back.sheet], "returned", back.day, "received", first)
    if first and fitted and fitted.day < first:
        yield _early(part, fitted.told.sheet, "fitted", fitted.day, "received", first, fitted.loc)
    promise = [told for told in lines if told.line.promised]
    if promise and part.ordered and part.promised and part.promised < part.ordered:
        yield _early(
            part, promise[-1].sheet, "promised", part.promised, "ordered", part.ordered
        )  # fmt: skip


def _early(
    part: Part, sheet: Sheet, then: str, late: date, first: str, early: date,
    loc: tuple[str, ...] = (),
) -> Problem:  # fmt: skip
    word = f"{then} for" if then == "promised" else f"{then} on"
    return problem_at(
        sheet.source, loc or ("parts", part.name, then), "part-out-of-order",
        f'the part "{part.name}" cannot be {word} {late} when it was {first} on {early}',
        severity=Severity.WARNING,
        help="correct the date that is wrong",
    )  # fmt: skip

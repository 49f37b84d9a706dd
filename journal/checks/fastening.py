"""Are fasteners locked, and ageing things fitted, as the trade does it? Common practice, no source."""

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.records.sheet import Sheet
from journal.records.work import Work
from journal.words.amounts import plain_number
from journal.words.dates import parse_date, years_between
from journal.words.vocabulary import Act, LockedBy

# Locking devices that serve once: what was bent is not bent again.
_ONCE = {LockedBy.SPLIT_PIN: "split pin", LockedBy.TAB_WASHER: "tab washer"}


def check_fastening(car: CarFile) -> Iterator[Problem]:
    """Compound on threads not told to be degreased, pins and tabs used again, things fitted too old."""
    made: dict[str, str] = {}
    for sheet in car.sheets:
        for key, work in sheet.front.work:
            yield from _locking(sheet, key, work)
            if work.now and not work.dated:
                made.pop(key, None)
            if work.dated:
                made[key] = work.dated
                yield from _dated(sheet, key, work.dated)
            if Act.FITTED in work.did and key in made:
                yield from _too_old(car, sheet, key, made[key])


def _locking(sheet: Sheet, key: str, work: Work) -> Iterator[Problem]:
    for place, locking in enumerate(work.locking):
        loc = ("work", key, "locking", place)
        if locking.by is LockedBy.COMPOUND and not locking.degreased:
            untold = locking.degreased is None
            said = "nothing says that its threads were" if untold else "its threads were not"
            yield problem_at(
                sheet.source, loc, "threads-not-degreased",
                f"{key} is locked by a compound, and {said} degreased",
                severity=Severity.WARNING,
                help="degrease them as the compound's maker says, and write {by: compound, degreased: yes}",
            )  # fmt: skip
        elif locking.by in _ONCE and not locking.new:
            what = f"the {_ONCE[locking.by]} of {key}"
            says = (
                f"nothing says that {what} is new"
                if locking.new is None
                else f"{what} is used again"
            )
            yield problem_at(
                sheet.source, loc, "locking-used-again", says,
                severity=Severity.WARNING,
                help=f"fit a new one and write {{by: {locking.by.value}, new: yes}}",
            )  # fmt: skip


def _dated(sheet: Sheet, key: str, text: str) -> Iterator[Problem]:
    if _made_on(text) is None:
        yield problem_at(
            sheet.source, ("work", key, "dated"), "bad-date",
            f'dated of {key} must be a year or a date, found "{text}"',
            help="write 2019, or 2019-04-01",
        )  # fmt: skip


def _made_on(text: str) -> date | int | None:
    """A day, or a year alone; None when it is neither."""
    if len(text) == 4 and text.isascii() and text.isdigit() and int(text):
        return int(text)
    try:
        return parse_date(text)
    except ValueError:
        return None


def _too_old(car: CarFile, sheet: Sheet, key: str, text: str) -> Iterator[Problem]:
    component, made = car.component(key), _made_on(text)
    if component is None or component.line.life is None or made is None:
        return
    fitted = min(
        (w.since or sheet.date for k, w in sheet.front.work if k == key), default=sheet.date
    )
    age = _age(made, min(fitted, sheet.date))
    if age is not None and age > Fraction(component.line.life):
        yield problem_at(
            sheet.source, ("work", key), "too-old-to-fit",
            f"{key} is dated {text} and {plain_number(age, 1)} years old on the day it is fitted; "
            f"its life is {component.line.life} years",
            severity=Severity.WARNING, help="fit a newer one, or correct dated:",
            note="the life is set here",
            note_place=car.register.source.place("components", component.subsystem, component.slug, "life"),
        )  # fmt: skip


def _age(made: date | int, fitted: date) -> Fraction | None:
    """Years from making to fitting; of a year alone, the difference of the years, as people count.

    None when it was fitted before it was made: then one of the days is wrong, and no age is known.
    """
    if isinstance(made, int):
        return Fraction(fitted.year - made)
    return years_between(made, fitted) if made <= fitted else None

"""Completeness of the record: who did what, when, and who checked it, wherever safety hangs on it.

The model is the maintenance entry of 14 CFR 43.9(a): a description of the work, the day on which it
was done, and the names of those who did it and who answer for it. Hears `work` in sheets, hours, and
the register; ignores all else. What is left out is listed and no mistake: the record tells its gaps.
"""

from bisect import bisect_right
from collections.abc import Iterator
from datetime import date
from enum import StrEnum

from msgspec import Struct

from journal.records.carfile import CarFile
from journal.records.sheet import Sheet
from journal.records.work import Work
from journal.words.groups import grouped
from journal.words.proving import CHANGES, LOOKS, TAKES_APART
from journal.words.vocabulary import Act


class Gap(StrEnum):
    """What an entry leaves out."""

    WHAT = "what was done"
    BY = "by whom"
    CHECKED = "checked by whom"
    SAME_EYES = "checked by another than who did it"
    MADE = "the day it was made"


class SafetyAct(Struct, frozen=True):
    """Work that changed something on a safety-critical component.

    `day` is when it was done. `by` are the hand named, or the hands with hours on that subsystem in
    the sheet without the checker. `checked` is the second pair of eyes; where the line names none,
    that of a later look at the component, and then `checked_in` is another sheet.
    """

    component: str
    subsystem: str
    day: date
    sheet: str
    acts: tuple[str, ...]
    words: str
    by: tuple[str, ...]
    checked: str | None
    checked_in: str | None
    checked_on: date | None
    gaps: tuple[Gap, ...]


class Completeness(Struct, frozen=True):
    """Safety-critical acts in the order of the sheets; empty where no hand may be named."""

    acts: tuple[SafetyAct, ...] = ()

    @property
    def whole(self) -> tuple[SafetyAct, ...]:
        """Acts of which all is told."""
        return tuple(act for act in self.acts if not act.gaps)

    @property
    def wanting(self) -> tuple[SafetyAct, ...]:
        """Acts that leave something out."""
        return tuple(act for act in self.acts if act.gaps)


class _Look(Struct, frozen=True):
    """A later look at a component with a second pair of eyes."""

    place: int
    component: str
    sheet: Sheet
    eyes: tuple[str, ...]


def fold_completeness(car: CarFile) -> Completeness:
    """Every safety-critical act with what the record says of it."""
    if not len(car.workshop.hands):
        return Completeness()
    looks = grouped(_looks(car), lambda look: look.component)
    acts = (
        _act(car, sheet, place, key, work, looks.get(key, ()))
        for place, sheet in enumerate(car.sheets)
        for key, work in sheet.front.work
        if car.critical(key) and (CHANGES & {*work.did} or work.now or work.stand_in)
    )
    return Completeness(tuple(acts))


def _looks(car: CarFile) -> Iterator[_Look]:
    for place, sheet in enumerate(car.sheets):
        for key, work in sheet.front.work:
            if work.checked and LOOKS & {*work.did}:
                eyes = (work.checked, *_by(car, sheet, key, work))
                yield _Look(place, key, sheet, eyes)


def _by(car: CarFile, sheet: Sheet, key: str, work: Work) -> tuple[str, ...]:
    if work.by:
        return (work.by,)
    hands = car.hands_on(sheet, key.split("/")[0])
    return tuple(hand for hand in hands if hand != work.checked) or hands


def _act(
    car: CarFile, sheet: Sheet, place: int, key: str, work: Work, looks: tuple[_Look, ...]
) -> SafetyAct:
    """An act; `looks` are those at its component, in order of sheets."""
    by = _by(car, sheet, key, work)
    checked, seen_in = work.checked, sheet
    if not checked or by == (checked,):
        later = looks[bisect_right(looks, place, key=lambda look: look.place) :]
        seen = next(((e, x.sheet) for x in later for e in x.eyes if by != (e,)), None)
        checked, seen_in = seen or (checked, sheet)
    day = min(work.since or sheet.date, sheet.date)
    acts = tuple(act.value for act in work.did) or (("stand-in",) if work.stand_in else ())
    return SafetyAct(
        key, key.split("/")[0], day, sheet.name, acts, work.found or work.why or "", by, checked,
        seen_in.name if checked else None, seen_in.date if checked else None,
        tuple(_gaps(car, key, work, by, checked)),
    )  # fmt: skip


def _gaps(
    car: CarFile, key: str, work: Work, by: tuple[str, ...], checked: str | None
) -> Iterator[Gap]:
    if not work.did and not work.stand_in:
        yield Gap.WHAT
    if not by:
        yield Gap.BY
    if work.now or work.stand_in or CHANGES & {*work.did} - TAKES_APART:
        if not checked:
            yield Gap.CHECKED
        elif by == (checked,):
            yield Gap.SAME_EYES
    component = car.component(key)
    ages = component is not None and component.line.life is not None
    if ages and work.now and Act.FITTED in work.did and not work.dated:
        yield Gap.MADE

"""Are the hours of every sheet told so that they can be booked?"""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from journal.records.carfile import CarFile
from journal.records.problem import Problem, problem_at
from journal.records.sheet import Sheet
from journal.words.text import listed


def check_hours(car: CarFile) -> Iterator[Problem]:
    """Hours without a hand where several work, and days of more than 24 hours."""
    hands = car.workshop.hands.names()
    days: dict[tuple[date, str], Decimal] = {}
    for sheet in car.sheets:
        if len(hands) > 1:
            yield from _whose(sheet, hands)
        yield from _too_many(sheet, hands, days)


def _whose(sheet: Sheet, hands: tuple[str, ...]) -> Iterator[Problem]:
    for _, spent in sheet.front.hours:
        bare = spent.get("")
        if bare:
            yield problem_at(
                sheet.source, ("hours",), "whose-hours",
                f"hours are told without a hand, and {listed(hands)} work here",
                help=f"write hours: {{{hands[0]}: {bare[0].hours}}}, with the initials of whoever did them",
            )  # fmt: skip


def _too_many(
    sheet: Sheet, hands: tuple[str, ...], days: dict[tuple[date, str], Decimal]
) -> Iterator[Problem]:
    """Told at the sheet that makes the day too long; `days` are the hours of the sheets so far."""
    told: dict[str, Decimal] = {}
    for _, spent in sheet.front.hours:
        for hand, lines in spent:
            who = hand or (hands[0] if len(hands) == 1 else hand)
            hours = sum((line.hours for line in lines), Decimal(0))
            told[who] = told.get(who, Decimal(0)) + hours
    for hand, more in told.items():
        hours = days[sheet.date, hand] = days.get((sheet.date, hand), Decimal(0)) + more
        if more and hours > 24:
            yield problem_at(
                sheet.source, ("hours", hand), "day-too-long",
                f"hours of {hand or 'one hand'} come to {hours} on one day",
                help="correct the hours, or put them on the days on which they were worked",
            )  # fmt: skip

"""Lines on the hours that were worked, each with the hand that worked them."""

from collections.abc import Iterator

from journal.hearing.heard import Kind, Line
from journal.hearing.hours import Hours, hours_in
from journal.hearing.listening import Listening
from journal.hearing.numbers import numbers_in
from journal.hearing.people import hands_of
from journal.hearing.whose import SPEAKER, People
from journal.reading.yamltext import Plain

_I = frozenset("i i've ive i'd me my mine we our".split())
_REACH = 8


def hours_lines(here: Listening) -> Iterator[Line]:
    """A line for each length of time that was worked today."""
    people = People(hands_of(here.car.workshop), here.said_by)
    for told in hours_in(here.tokens, numbers_in(here.tokens), people):
        if told.today:
            yield _line(here, told)


def _line(here: Listening, told: Hours) -> Line:
    low, high = here.flat.clause(told.first, told.last, 8)
    hand = _hand(here, told)
    ask = told.ask if not told.sure else "" if hand else "Whose hours are these?"
    hours: Plain = {hand: told.hours} if hand else told.hours
    return here.line(Kind.HOURS, low, high, {"hours": hours} if told.hours else {}, ask)


def _hand(here: Listening, told: Hours) -> str:
    """The hand whose hours were told; else the one named beside them, before or after; `I` is the one who
    speaks. None for somebody who is no hand of the workshop."""
    hands = hands_of(here.car.workshop)
    speaker = hands[here.speaker.casefold()] if here.speaker else ""
    if told.who:
        return told.who if told.who in hands.values() else speaker if told.who == SPEAKER else ""
    before = range(told.first - 1, max(-1, told.first - _REACH), -1)
    for n in before:
        if found := _who(here, n):
            return found
        if here.tokens[n].breaks:
            break
    return speaker


def _who(here: Listening, n: int) -> str:
    word = here.tokens[n].text.removesuffix("'s")
    hands = hands_of(here.car.workshop)
    if word in hands:
        return hands[word]
    return here.said_by(n) if word in _I else ""

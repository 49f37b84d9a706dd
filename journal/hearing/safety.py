"""What is asked of work that can hurt someone: the checks that the talk did not tell.

The questions are common practice, no source; the maker's manual and a qualified person go before them.
"""

import re
from collections.abc import Iterator

from journal.hearing.heard import Kind, Line
from journal.hearing.listening import Listening
from journal.hearing.moods import Mood
from journal.words.vocabulary import Act

_REACH = 60
_ACTS = frozenset({Act.FITTED, Act.ADJUSTED, Act.REBUILT})
_LOCKED = re.compile(
    r"torqu|split pin|lock(?:ed|ing|nut| nut| tab| washer| wire)|tab washer|wire ?locked|peened|thread ?lock"
    r"|nyloc|tightened"
)
_CHECKED = re.compile(
    r"check(?:ed)? (?:it|them|by|over)|looked (?:it|them) over|second pair|double check|signed|witness"
)
_COMPOUND = re.compile(
    r"(?<!\S)(?:thread ?lock(?:er|ing)?|locking compound|locking fluid|stud ?lock)\w*"
)
_DEGREASED = re.compile(r"degreas|solvent|clean(?:ed)? (?:the )?thread|cleaner on the thread")


def safety_lines(here: Listening) -> Iterator[Line]:
    """A question for each safety-critical component that was fitted or set, and for each locking compound."""
    asked: set[str] = set()
    for told in here.acts:
        if (
            told.mood is Mood.NOT
            or told.act not in _ACTS
            or told.key in asked
            or not here.car.critical(told.key)
        ):
            continue
        asked.add(told.key)
        ask = _question(here, told.key, _around(here, told.first, told.last))
        if ask:
            yield here.line(Kind.CHECK, told.first, told.last, {}, ask, (told.key,))
    for first, last, _ in here.flat.found(_COMPOUND):
        if not _DEGREASED.search(_around(here, first, last)):
            ask = "Were the threads degreased before the locking compound, as its maker says?"
            yield here.line(Kind.CHECK, first, last, {}, ask, here.near(first, last)[:1])


def _around(here: Listening, first: int, last: int) -> str:
    words = here.tokens[max(0, first - _REACH) : last + _REACH]
    return " ".join(token.text for token in words)


def _question(here: Listening, key: str, around: str) -> str:
    component = here.car.component(key)
    label = component.label if component is not None else key
    locked, checked = bool(_LOCKED.search(around)), bool(_CHECKED.search(around))
    if locked and checked:
        return ""
    if locked:
        return f"{label}: who checked it after it was tightened and locked?"
    if checked:
        return f"{label}: how were its fasteners tightened and locked?"
    return f"{label}: how were its fasteners tightened and locked, and who checked it?"

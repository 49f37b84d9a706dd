"""Lines on parts: ordered, arrived, sent back, and whether they fitted."""

from collections.abc import Iterator
from datetime import date, timedelta
from enum import StrEnum

from journal.hearing import cues
from journal.hearing.heard import Kind, Line
from journal.hearing.listening import Listening
from journal.hearing.people import Named
from journal.reading.yamltext import Plain
from journal.words.names import slug_of

# So far around the word that tells an event its part, its number and its supplier are looked for.
_REACH = 26
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_END = frozenset(
    "from number for but and so they he she it which that off at as because cos to i we is are "
    "was if when with by on in".split()
)
_LEAD = frozenset(
    "the a an some two three four six eight new one pair set of more another just our my them it "
    "both ones".split()
)


class Event(StrEnum):
    """What happened to a part."""

    ORDERED = "ordered"
    ARRIVED = "arrived"
    SENT_BACK = "sent back"


_EVENTS = (
    (Event.ORDERED, cues.ORDERED),
    (Event.ARRIVED, cues.ARRIVED),
    (Event.SENT_BACK, cues.SENT_BACK),
)


def goods_lines(here: Listening) -> Iterator[Line]:
    """A line for each part that was ordered, came or goes back."""
    taken: set[str] = set()
    for event, pattern in _EVENTS:
        for first, last, _ in here.flat.found(pattern):
            yield _line(here, event, first, last, taken)


def _line(here: Listening, event: Event, first: int, last: int, taken: set[str]) -> Line:
    low, high = here.clauses.sentence_of(first)
    low, high = max(low, first - _REACH), min(high, last + _REACH)
    what = _what(here, event, first, last)
    keys = here.near(first, last)[:1]
    supplier = _supplier(here, low, high, first)
    part: dict[str, Plain] = {"what": what} if what else {}
    number = next((n.text for n in here.part_numbers if low <= n.first < high), "")
    if number:
        part["number"] = number
    if supplier is not None:
        part["from"] = supplier.key
    if keys:
        part["of"] = keys[0]
    part |= _dated(here, event, low, high)
    part |= _fitted(here, event, low, high)
    ask = _ask(event, what, supplier, part)
    name = _name(what or (keys[0].split("/")[1] if keys else "part"), taken)
    return here.line(
        Kind.PART, *_words(here, first, last, low, high), {"parts": {name: part}}, ask, keys
    )


def _words(here: Listening, first: int, last: int, low: int, high: int) -> tuple[int, int]:
    start, end = here.flat.clause(first, last, 14)
    return max(start, low), min(end, high)


def _what(here: Listening, event: Event, first: int, last: int) -> str:
    """What the part is called: the words behind `ordered`, else the thing named last before it."""
    words: list[str] = []
    if event is Event.ORDERED:
        n = last
        while n < min(len(here.tokens), last + 8):
            token = here.tokens[n]
            if token.breaks or token.text in _END:
                break
            words.append(token.text)
            n += 1
    while words and words[0] in _LEAD:
        words.pop(0)
    if words:
        return " ".join(words[:5])
    named = [m for m in here.mentions if first - _REACH <= m.first < last + 4]
    near = sorted(named, key=lambda m: abs(m.first - first))[:1]
    return " ".join(t.text for t in here.tokens[near[0].first : near[0].last]) if near else ""


def _supplier(here: Listening, low: int, high: int, at: int) -> Named | None:
    near = [named for named in here.suppliers if low <= named.first < high]
    return min(near, key=lambda named: abs(named.first - at), default=None)


def _dated(here: Listening, event: Event, low: int, high: int) -> dict[str, Plain]:
    """The day of the event where it is said; a promise is a day to come."""
    words = [token.text for token in here.tokens[low:high]]
    if event is Event.ORDERED:
        promised = next((_coming(here.day, word) for word in words if word in _DAYS), None)
        ordered: dict[str, Plain] = {"ordered": here.day.isoformat()}
        return ordered | ({"promised": promised.isoformat()} if promised else {})
    if event is Event.ARRIVED:
        if {"today", "morning", "afternoon"} & set(words):
            return {"received": here.day.isoformat()}
        past = next((_gone(here.day, word) for word in words if word in _DAYS), None)
        return {"received": past.isoformat()} if past else {}
    return {}


def _coming(day: date, name: str) -> date:
    return day + timedelta(days=(_DAYS.index(name) - day.weekday() - 1) % 7 + 1)


def _gone(day: date, name: str) -> date:
    return day - timedelta(days=(day.weekday() - _DAYS.index(name)) % 7)


def _fitted(here: Listening, event: Event, low: int, high: int) -> dict[str, Plain]:
    """Whether it fits, where that is said of what has arrived."""
    if event is Event.ORDERED:
        return {}
    text = here.flat
    wrong = [(f, t) for f, t, _ in text.found(cues.MISFIT) if low <= f < high + 10]
    good = [(f, t) for f, t, _ in text.found(cues.GOOD_FIT) if low <= f < high + 10]
    if wrong:
        start, end = text.clause(*wrong[0])
        why = " ".join(token.text for token in here.tokens[start:end])
        return (
            {"outcome": "rejected" if event is Event.SENT_BACK else "reworked", "why": why}
            if (event is Event.SENT_BACK or "file" in why or "open" in why)
            else {"why": why}
        )
    return {"outcome": "accepted"} if good and event is Event.ARRIVED else {}


def _ask(event: Event, what: str, supplier: Named | None, part: dict[str, Plain]) -> str:
    """What is not said and has to be, or was guessed."""
    if not what:
        return "Which part is this?"
    if supplier is None:
        return "Who is it from?"
    if not supplier.sure:
        return f"Is it from {supplier.key}?"
    if event is Event.ARRIVED and "received" not in part:
        return "On what day did it come?"
    if event is Event.SENT_BACK:
        return "Has it gone back, and on what day?"
    return "Is this the promised day?" if "promised" in part else ""


def _name(what: str, taken: set[str]) -> str:
    base = slug_of(what) or "part"
    name, count = base, 2
    while name in taken:
        name, count = f"{base}-{count}", count + 1
    taken.add(name)
    return name

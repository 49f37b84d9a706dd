"""Who a talk speaks of: the hands of the workshop, its suppliers, the owner of the car."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from rapidfuzz import fuzz

from journal.hearing.common import COMMON
from journal.hearing.sounds import sound_of
from journal.hearing.tokens import Token
from journal.records.car import Car
from journal.records.workshop import Workshop

_ALIKE = 78
_TITLES = frozenset({"mr", "mrs", "miss", "ms", "mister", "missus", "dr", "doctor"})


@dataclass(frozen=True)
class Named:
    """A supplier in the talk: its short name, and whether its name was heard as it is written."""

    first: int
    last: int
    key: str
    sure: bool


def hands_of(workshop: Workshop) -> Mapping[str, str]:
    """Initials of the hands by first name, and by the initials themselves."""
    found: dict[str, str] = {}
    for initials, hand in workshop.hands:
        found[initials.casefold()] = initials
        for word in _words(hand.name)[:1]:
            found.setdefault(word, initials)
    return found


def others_of(workshop: Workshop, car: Car) -> frozenset[str]:
    """Names of people that are not of the workshop: suppliers and the owner."""
    found = {word for _, supplier in workshop.suppliers for word in _words(supplier.name)[:1]}
    owner = _words(car.owner.name) if car.owner is not None else []
    return frozenset(found | {word for word in owner if word not in _TITLES})


def suppliers_in(tokens: Sequence[Token], workshop: Workshop) -> tuple[Named, ...]:
    """Every place that names a supplier, also one that was misheard: `cordray` is Cawdray."""
    names = {key: ("".join(_words(s.name)[:1]), "".join(key.split("-"))) for key, s in workshop.suppliers}
    found: list[Named] = []
    at = 0
    while at < len(tokens):
        named = _at(tokens, at, names)
        if named is not None:
            found.append(named)
            at = named.last
        else:
            at += 1
    return tuple(found)


def _at(tokens: Sequence[Token], at: int, names: Mapping[str, tuple[str, str]]) -> Named | None:
    for length in (3, 2, 1):
        if at + length > len(tokens) or any(t.breaks for t in tokens[at + 1 : at + length]):
            continue
        words = [token.text.removesuffix("'s") for token in tokens[at : at + length]]
        joined = re.sub(r"[^a-z]", "", "".join(words))
        for key, ways in names.items():
            if joined in ways:
                return Named(at, at + length, key, True)
        if len(joined) < 5 or words[0] in COMMON and length == 1 or words[-1] in _LINKS or words[0] in _LINKS:
            continue
        ranked = sorted(((_likeness(joined, ways), key) for key, ways in names.items()), reverse=True)
        if ranked and ranked[0][0] >= _ALIKE:
            return Named(at, at + length, ranked[0][1], False)
    return None


_LINKS = frozenset("the a an and to from of at in on for by with i we it he they about is was her him them".split())


def _likeness(joined: str, ways: Sequence[str]) -> float:
    best = max(fuzz.ratio(joined, way) for way in ways if way)
    alike = any(sound_of(joined) == sound_of(way) for way in ways if len(sound_of(way)) > 3)
    return max(best, 90.0 if alike else 0.0) if ways[0][:1] == joined[:1] or alike else 0.0


def _words(text: str) -> list[str]:
    return re.findall(r"[a-z]+", text.casefold())


def owner_words(car: Car) -> Iterator[str]:
    """What the owner is called in a talk."""
    yield from ("owner", "customer", "client")
    if car.owner is not None:
        yield from (word for word in _words(car.owner.name) if word not in _TITLES)

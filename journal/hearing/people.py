"""Who a talk speaks of: the hands of the workshop, its suppliers, the owner of the car."""

import re
from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct
from rapidfuzz import fuzz, process

from journal.hearing.common import COMMON
from journal.hearing.sounds import sound_of
from journal.hearing.tokens import Token
from journal.records.car import Car
from journal.records.workshop import Workshop

_ALIKE = 78
_TITLES = frozenset({"mr", "mrs", "miss", "ms", "mister", "missus", "dr", "doctor"})


class Named(Struct, frozen=True):
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
    names = {
        way: key
        for key, s in workshop.suppliers
        for way in (key.replace("-", ""), *_words(s.name)[:1])
    }
    sounds = {sound_of(way): key for way, key in names.items() if len(sound_of(way)) > 3}
    found: list[Named] = []
    at = 0
    while at < len(tokens):
        named = _at(tokens, at, names, sounds)
        if named is not None:
            found.append(named)
            at = named.last
        else:
            at += 1
    return tuple(found)


def _at(
    tokens: Sequence[Token], at: int, names: Mapping[str, str], sounds: Mapping[str, str]
) -> Named | None:
    for length in (3, 2, 1):
        if at + length > len(tokens) or any(t.breaks for t in tokens[at + 1 : at + length]):
            continue
        words = [token.text.removesuffix("'s") for token in tokens[at : at + length]]
        joined = re.sub(r"[^a-z]", "", "".join(words))
        if joined in names:
            return Named(at, at + length, names[joined], True)
        if len(joined) < 5 or _LINKS.intersection(words) or (words[0] in COMMON and length == 1):
            continue
        key = sounds.get(sound_of(joined)) or _alike(joined, names)
        if key:
            return Named(at, at + length, key, False)
    return None


def _alike(joined: str, names: Mapping[str, str]) -> str | None:
    near = process.extractOne(joined, tuple(names), scorer=fuzz.ratio, score_cutoff=_ALIKE)
    return names[near[0]] if near is not None and near[0][0] == joined[0] else None


_LINKS = frozenset(
    "the a an and to from of at in on for by with i we it he they about is was her him them".split()
)


def _words(text: str) -> list[str]:
    return re.findall(r"[a-z]+", text.casefold())


def speaker_in(tokens: Sequence[Token], workshop: Workshop) -> str:
    """The hand that introduces itself at the start or the end of a talk, or the only one there is."""
    hands = hands_of(workshop)
    for n in (*range(min(40, len(tokens))), *range(max(0, len(tokens) - 12), len(tokens))):
        before, after = (tokens[k].text if 0 <= k < len(tokens) else "" for k in (n - 1, n + 1))
        if tokens[n].text in hands and (before in ("its", "it's", "i'm", "im") or after == "here"):
            return hands[tokens[n].text]
    return workshop.hands.names()[0] if len(workshop.hands) == 1 else ""


def owner_words(car: Car) -> Iterator[str]:
    """What the owner is called in a talk."""
    yield from ("owner", "customer", "client")
    if car.owner is not None:
        yield from (word for word in _words(car.owner.name) if word not in _TITLES)

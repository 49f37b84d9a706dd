"""Names that tell: of sheets, components, parts, snags and papers, by which pages and their places
are called. What tells is left out of them for the public, and every reference follows.

A sheet `2024-03-05-mrs-harrow-looks-in` is read by the public as `2024-03-05-looks-in`: the name stays
the same whatever other sheets come, so that links from elsewhere go on working.
"""

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence

from pydantic import BaseModel

from journal.readers.known import TITLES, Person, everyday, numbers, persons, places, suppliers
from journal.readers.mask import Mask
from journal.readers.numbers import ends_of, is_sure
from journal.readers.people import is_word
from journal.records.carfile import CarFile
from journal.records.fields import Named
from journal.words.names import is_slug
from journal.words.proving import PROVING
from journal.words.text import comparable
from journal.words.vocabulary import SUBSYSTEMS

_DAY = re.compile(r"\d{4}-\d\d-\d\d(?=-|$)")
_TITLES = frozenset(title.casefold() for title in TITLES)
# Names of ours, and small words that could be initials.
_OURS = frozenset((*SUBSYSTEMS, *(asked.name for proofs in PROVING.values() for asked in proofs)))
_SMALL = frozenset(
    {
        "am",
        "an",
        "as",
        "at",
        "be",
        "by",
        "do",
        "go",
        "he",
        "if",
        "in",
        "is",
        "it",
        "me",
        "my",
        "no",
        "of",
        "off",
        "on",
        "or",
        "so",
        "to",
        "up",
        "us",
        "we",
    }
)


def neutral_names(
    car: CarFile, seen: CarFile, others: Sequence[CarFile], mask: Mask
) -> dict[str, str]:
    """What the names of a car file are called for the public, for those that are called otherwise.

    `seen` is the car file without what the public may not see, `car` and `others` all that is known.
    """
    telling = frozenset(way for told in _telling(car, others) for way in (told, _bare(told)))
    taken = dict.fromkeys(_names(seen))
    told: dict[str, str] = {}
    free = _Free(taken)
    for name in taken:
        new = _without(name, telling) if _plain_name(name) else mask(name)
        if new != name:
            told[name] = free.like(new)
    return told


def _bare(text: str) -> str:
    """Without accents, as file names are written."""
    return "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))


def _names(car: CarFile) -> Iterator[str]:
    """Every name in a car file: of sheets, and of all entries under a name, in order."""
    yield from (sheet.name for sheet in car.sheets)
    yield from (component.key for component in car.register.components)
    for value in (car.workshop, car.car, car.papers, *(sheet.front for sheet in car.sheets)):
        yield from _keys(value)


def _keys(value: object) -> Iterator[str]:
    if isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from _keys(getattr(value, name))
    elif isinstance(value, Named):
        for name, entry in value:
            yield name
            yield from _keys(entry)
    elif isinstance(value, tuple):
        for entry in value:
            yield from _keys(entry)


def _plain_name(name: str) -> bool:
    return all(is_slug(part) for part in name.split("/"))


def _telling(car: CarFile, others: Sequence[CarFile]) -> Iterator[str]:
    """Letters and digits, written together, that tell a number, a person, a place or a supplier."""
    words = everyday(car)
    for number in numbers(car, plate=not car.car.plate_shown):
        yield from _of_number(number.text)
    for other in others:
        for number in numbers(other):
            yield from _of_number(number.text)
        for person in persons(other):
            yield comparable(person.whole)
    for person in persons(car):
        yield from _of_person(person, words)
    for told in (*places(car), *suppliers(car)):
        if not is_word(told.text, words):
            yield comparable(told.text)
    yield from (comparable(key) for key, _ in car.workshop.suppliers if not is_word(key, words))


def _of_number(number: str) -> Iterator[str]:
    if is_sure(number):
        yield from (comparable(number), *ends_of(number))


def _of_person(person: Person, words: frozenset[str]) -> Iterator[str]:
    yield comparable(person.whole)
    for name in (person.family, *person.given):
        if len(name.strip(".")) > 2 and not is_word(name, words):
            yield from (comparable(name), f"{comparable(name)}s")
    if len(person.initials) > 1 and person.initials.casefold() not in _SMALL:
        yield comparable(person.initials)


def _without(name: str, telling: frozenset[str]) -> str:
    """A name without the words that tell; the day of a sheet stays, and so do names of ours."""
    return "/".join(
        part if part in _OURS else _part_without(part, telling) for part in name.split("/")
    )


def _part_without(part: str, telling: frozenset[str]) -> str:
    found = _DAY.match(part)
    day = found.group() if found else ""
    words = part[len(day) :].strip("-").split("-")
    kept = _kept(words, telling)
    if kept == words:
        return part
    rest = "-".join(kept)
    return f"{day}-{rest or 'day-sheet'}" if day else rest or "entry"


def _kept(words: list[str], telling: frozenset[str]) -> list[str]:
    """The words that stand in no run of words that tells. A title goes with its name."""
    told = {
        n
        for start in range(len(words))
        for end in range(start + 1, len(words) + 1)
        if _run(words[start:end]) in telling
        for n in range(start, end)
    }
    told |= {n - 1 for n in told if n and words[n - 1] in _TITLES}
    kept = [word for n, word in enumerate(words) if n not in told]
    return _kept(kept, telling) if told else kept


def _run(words: list[str]) -> str:
    """Words written together; two short ones could be a month and a day."""
    run = "".join(words)
    return run if len(words) == 1 or len(run) > 4 else ""


class _Free:
    """Names that nothing else has, each the one that is wanted or that with the next number."""

    def __init__(self, taken: Iterable[str]) -> None:
        self._taken = {*taken}
        self._next: dict[str, int] = {}

    def like(self, name: str) -> str:
        """The name, or the first of `name-2`, `name-3` and so on that is free; then it is taken."""
        found = name
        while found in self._taken:
            self._next[name] = self._next.get(name, 1) + 1
            found = f"{name}-{self._next[name]}"
        self._taken.add(found)
        return found

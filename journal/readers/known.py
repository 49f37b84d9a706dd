"""What tells who and which: a car's numbers, persons, places and suppliers, as they were written.

`mask` takes these out of texts for the public, and the search of a finished archive looks for them,
so that both mean the same things.
"""

import re
from collections.abc import Iterator
from typing import NamedTuple

from journal.records.carfile import CarFile
from journal.records.place import Place
from journal.words.vocabulary import SUBSYSTEMS


class Told(NamedTuple):
    """A text with the place where it was written."""

    text: str
    place: Place


class Person(NamedTuple):
    """A person by given names and family name. `called` is what the public reads instead; `initials`
    are those that sheets use, empty unless it is a hand; `whole` is the name as written, without
    title, and all there is of a firm."""

    whole: str
    given: tuple[str, ...]
    family: str
    called: str
    place: Place
    initials: str = ""


OWNER, HAND, KEEPER = "the owner", "a colleague", "an earlier keeper"
OTHER_OWNER, OTHER_KEEPER = "another owner", "a keeper of another car"

TITLES = ("Mr", "Mrs", "Ms", "Miss", "Mx", "Dr", "Prof", "Sir", "Lady", "Lord", "Rev", "Capt",
          "Captain", "Major", "Colonel", "Col")  # fmt: skip
_AFTER = frozenset({"jr", "jnr", "sr", "snr", "ii", "iii", "iv", "esq", "obe", "mbe"})
_PARTICLES = frozenset(
    {"van", "von", "de", "der", "den", "du", "da", "di", "la", "le", "and", "of"}
)
_FIRM = re.compile(
    r"\b(?:ltd|limited|plc|llp|gmbh|inc|co|company|trust|museum|club|sons|motors|collection)\b|\d",
    re.I,
)
_COUNTRIES = frozenset(
    {"uk", "gb", "united kingdom", "great britain", "england", "scotland", "wales", "ireland"}
)
_POSTCODE = re.compile(r"\s+([A-Z]{1,2}\d[A-Z\d]?\s*\d[A-Z]{2})$")


def numbers(car: CarFile, *, plate: bool = True) -> Iterator[Told]:
    """Every number that tells this car or an item from all others: stamped, of papers, of items,
    and of its `plate`. Only what holds a digit is a number."""
    for told in (
        *_stamped(car),
        *_of_papers(car),
        *_of_items(car),
        *(_plates(car) if plate else ()),
    ):
        if any(c.isdigit() for c in told.text):
            yield told


def _stamped(car: CarFile) -> Iterator[Told]:
    for name, number in car.car.numbers:
        if number.found:
            yield Told(number.found, car.source.place("numbers", name, "found"))


def _of_papers(car: CarFile) -> Iterator[Told]:
    for name, paper in car.papers:
        for which, value in paper.numbers:
            yield Told(value, car.papers_source.place("papers", name, "numbers", which))
        if paper.registration and paper.registration != car.car.plate:
            place = car.papers_source.place("papers", name, "registration")
            yield Told(paper.registration, place)


def _of_items(car: CarFile) -> Iterator[Told]:
    for sheet in car.sheets:
        for key, work in sheet.front.work:
            if work.number:
                yield Told(work.number, sheet.source.place("work", key, "number"))


def _plates(car: CarFile) -> Iterator[Told]:
    if car.car.plate:
        yield Told(car.car.plate, car.source.place("plate"))


def persons(car: CarFile) -> Iterator[Person]:
    """The owner, the hands and all who kept the car, in the order in which their names are sought."""
    yield from _named(car.car.owner.name, OWNER, car.source.place("owner", "name"))
    for initials, hand in car.workshop.hands:
        place = car.workshop_source.place("hands", initials, "name")
        for person in _named(hand.name, HAND, place):
            yield person._replace(initials=initials)
    yield from _keepers(car)


def others_persons(car: CarFile) -> Iterator[Person]:
    """Owner and keepers of a car that an archive is not about."""
    yield from _named(car.car.owner.name, OTHER_OWNER, car.source.place("owner", "name"))
    for person in _keepers(car):
        yield person._replace(called=OTHER_KEEPER)


def _keepers(car: CarFile) -> Iterator[Person]:
    for name, paper in car.papers:
        for n, keeper in enumerate(paper.keepers):
            place = car.papers_source.place("papers", name, "keepers", n, "name")
            yield from _named(keeper.name, KEEPER, place)


def _named(written: str, called: str, place: Place) -> Iterator[Person]:
    """The persons that a name tells: `Mr and Mrs R. Ansdale` is one family name."""
    if _FIRM.search(written):
        yield Person(written.strip(), (), "", called, place)
        return
    for part in re.split(r"\s+(?:and|&|und)\s+|\s*[,;/]\s*", written):
        words = [w for w in part.split() if w.strip(".") not in TITLES]
        while len(words) > 1 and words[-1].strip(".").casefold() in _AFTER:
            words.pop()
        if words and any(len(w.strip(".")) > 1 for w in words):
            given = tuple(w for w in words[:-1] if w.casefold() not in _PARTICLES)
            yield Person(" ".join(words), given, words[-1], called, place)


def places(car: CarFile) -> Iterator[Told]:
    """Lines of the addresses of owner and workshop, and the places of all who kept the car."""
    if car.car.owner.address:
        yield from _lines(car.car.owner.address, car.source.place("owner", "address"))
    if car.workshop.address:
        yield from _lines(car.workshop.address, car.workshop_source.place("address"))
    for name, paper in car.papers:
        for n, keeper in enumerate(paper.keepers):
            place = car.papers_source.place("papers", name, "keepers", n, "place")
            yield from _lines(keeper.place or "", place)


def doors(car: CarFile) -> Iterator[Told]:
    """Lines of the addresses of owner and earlier keepers by which a letter would find them: all but
    the town."""
    written = [Told(car.car.owner.address or "", car.source.place("owner", "address"))]
    for name, paper in car.papers:
        for n, keeper in enumerate(paper.keepers):
            place = car.papers_source.place("papers", name, "keepers", n, "place")
            written.append(Told(keeper.place or "", place))
    for address, place in written:
        away = (address.strip(), town_of(address))
        lines = [line for line in _lines(address, place) if line.text not in away]
        alone = Told(address.strip(), place)
        yield from lines or ([alone] if address.strip() and town_of(address) is None else [])


def town_of(address: str) -> str | None:
    """The town of an address, or what else its last line without a figure says; None without one."""
    lines = [line for line in _split(address) if not any(map(str.isdigit, line))]
    return next((line for line in reversed(lines) if line.casefold() not in _COUNTRIES), None)


def _split(address: str) -> list[str]:
    """The lines of an address, a postcode set apart."""
    lines: list[str] = []
    for line in filter(None, re.split(r"\s*[,;\n]\s*", address.strip())):
        code = _POSTCODE.search(line)
        lines += [line[: code.start()], code.group(1)] if code else [line]
    return lines


def _lines(address: str, place: Place) -> Iterator[Told]:
    """An address whole, and line by line, a postcode and the number of a house set apart."""
    lines = _split(address)
    if len(lines) > 1:
        yield Told(address.strip(), place)
    for line in lines:
        street = re.sub(r"^\d+\w?\s+", "", line)
        for text in dict.fromkeys((line, street)):
            if len(text) > 3 and text.casefold() not in _COUNTRIES:
                yield Told(text, place)


def suppliers(car: CarFile, *, kept: bool = False) -> Iterator[Told]:
    """Names of suppliers, and the short ones by which people call them: `Fenwright Springs` under
    the key `fenwright` is also `Fenwright`. With `kept` only those that the workshop keeps to itself."""
    for key, supplier in car.workshop.suppliers:
        if kept and supplier.shown:
            continue
        place = car.workshop_source.place("suppliers", key, "name")
        yield Told(supplier.name, place)
        short = supplier.name.split()[: key.count("-") + 1]
        if "-".join(short).casefold() == key and len(key) > 3:
            yield Told(" ".join(short), place)


def everyday(car: CarFile) -> frozenset[str]:
    """Words in which this car is written of, in small letters: those in the names of its components,
    and the subsystems. A person called so is told from the word by more than the word alone."""
    names = (c.line.name or "" for c in car.register.components)
    labels = (subsystem.label.lower() for subsystem in SUBSYSTEMS.values())
    return frozenset(re.findall(r"\b[a-z]+", " ".join((*names, *SUBSYSTEMS, *labels))))


def called(car: CarFile) -> tuple[str, ...]:
    """What workshop, car and colour are called, which everyone reads whatever name is in it."""
    names = (car.workshop.name, car.car.name, car.car.marque, car.car.colour)
    return tuple(name for name in names if name)

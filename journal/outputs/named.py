"""What counts in an archive in any spelling: numbers, persons, addresses, suppliers and money.

It is what the masks of `readers` take out of texts, so that finding it means that something went
past them. A number that could be any count, and a name that is also a word, do not count alone.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal

from journal.outputs.leaves import leaves_of
from journal.outputs.own import own_words, words_of
from journal.outputs.secret import Kind, Private
from journal.pages.moneywords import money_in
from journal.readers.known import (
    OTHER_KEEPER,
    Told,
    called,
    doors,
    everyday,
    numbers,
    others_persons,
    persons,
    places,
    suppliers,
)
from journal.readers.numbers import is_sure
from journal.readers.people import is_word
from journal.readers.rules import sight_of
from journal.records.carfile import CarFile
from journal.words.text import comparable
from journal.words.vocabulary import Reader

# The keys under which an amount is one of money.
MONEY = frozenset(
    {
        "price", "carriage", "credited", "cost", "amount", "labour", "parts", "outwork", "extras",
        "adjustments", "tax", "total",
    }
)  # fmt: skip


def named(
    full: CarFile, seen: CarFile, others: Sequence[CarFile], reader: Reader
) -> Iterator[Private]:
    """Numbers, persons, addresses and suppliers, which count in any spelling."""
    public = reader is Reader.PUBLIC
    own = frozenset() if public else {comparable(n.text) for n in numbers(full)}
    told = [*numbers(full, plate=not full.car.plate_shown)] if public else []
    for number in (*told, *(n for other in others for n in numbers(other))):
        if is_sure(number.text) and comparable(number.text) not in own:
            yield Private(Kind.NUMBER, number.text, number.place)
    yield from _people(full, seen, others, public=public)
    sight = sight_of(reader, full.car)
    if sight.reader is not Reader.OWNER:
        yield from _plain(Kind.ADDRESS, places(full) if public else doors(full), full)
        yield from () if sight.prices else _money(full)
    yield from _plain(Kind.SUPPLIER, suppliers(full, kept=not public), full)


def _money(car: CarFile) -> Iterator[Private]:
    """Every sum of money as pages print it, and any other by its sign."""
    currencies = {car.workshop.currency: car.workshop_source.place("currency")}
    leaves = [*leaves_of(car)]
    for sheet in car.sheets:
        for name, part in sheet.front.parts:
            if part.currency:
                currencies.setdefault(part.currency, sheet.source.place("parts", name, "currency"))
    for currency, place in currencies.items():
        sums = {
            money_in(currency, Decimal(leaf.text)): leaf for leaf in leaves if leaf.field in MONEY
        }
        yield from (Private(Kind.MONEY, text, leaf.place) for text, leaf in sums.items())
        yield Private(Kind.MONEY, _sign(currency), place)


def _sign(currency: str) -> str:
    return re.split(r"[\s\d]", money_in(currency, Decimal(1)))[0]


def _people(
    full: CarFile, seen: CarFile, others: Sequence[CarFile], *, public: bool
) -> Iterator[Private]:
    known = {person.family.casefold() for person in persons(full)}
    people = [*persons(full)] if public else []
    people += [
        person
        for other in others
        for person in others_persons(other)
        if public or person.family.casefold() not in known
    ]
    ours = _ours(full)
    # In an archive for the owner a family of another car may be written of for other reasons.
    held = frozenset() if public else words_of(leaf.text for leaf in leaves_of(seen))
    for person in people:
        family = person.family.casefold()
        if len(person.whole.split()) > 1 and not _stands(person.whole, ours):
            yield Private(Kind.PERSON, person.whole, person.place)
        alone = len(family) > 3 and not is_word(family, everyday(full) | own_words() | held)
        if alone and person.called != OTHER_KEEPER and not _stands(family, ours):
            yield Private(Kind.PERSON, person.family, person.place)


def _plain(kind: Kind, told: Iterable[Told], full: CarFile) -> Iterator[Private]:
    ours = _ours(full)
    for text, place in told:
        alone = len(text.split()) > 1 or not is_word(text, everyday(full) | own_words())
        if alone and len(text) > 4 and not _stands(text, ours):
            yield Private(kind, text, place)


def _ours(car: CarFile) -> str:
    return "\n".join(called(car)).casefold()


def _stands(text: str, ours: str) -> bool:
    return text.casefold() in ours

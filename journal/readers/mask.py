"""Masks: what a reader does not read, taken out of every text.

For the public numbers are masked by their last characters; persons are called by what they are; for
places, suppliers, ways to reach someone and sums of money there stands a word. The owner reads
nothing of other cars and of suppliers that the workshop keeps to itself; the next keeper does not
either, nor at which door or number to reach someone, nor sums of money unless prices are shown.
"""

import re
import unicodedata
from collections.abc import Callable, Iterable, Sequence
from html import unescape

from journal.readers.known import (
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
from journal.readers.numbers import end_swaps, folded, number_swaps
from journal.readers.people import address_swaps, person_swaps, place_swaps, supplier_swaps
from journal.readers.swap import Swap, Swaps, put
from journal.records.carfile import CarFile
from journal.words.money import KNOWN
from journal.words.text import comparable

Mask = Callable[[str], str]

_CODES = "|".join(sorted(KNOWN))
_FIGURE = r"\d+(?:[.,]\d+)*"
_CONTACTS = Swaps(
    (
        Swap(
            ("mailto:", "tel:", "sms:"), r"\]\(\s*<?(?:mailto|tel|sms):[^)\n]*\)", lambda _: "](#)",
            re.I,
        ),
        Swap(
            ("@", "(at)", "[at]"),
            r"(?:mailto:)?[\w.+-]+\\?(?:@|\s?[(\[]at[)\]]\s?)[\w-]+(?:\.[\w-]+)+",
            put("an e-mail address"), re.I,
        ),
    )
)  # fmt: skip
_PHONE = re.compile(
    r"(?<![\w/.-])(?:\+\d{1,3}|00\d{2}|\(?0[1-9]\d{1,4}\)?)(?:[\s./-]{0,2}\(?\d{1,6}\)?){1,5}(?!\w)"
)
_A_SUM = put("a sum of money")
_MONEY = Swaps(
    (
        Swap(
            ("£", "€", "$", "¥", "₤"),
            rf"(?:\b[A-Z]{{1,3}})?[£€$¥₤]\s?{_FIGURE}(?:\s?(?:k|m|thousand|million)\b)?(?:\s\d+[sd]\b)*"
            rf"|(?<![\w.]){_FIGURE}(?:,-)?\s?[£€$¥₤]",
            _A_SUM,
        ),
        Swap(
            tuple(code.casefold() for code in sorted(KNOWN)),
            rf"\b(?:{_CODES})\s?{_FIGURE}(?!\w)|(?<![\w.]){_FIGURE}\s?(?:{_CODES})\b",
            _A_SUM,
        ),
        Swap(
            ("quid", "guinea", "euro", "dollar", "sterling", "pence", "bucks"),
            rf"(?<![\w.]){_FIGURE}\s?(?:quid|guineas?|euros?|dollars?|pounds\s+sterling|pence|bucks)\b",
            _A_SUM, re.I,
        ),
    )
)  # fmt: skip
# Letters of full width and of mathematics, and digits of other scripts and in circles.
_OTHERWISE = re.compile(
    r"[\uff01-\uff5e\U0001d400-\U0001d7ff]|(?![0-9])\d|[\u2460-\u24ff\u2776-\u2793]"
)
# Words that mix letters of ours with those of other scripts that look the same.
_MIXED = re.compile(r"(?=[^\W_]*[A-Za-z0-9])(?=[^\W_]*[\u0370-\u04ff])[^\W_]+")
_ALIKE = str.maketrans(
    "ΑΒΕΖΗΙΚΜΝΟΡΤΥΧοАВЕЅІЈКМНОРСТУХаеіјорсух", "ABEZHIKMNOPTYXoABESIJKMHOPCTYXaeijopcyx"
)
_NO_WIDTH = re.compile(r"(?<=[^\W_])[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2069]+(?=[^\W_])")
_ENTITY = re.compile(r"&(?:#\d{1,7}|#[xX][0-9a-fA-F]{1,6}|\w{2,31});")
_PLACEHOLDER = 0xE000


def public_mask(car: CarFile, others: Sequence[CarFile] = ()) -> Mask:
    """A function that takes out of a text what the public does not read of a car, and of others."""
    words = everyday(car)
    said = [n.text for n in numbers(car, plate=not car.car.plate_shown)]
    said += [n.text for other in others for n in numbers(other)]
    by_number = _number_swaps(said)
    by_name = [*address_swaps(persons(car), words)]
    by_name += [s for person in persons(car) for s in person_swaps(person, words)]
    for other in others:
        by_name += [s for person in others_persons(other) for s in person_swaps(person, words)]
    by_name += _place_swaps(places(car), words)
    by_name += [s for supplier in suppliers(car) for s in supplier_swaps(supplier, words)]
    tell = _kept(by_name, called(car))
    return lambda text: tell(_priceless(_reachless(_numberless(_plain(text), by_number))))


def keeper_masks(
    car: CarFile, others: Sequence[CarFile] = (), *, prices: bool = False
) -> tuple[Mask, Mask]:
    """Two functions that take out what the next keeper does not read: of a text, what the owner does not,
    the doors and numbers at which people are reached, and sums of money unless `prices` are shown; of
    the number of an item or a part the same without those, since it may look like one to ring."""
    tell = owner_mask(car, others)
    doorless = _kept(_place_swaps(doors(car), everyday(car)), called(car))
    priced: Mask = str if prices else _priceless
    return (
        lambda text: tell(doorless(priced(_reachless(_plain(text))))),
        lambda text: tell(priced(_plain(text))),
    )


def owner_mask(car: CarFile, others: Sequence[CarFile] = ()) -> Mask:
    """A function that takes out of a text what the owner does not read: numbers and keepers of other
    cars, unless they are this one's too, and suppliers that the workshop keeps to itself."""
    words = everyday(car)
    own = {comparable(n.text) for n in numbers(car)}
    said = [n.text for other in others for n in numbers(other) if comparable(n.text) not in own]
    by_number = _number_swaps(said)
    known = {person.family.casefold() for person in persons(car)}
    by_name = [
        swap
        for other in others
        for person in others_persons(other)
        if person.family.casefold() not in known
        for swap in person_swaps(person, words)
    ]
    hidden = list(suppliers(car, kept=True))
    by_name += [s for supplier in hidden for s in supplier_swaps(supplier, words)]
    if not said and not by_name:
        return lambda text: text
    tell = _kept(by_name, called(car))
    return lambda text: tell(_numberless(text, by_number))


def _place_swaps(told: Iterable[Told], words: frozenset[str]) -> list[Swap]:
    """Each place once; a place goes before one that is part of it."""
    each = sorted({p.text: p for p in told}.values(), key=lambda p: (-len(p.text), p.text))
    return [swap for place in each for swap in place_swaps(place, words)]


def _number_swaps(told: Iterable[str]) -> Swaps:
    """Each number once however it is written; a number goes before one that is part of it."""
    each = {comparable(number): number for number in told}
    longest = sorted(each, key=lambda plain: (-len(plain), plain))
    whole = (swap for plain in longest for swap in number_swaps(each[plain]))
    return Swaps((*whole, *end_swaps(each.values())))


def _plain(text: str) -> str:
    """Letters and digits that a page would show without being written as such."""
    if "&" in text:
        text = _ENTITY.sub(_spelt, text)
    if text.isascii():
        return text
    text = _NO_WIDTH.sub("", _OTHERWISE.sub(_usual, text))
    return _MIXED.sub(lambda m: m[0].translate(_ALIKE), text)


def _spelt(match: re.Match[str]) -> str:
    read = unescape(match.group())
    return (
        read if read.isalnum() or read in "£€$¥@\u00ad\u200b\u200c\u200d\u2060" else match.group()
    )


def _usual(match: re.Match[str]) -> str:
    """A letter or digit in its usual form; a raised or lowered digit is another thing."""
    sign = match.group()
    if sign.isdigit():
        return (
            sign
            if unicodedata.decomposition(sign)[:4] in ("<sup", "<sub")
            else str(unicodedata.digit(sign))
        )
    return unicodedata.normalize("NFKC", sign)


def _numberless(text: str, swaps: Swaps) -> str:
    return swaps.made(text, folded(text)) if any(map(str.isdigit, text)) else text


def _reachless(text: str) -> str:
    """Without ways to reach someone."""
    text = _CONTACTS.made(text, text.casefold())
    return _PHONE.sub(_phone, text) if sum(map(str.isdigit, text)) >= 10 else text


def _priceless(text: str) -> str:
    """Without sums of money."""
    return _MONEY.made(text, text.casefold())


def _phone(match: re.Match[str]) -> str:
    groups = re.findall(r"\d+", match.group())
    # Figures in a row are no number to ring, such as sizes of shims.
    rings = "+" in match.group() or max(map(len, groups)) > 3
    digits = sum(map(len, groups))
    return put("a telephone number")(match) if rings and 10 <= digits <= 15 else match.group()


def _kept(swaps: Iterable[Swap], phrases: Iterable[str]) -> Mask:
    """A function that makes all swaps and leaves phrases as they are that hold such a name."""
    known = Swaps(swaps)
    kept = [p for p in dict.fromkeys(phrases) if known.met(p.casefold())]
    signs = {chr(_PLACEHOLDER + n): phrase for n, phrase in enumerate(kept)}

    def tell(text: str) -> str:
        if not known.met(text.casefold()):
            return text
        for sign, phrase in signs.items():
            text = text.replace(phrase, sign)
        text = known.made(text, text.casefold())
        for sign, phrase in signs.items():
            text = text.replace(sign, phrase)
        return text

    return tell

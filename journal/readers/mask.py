"""Masks: numbers and names that the public does not see, taken out of every text.

The trade masks a number by its last characters, so that whoever holds the papers can still match
it (common practice, no source).
"""

import re
from collections.abc import Callable, Iterable

from journal.records.carfile import CarFile

Mask = Callable[[str], str]

_MASKED = 3
_TITLES = r"\b(?:(?:Mrs?|Ms|Miss|Dr|Sir|Lady|Lord)\.?\s+)?(?:[A-Z]\.?\s+)*"


def mask_number(number: str) -> str:
    """A number with its last three letters or digits as dots: `TD 58/0417` is `TD 58/0•••`."""
    hidden, out = 0, []
    for character in reversed(number):
        hide = character.isalnum() and hidden < _MASKED
        hidden += hide
        out.append("•" if hide else character)
    return "".join(reversed(out))


def public_mask(car: CarFile) -> Mask:
    """A function that takes the car's numbers and every person's name out of a text."""
    numbers = sorted(_numbers(car), key=lambda n: (-len(n), n))
    swaps: list[tuple[re.Pattern[str], Callable[[re.Match[str]], str]]] = [
        (_loosely(number), lambda m: mask_number(m.group())) for number in numbers
    ]
    swaps += [(_name(car.car.owner.name), lambda _: "the owner")]
    for initials, hand in car.workshop.hands:
        swaps.append((_name(hand.name), lambda _: "a colleague"))
        swaps.append((re.compile(rf"\b{re.escape(initials)}\b"), lambda _: "a colleague"))
    for _, supplier in car.workshop.suppliers:
        swaps.append((re.compile(re.escape(supplier.name), re.I), lambda _: "a supplier"))

    def mask(text: str) -> str:
        for pattern, swap in swaps:
            text = pattern.sub(swap, text)
        return text

    return mask


def _numbers(car: CarFile) -> Iterable[str]:
    yield from {n.found for _, n in car.car.numbers if n.found}
    yield from {value for _, paper in car.papers for _, value in paper.numbers}
    yield from {w.number for s in car.sheets for _, w in s.front.work if w.number}
    if car.car.plate:
        yield car.car.plate


def _loosely(number: str) -> re.Pattern[str]:
    """The number however it is spaced and punctuated in a text."""
    characters = [re.escape(c) for c in number if c.isalnum()]
    return re.compile(r"(?<!\w)" + r"[^\w\n]{0,3}".join(characters) + r"(?!\w)", re.I)


def _name(name: str) -> re.Pattern[str]:
    """A person's name, with or without title and first names, by the family name."""
    family = re.escape(name.split()[-1]) if name.split() else r"(?!)"
    return re.compile(rf"{_TITLES}\b{re.escape(name)}\b|{_TITLES}\b{family}\b" if name else r"(?!)")

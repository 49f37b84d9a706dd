"""Exact numbers: decimals as written, shares between 0 and 1 as intervals."""

import re
from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from math import lcm
from typing import NamedTuple

_DECIMAL = re.compile(r"-?[0-9]{1,12}(\.[0-9]{1,9})?")


def parse_decimal(text: str) -> Decimal:
    """Read a plain decimal number such as `3.5`; raises ValueError for every other form."""
    if not _DECIMAL.fullmatch(text):
        raise ValueError("not a number with a decimal point")
    return Decimal(text)


class Interval(NamedTuple):
    """What is known of a share: it lies between `low` and `high`, both in [0, 1]."""

    low: Fraction
    high: Fraction

    @property
    def certain(self) -> bool:
        """Whether nothing is open: both bounds are the same."""
        return self.low == self.high


NOTHING = Interval(Fraction(0), Fraction(0))
WHOLE = Interval(Fraction(1), Fraction(1))
OPEN = Interval(Fraction(0), Fraction(1))


def half_up(over: int, under: int) -> int:
    """The whole number nearest to `over / under`, the greater of two that are as near; `under` is above 0.

    In whole numbers, since pages round many thousands of amounts, and making a fraction takes ten times as
    long as rounding it.
    """
    return (2 * over + under) // (2 * under)


def total_of(amounts: Iterable[Fraction]) -> Fraction:
    """The sum of some amounts, nothing of none: added in whole numbers of what all of them consist of."""
    ratios = [amount.as_integer_ratio() for amount in amounts]
    unit = lcm(*(under for _, under in ratios))
    return Fraction(sum(over * (unit // under) for over, under in ratios), unit)


def percent(share: Fraction) -> int:
    """A share as whole percent, half up, except that only the very ends read 0 and 100.

    996 parts in 1,000 print as 99: a ledger must not claim all where something is missing.
    """
    over, under = share.as_integer_ratio()
    rounded = half_up(over * 100, under)
    if rounded >= 100 and share < 1:
        return 99
    if rounded <= 0 and share > 0:
        return 1
    return rounded


def plain_number(value: Decimal | Fraction, places: int = 2) -> str:
    """A number without trailing zeros, at most `places` decimals, half up: `3.5`, `12`, `0.25`."""
    unit = 10**places
    over, under = value.as_integer_ratio()
    scaled = half_up(abs(over) * unit, under)
    whole, rest = divmod(scaled, unit)
    sign = "-" if value < 0 and scaled else ""
    decimals = f"{rest:0{places}d}".rstrip("0") if places else ""
    return f"{sign}{whole}.{decimals}" if decimals else f"{sign}{whole}"


def fixed_number(value: Decimal | Fraction | float, places: int) -> str:
    """A number with exactly `places` decimals, half up: `0.40`. A true minus stands before what is
    below nothing once rounded."""
    over, under = value.as_integer_ratio()
    scaled = half_up(abs(over) * 10**places, under)
    whole, rest = divmod(scaled, 10**places)
    sign = "\N{MINUS SIGN}" if value < 0 and scaled else ""
    return f"{sign}{whole}.{rest:0{places}d}" if places else f"{sign}{whole}"


def even_shares(amount: Decimal, parts: int, places: int = 2) -> tuple[Fraction, ...]:
    """An amount of 0 or more in equal parts of at most `places` decimals, or as many as it has.

    What does not divide goes to the first parts, so that they add up to the amount exactly:
    2.5 in three parts is 0.84, 0.83 and 0.83.
    """
    exponent = amount.as_tuple().exponent
    unit = 10 ** max(places, -exponent if isinstance(exponent, int) else 0)
    each, left = divmod(int(amount * unit), parts)
    return tuple(Fraction(each + (n < left), unit) for n in range(parts))

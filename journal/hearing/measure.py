"""A number with the unit that it was said in."""

from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from journal.hearing.numberwords import exact_text

# Two values of one thing differ by no more than so many times.
_ALIKE = 5


class Measure(Struct, frozen=True):
    """A number over the words [start, end), with its unit; the unit is empty where none was said.

    `text` is the amount in that unit. `about` tells that it was not said exactly. `factor` is how many
    of the unit one of what was said is: hundredths of a millimetre.
    """

    start: int
    end: int
    value: Fraction
    text: str
    unit: str = ""
    about: bool = False
    factor: Fraction = Fraction(1)


def lent(measure: Measure, unit: str, factor: Fraction = Fraction(1)) -> Measure:
    """A measure that has no unit with that of another; what has one stays as it is.

    A part of one was said in the whole unit: three hundredths and then nought point oh four.
    """
    if measure.unit or not unit:
        return measure
    if measure.value < 1 or factor == 1:
        return replace(measure, unit=unit)
    value = measure.value * factor
    return replace(measure, value=value, text=amount_text(value), unit=unit, factor=factor)


def amount_text(value: Fraction) -> str:
    """An amount as a decimal where its decimals end, else as a fraction."""
    return exact_text(value) or f"{value.numerator}/{value.denominator}"


def alike(one: Fraction, other: Fraction) -> bool:
    """Whether two amounts are of one size, so that they may tell of one thing in one unit."""
    return abs(one) <= _ALIKE * abs(other) and abs(other) <= _ALIKE * abs(one)

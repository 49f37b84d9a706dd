"""What a sum answers: results rounded once, the working, warnings, tables and curves."""

from fractions import Fraction
from typing import NamedTuple

from msgspec import Struct

from journal.bench.base.given import Given
from journal.words.amounts import fixed_number
from journal.words.units import IMPERIAL, convert

Amount = Fraction | float


class Output(Struct, frozen=True):
    """Something that a sum answers.

    `units` are the units in which it is told and the decimals to which the trade rounds it: the
    metric one first, the imperial one after it where there is one. A number that has no unit is told
    to the decimals of the unit "". Without units it is told in words.
    """

    name: str
    meaning: str
    units: tuple[tuple[str, int], ...] = ()
    symbol: str = ""


class Result(Struct, frozen=True):
    """One line of an answer.

    `words` is the amount as the trade rounds it, in the system in which the inputs were written, and
    `other` in the other one; `exact` is the amount before any rounding in `unit`. An answer in words
    has neither `exact` nor `unit`.
    """

    name: str
    meaning: str
    words: str
    other: str = ""
    exact: Amount | None = None
    unit: str = ""


class Grid(Struct, frozen=True):
    """A table of an answer, all in words; the first column names its row."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


class CurveLine(NamedTuple):
    """One line of a curve: what it is, and its points across and up."""

    label: str
    points: tuple[tuple[Amount, Amount], ...]


class Curve(Struct, frozen=True):
    """An answer as lines: `across` and `up` say what is told along each side, with the unit."""

    title: str
    across: str
    up: str
    lines: tuple[CurveLine, ...]


class Worked(Struct, frozen=True):
    """The answer of a sum.

    `steps` are the working, a line each with the numbers filled in. `verdict` says in one sentence
    what follows; `right` whether that is as it should be, absent where the sum judges nothing.
    `warnings` are what the inputs themselves give reason for.
    """

    results: tuple[Result, ...]
    steps: tuple[str, ...]
    verdict: str = ""
    right: bool | None = None
    warnings: tuple[str, ...] = ()
    grids: tuple[Grid, ...] = ()
    curves: tuple[Curve, ...] = ()


def answered(output: Output, exact: Amount, given: Given, *, unit: str = "") -> Result:
    """The result of an output whose exact amount is in `unit`, or in the output's own first one."""
    unit = unit or output.units[0][0]
    told = [_told(exact, unit, to, places) for to, places in _led(output.units, given)]
    return Result(output.name, output.meaning, told[0], "".join(told[1:2]), exact, unit)


def said(output: Output, words: str) -> Result:
    """The result of an output that is told in words."""
    return Result(output.name, output.meaning, words)


def result_words(result: Result) -> str:
    """A result in both systems: `0.42 mm (16.5 thou)`."""
    return f"{result.words} ({result.other})" if result.other else result.words


def exact_text(value: Fraction | float) -> str:
    """A number without loss: `0.42`, `1/3`, or a float to its last digit."""
    if isinstance(value, float):
        return repr(value)
    twos_and_fives = value.denominator
    for prime in (2, 5):
        while twos_and_fives % prime == 0:
            twos_and_fives //= prime
    if twos_and_fives != 1:
        return f"{value.numerator}/{value.denominator}"
    places = 0
    while (value * 10**places).denominator != 1:
        places += 1
    digits = f"{abs((value * 10**places).numerator):0{places + 1}d}"
    sign = "-" if value < 0 else ""
    return f"{sign}{digits[:-places]}.{digits[-places:]}" if places else f"{sign}{digits}"


class Teller(Struct, frozen=True):
    """Tells amounts of one kind in the working, in the system in which the inputs were written.

    `units` are a metric one, in which amounts come, and an imperial one where there is one, each with
    the fewest and the most decimals to tell.
    """

    units: tuple[tuple[str, int, int], ...]
    given: Given

    @property
    def _lead(self) -> tuple[str, int, int]:
        unit, _ = _led(tuple((unit, most) for unit, _, most in self.units), self.given)[0]
        return next(entry for entry in self.units if entry[0] == unit)

    def number(self, amount: Amount) -> str:
        """An amount in the first of `units`, told without a unit."""
        unit, fewest, most = self._lead
        told = fixed_number(_converted(amount, self.units[0][0], unit), most)
        while most > fewest and told.endswith("0"):
            told, most = told[:-1], most - 1
        return told.rstrip(".")

    def __call__(self, amount: Amount) -> str:
        """An amount in the first of `units`: `0.42 mm`, `16.5 thou`."""
        return f"{self.number(amount)} {self._lead[0]}".rstrip()


def _led(units: tuple[tuple[str, int], ...], given: Given) -> tuple[tuple[str, int], ...]:
    """The units in the order in which they are told."""
    if given.imperial and any(unit in IMPERIAL for unit, _ in units):
        return tuple(sorted(units, key=lambda entry: entry[0] not in IMPERIAL))
    return units


def _converted(amount: Amount, from_: str, to: str) -> Fraction:
    return Fraction(amount) if from_ == to else convert(Fraction(amount), from_, to)


def _told(amount: Amount, from_: str, to: str, places: int) -> str:
    return f"{fixed_number(_converted(amount, from_, to), places)} {to}".rstrip()

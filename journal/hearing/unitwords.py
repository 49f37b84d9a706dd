"""How units of `words/units.py` are said in the workshop.

Common practice, no source: a *mil* is a millimetre in Britain (and a millilitre of what pours), a
*thou* a thousandth of an inch, a *tenth* by itself a tenth of that. `pounds` and `degrees` are not told
by their word alone: their unit here is that word.
"""

from fractions import Fraction
from typing import NamedTuple

from journal.hearing.strand import Strand


class Said(NamedTuple):
    """A unit, and how many of it one of what was said is."""

    unit: str
    factor: Fraction = Fraction(1)


class UnitAt(NamedTuple):
    """A unit that was said: words up to `end`, and what it is."""

    end: int
    said: Said


POUNDS, DEGREES = "pounds", "degrees"
_TENTH, _HUNDREDTH, _THOUSANDTH = (Fraction(1, 10**n) for n in (1, 2, 3))

_MIL = (
    "mil",
    "mils",
    "mill",
    "mills",
    "mm",
    "mms",
    "millimetre",
    "millimetres",
    "millimeter",
    "millimeters",
)
_LB = ("pound", "pounds", "lb", "lbs")

_PLAIN: dict[str, tuple[str, ...]] = {
    "thou": ("thou", "thous", "thow", "thowe", "thousandth", "thousandths",
             "thousands of an inch"),
    "mm": _MIL,
    "cm": ("cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters"),
    "m": ("metre", "metres", "meter", "meters"),
    "in": ("inch", "inches", "ins", '"', "″"),
    "ft": ("foot", "feet", "ft"),
    "micron": ("micron", "microns"),
    "mile": ("mile", "miles"),
    "km": ("km", "kilometre", "kilometres", "kilometer", "kilometers"),
    "psi": ("psi", "p s i", "pounds per square inch", "pound per square inch", "pounds a square inch",
            "lb per square inch", "lbs per square inch", "lb / in 2"),
    "bar": ("bar", "bars"),
    "kPa": ("kpa", "kilopascals"),
    "inHg": ("inches of mercury", "inches of vacuum"),
    "lbf ft": ("foot pounds", "foot pound", "foot lbs", "foot lb", "ft lbs", "ft lb", "ft pounds",
               "pound foot", "pounds foot", "pound feet", "pounds feet", "lb ft", "lbs ft", "lb foot",
               "lbf ft", "ft lbf", "lb / ft", "lbs / ft", "ft / lb", "ft / lbs", "pounds of torque",
               "foot pounds of torque"),
    "lbf in": ("inch pounds", "inch pound", "inch lbs", "inch lb", "pound inches", "lb in", "lbf in"),
    "Nm": ("nm", "newton metres", "newton metre", "newton meters", "newton meter", "newtons metre", "n m"),
    "N": ("newton", "newtons"),
    "kg": ("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"),
    "g": ("gram", "grams", "gramme", "grammes"),
    "oz": ("ounce", "ounces", "oz"),
    "lb": ("lb", "lbs"),
    "l": ("litre", "litres", "liter", "liters"),
    "ml": ("ml", "mls", "millilitre", "millilitres", "milliliter", "milliliters"),
    "cc": ("cc", "ccs", "c c"),
    "pint": ("pint", "pints"),
    "gallon": ("gallon", "gallons"),
    "fl oz": ("fluid ounce", "fluid ounces"),
    "C": ("degrees c", "degrees celsius", "degrees centigrade", "degree c", "celsius", "centigrade",
          "° c", "deg c"),
    "F": ("degrees f", "degrees fahrenheit", "degree f", "fahrenheit", "° f", "deg f"),
    "min": ("minutes of arc", "minute of arc", "arc minutes"),
    "ohm": ("ohm", "ohms"),
    "kohm": ("kilohm", "kilohms", "k ohm", "k ohms", "kilo ohms", "kohm"),
    "Mohm": ("megohm", "megohms", "meg ohms", "mega ohms"),
    "V": ("volt", "volts"),
    "A": ("amp", "amps", "ampere", "amperes"),
    "Ah": ("amp hours", "amp hour"),
    "W": ("watt", "watts"),
    "hp": ("horsepower", "horse power", "bhp", "brake horsepower", "brake horse power"),
    "rpm": ("rpm", "r p m", "revs", "revs per minute", "revs a minute", "revolutions per minute"),
    "mph": ("mph", "m p h", "miles an hour", "miles per hour"),
    "km/h": ("kph", "k p h", "kilometres an hour", "kilometres per hour", "km / h"),
    "%": ("%", "percent", "per cent"),
    "teeth": ("teeth",),
    "turns": ("turn", "turns"),
    "clicks": ("clicks", "click"),
    "gauge": ("gauge", "gage", "swg"),
    "GBP": ("quid", "£"),
    POUNDS: ("pound", "pounds"),
    DEGREES: ("degree", "degrees", "deg", "degs", "°"),
}  # fmt: skip

_PARTS: dict[str, Said] = {
    "tenth": Said("thou", _TENTH),
    "tenths": Said("thou", _TENTH),
    "hundredths": Said("mm", _HUNDREDTH),
    "milliamps": Said("A", _THOUSANDTH),
    "milliamp": Said("A", _THOUSANDTH),
    "millivolts": Said("V", _THOUSANDTH),
    "pence": Said("GBP", _HUNDREDTH),
    "grand": Said("GBP", Fraction(1000)),
}

# Parts of whatever unit follows: six tenths of a gram.
_PART_OF: dict[str, Fraction] = {
    "tenth": _TENTH, "tenths": _TENTH, "hundredth": _HUNDREDTH, "hundredths": _HUNDREDTH,
    "thousandth": _THOUSANDTH, "thousandths": _THOUSANDTH,
}  # fmt: skip

# Letters that are a unit only against the figure before them: `5V`, `0.5in`.
_AGAINST: dict[str, str] = {
    "m": "m", "in": "in", "g": "g", "l": "l", "v": "V", "a": "A", "w": "W", "c": "C", "f": "F", "n": "N",
    "ah": "Ah",
}  # fmt: skip

# Time is told elsewhere; here it only shows that half of it may be meant.
TIMES: frozenset[str] = frozenset({
    "hour", "hours", "hr", "hrs", "minute", "minutes", "min", "mins", "second", "seconds", "sec",
    "day", "days", "week", "weeks", "month", "months", "year", "years",
})  # fmt: skip

_PHRASES: dict[tuple[str, ...], Said] = {
    **{tuple(phrase.split()): Said(unit) for unit, said in _PLAIN.items() for phrase in said},
    **{tuple(phrase.split()): said for phrase, said in _PARTS.items()},
}
_LONGEST: dict[str, tuple[int, ...]] = {}
for _phrase in _PHRASES:
    _LONGEST[_phrase[0]] = tuple(
        sorted({*_LONGEST.get(_phrase[0], ()), len(_phrase)}, reverse=True)
    )


def unit_at(strand: Strand, n: int) -> UnitAt | None:
    """The unit that is said from word n on, the longest that fits; no mark stands before it."""
    first = strand.on(n)
    if first in _AGAINST and strand.touches(n) and strand.at(n - 1)[-1:].isdigit():
        return _phrase_at(strand, n) or UnitAt(n + 1, Said(_AGAINST[first]))
    return unit_from(strand, n) if first else None


def unit_from(strand: Strand, n: int) -> UnitAt | None:
    """The unit that is said from word n on, also right after a mark."""
    return _part_at(strand, n) or _phrase_at(strand, n)


def _phrase_at(strand: Strand, n: int) -> UnitAt | None:
    for length in _LONGEST.get(strand.at(n), ()):
        words = strand.words[n : n + length]
        if words in _PHRASES and not any(strand.parted[n + 1 : n + length]):
            return UnitAt(n + len(words), _PHRASES[words])
    return None


def _part_at(strand: Strand, n: int) -> UnitAt | None:
    part = _PART_OF.get(strand.at(n))
    if part is None or strand.on(n + 1) != "of" or strand.on(n + 2) not in ("a", "an"):
        return None
    whole = _phrase_at(strand, n + 3) if strand.on(n + 3) else None
    if whole is None:
        return None
    unit, factor = whole.said
    if unit == "in" and part == _THOUSANDTH:
        return UnitAt(whole.end, Said("thou", factor))
    return UnitAt(whole.end, Said(unit, factor * part))


def measures_at(strand: Strand, n: int) -> bool:
    """Whether a unit or a measure of time is said at word n."""
    return strand.on(n) in TIMES or unit_at(strand, n) is not None

"""Quantities as people write them at the bench: `3/8 in`, `0.375"`, `12 thou`, `9.5..9.8 mm`, `1 : 4`.

A number is a decimal with a point, a fraction or both (`1 1/2`). Of several that stand together one may
carry the unit for all: `0.22, 0.24, 0.23 mm`. What cannot be read is refused with one sentence that
continues after the name of what was asked, and a way out.
"""

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple

from journal.words.names import nearest
from journal.words.text import listed, shortened
from journal.words.units import ALL_UNITS, UNITS, convert, kind_of


class NotRead(ValueError):
    """What was written cannot be read as what was asked.

    `code` names the mistake, `sentence` continues after the name of what was asked, `help` is the
    way out, or empty where nobody can know it.
    """

    def __init__(self, code: str, sentence: str, help: str = "") -> None:
        super().__init__(f"{sentence}; {help}" if help else sentence)
        self.code, self.sentence, self.help = code, sentence, help


class Kind(NamedTuple):
    """A kind of quantity in words, and the units named to one who has to write it."""

    words: str
    units: tuple[str, ...] = ()


# Those of `UNITS`, and the three that have no unit. Every bench sum asks for one of these.
KINDS: dict[str, Kind] = {
    "length": Kind("a length", ("mm", "in", "thou")),
    "area": Kind("an area", ("m2", "cm2", "mm2", "sq ft", "sq in")),
    "pressure": Kind("a pressure", ("bar", "kPa", "psi")),
    "torque": Kind("a torque", ("Nm", "lbf ft", "lbf in")),
    "force": Kind("a force", ("N", "kgf", "lbf")),
    "rate": Kind("a spring rate", ("N/mm", "kgf/mm", "lbf/in")),
    "mass": Kind("a weight", ("kg", "g", "lb")),
    "volume": Kind("a volume", ("cc", "l", "pint")),
    "angle": Kind("an angle", ("deg", "min")),
    "temperature": Kind("a temperature", ("C", "F")),
    "potential": Kind("a voltage", ("V",)),
    "current": Kind("a current", ("A",)),
    "charge": Kind("a battery capacity", ("Ah",)),
    "resistance": Kind("a resistance", ("ohm", "kohm")),
    "power": Kind("a power", ("W", "kW", "hp")),
    "time": Kind("a time", ("s", "minutes", "h")),
    "turning": Kind("a speed of turning", ("rpm",)),
    "speed": Kind("a speed", ("mph", "km/h", "m/s")),
    "share": Kind("a share", ("%",)),
    "teeth": Kind("a number of teeth", ("teeth",)),
    "turns": Kind("a number of turns", ("turns",)),
    "clicks": Kind("a number of clicks", ("clicks",)),
    "count": Kind("a whole number"),
    "number": Kind("a number"),
    "ratio": Kind("a ratio"),
}

# What else a unit is called. Common practice, no source; on a wrench `lb ft` and `ft lb` mean the
# force of a pound.
_SPELLINGS: dict[str, str] = {
    '"': "in", "''": "in", "inch": "in", "inches": "in", "ins": "in", "in.": "in",
    "foot": "ft", "feet": "ft", "miles": "mile", "metre": "m", "metres": "m",
    "microns": "micron", "um": "micron", "μm": "micron",
    "mm^2": "mm2", "sq mm": "mm2", "cm^2": "cm2", "sq cm": "cm2", "in2": "sq in", "in^2": "sq in",
    "m^2": "m2", "sq m": "m2", "ft2": "sq ft", "ft^2": "sq ft",
    "n m": "Nm", "ft lbf": "lbf ft", "lb ft": "lbf ft", "ft lb": "lbf ft",
    "lbs ft": "lbf ft", "ft lbs": "lbf ft",
    "in lbf": "lbf in", "lb in": "lbf in", "in lb": "lbf in", "in lbs": "lbf in",
    "kg m": "kgf m", "kgm": "kgf m", "kg/cm2": "kgf/cm2",
    "n/mm2": "MPa", "tons/sq in": "tonf/sq in", "ton/sq in": "tonf/sq in", "tons/in2": "tonf/sq in",
    "lb/in": "lbf/in", "kg/mm": "kgf/mm", "lbs": "lb",
    "gram": "g", "grams": "g", "ounce": "oz", "ounces": "oz",
    "litre": "l", "litres": "l", "pints": "pint", "gallons": "gallon", "cm3": "cc", "ccm": "cc",
    "cubic inch": "cu in", "cubic inches": "cu in", "in3": "cu in", "cu.in": "cu in",
    "°": "deg", "degree": "deg", "degrees": "deg", "'": "min",
    "°c": "C", "deg c": "C", "°f": "F", "deg f": "F", "volt": "V", "volts": "V", "amp": "A", "amps": "A",
    "ohms": "ohm", "ω": "ohm", "kω": "kohm", "watt": "W", "watts": "W", "bhp": "hp",
    "sec": "s", "seconds": "s", "minute": "minutes", "hour": "h", "hours": "h", "r/min": "rpm",
    "kph": "km/h", "percent": "%", "per cent": "%", "tooth": "teeth", "turn": "turns", "click": "clicks",
}  # fmt: skip
_BY_SPELLING = {unit.casefold(): unit for unit in ALL_UNITS} | _SPELLINGS

# Nobody writes a longer reading; a longer text is not searched for one.
LONGEST = 2000

_VALUE = re.compile(
    r"(?P<sign>[-+]?) ?"
    r"(?:(?P<whole>[0-9]{1,9})[ -](?P<of_whole>[0-9]{1,4}/[0-9]{1,4})"
    r"|(?P<fraction>[0-9]{1,4}/[0-9]{1,4})"
    r"|(?P<decimal>[0-9]{1,12}(?:\.[0-9]{1,9})?|\.[0-9]{1,9}))"
    r"(?P<unit> ?[^0-9 .,;:].*)?"
)
_DEGREES = re.compile(
    r"(?P<sign>-?)([0-9]{1,3}) ?(?:°|deg) ?([0-9]{1,2}) ?(?:'|min)", re.IGNORECASE
)
_COMMA_INSIDE = re.compile(r"([0-9./]*[0-9]),(?=([0-9][0-9./]*))")


@dataclass(frozen=True)
class Quantity:
    """An exact amount in a unit of `words/units.py`; the unit is empty for what has none.

    `written` is the number as it was written, for showing it again.
    """

    amount: Fraction
    unit: str = ""
    written: str = field(default="", compare=False)

    def to(self, unit: str) -> Fraction:
        """The exact amount in another unit. Raises ValueError where the two do not convert."""
        return self.amount if unit == self.unit else convert(self.amount, self.unit, unit)

    @property
    def words(self) -> str:
        """The quantity as it was written: `3/8 in`, `4`, `35 %`."""
        told = self.written.endswith("'")
        return self.written if told else f"{self.written} {self.unit}".rstrip()


@dataclass(frozen=True)
class Span:
    """All from `low` to `high`, both included and in one unit."""

    low: Quantity
    high: Quantity

    @property
    def words(self) -> str:
        """`0.15 to 0.20 mm`, or the one quantity where both ends are the same."""
        if self.low == self.high:
            return self.low.words
        if self.low.unit == self.high.unit:
            return f"{self.low.written} to {self.high.words}"
        return f"{self.low.words} to {self.high.words}"


def plain_text(text: str) -> str:
    """A text as it is read here: one kind of blank, minus, quotation mark and fraction."""
    text = unicodedata.normalize("NFC", text[:LONGEST])
    text = re.sub(r"(?<=[0-9])(?=[¼-¾⅐-⅞])", " ", text)
    text = unicodedata.normalize("NFKC", text).replace("\N{FRACTION SLASH}", "/")
    for wrong, right in (
        ("\N{MINUS SIGN}", "-"),
        ("′′", '"'),
        ("”", '"'),
        ("′", "'"),
        ("’", "'"),
        ("\N{MULTIPLICATION SIGN}", " x "),
    ):
        text = text.replace(wrong, right)
    return re.sub(r"\s+", " ", text).strip()


def parse_quantity(text: str, kind: str) -> Quantity:
    """One quantity of a kind of `KINDS`. Raises NotRead for all else."""
    return parse_quantities([text], kind)[0]


def parse_span(text: str, kind: str) -> Span:
    """`9.5..9.8 mm`, `9.5 to 9.8 mm`, `0.42 +/- 0.02 mm`, or one quantity. Raises NotRead."""
    plain = plain_text(text)
    middle = re.split(r"\+/-|±", plain)
    if len(middle) == 2:
        at, give = parse_quantities(middle, kind)
        each = give.to(at.unit)
        low, high = (
            Quantity(end, at.unit, _as_text(end)) for end in (at.amount - each, at.amount + each)
        )
        return _ordered(low, high, text)
    ends = re.split(r"\.\.\.?|…| to ", plain)
    if len(ends) > 2:
        raise NotRead(
            "bad-quantity",
            f'must be a range with two ends, found "{_short(text)}"',
            _range_help(kind),
        )
    read = parse_quantities(ends, kind)
    return _ordered(read[0], read[-1], text)


def parse_readings(text: str, kind: str) -> tuple[Quantity, ...]:
    """One or more quantities of a kind, set apart by commas or semicolons. Raises NotRead."""
    return parse_quantities(cells_of(text), kind)


def parse_quantities(texts: Sequence[str], kind: str) -> tuple[Quantity, ...]:
    """Quantities of one kind; those without a unit have that of the others. Raises NotRead."""
    read = [_parsed(text, kind) for text in texts]
    units = list(dict.fromkeys(quantity.unit for quantity in read if quantity.unit))
    if kind not in UNITS or all(quantity.unit for quantity in read):
        return tuple(read)
    bare = next(quantity for quantity in read if not quantity.unit)
    if len(units) == 1:
        return tuple(q if q.unit else Quantity(q.amount, units[0], q.written) for q in read)
    phrase, offered = KINDS[kind]
    ways = [f"{bare.written} {unit}" for unit in units or offered]
    if kind == "share" and bare.amount <= 1:
        ways.insert(0, f"{_as_text(bare.amount * 100)} %")
    raise NotRead(
        "bad-quantity", f'must be {phrase} with its unit, found "{bare.written}"',
        f"write {listed(ways, 'or')}",
    )  # fmt: skip


def cells_of(text: str) -> list[str]:
    """The parts of a list, set apart by commas or semicolons. Raises NotRead for a decimal comma."""
    plain = plain_text(text)
    refuse_decimal_comma(plain)
    return [cell.strip() for cell in re.split(r"[,;]", plain)]


def refuse_decimal_comma(plain: str) -> None:
    """Refuse a comma that may stand for a decimal point, or set thousands apart.

    `9,5 mm` would be read as two readings, and so would `1,250 kg`.
    """
    for found in _COMMA_INSIDE.finditer(plain):
        one, other = found[1], found[2]
        ways = [] if re.search(r"[./]", one + other) else [f"{one}.{other}"]
        if re.fullmatch(r"[0-9]{3}(\.[0-9]+)?", other) and not re.search(r"[./]", one):
            ways.insert(0, f"{one}{other}")
        if ways:
            raise NotRead(
                "bad-quantity", f'must have no comma inside a number, found "{one},{other}"',
                f"write {listed(ways, 'or')} for one number, or {one}, {other} with a blank for two",
            )  # fmt: skip


def is_only_quantities(text: str) -> bool:
    """Whether a text is nothing but numbers and units known here, so that it tells of no one."""
    for cell in re.split(r"[,;:]|\.\.| to | x ", plain_text(text)):
        found = _VALUE.fullmatch(cell.strip())
        if found is None or ((unit := _unit_text(found["unit"])) and _unit_of(unit) is None):
            return False
    return True


def _parsed(text: str, kind: str) -> Quantity:
    plain = plain_text(text)
    refuse_decimal_comma(plain)
    phrase = KINDS[kind].words
    if kind == "ratio" and ":" in plain:
        return _ratio(plain, text)
    if kind == "angle" and (found := _DEGREES.fullmatch(plain)):
        amount = Fraction(int(found[2])) + Fraction(int(found[3]), 60)
        return Quantity(-amount if found["sign"] else amount, "deg", plain)
    found = _VALUE.fullmatch(plain)
    if found is None:
        raise NotRead("bad-quantity", f'must be {phrase}, found "{_short(text)}"', _help(kind))
    amount, number = _amount(found), _number_text(found)
    unit_text = _unit_text(found["unit"])
    if not unit_text:
        if kind == "count" and amount.denominator != 1:
            raise NotRead("bad-quantity", f'must be {phrase}, found "{_short(text)}"', _help(kind))
        return Quantity(amount, "", number)
    unit = _unit_of(unit_text)
    if unit is None:
        raise _no_such_unit(unit_text, kind)
    if kind not in UNITS or kind_of(unit) != kind:
        raise NotRead("bad-quantity", f'must be {phrase}, found "{_short(text)}"', _help(kind))
    return Quantity(amount, unit, number)


def _ratio(plain: str, text: str) -> Quantity:
    parts = [part.strip() for part in plain.split(":")]
    found = [_VALUE.fullmatch(part) for part in parts]
    read = [_amount(match) for match in found if match is not None and not match["unit"]]
    if len(read) != 2 or len(parts) != 2 or not read[1]:
        raise NotRead("bad-quantity", f'must be a ratio, found "{_short(text)}"', _help("ratio"))
    return Quantity(read[0] / read[1], "", " : ".join(parts))


def _amount(found: re.Match[str]) -> Fraction:
    fraction = found["of_whole"] or found["fraction"]
    if fraction and fraction.endswith("/0"):
        raise NotRead(
            "bad-quantity",
            f'has a fraction of nothing, found "{fraction}"',
            "write it with another number below",
        )
    amount = (
        Fraction(found["whole"] or 0) + Fraction(fraction or 0) + Fraction(found["decimal"] or 0)
    )
    return -amount if found["sign"] == "-" else amount


def _number_text(found: re.Match[str]) -> str:
    text = found.string[: found.start("unit")] if found["unit"] else found.string
    return text.strip()


def _unit_text(text: str | None) -> str:
    """A unit as the table of spellings has it: `lbf.ft` and `lbf·ft` are `lbf ft`."""
    return re.sub(r"(?<=\w)[.·*](?=\w)", " ", (text or "").strip()).rstrip(".")


def _unit_of(text: str) -> str | None:
    return text if text in ALL_UNITS else _BY_SPELLING.get(text.casefold())


def _no_such_unit(text: str, kind: str) -> NotRead:
    of_kind = UNITS.get(kind, {})
    meant = nearest(text, of_kind)
    way = f"write {meant}" if meant else _help(kind)
    return NotRead("bad-quantity", f'is in a unit not known here, "{_short(text)}"', way)


def _help(kind: str) -> str:
    units = KINDS[kind].units
    if units:
        return f"write it in {listed(units, 'or')}"
    bare = {"count": "write it in figures, such as 4", "ratio": "write 1 : 4, or 0.25"}
    return bare.get(kind, "write it in figures without a unit, such as 0.35")


def _range_help(kind: str) -> str:
    units = KINDS[kind].units
    return f"write 2..3 {units[0]}" if units else "write 2..3"


def _ordered(low: Quantity, high: Quantity, text: str) -> Span:
    if high.to(low.unit) < low.amount:
        raise NotRead(
            "bad-quantity", f'must have its smaller end first, found "{_short(text)}"',
            f"write {high.written}..{low.words}",
        )  # fmt: skip
    return Span(low, high)


def _as_text(value: Fraction) -> str:
    """An exact number as a decimal where it has one of nine places, else as a fraction."""
    scaled = value * 10**9
    if scaled.denominator != 1:
        return f"{value.numerator}/{value.denominator}"
    sign, digits = ("-" if value < 0 else ""), f"{abs(scaled.numerator):010d}"
    return f"{sign}{digits[:-9]}.{digits[-9:]}".rstrip("0").rstrip(".")


def _short(text: str) -> str:
    return shortened(" ".join(text.split()), 60)

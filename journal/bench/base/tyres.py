"""Tyres by their designation: what it tells of the size, and how far one turn goes.

Lengths are exact and in mm.
"""

import re
from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import TEXT, Input
from journal.bench.base.given import Given, NotWorked
from journal.words.quantities import plain_text

_INCH = Fraction("25.4")

# A radial of which no series is written is of the 80 series; one turn of a loaded tyre at 60 km/h
# goes 3.05 times its overall diameter (practice of tyre makers, from memory).
_SERIES, ROLLS = 80, Fraction("3.05")

# Sections in inches that cross-ply tyres of cars are made in.
_NARROWEST, _WIDEST = Fraction(2), Fraction(13)

# A rim of more than this is given in mm.
_LARGEST_INCHES = 30

_TYPE = r"(?:P|LT)? ?"
_PLY = r" ?-? ?(?:[A-Z]{0,2}(?:R|B|D)|-|[A-Z]) ?"
_RIM = r"(?P<rim>[0-9]{2,3}(?:\.[0-9])?)"
_SERVICE = r"(?: .*|[A-Z].*)?"
# Compiled when the first tyre is asked for.
_METRIC = rf"{_TYPE}(?P<width>[0-9]{{3}}) ?/ ?(?P<aspect>[0-9]{{2,3}}){_PLY}{_RIM}{_SERVICE}"
_RADIAL = rf"(?P<width>[0-9]{{3}}) ?-? ?[A-Z]{{0,2}}R ?{_RIM}{_SERVICE}"
_WHOLE = r"(?P<over>[0-9]{2,3}) ?[X*] ?(?P<width>[0-9]{1,3}(?:\.[0-9]+| [0-9]/[0-9])?)"
_INCHES = rf"(?P<width>[0-9]{{1,2}}(?:\.[0-9]{{1,2}}| [0-9]/[0-9])?)(?:/[0-9.]+)? ?(?:[-X ]|[A-Z]{{1,2}}) ?{_RIM}{_SERVICE}"  # fmt: skip


class Tyre(Struct, frozen=True):
    """A tyre as it is called; `diameter` is over all, unloaded. `width`, `aspect` in percent and `rim`
    are absent where the designation does not tell them."""

    name: str
    diameter: Fraction
    width: Fraction | None = None
    aspect: int | None = None
    rim: Fraction | None = None

    @property
    def turn(self) -> Fraction:
        """How far it goes in one turn, by the rule."""
        return ROLLS * self.diameter


class NoHeight(ValueError):
    """A designation that says nothing of how high the tyre is."""


class NoTyre(ValueError):
    """A text that is no designation of a tyre."""


def tyre_of(text: str, diameter: Fraction | None = None) -> Tyre:
    """The tyre of a designation. `diameter` is what it measures or what its maker's table says.

    Raises NoTyre, and NoHeight where a diameter is needed and not given.
    """
    name = " ".join(plain_text(text).split())
    plain = name.upper().replace("\N{MULTIPLICATION SIGN}", "X")
    if found := re.fullmatch(_METRIC, plain):
        return _by_series(name, found, int(found["aspect"]), diameter)
    if found := re.fullmatch(_RADIAL, plain):
        return _by_series(name, found, _SERIES, diameter)
    if found := re.fullmatch(_WHOLE, plain):
        over = Fraction(found["over"])
        inches = 24 <= over <= 45
        if inches or over >= 500:
            width = _inches(found["width"])
            return Tyre(name, diameter or over * (_INCH if inches else 1), width * (_INCH if inches else 1))  # fmt: skip
    found = re.fullmatch(_INCHES, plain)
    if found and _WIDEST >= _inches(found["width"]) >= _NARROWEST:
        if diameter is None:
            raise NoHeight
        return Tyre(name, diameter, _inches(found["width"]) * _INCH, rim=_rim(found["rim"]))
    raise NoTyre


def _by_series(name: str, found: Mapping[str, str] | re.Match[str], aspect: int, diameter: Fraction | None) -> Tyre:  # fmt: skip
    width, rim = Fraction(found["width"]), _rim(found["rim"])
    return Tyre(name, diameter or rim + 2 * width * aspect / 100, width, aspect, rim)


def _inches(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def _rim(text: str) -> Fraction:
    rim = Fraction(text)
    return rim * _INCH if rim <= _LARGEST_INCHES else rim


# Inputs of the sums that ask for a tyre, and what is made of them.


def tyre_inputs(after: str = "", *, optional: bool = False, when: str = "") -> tuple[Input, ...]:
    """A tyre, and the two measurements that stand for more than its designation."""
    return (
        Input(f"tyre{after}", f"the tyre{when} as it is called on its side, such as 185/70 R 14 or 5.60-15", TEXT, optional=optional),
        Input(f"diameter{after}", f"diameter over all{when}, measured or of the maker's table; needed for cross-ply sizes", "length", optional=True, least="300 mm", most="1200 mm"),
        Input(f"rolling{after}", f"how far the car goes in one turn of the wheel{when}, measured; better than any rule", "length", optional=True, least="1000 mm", most="3800 mm"),
    )  # fmt: skip


def given_tyre(given: Given, after: str = "") -> Tyre | None:
    """The tyre that is given, or None where none is. Raises NotWorked."""
    key = f"tyre{after}"
    if not given.has(key):
        return None
    diameter = given.one(f"diameter{after}").to("mm") if given.has(f"diameter{after}") else None
    try:
        return tyre_of(given.word(key), diameter)
    except NoHeight:
        raise NotWorked(
            key, f'is "{given.word(key)}", a size that says nothing of its height',
            f"write diameter{after} from the tyre maker's table, or as measured",
        ) from None  # fmt: skip
    except NoTyre:
        raise NotWorked(
            key, f'cannot be read as the size of a tyre, found "{given.word(key)}"',
            "write it as 185/70 R 14, 165 R 15, 5.60-15 or 30 x 3 1/2",
        ) from None  # fmt: skip


def given_turn(given: Given, after: str = "") -> Fraction | None:
    """How far one turn of the given wheel goes: as measured, else by the rule; None where nothing is
    given. Raises NotWorked."""
    if given.has(f"rolling{after}"):
        return given.one(f"rolling{after}").to("mm")
    tyre = given_tyre(given, after)
    if tyre is not None:
        return tyre.turn
    if given.has(f"diameter{after}"):
        return ROLLS * given.one(f"diameter{after}").to("mm")
    return None


def turn_words(given: Given, after: str = "") -> str:
    """Where the length of a turn comes from."""
    if given.has(f"rolling{after}"):
        return "as measured"
    tyre = given_tyre(given, after)
    name = f"{tyre.name}, " if tyre else ""
    return f"{name}3.05 \N{MULTIPLICATION SIGN} the diameter over all"

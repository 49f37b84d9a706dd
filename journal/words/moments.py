"""Moments in a recording: `0:12`, `1:02:05`, `0:12.5`, counted from its start.

What comes out is exact: a moment is a fraction of whole milliseconds.
"""

import re
from fractions import Fraction

_FORM = re.compile(r"(?:(?:([0-9]{1,3}):(?=[0-9]{2}:))?([0-9]{1,3}):)([0-9]{2})(?:\.([0-9]{1,3}))?")


def parse_moment(text: str) -> Fraction:
    """Seconds from minutes and seconds, `0:12`, or hours before them, `1:02:05`, to the millisecond.

    Raises ValueError for every other form.
    """
    found = _FORM.fullmatch(text)
    if found is None:
        raise ValueError("no minutes and seconds")
    hours, minutes, seconds = int(found[1] or 0), int(found[2]), int(found[3])
    if seconds > 59 or (found[1] and minutes > 59):
        raise ValueError("more than 59 minutes or seconds")
    whole = (hours * 60 + minutes) * 60 + seconds
    return whole + Fraction(int((found[4] or "0").ljust(3, "0")), 1000)


def moment_text(seconds: Fraction) -> str:
    """A moment as it is written: `0:12`, `1:02:05`, `0:12.5`; what is less than a millisecond goes."""
    whole, part = divmod(int(seconds * 1000), 1000)
    minutes, second = divmod(whole, 60)
    hours, minute = divmod(minutes, 60)
    clock = f"{hours}:{minute:02}:{second:02}" if hours else f"{minute}:{second:02}"
    return clock + _decimals(part)


def seconds_text(seconds: Fraction) -> str:
    """A moment in seconds, `12` or `12.5`, as an address of a place in a recording has it."""
    whole, part = divmod(int(seconds * 1000), 1000)
    return f"{whole}{_decimals(part)}"


def _decimals(milliseconds: int) -> str:
    return f".{milliseconds:03}".rstrip("0") if milliseconds else ""

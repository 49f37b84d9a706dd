"""The two sides of a car: how names and notes say them, and what a name is without its side."""

import re
from enum import StrEnum


class Side(StrEnum):
    """A side of the car: by the kerb and the road, or by the hand of one who sits in it."""

    NEAR = "near side"
    OFF = "off side"
    LEFT = "left"
    RIGHT = "right"


# The two ways to name the sides, first side first.
NAMINGS: tuple[tuple[Side, Side], ...] = ((Side.NEAR, Side.OFF), (Side.LEFT, Side.RIGHT))

_WRITTEN: dict[str, Side] = {
    "near side": Side.NEAR, "near-side": Side.NEAR, "nearside": Side.NEAR, "n/s": Side.NEAR,
    "off side": Side.OFF, "off-side": Side.OFF, "offside": Side.OFF, "o/s": Side.OFF,
    "left-hand side": Side.LEFT, "left-hand": Side.LEFT, "left side": Side.LEFT, "left": Side.LEFT,
    "right-hand side": Side.RIGHT, "right-hand": Side.RIGHT, "right side": Side.RIGHT,
    "right": Side.RIGHT,
}  # fmt: skip
_SIDE = re.compile(
    r"(?<!\w)(" + "|".join(sorted(map(re.escape, _WRITTEN), key=len, reverse=True)) + r")(?!\w)",
    re.IGNORECASE,
)


def side_in(text: str) -> Side | None:
    """The side that a text names, or None when it names none, or more than one."""
    found = {_WRITTEN[word.casefold()] for word in _SIDE.findall(text)}
    return found.pop() if len(found) == 1 else None


def without_side(text: str) -> str:
    """A name without the side in it, for finding its counterpart: `door gap, near side` is `door
    gap`, `brakes/front-near-side` is `brakes/front`. A name of two sides stays as it is."""
    if side_in(text) is None:
        return text
    words = re.sub(r"\s+", " ", _SIDE.sub(" ", text))
    words = re.sub(r"[ -]*(,|-)[ -]*(?=,|-|/|$)", "", words).replace(" -", "-").replace("/-", "/")
    return re.sub(r"\s*/\s*", "/", words).strip(" ,-")


def value_names(note: str | None, count: int) -> tuple[str, ...]:
    """The names that a note gives to `count` values, in their order; empty when it gives none.

    What stands before the first semicolon names the values when it has as many words between
    commas as there are values: `Near side, off side; after skimming` names two.
    """
    names = [name.strip() for name in (note or "").split(";")[0].split(",")]
    return tuple(names) if count > 1 and len(names) == count and all(names) else ()

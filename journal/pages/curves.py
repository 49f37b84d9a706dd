"""Values over time as a small drawing: a dot for each value, the limits as a band, a line between.

As in `charts`, horizontal places are percentages of the frame and vertical ones CSS pixels.
"""

import itertools
from collections.abc import Sequence
from datetime import date
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from journal.pages.charts import AxisMark, GridLine, Span, place
from journal.pages.value import Value
from journal.words.amounts import plain_number

_AIR = Fraction(3, 20)
_TEXT = 15


class Step(Struct, frozen=True):
    """What was read on one day. `kept` says of each value whether it keeps the limits; `least` and
    `most` are those of that day."""

    day: date
    values: tuple[Fraction, ...]
    words: tuple[str, ...]
    kept: tuple[bool, ...]
    least: Fraction | None = None
    most: Fraction | None = None

    @property
    def mean(self) -> Fraction:
        """The middle of the values."""
        return sum(self.values, Fraction(0)) / len(self.values)


class Dot(Value, frozen=True):
    """One value; `outside` draws it as a cross."""

    x: str
    y: str
    words: str
    outside: bool


class Stroke(Value, frozen=True):
    """The line from one day to the next; `falls` marks one that must not fall and does."""

    x1: str
    y1: str
    x2: str
    y2: str
    falls: bool


class Band(Value, frozen=True):
    """What the limits of a day allow, until the next day."""

    x: str
    width: str
    y: str
    height: str


class Curve(Value, frozen=True):
    """The drawing, `height` pixels high, over months when its days differ."""

    height: int
    bands: tuple[Band, ...]
    strokes: tuple[Stroke, ...]
    dots: tuple[Dot, ...]
    levels: tuple[GridLine, ...]
    axis: tuple[AxisMark, ...]


class Frame:
    """Where days and values lie: days by the month, or evenly when all are the same."""

    def __init__(self, steps: Sequence[Step], height: int, floor: Fraction | None = None) -> None:
        days = [step.day for step in steps]
        self.height = height
        self.span = Span(days[0], days[-1]) if days[0] != days[-1] else None
        self._places = [
            self.span.share(day) if self.span else Fraction(2 * n + 1, 2 * len(days))
            for n, day in enumerate(days)
        ]
        ends = [end for s in steps for end in (*s.values, s.least, s.most) if end is not None]
        low, high = min(ends), max(ends)
        air = (high - low) * _AIR or abs(high) * _AIR or Fraction(1)
        self.low = floor if floor is not None else low - air
        self._wide = high + air - self.low

    def x(self, n: int) -> Fraction:
        """The place of a step across the frame, 0 to 1."""
        return self._places[n]

    def y(self, value: Fraction) -> Fraction:
        """The place of a value down the frame in pixels."""
        return self.height * (1 - (value - self.low) / self._wide)


def curve_of(
    steps: Sequence[Step],
    levels: Sequence[tuple[Fraction, str]],
    *,
    height: int = 96,
    floor: Fraction | None = None,
    rising: bool = False,
) -> Curve:
    """Steps in order of days as a drawing; `floor` is the value at its foot, `rising` means that
    what falls is wrong; `levels` are labelled, those too near the last one left out."""
    frame = Frame(steps, height, floor)
    return Curve(
        height, _bands(steps, frame), _strokes(steps, frame, rising), _dots(steps, frame),
        _levels(levels, frame), _axis(frame),
    )  # fmt: skip


def _axis(frame: Frame) -> tuple[AxisMark, ...]:
    """Months or years under the drawing; where years alone are told they stand under their mark."""
    marks = frame.span.axis() if frame.span else ()
    if all(mark.label.isdigit() for mark in marks):
        return tuple(replace(mark, anchor="middle") for mark in marks)
    return marks


def _px(value: Fraction) -> str:
    return plain_number(value, 1)


def _dots(steps: Sequence[Step], frame: Frame) -> tuple[Dot, ...]:
    return tuple(
        Dot(place(frame.x(n)), _px(frame.y(value)), words, not kept)
        for n, step in enumerate(steps)
        for value, words, kept in zip(step.values, step.words, step.kept, strict=True)
    )


def _strokes(steps: Sequence[Step], frame: Frame, rising: bool) -> tuple[Stroke, ...]:
    return tuple(
        Stroke(
            place(frame.x(n)), _px(frame.y(before.mean)), place(frame.x(n + 1)),
            _px(frame.y(after.mean)), rising and after.mean < before.mean,
        )
        for n, (before, after) in enumerate(itertools.pairwise(steps))
    )  # fmt: skip


def _bands(steps: Sequence[Step], frame: Frame) -> tuple[Band, ...]:
    bands = []
    for n, step in enumerate(steps):
        if step.least is None and step.most is None:
            continue
        left = Fraction(0) if n == 0 else frame.x(n)
        right = Fraction(1) if n + 1 == len(steps) else frame.x(n + 1)
        top = frame.y(step.most) if step.most is not None else Fraction(0)
        foot = frame.y(step.least) if step.least is not None else Fraction(frame.height)
        bands.append(Band(place(left), place(right - left), _px(top), _px(foot - top)))
    return tuple(bands)


def _levels(levels: Sequence[tuple[Fraction, str]], frame: Frame) -> tuple[GridLine, ...]:
    shown: list[tuple[Fraction, str]] = []
    for value, label in levels:
        y = frame.y(value)
        if all(abs(y - other) >= _TEXT for other, _ in shown):
            shown.append((y, label))
    return tuple(GridLine(_px(y), label) for y, label in shown)

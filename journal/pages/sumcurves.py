"""The curves of a bench sum as a drawing: lines over a grid, told apart by their stroke.

As in `charts`, horizontal places are percentages of the frame and vertical ones CSS pixels.
"""

import itertools
from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import ceil, floor

from msgspec import Struct

from journal.bench.base.worked import Amount, Curve
from journal.pages.charts import AxisMark, GridLine, place
from journal.pages.curves import Stroke
from journal.pages.value import Value
from journal.words.amounts import plain_number

HEIGHT = 190


class DrawnLine(Value, frozen=True):
    """One line: what it is, its number for the stroke, and its pieces."""

    label: str
    number: int
    strokes: tuple[Stroke, ...]


class DrawnCurve(Value, frozen=True):
    """A drawing, `height` pixels high, with what is told along each side."""

    title: str
    across: str
    up: str
    height: int
    lines: tuple[DrawnLine, ...]
    levels: tuple[GridLine, ...]
    axis: tuple[AxisMark, ...]


class _Scale(Struct, frozen=True):
    """A side of the drawing in round steps from `low` to `high`."""

    low: Fraction
    high: Fraction
    step: Fraction

    def share(self, value: Fraction) -> Fraction:
        return (value - self.low) / (self.high - self.low)

    def marks(self) -> Iterable[Fraction]:
        for n in range(int((self.high - self.low) / self.step) + 1):
            yield self.low + n * self.step


def drawn(curve: Curve) -> DrawnCurve:
    """A curve of at least one point as a drawing."""
    points = [point for line in curve.lines for point in line.points]
    across = _scale([x for x, _ in points])
    up = _scale([y for _, y in points])
    return DrawnCurve(
        curve.title, curve.across, curve.up, HEIGHT,
        tuple(
            DrawnLine(line.label, n, tuple(_strokes(line.points, across, up)))
            for n, line in enumerate(curve.lines)
        ),
        tuple(GridLine(_px(up.share(level)), plain_number(level, 4)) for level in up.marks()),
        tuple(_axis(across)),
    )  # fmt: skip


def _scale(values: Sequence[Amount]) -> _Scale:
    """Round steps that hold all values; a side on which nothing changes gets one step."""
    low, high = Fraction(min(values)), Fraction(max(values))
    step = _step(high - low) if high > low else Fraction(1)
    first, last = floor(low / step) * step, ceil(high / step) * step
    return _Scale(first, last if last > first else first + step, step)


def _step(wide: Fraction) -> Fraction:
    """A round step, 1, 2 or 5 times a power of ten, of which at most five make the width."""
    power = Fraction(1)
    while power * 5 < wide:
        power *= 10
    while power * 5 >= wide:
        power /= 10
    return next(power * factor for factor in (2, 5, 10) if power * factor * 5 >= wide)


def _strokes(
    points: Sequence[tuple[Amount, Amount]], across: _Scale, up: _Scale
) -> Iterable[Stroke]:
    places = [(place(across.share(Fraction(x))), _px(up.share(Fraction(y)))) for x, y in points]
    return (Stroke(*one, *other, False) for one, other in itertools.pairwise(places))


def _px(share: Fraction) -> str:
    return plain_number(HEIGHT * (1 - share), 1)


def _axis(scale: _Scale) -> Iterable[AxisMark]:
    marks = tuple(scale.marks())
    for n, mark in enumerate(marks):
        anchor = "start" if n == 0 else "end" if n + 1 == len(marks) else "middle"
        # A narrow page has room for every second mark.
        yield AxisMark(place(scale.share(mark)), plain_number(mark, 4), n % 2, anchor)

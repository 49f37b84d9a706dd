"""Bars for progress: earned against spent in the frame of what was agreed, and a stretch of days.

As in `charts`, horizontal places are percentages of the frame.
"""

from collections.abc import Sequence
from datetime import date
from fractions import Fraction

from journal.digests.progress.earned import Earned
from journal.pages.charts import AxisMark, Span, grid_step, place
from journal.pages.value import Value
from journal.words.amounts import plain_number


class HourBar(Value, frozen=True):
    """Widths of what was agreed, earned and spent, to one scale."""

    agreed: str
    earned: str
    spent: str


class HourBars(Value, frozen=True):
    """Bars over one scale of hours, in the order of what they were drawn from."""

    scale: tuple[AxisMark, ...]
    bars: tuple[HourBar, ...]


class Stretch(Value, frozen=True):
    """A stretch of days on a time axis: from `x` over `width`, with its middle, and the day that is
    wanted, where there is one."""

    axis: tuple[AxisMark, ...]
    x: str
    width: str
    middle: str
    wanted: str


def hour_bars(hours: Sequence[Earned]) -> HourBars:
    """All to the scale of the longest; the scale has marks at round hours."""
    most = max((max(h.budget, h.spent, h.earned) for h in hours), default=Fraction(0)) or Fraction(
        1
    )
    step = grid_step(most / 2)
    levels = [step * n for n in range(int(most / step) + 1)]
    scale = tuple(
        AxisMark(place(level / most), plain_number(level), 0, _anchor(level / most))
        for level in levels
    )
    return HourBars(
        scale,
        tuple(
            HourBar(place(h.budget / most), place(h.earned / most), place(h.spent / most))
            for h in hours
        ),
    )


def _anchor(share: Fraction) -> str:
    if share == 0:
        return "start"
    return "end" if share > Fraction(19, 20) else "middle"


def stretch(day: date, early: date, middle: date, late: date, wanted: date | None) -> Stretch:
    """A stretch on an axis from `day` on, long enough for the day that is wanted too."""
    ahead = wanted if wanted is not None and wanted > day else None
    span = Span(day, max(late, ahead or late))
    left, right = span.share(early), span.share(late)
    return Stretch(
        span.axis(), place(left), place(right - left), place(span.share(middle)),
        place(span.share(ahead)) if ahead else "",
    )  # fmt: skip

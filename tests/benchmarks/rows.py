"""Rows of the table: what was measured, its floor, its goal, and whether that is met."""

from typing import NamedTuple


class Row(NamedTuple):
    """One measurement in its `unit`; `goal` bounds its ratio to the floor, or itself where it has none.

    `least` marks a goal that is to be reached and not kept below. `worked` are the seconds of the processor
    of what is measured on the clock, on all cores: other work on the machine does not change those.
    """

    what: str
    value: float
    unit: str = ""
    floor: float | None = None
    goal: float | None = None
    least: bool = False
    worked: float | None = None

    @property
    def judged(self) -> float:
        """The figure that the goal is about."""
        return self.value if self.floor is None else self.value / self.floor

    @property
    def verdict(self) -> str:
        """`met` or `MISS`; nothing where there is no goal."""
        if self.goal is None:
            return ""
        met = self.judged >= self.goal if self.least else self.judged <= self.goal
        return "met" if met else "MISS"

    @property
    def cells(self) -> tuple[str, ...]:
        """The row as it is printed."""
        bound = "" if self.goal is None else f"{'>=' if self.least else '<='} {_figure(self.goal)}"
        floor = "" if self.floor is None else f"{_figure(self.floor)} {self.unit}"
        ratio = "" if self.floor is None else f"{self.judged:.2f}"
        unit = f" {self.unit}" if self.goal is not None and self.floor is None and self.unit else ""
        worked = "" if self.worked is None else f"{_figure(self.worked)} s"
        return (self.what, f"{_figure(self.value)} {self.unit}".strip(), worked, floor, ratio,
                f"{bound}{unit}", self.verdict)  # fmt: skip

    @property
    def line(self) -> str:
        """The row by itself, with its figures under their names."""
        return "; ".join(
            " ".join((name, cell)).strip()
            for name, cell in zip(_HEAD, self.cells, strict=True)
            if cell
        )


_HEAD = ("", "measured", "processor", "floor", "ratio", "goal", "")


def table(rows: list[Row]) -> str:
    """All rows under a head, in columns."""
    lines = [_HEAD, *(row.cells for row in rows)]
    widths = [max(map(len, column)) for column in zip(*lines, strict=True)]
    return "\n".join(_line(line, widths) for line in lines)


def _line(cells: tuple[str, ...], widths: list[int]) -> str:
    name, *figures, verdict = cells
    right = map(str.rjust, figures, widths[1:])
    return "  ".join((name.ljust(widths[0]), *right, verdict)).rstrip()


def _figure(value: float) -> str:
    """Three figures, or all before the point."""
    return f"{value:,.0f}" if value >= 100 else f"{value:.3g}"

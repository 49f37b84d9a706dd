"""Numbers: each stamped number as the papers give it, as found and as read since.

Hears `numbers` in the car file and the papers, and `number` in work. Two statements of the same
number that differ in their letters or digits make it disputed; nothing is averaged away.
"""

from dataclasses import dataclass
from datetime import date

from journal.records.carfile import CarFile
from journal.words.text import comparable


@dataclass(frozen=True)
class Statement:
    """One statement of a number: by whom (a paper, the car as found, a sheet), on what day."""

    value: str
    kind: str
    ref: str | None = None
    day: date | None = None


@dataclass(frozen=True)
class NumberLine:
    """One number with everything that speaks for and against it."""

    name: str
    on: str | None
    note: str | None
    statements: tuple[Statement, ...]

    @property
    def disputed(self) -> bool:
        """Whether two statements differ in letters or digits."""
        return len({comparable(s.value) for s in self.statements}) > 1

    @property
    def recorded(self) -> tuple[Statement, ...]:
        """What the papers say."""
        return tuple(s for s in self.statements if s.kind == "paper")


@dataclass(frozen=True)
class Numbers:
    """The car's numbers in the order of the car file, then those only papers know."""

    lines: tuple[NumberLine, ...] = ()

    @property
    def disputed_components(self) -> frozenset[str]:
        """Components that carry a disputed number."""
        return frozenset(line.on for line in self.lines if line.on and line.disputed)


def fold_numbers(car: CarFile) -> Numbers:
    """Gather statements by number name; readings in sheets join the number of their component."""
    carried = {n.on: name for name, n in car.car.numbers if n.on}
    gathered: dict[str, list[Statement]] = {name: [] for name, _ in car.car.numbers}
    for name, paper in car.papers:
        for number, value in paper.numbers:
            gathered.setdefault(number, []).append(Statement(value, "paper", name, paper.date))
    for name, number_as_found in car.car.numbers:
        if number_as_found.found:
            gathered[name].append(
                Statement(number_as_found.found, "as found", None, car.car.booked_in)
            )
    for sheet in car.sheets:
        for key, work in sheet.front.work:
            if work.number and key in carried:
                gathered[carried[key]].append(
                    Statement(work.number, "sheet", sheet.name, sheet.date)
                )
    lines = []
    for name, statements in gathered.items():
        written = car.car.numbers.get(name)
        on, note = (written.on, written.note) if written else (None, None)
        lines.append(NumberLine(name, on, note, tuple(statements)))
    return Numbers(tuple(lines))

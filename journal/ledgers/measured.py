"""Measured: readings against their limits.

Hears `measured` in sheets. A reading is inside when every value of it keeps both limits.
"""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from journal.records.carfile import CarFile


@dataclass(frozen=True)
class Reading:
    """Readings of one dimension on one day. `inside` is absent when no limit was given."""

    day: date
    sheet: str
    subsystem: str
    name: str
    on: str | None
    values: tuple[Decimal, ...]
    unit: str
    least: Decimal | None = None
    most: Decimal | None = None
    tool: str | None = None
    note: str | None = None

    @property
    def inside(self) -> bool | None:
        """Whether every value keeps its limits."""
        if self.least is None and self.most is None:
            return None
        return all(
            (self.least is None or v >= self.least) and (self.most is None or v <= self.most)
            for v in self.values
        )


@dataclass(frozen=True)
class Measurements:
    """All readings in order of sheets."""

    readings: tuple[Reading, ...] = ()

    def on(self, key: str) -> tuple[Reading, ...]:
        """Readings taken on one component."""
        return tuple(r for r in self.readings if r.on == key)


def fold_measured(car: CarFile) -> Measurements:
    """Collect every reading with the subsystem that it belongs to."""
    readings = []
    for sheet in car.sheets:
        for name, m in sheet.front.measured:
            subsystem = m.on.split("/")[0] if m.on else sheet.front.subsystem[0]
            least, most = (m.limit.least, m.limit.most) if m.limit else (None, None)
            readings.append(
                Reading(
                    sheet.date, sheet.name, subsystem, name, m.on, m.read, m.unit,
                    least, most, m.with_, m.note,
                )
            )  # fmt: skip
    return Measurements(tuple(readings))

"""Planned, earned and spent hours, and what is reckoned from them."""

from datetime import date
from fractions import Fraction

from msgspec import Struct


class Earned(Struct, frozen=True):
    """Planned, earned and spent hours, with what is usually reckoned from them.

    The definitions are the published ones of earned value: cost variance CV = EV - AC, schedule
    variance SV = EV - PV, CPI = EV / AC, SPI = EV / PV, estimate at completion EAC = BAC / CPI,
    to complete ETC = EAC - AC, variance at completion VAC = BAC - EAC,
    TCPI = (BAC - EV) / (BAC - AC). What would divide by nothing is absent.
    """

    budget: Fraction
    planned: Fraction | None
    earned: Fraction
    spent: Fraction

    @property
    def cost_variance(self) -> Fraction:
        """CV, hours: below nothing when more was spent than earned."""
        return self.earned - self.spent

    @property
    def schedule_variance(self) -> Fraction | None:
        """SV, hours: below nothing when less was earned than planned."""
        return None if self.planned is None else self.earned - self.planned

    @property
    def cpi(self) -> Fraction | None:
        """Hours earned for each hour spent."""
        return self.earned / self.spent if self.spent else None

    @property
    def spi(self) -> Fraction | None:
        """Hours earned for each hour planned by now."""
        return self.earned / self.planned if self.planned else None

    @property
    def at_completion(self) -> Fraction | None:
        """EAC, hours: what it comes to when the rest goes as it went so far."""
        return self.budget / self.cpi if self.cpi else None

    @property
    def to_complete(self) -> Fraction | None:
        """ETC, hours still to come."""
        return None if self.at_completion is None else self.at_completion - self.spent

    @property
    def variance_at_completion(self) -> Fraction | None:
        """VAC, hours: below nothing when it comes to more than was agreed."""
        return None if self.at_completion is None else self.budget - self.at_completion

    @property
    def to_complete_index(self) -> Fraction | None:
        """TCPI: hours that must be earned for each hour left of what was agreed."""
        left = self.budget - self.spent
        return (self.budget - self.earned) / left if left else None


def elapsed(first: date, target: date, day: date) -> Fraction:
    """Share of the calendar days from `first` to `target` that has gone by on `day`, 0 to 1."""
    if day >= target:
        return Fraction(1)
    if day <= first:
        return Fraction(0)
    return Fraction((day - first).days, (target - first).days)

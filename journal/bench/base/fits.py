"""Fits as they are measured: a bore and what turns or slides in it, and what the maker allows of them."""

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct


class Part(Struct, frozen=True):
    """A bore or a shaft as it was measured, in mm: at each place the reading and the one square to it."""

    places: tuple[tuple[Fraction, Fraction | None], ...]

    @property
    def _all(self) -> tuple[Fraction, ...]:
        return tuple(reading for pair in self.places for reading in pair if reading is not None)

    @property
    def least(self) -> Fraction:
        """The smallest diameter read."""
        return min(self._all)

    @property
    def most(self) -> Fraction:
        """The largest diameter read."""
        return max(self._all)

    @property
    def ovality(self) -> Fraction | None:
        """The largest difference at right angles, or None where no place was read both ways."""
        return max((abs(a - b) for a, b in self.places if b is not None), default=None)

    @property
    def taper(self) -> Fraction | None:
        """The largest difference along one line, or None where one place was read."""
        lines = ([a for a, _ in self.places], [b for _, b in self.places if b is not None])
        return max((max(line) - min(line) for line in lines if len(line) > 1), default=None)


class Bearing(Struct, frozen=True):
    """A bore and what turns or slides in it."""

    name: str
    bore: Part
    shaft: Part

    @property
    def least(self) -> Fraction:
        """The smallest clearance that the readings allow."""
        return self.bore.least - self.shaft.most

    @property
    def most(self) -> Fraction:
        """The largest clearance that the readings allow."""
        return self.bore.most - self.shaft.least


class Maker(Struct, frozen=True):
    """What the maker allows, in mm: clearance, shape, and the sizes of the part that is machined.

    `fit` is journal, piston or bush. `steps` are the under- or oversizes, smallest first; `cleanup` is
    the metal that machining takes off all round, on the diameter.
    """

    fit: str
    low: Fraction
    high: Fraction
    ovality: Fraction | None
    taper: Fraction | None
    standard: tuple[Fraction, Fraction] | None
    steps: tuple[Fraction, ...]
    cleanup: Fraction

    @property
    def sign(self) -> int:
        """Which way a step goes: journals get smaller, cylinders larger."""
        return 1 if self.fit == "piston" else -1

    def machined(self, bearing: Bearing) -> Part:
        """The part that is machined where it is worn."""
        return bearing.bore if self.fit == "piston" else bearing.shaft

    def out_of_shape(self, part: Part) -> bool:
        """Whether it is more oval or more tapered than allowed."""
        pairs = ((part.ovality, self.ovality), (part.taper, self.taper))
        return any(found > most for found, most in pairs if found is not None and most is not None)

    def sizes(self, step: Fraction) -> tuple[Fraction, Fraction]:
        """The smallest and the largest diameter of a step."""
        assert self.standard is not None
        return self.standard[0] + self.sign * step, self.standard[1] + self.sign * step

    def worn(self, part: Part) -> bool:
        """Whether a part is of none of the sizes that there are."""
        ends = (self.sizes(step) for step in (Fraction(0), *self.steps))
        return not any(low <= part.least and part.most <= high for low, high in ends)

    def next_step(self, parts: Sequence[Part]) -> Fraction | None:
        """The first step to which all parts clean up, or None where the last is not enough."""
        for step in self.steps:
            low, high = self.sizes(step)
            if self.fit == "piston" and max(p.most for p in parts) + self.cleanup <= low:
                return step
            if self.fit != "piston" and high <= min(p.least for p in parts) - self.cleanup:
                return step
        return None

    def remedy(self, bearing: Bearing) -> str:
        """What a bearing needs: one of `machine-shape`, `machine-worn`, `tight`, `renew`, `wide`, or nothing."""
        part = self.machined(bearing)
        if self.out_of_shape(part):
            return "machine-shape"
        if bearing.least < self.low:
            return "tight"
        if bearing.most <= self.high:
            return ""
        if self.fit == "bush":
            return "renew"
        if self.standard is None:
            return "wide"
        return "machine-worn" if self.worn(part) else "renew"

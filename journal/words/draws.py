"""Drawing lots by rule: a sequence that behaves as chance does and is the same on every machine.

The generator is SplitMix64 (Steele, Lea and Flood, Fast splittable pseudorandom number generators,
2014). Quantiles are the smallest value at which the share of values reached is at least the one
asked for.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TypeVar

T = TypeVar("T")

_ALL = (1 << 64) - 1


class Lots:
    """Lots drawn one after another; the same seed gives the same lots."""

    def __init__(self, seed: int) -> None:
        self._state = seed & _ALL

    def number(self) -> int:
        """The next whole number from 0 to 2**64 - 1."""
        self._state = (self._state + 0x9E3779B97F4A7C15) & _ALL
        z = self._state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & _ALL
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & _ALL
        return z ^ (z >> 31)

    def draw(self, sample: Sequence[T]) -> T:
        """One of a sample, each as likely as the next; it goes back before the next draw."""
        return sample[self.number() * len(sample) >> 64]

    def draws(self, sample: Sequence[T]) -> Iterator[T]:
        """Draw upon draw without end.

        The steps of `number`, written out: hundreds of thousands are drawn for one car.
        """
        size = len(sample)
        while True:
            self._state = z = (self._state + 0x9E3779B97F4A7C15) & _ALL
            z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & _ALL
            z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & _ALL
            yield sample[(z ^ (z >> 31)) * size >> 64]


def quantile(ordered: Sequence[T], share: Fraction) -> T:
    """The smallest of ordered values that at least `share` of them do not exceed.

    Raises IndexError when there are none.
    """
    place = -(-share.numerator * len(ordered) // share.denominator)
    return ordered[max(place, 1) - 1]

"""Drawing lots by rule: a sequence that behaves as chance does and is the same on every machine.

The generator is SplitMix64 (Steele, Lea and Flood, Fast splittable pseudorandom number generators,
2014). Quantiles are the smallest value at which the share of values reached is at least the one
asked for.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import chain
from struct import unpack
from typing import TypeVar

T = TypeVar("T")

_ALL = (1 << 64) - 1
_STEP = 0x9E3779B97F4A7C15
_FIRST, _SECOND = 0xBF58476D1CE4E5B9, 0x94D049BB133111EB


class Lots:
    """Lots drawn one after another; the same seed gives the same lots."""

    def __init__(self, seed: int) -> None:
        self._state = seed & _ALL

    def number(self) -> int:
        """The next whole number from 0 to 2**64 - 1."""
        self._state = z = (self._state + _STEP) & _ALL
        z = ((z ^ (z >> 30)) * _FIRST) & _ALL
        z = ((z ^ (z >> 27)) * _SECOND) & _ALL
        return z ^ (z >> 31)

    def draw(self, sample: Sequence[T]) -> T:
        """One of a sample, each as likely as the next; it goes back before the next draw."""
        return sample[self.number() * len(sample) >> 64]


# As many draws as are made at once. Each stands in a lane of one long number: 64 bits hold its value, and
# 64 above them take what a multiplication carries out of it.
_LANES, _LANE = 1024, 128


def draws(seed: int, sample: Sequence[T]) -> Iterator[T]:
    """Draw upon draw from a sample without end: those of `Lots` from the same seed.

    A hundred thousand are drawn for one car, so that the steps of `number` are taken for many at once.
    """
    blocks = _places(seed & _ALL, len(sample))
    return chain.from_iterable(map(sample.__getitem__, block) for block in blocks)


def _places(state: int, size: int) -> Iterator[Sequence[int]]:
    """The places in a sample of that size that are drawn, `_LANES` at a time."""
    each = sum(1 << _LANE * n for n in range(_LANES))
    ahead = sum((n + 1) * _STEP << _LANE * n for n in range(_LANES))
    values = _ALL * each
    while True:
        z = (state * each + ahead) & values
        z = ((z ^ (z >> 30)) & values) * _FIRST & values
        z = ((z ^ (z >> 27)) & values) * _SECOND & values
        drawn = ((z ^ (z >> 31)) & values) * size >> 64 & values
        yield unpack(f"<{2 * _LANES}Q", drawn.to_bytes(16 * _LANES, "little"))[::2]
        state = (state + _LANES * _STEP) & _ALL


def quantile(ordered: Sequence[T], share: Fraction) -> T:
    """The smallest of ordered values that at least `share` of them do not exceed.

    Raises IndexError when there are none.
    """
    place = -(-share.numerator * len(ordered) // share.denominator)
    return ordered[max(place, 1) - 1]

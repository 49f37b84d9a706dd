"""The figures of the ledger: material M and conformity C as weighted intervals."""

from collections.abc import Iterable
from fractions import Fraction
from math import lcm
from typing import NamedTuple

from msgspec import Struct

from journal.ledgers.originality.items import Item
from journal.words.amounts import NOTHING, Interval


class Weighted(NamedTuple):
    """An item with the weight of its component."""

    weight: Fraction
    item: Item


class Figures(NamedTuple):
    """M and C of one moment: the car's own material, and conformity to the works specification."""

    material: Interval
    conformity: Interval


class Summary(Struct, frozen=True):
    """The figures of a subsystem, or of the whole car, at the three moments that count."""

    count: int
    weight: Fraction
    found: Figures
    now: Figures
    recoverable: Figures


def figures_of(items: Iterable[Weighted]) -> Figures:
    """M = sum(w r) / sum(w) and C = sum(w c) / sum(w), bound by bound.

    Unknown shares are 0 in the lower bound and 1 in the upper. Without any weight both are 0.
    """
    items = tuple(items)
    # Whole numbers weigh the same, and are multiplied and added much faster.
    unit = lcm(*(weight.denominator for weight, _ in items))
    weighed = [(weight.numerator * (unit // weight.denominator), item) for weight, item in items]
    return Figures(
        _mean([(w, i.material) for w, i in weighed]), _mean([(w, i.conformity) for w, i in weighed])
    )


def _mean(shares: list[tuple[int, Interval]]) -> Interval:
    total = sum(weight for weight, _ in shares)
    if total == 0:
        return NOTHING
    low = _sum([(weight, share.low) for weight, share in shares])
    high = _sum([(weight, share.high) for weight, share in shares])
    return Interval(low / total, high / total)


def _sum(shares: list[tuple[int, Fraction]]) -> Fraction:
    unit = lcm(*(share.denominator for _, share in shares))
    parts = (w * share.numerator * (unit // share.denominator) for w, share in shares)
    return Fraction(sum(parts), unit)

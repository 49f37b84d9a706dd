"""The figures of the ledger: material M and conformity C as weighted intervals."""

from collections.abc import Iterable
from fractions import Fraction
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
    return Figures(
        _mean([(w, i.material) for w, i in items]), _mean([(w, i.conformity) for w, i in items])
    )


def _mean(shares: list[tuple[Fraction, Interval]]) -> Interval:
    total = sum((weight for weight, _ in shares), Fraction(0))
    if total == 0:
        return NOTHING
    low = sum((weight * share.low for weight, share in shares), Fraction(0))
    high = sum((weight * share.high for weight, share in shares), Fraction(0))
    return Interval(low / total, high / total)

"""How much k of n tells: the Wilson score interval of a proportion.

    limits = (k + z²/2 ∓ z √(k (n − k)/n + z²/4)) / (n + z²)

E. B. Wilson, Probable inference, the law of succession, and statistical inference, Journal of the
American Statistical Association 22 (1927) 209-212; compared with other intervals by R. G. Newcombe,
Statistics in Medicine 17 (1998) 857-872.
"""

from decimal import Decimal, localcontext
from fractions import Fraction

from journal.words.amounts import OPEN, Interval

# About 95 in 100 such intervals hold the true share. 1.96 exactly, and not a longer figure.
Z = Decimal("1.96")
_DIGITS = 40


def wilson(hits: int, of: int, z: Decimal = Z) -> Interval:
    """The interval that `hits` out of `of` leave for the true share; all is open when `of` is 0.

    Raises ValueError when there are more hits than tries, or less than none.
    """
    if not 0 <= hits <= of:
        raise ValueError(f"{hits} of {of} is no share")
    if of == 0:
        return OPEN
    with localcontext() as context:
        context.prec = _DIGITS
        k, n, square = Decimal(hits), Decimal(of), z * z
        middle = k + square / 2
        half = z * (k * (n - k) / n + square / 4).sqrt()
        low, high = (middle - half) / (n + square), (middle + half) / (n + square)
    return Interval(max(Fraction(low), Fraction(0)), min(Fraction(high), Fraction(1)))

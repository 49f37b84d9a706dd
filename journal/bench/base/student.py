"""Student's t for whole degrees of freedom, exactly as its finite series has it.

M. Abramowitz and I. Stegun, Handbook of Mathematical Functions (1964), 26.7.3 and 26.7.4.
"""

from math import atan, cos, pi, sin, sqrt


def t_share(t: float, freedom: int) -> float:
    """The share of cases that lie between -t and t, for t of 0 or more."""
    angle = atan(t / sqrt(freedom))
    if freedom % 2:
        return 2 / pi * (angle + sin(angle) * _series(cos(angle), freedom))
    return sin(angle) * _series(cos(angle), freedom)


def _series(cosine: float, freedom: int) -> float:
    """c + 2/3 c3 + ... for odd degrees of freedom, 1 + 1/2 c2 + ... for even ones."""
    if freedom == 1:
        return 0.0
    odd = freedom % 2
    term = cosine if odd else 1.0
    added = term
    for n in range(2 + odd, freedom - 1, 2):
        term *= (n - 1) / n * cosine**2
        added += term
    return added


def t_limit(share: float, freedom: int) -> float:
    """The t between whose minus and plus a share of cases lies, 0 < share < 1."""
    low, high = 0.0, 1.0
    while t_share(high, freedom) < share:
        high *= 2
    for _ in range(100):
        middle = (low + high) / 2
        if t_share(middle, freedom) < share:
            low = middle
        else:
            high = middle
    return high

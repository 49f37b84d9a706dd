"""Money: exact amounts in a currency, and its smallest coin.

Codes and numbers of decimals: ISO 4217. Those with other than two decimals stand below (reference
values of the project, section 21; IQD and MGA after ISO 4217, from memory).
"""

from collections.abc import Sequence
from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import lcm

from journal.words.amounts import half_up
from journal.words.vocabulary import TaxBy, TaxRounding

_DECIMALS = {
    **dict.fromkeys(("JPY", "ISK", "KRW", "CLP", "VND", "PYG", "UGX"), 0),
    **dict.fromkeys(("BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"), 3),
    "CLF": 4,
}
_TWO = frozenset(
    code
    for line in (
        "AED ARS AUD BGN BRL CAD CHF CNY CZK DKK EGP EUR GBP HKD HUF IDR ILS INR KES MAD MGA MXN MYR",
        "NOK NZD PHP PLN QAR RON SAR SEK SGD THB TRY UAH USD ZAR",
    )
    for code in line.split()
)
KNOWN: frozenset[str] = frozenset(_DECIMALS) | _TWO


def decimals_of(currency: str) -> int:
    """How many decimals the smallest coin of a currency has."""
    return _DECIMALS.get(currency, 2)


def to_coin(amount: Decimal, currency: str, rounding: TaxRounding = TaxRounding.NEAREST) -> Decimal:
    """An amount rounded to the smallest coin of its currency: half a coin up, or always down."""
    coin = Decimal(1).scaleb(-decimals_of(currency))
    way = ROUND_DOWN if rounding is TaxRounding.DOWN else ROUND_HALF_UP
    return amount.quantize(coin, rounding=way)


def tax_on(
    nets: tuple[Decimal, ...], percent: Decimal, currency: str, by: TaxBy, rounding: TaxRounding
) -> Decimal:
    """Tax on net amounts, rounded on every line or once on the total, as the workshop sets."""
    if by is TaxBy.LINE:
        return sum((to_coin(net * percent / 100, currency, rounding) for net in nets), Decimal(0))
    return to_coin(sum(nets, Decimal(0)) * percent / 100, currency, rounding)


def shared_out(amounts: Sequence[Fraction], currency: str) -> tuple[Decimal, ...]:
    """Exact amounts of 0 or more in whole coins that add up to their own sum, rounded half up.

    Every amount first gets its whole coins; the coins left over go to those that lost most, the
    earlier of two that lost the same (the method of largest remainders).
    """
    places = decimals_of(currency)
    # In whole parts of a coin, so many of which make one that all amounts consist of them.
    coin = lcm(*(amount.denominator for amount in amounts))
    parts = [a.numerator * (coin // a.denominator) * 10**places for a in amounts]
    whole = [count // coin for count in parts]
    left = half_up(sum(parts), coin) - sum(whole)
    by_loss = sorted(range(len(parts)), key=lambda n: (whole[n] * coin - parts[n], n))
    for n in by_loss[:left]:
        whole[n] += 1
    return tuple(Decimal(coins).scaleb(-places) for coins in whole)


def converted(amount: Decimal, rate: Decimal, currency: str) -> Decimal:
    """A foreign amount in the workshop's currency: `rate` is what one unit of it cost there."""
    return to_coin(amount * rate, currency)

"""Money as print has it, in the English of the workshop: the one place that asks a library how."""

from decimal import Decimal
from functools import cache, lru_cache

from babel.core import Locale
from babel.numbers import NumberPattern, get_currency_symbol, parse_pattern

from journal.words.money import decimals_of, to_coin

LOCALE = Locale.parse("en_GB")


def money_in(currency: str, amount: Decimal) -> str:
    """An amount with its sign of currency: `£1,212.00`, `−£30.00`, `JP¥1,200`, `CHF 5.00`.

    Decimals are those of ISO 4217, which the library's own data do not follow everywhere. Letters
    are set off from the figure.
    """
    return _told(currency, str(to_coin(amount, currency)))


# An amount stands on several pages, and the library takes long over each. It is known by its text, in which
# a nought that was below nothing is told from another.
@lru_cache(maxsize=4096)
def _told(currency: str, coins: str) -> str:
    text: str = _pattern(currency).apply(
        Decimal(coins), LOCALE, currency=currency, currency_digits=False
    )
    return text.replace("-", "\N{MINUS SIGN}")


@cache
def _pattern(currency: str) -> NumberPattern:
    places = decimals_of(currency)
    gap = "\N{NO-BREAK SPACE}" if get_currency_symbol(currency, LOCALE)[-1].isalpha() else ""
    return parse_pattern(f"¤{gap}#,##0" + (f".{'0' * places}" if places else ""))

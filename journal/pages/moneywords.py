"""Money as print has it, in the English of the workshop."""

from decimal import Decimal

from journal.words.money import to_coin

# The signs of currencies that have another one than their code, as British English writes them (Unicode
# CLDR, locale en_GB). A library for all languages takes longer to load than all money of a car to print;
# the tests hold the table against it.
_SIGNS = {
    "AUD": "A$", "BRL": "R$", "CAD": "CA$", "CNY": "CN¥", "EUR": "€", "GBP": "£", "HKD": "HK$", "ILS": "₪",
    "INR": "₹", "JPY": "JP¥", "KRW": "₩", "MXN": "MX$", "NZD": "NZ$", "PHP": "₱", "USD": "US$", "VND": "₫",
}  # fmt: skip


def money_in(currency: str, amount: Decimal) -> str:
    """An amount with its sign of currency: `£1,212.00`, `−£30.00`, `JP¥1,200`, `CHF 5.00`.

    Decimals are those of ISO 4217. Letters are set off from the figure.
    """
    coins, sign = to_coin(amount, currency), _SIGNS.get(currency, currency)
    gap = "\N{NO-BREAK SPACE}" if sign[-1].isalpha() else ""
    minus = "\N{MINUS SIGN}" if coins.is_signed() else ""
    return f"{minus}{sign}{gap}{coins.copy_abs():,f}"

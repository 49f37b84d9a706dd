"""Values as a page says them: shares, hours, money, days, and who did what."""

from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction

from journal.pages.moneywords import money_in
from journal.pages.value import Value
from journal.records.workshop import Workshop
from journal.words.amounts import Interval, half_up, percent, plain_number
from journal.words.dates import long_date, month_name, plain_date
from journal.words.text import counted
from journal.words.vocabulary import Reader

_SMALL = (
    "no", "one", "two", "three", "four", "five", "six",
    "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)  # fmt: skip

day_words = plain_date
weekday_words = long_date
month_words = month_name


MINUS = "\N{MINUS SIGN}"


class Figure(Value, frozen=True):
    """Hours in a column. `pad` brings the figure to the decimals of its column: it keeps the place
    of the decimal point and is not seen."""

    text: str
    pad: str = ""


def in_words(number: int) -> str:
    """Small whole numbers in letters, as running text has them: `seven`, `34`, `1,204`."""
    return _SMALL[number] if 0 <= number < len(_SMALL) else f"{number:,}"


def sentence(text: str) -> str:
    """A text that starts with a capital."""
    return text[:1].upper() + text[1:]


def some(number: int, one: str, many: str = "") -> str:
    """`no sheets`, `one sheet`, `seven sheets`, `34 sheets`."""
    return f"{in_words(number)} {one if number == 1 else many or one + 's'}"


def percent_words(share: Interval) -> str:
    """`61 to 64 %`, or `61 %` when both ends read the same; the sign stays with its figure."""
    low, high = percent(share.low), percent(share.high)
    return f"{low}\N{NO-BREAK SPACE}%" if low == high else f"{low} to {high}\N{NO-BREAK SPACE}%"


def share_words(share: Interval) -> str:
    """A share for a table: `1.00`, `0.60`, `0 to 1`."""
    if share.certain:
        return _two_places(share.low)
    return f"{plain_number(share.low)} to {plain_number(share.high)}"


def _two_places(share: Fraction) -> str:
    over, under = share.as_integer_ratio()
    hundredths = half_up(over * 100, under)
    return f"{hundredths // 100}.{hundredths % 100:02d}"


def hours_words(hours: Fraction) -> str:
    """`1 hour`, `3.5 hours`, `1,240 hours`; tenths are left out from a hundred hours on."""
    number = hours_number(hours)
    return f"{number} {'hour' if number == '1' else 'hours'}"


def hours_number(hours: Fraction) -> str:
    """Hours as a figure: `3.25`, `74.5`, `1,240`."""
    if hours < 100:
        return plain_number(hours, 2)
    return f"{half_up(*hours.as_integer_ratio()):,}"


def exact_hours(hours: Fraction | Decimal, places: int = 2) -> str:
    """Hours to a hundredth, so that every total is the sum of its lines as printed: `1,240.25`."""
    whole, dot, rest = plain_number(hours, places).removeprefix("-").partition(".")
    return f"{MINUS if hours < 0 else ''}{int(whole):,}{dot}{rest}"


def decimals_in(column: Iterable[Fraction | Decimal | None], most: int = 2) -> int:
    """How many decimals the hours of a column need, so that none has a needless one."""
    texts = (exact_hours(hours, most) for hours in column if hours is not None)
    return max((len(text.partition(".")[2]) for text in texts), default=0)


def hours_figure(hours: Fraction | Decimal | None, decimals: int) -> Figure:
    """Hours in a column of so many decimals; an empty figure without any."""
    if hours is None:
        return Figure("")
    text = exact_hours(hours, decimals)
    missing = decimals - len(text.partition(".")[2])
    point = "." if missing and "." not in text else ""
    return Figure(text, point + "0" * missing)


def days_words(days: int) -> str:
    """A stretch of days as people say it: days, then weeks, then months."""
    if days < 21:
        return counted(days, "day")
    if days < 100:
        return counted(round(days / 7), "week")
    return counted(round(days / 30.44), "month")


def money_words(workshop: Workshop, amount: Decimal) -> str:
    """An amount in the workshop's currency: `£1,212.00`."""
    return money_in(workshop.currency, amount)


def some_money(workshop: Workshop, amount: Decimal) -> str:
    """An amount for a cell of a table, empty when it is nothing."""
    return money_words(workshop, amount) if amount else ""


def readings_words(values: Sequence[Decimal], unit: str) -> str:
    """Readings as they were taken: `5.1, 5.0 mm`."""
    return f"{', '.join(f'{value:f}' for value in values)}{with_unit(unit)}"


def limit_words(least: Decimal | None, most: Decimal | None) -> str | None:
    """Limits in words: `4.8 to 5.2`, `at most 0.05`; None without any."""
    if least is not None and most is not None:
        return f"{least} to {most}"
    if most is not None:
        return f"at most {most}"
    return f"at least {least}" if least is not None else None


def with_unit(unit: str) -> str:
    """A unit as it follows its figure, from which it is never parted."""
    space = "" if unit == "deg" else "\N{NO-BREAK SPACE}"
    return f"{space}{unit_words(unit)}"


def unit_words(unit: str) -> str:
    """A unit as print has it."""
    signs = {"C": "°C", "F": "°F", "deg": "°", "ohm": "Ω", "kohm": "kΩ", "Mohm": "MΩ"}
    return signs.get(unit, unit)


def owner_words(reader: Reader) -> str:
    """The owner, as the reader of an archive speaks of them."""
    return "you" if reader is Reader.OWNER else "the owner"


def who(workshop: Workshop, name: str) -> str:
    """One who acts: the owner, the workshop, or a hand by name where names may be seen."""
    if name in ("owner", "workshop"):
        return f"the {name}"
    hand = workshop.hands.get(name)
    return hand.name if hand and hand.name else name


def decided_words(workshop: Workshop, by: str, on: date | None) -> str:
    """`the owner, 28 March 2024`."""
    return f"{who(workshop, by)}, {plain_date(on)}" if on else who(workshop, by)


def supplier_words(workshop: Workshop, name: str | None) -> str | None:
    """A supplier's own name, or the short name when no more is known."""
    if name is None:
        return None
    known = workshop.suppliers.get(name)
    return known.name if known and known.name else name


def plain_count(count: Decimal) -> str:
    """A count as a figure, without a decimal point where none is needed."""
    return plain_number(count)

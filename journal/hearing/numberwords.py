"""The grammar of numbers: cardinals, decimals and fractions, in words and in figures.

Every function reads from one word on and answers with what it read and where it ended, or None. No
comma and no end of a sentence stands inside a number, but for the comma after thousands.
"""

import re
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from journal.hearing.cardinals import DIGITS, LABELS, NOUGHTS, TEENS, TENS, cardinal, small, written
from journal.hearing.denominators import FITS, ONE_OF, Whole, denominator
from journal.hearing.strand import Strand
from journal.hearing.unitwords import measures_at

_SIGNS: dict[str, str] = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
_DENOMINATORS = frozenset({2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 32, 64, 100, 128, 1000})

# What stands between one of several, named by its number, and its figure.
NAMED_BY = frozenset({"is", "was", "at", "came", "has", "had", "got"})

# As many digits as a sheet takes, before the point and behind it.
_FIGURES = re.compile(
    r"[0-9]{1,3}(?:,[0-9]{3}){1,3}(?:\.[0-9]{1,9})?|[0-9]{1,12}(?:\.[0-9]{1,9})?|\.[0-9]{1,9}"
)
_FRACTION = re.compile(r"([0-9]{1,4})/([0-9]{1,4})")


_PLACES = 9


class Read(NamedTuple):
    """A number up to word `end`: its value, and how a sheet writes it."""

    end: int
    value: Fraction
    text: str


def number_at(strand: Strand, n: int) -> Read | None:
    """The number that is said from word n on; None where none begins."""
    if not _may_begin(strand, n):
        return None
    minus = _minus_at(strand, n)
    begin = n + 1 if minus else n
    read = _unsigned(strand, begin)
    if read is None or not minus:
        return read
    return Read(read.end, -read.value, f"-{read.text}")


# What a number may begin with, and what it may go on with after `a`: most words are looked up once.
_BEGINS = frozenset({
    *DIGITS, *TEENS, *TENS, *NOUGHTS, *_SIGNS, *ONE_OF, "point", "minus", "negative", "-", "half",
    "hundred",
})  # fmt: skip
_AFTER_A = frozenset({*ONE_OF, "hundred", "thousand", "million", "dozen", "couple"})


def _may_begin(strand: Strand, n: int) -> bool:
    word = strand.at(n)
    if word in ("a", "an"):
        return strand.on(n + 1) in _AFTER_A
    return word in _BEGINS or word[:1].isdigit() or word[:1] == "."


def number_follows(strand: Strand, n: int) -> bool:
    """Whether a number is said at word n, or after the verb there: is one point nine."""
    begin = n + 1 if strand.on(n) in NAMED_BY else n
    return bool(strand.on(begin)) and number_at(strand, begin) is not None


def exact_text(value: Fraction) -> str | None:
    """A number as a decimal, if it has one of at most nine places; `3.5`, `0.3125`, `-2`."""
    scaled = value * 10**9
    if scaled.denominator != 1:
        return None
    whole, rest = divmod(abs(scaled.numerator), 10**9)
    sign = "-" if value < 0 else ""
    return f"{sign}{whole}.{rest:09d}".rstrip("0").rstrip(".") if rest else f"{sign}{whole}"


def _minus_at(strand: Strand, n: int) -> bool:
    if strand.at(n) in ("minus", "negative"):
        return strand.at(n - 1) not in ("or", "/", "plus") and bool(strand.on(n + 1))
    if strand.at(n) != "-" or not strand.touches(n + 1) or strand.touches(n):
        return False
    return not strand.at(n - 1)[-1:].isdigit()


def _unsigned(strand: Strand, n: int) -> Read | None:
    return _fraction_at(strand, n) or _decimal_at(strand, n) or _cardinal_read(strand, n)


# Fractions


def _fraction_at(strand: Strand, n: int) -> Read | None:
    """A fraction by itself, below one: three quarters, 5/16, half an inch."""
    return _written_fraction(strand, n) or _spoken_fraction(strand, n) or _part_of_one(strand, n)


def _written_fraction(strand: Strand, n: int) -> Read | None:
    word = _SIGNS.get(strand.at(n), strand.at(n))
    found = _FRACTION.fullmatch(word)
    if found is None:
        return None
    above, below = int(found[1]), int(found[2])
    if not 0 < above < below or below not in _DENOMINATORS:
        return None
    return Read(n + 1, Fraction(above, below), word)


def _spoken_fraction(strand: Strand, n: int) -> Read | None:
    """So many of a part: three quarters, thirteen thirty-seconds, one eighth."""
    above = small(strand, n) or written(strand, n)
    if above is None or above.value == 0:
        return None
    below = denominator(strand, above.end, many=above.value > 1)
    if below is None or below.value <= above.value or not _meant(strand, n, below):
        return None
    return Read(below.end, Fraction(above.value, below.value), f"{above.value}/{below.value}")


def _meant(strand: Strand, n: int, below: Whole) -> bool:
    """One half and one quarter are parts only of something; one fifth is a gear by then."""
    if strand.at(n) != "one" or below.value in (8, 16, 32, 64):
        return True
    return _of_something(strand, below.end)


def _part_of_one(strand: Strand, n: int) -> Read | None:
    """A half, a quarter or an eighth of something that can be measured."""
    begin = n + 1 if strand.at(n) in ("a", "an") and strand.on(n + 1) in ONE_OF else n
    below = denominator(strand, begin, many=False)
    if below is None or not (_of_something(strand, below.end) or _to_more(strand, below.end)):
        return None
    if strand.at(begin) in ("third", "fifth", "sixth") and strand.on(below.end) != "of":
        return None
    return Read(below.end, Fraction(1, below.value), f"1/{below.value}")


def _to_more(strand: Strand, n: int) -> bool:
    """Whether a part goes on to a greater one: half to three quarters."""
    return strand.on(n) == "to" and _spoken_fraction(strand, n + 1) is not None


def _of_something(strand: Strand, n: int) -> bool:
    """Whether a unit follows, by itself or after `a`, `of a`, `of an`."""
    k = n + 1 if strand.on(n) == "of" else n
    k = k + 1 if strand.on(k) in ("a", "an") else k
    return measures_at(strand, k) or (k == n and strand.on(n) in FITS)


# Decimals


def _decimal_at(strand: Strand, n: int) -> Read | None:
    """Nought point three, point oh one two, 3 point 5."""
    if strand.at(n) == "point":
        return _after_point(strand, n, "0") if not _at_a_point(strand, n) else None
    whole = _nought(strand, n) or cardinal(strand, n) or written(strand, n)
    if whole is None or strand.on(whole.end) != "point":
        return None
    if strand.at(n - 1) == "at" and strand.at(n) == "one" and not _measured(strand, whole.end):
        return None
    return _after_point(strand, whole.end, str(whole.value))


def _at_a_point(strand: Strand, n: int) -> bool:
    """At this point one of them broke: no number."""
    determined = strand.at(n - 1) in ("this", "that", "the", "some", "which", "any", "no", "to")
    return determined and not _measured(strand, n)


def _measured(strand: Strand, point: int) -> bool:
    read = _after_point(strand, point, "0")
    return read is not None and measures_at(strand, read.end)


def _after_point(strand: Strand, point: int, whole: str) -> Read | None:
    digits, n = _said_digits(strand, point + 1)
    if not digits:
        return None
    text = f"{whole}.{digits}"
    return Read(n, Fraction(text), text)


def _said_digits(strand: Strand, n: int) -> tuple[str, int]:
    """Digits one by one, or noughts and then a number below 100: oh one two, oh fifteen."""
    digits = ""
    while len(digits) < _PLACES and (word := strand.on(n)):
        if digits and strand.on(n + 1) == "point":
            break
        if word in NOUGHTS:
            digits += "0"
        elif not digits.strip("0") and word not in DIGITS and (group := small(strand, n)):
            return digits + str(group.value), group.end
        elif word in DIGITS and not (digits and _starts_another(strand, n)):
            digits += str(DIGITS[word])
        elif word.isdecimal() and not digits.strip("0") and len(digits + word) <= _PLACES:
            return digits + word, n + 1
        else:
            break
        n += 1
    return digits, n


def _starts_another(strand: Strand, n: int) -> bool:
    """Whether a digit belongs to what follows: a hundred, a fraction, or the next of several."""
    if strand.on(n + 1) in ("hundred", "thousand") or names_next(strand, n):
        return True
    return denominator(strand, n + 1, many=strand.at(n) != "one") is not None


def names_next(strand: Strand, n: int) -> bool:
    """Whether a digit names the one after that which was named by its number: three is 1.9."""
    if strand.at(n) not in DIGITS or strand.on(n + 1) not in NAMED_BY:
        return False
    if number_at(strand, n + 2) is None:
        return False
    return _named_last(strand.words_before(n, 14)) == DIGITS[strand.at(n)] - 1


def _named_last(before: tuple[str, ...]) -> int:
    """The last of several that was named by its number, or that counts on from such a one."""
    last = -1
    for word, after in pairwise(before):
        if word in LABELS:
            last = DIGITS.get(after, last)
        elif after in NAMED_BY and DIGITS.get(word) == last + 1:
            last += 1
    return last


# Whole numbers, with a fraction after them


def _cardinal_read(strand: Strand, n: int) -> Read | None:
    figure = _figure(strand, n)
    if figure is not None:
        return _with_fraction(strand, figure)
    whole = cardinal(strand, n) or _counted(strand, n)
    if whole is None:
        nought = _nought(strand, n)
        stands = nought is not None and strand.at(n) in ("zero", "nought", "naught")
        return Read(nought.end, Fraction(0), "0") if nought and stands else None
    return _with_fraction(strand, Read(whole.end, Fraction(whole.value), str(whole.value)))


def _with_fraction(strand: Strand, read: Read) -> Read:
    """Twelve and a half, three and five eighths, 3 1/2, 3½."""
    if read.value.denominator != 1:
        return read
    part = _fraction_after(strand, read)
    if part is None:
        return read
    value = read.value + part.value
    return Read(part.end, value, exact_text(value) or f"{read.text} {part.text}")


def _fraction_after(strand: Strand, read: Read) -> Read | None:
    n = read.end
    if strand.on(n) == "and":
        return part_after_and(strand, n)
    if not strand.at(n - 1)[-1:].isdigit() or strand.parted[n : n + 1] == (True,):
        return None
    if strand.at(n) == "-" and strand.touches(n) and strand.touches(n + 1):
        n += 1
    return _written_fraction(strand, n)


def part_after_and(strand: Strand, n: int) -> Read | None:
    """From `and` on: and a half, and three quarters, and 5/8."""
    begin = n + 1
    if strand.on(begin) in ("a", "an", "one"):
        below = denominator(strand, begin + 1, many=False)
        if below is not None and strand.at(begin + 1) not in ("fifth", "sixth"):
            return Read(below.end, Fraction(1, below.value), f"1/{below.value}")
    if not strand.on(begin):
        return None
    if strand.on(begin) == "half" and measures_at(strand, begin + 1):
        return Read(begin + 1, Fraction(1, 2), "1/2")
    return _written_fraction(strand, begin) or _spoken_fraction(strand, begin)


def _figure(strand: Strand, n: int) -> Read | None:
    word = strand.at(n)
    if not _FIGURES.fullmatch(word):
        return None
    text = word.replace(",", "")
    text = f"0{text}" if text.startswith(".") else text
    if "." in text and strand.on(n + 1) in ("nought", "naught", "zero"):
        digits, end = _said_digits(strand, n + 1)
        return Read(end, Fraction(text + digits), text + digits)
    great = {"hundred": 100, "thousand": 1000, "million": 1_000_000, "dozen": 12}.get(
        strand.on(n + 1)
    )
    if great is None:
        return Read(n + 1, Fraction(text), text)
    value = Fraction(text) * great
    return Read(n + 2, value, exact_text(value) or text)


def _nought(strand: Strand, n: int) -> Whole | None:
    return Whole(n + 1, 0) if strand.at(n) in NOUGHTS else None


def _counted(strand: Strand, n: int) -> Whole | None:
    """A couple of thou, a dozen, half a dozen, two dozen."""
    if strand.phrase(n, "half", "a", "dozen"):
        return Whole(n + 3, 6)
    if strand.phrase(n, "a", "dozen"):
        return Whole(n + 2, 12)
    if strand.at(n) in DIGITS and strand.on(n + 1) == "dozen":
        return Whole(n + 2, 12 * DIGITS[strand.at(n)])
    if strand.phrase(n, "a", "couple"):
        end = n + 3 if strand.on(n + 2) == "of" else n + 2
        return Whole(end, 2) if measures_at(strand, end) else None
    return None

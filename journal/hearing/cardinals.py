"""Whole numbers in words, as they are counted and as they are run together: one fifty, two oh five."""

from journal.hearing.denominators import Whole, denominator
from journal.hearing.strand import Strand
from journal.hearing.unitwords import unit_at

_NAMES = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
DIGITS: dict[str, int] = {name: n for n, name in enumerate(_NAMES[:9], 1)}
TEENS: dict[str, int] = {name: n for n, name in enumerate(_NAMES[9:], 10)}
TENS: dict[str, int] = {
    "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70,
    "eighty": 80, "ninety": 90,
}  # fmt: skip
NOUGHTS: frozenset[str] = frozenset({"zero", "nought", "naught", "oh", "o"})
_GREAT: dict[str, int] = {"million": 1_000_000, "thousand": 1000}

_ORDINALS = frozenset({
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth",
})  # fmt: skip

_DIGITS = 12

# What is named by a number is not part of the number that follows: number two one-forty.
LABELS: frozenset[str] = frozenset({"number", "cylinder", "pot", "plug", "cyl"})
# Words after which a number counts what it stands before: all four, the other two.
_COUNTING = frozenset({"all", "both", "other", "last", "first", "remaining"})
# Units that are turned or reckoned in thousands, so that twelve fifty is 1250 of them.
_IN_THOUSANDS = frozenset({"rpm", "cc"})


def written(strand: Strand, n: int) -> Whole | None:
    """A whole number in figures, of no more digits than a sheet takes."""
    word = strand.at(n)
    fits = word.isdecimal() and word.isascii() and len(word) <= _DIGITS
    return Whole(n + 1, int(word)) if fits else None


def small_or_written(strand: Strand, n: int) -> Whole | None:
    """A number below 100, in words or in figures; no mark stands before it."""
    read = (written(strand, n) or small(strand, n)) if strand.on(n) else None
    return read if read and read.value < 100 else None


def cardinal(strand: Strand, n: int) -> Whole | None:
    """A whole number in words."""
    if strand.on(n + 1) == "dozen":
        return None
    head = _hundreds(strand, n, first=True)
    if head is None or strand.on(head.end) not in _GREAT:
        return head
    total, end = 0, n
    for great, times in _GREAT.items():
        head = _hundreds(strand, _after_and(strand, end, n), first=end == n)
        if head is not None and strand.on(head.end) == great:
            total, end = total + head.value * times, head.end + 1
    rest = _rest(strand, _after_and(strand, end, n))
    return Whole(end, total) if rest is None else Whole(rest.end, total + rest.value)


def _after_and(strand: Strand, end: int, begin: int) -> int:
    """Where a number goes on after its thousands."""
    return end + 1 if end > begin and strand.on(end) == "and" else end


def _rest(strand: Strand, n: int) -> Whole | None:
    """What follows thousands, after a comma or not: no number of thousands, and no fraction."""
    rest = None if strand.at(n) in ("a", "an") else _hundreds(strand, n, first=False)
    if rest is None or strand.on(rest.end) in _GREAT:
        return None
    return None if denominator(strand, rest.end, many=rest.value > 1) else rest


def _hundreds(strand: Strand, n: int, *, first: bool) -> Whole | None:
    """A number below 1000 (or of hundreds, as in fourteen hundred)."""
    if strand.at(n) == "a" and strand.on(n + 1) in ("hundred", "thousand", "million"):
        head = Whole(n + 1, 1)
    elif _bare_hundred(strand, n):
        head = Whole(n, 1)
    elif (below := small(strand, n)) is not None:
        head = below
    else:
        return None
    if strand.on(head.end) == "hundred":
        return _with_tail(strand, Whole(head.end + 1, head.value * 100))
    return (_run_together(strand, n, head) if first else None) or head


def _bare_hundred(strand: Strand, n: int) -> bool:
    """Hundred and twenty, said without any article."""
    return strand.phrase(n, "hundred", "and") and small(strand, n + 2) is not None


def _with_tail(strand: Strand, hundreds: Whole) -> Whole:
    n = hundreds.end + 1 if strand.on(hundreds.end) == "and" else hundreds.end
    tail = _last_small(strand, n) if strand.on(n) else None
    if tail is None or denominator(strand, tail.end, many=tail.value > 1):
        return hundreds
    return Whole(tail.end, hundreds.value + tail.value)


def _run_together(strand: Strand, n: int, head: Whole) -> Whole | None:
    """One fifty is 150, two oh five 205, nineteen sixty four 1964, twelve fifty revs 1250."""
    if strand.at(n - 1) in LABELS | _COUNTING or denominator(strand, head.end, many=True):
        return None
    if head.value < 10 and strand.on(head.end) in NOUGHTS and strand.on(head.end + 1) in DIGITS:
        return Whole(head.end + 2, head.value * 100 + DIGITS[strand.on(head.end + 1)])
    tail = _last_small(strand, head.end) if strand.on(head.end) else None
    if tail is None or tail.value < 10 or not _one_number(strand, head.value, tail):
        return None
    return Whole(tail.end, head.value * 100 + tail.value)


def _one_number(strand: Strand, head: int, tail: Whole) -> bool:
    """Whether two numbers said without a pause are one, or two that are each their own.

    Eight ten thou is eight or ten; two ten mil bolts are two bolts of ten.
    """
    if denominator(strand, tail.end, many=True) or strand.on(tail.end) in ("hundred", "thousand"):
        return False
    found = unit_at(strand, tail.end)
    unit = found.said.unit if found else ""
    if head >= 10:
        years = head == 19 or (head == 20 and tail.value < 40 and unit == "")
        return (years and unit == "") or (unit in _IN_THOUSANDS and tail.value >= 20)
    if unit in ("mm", "in", "V", "A") and tail.value < 40:
        return False
    if strand.on(tail.end + 1) in ("shim", "shims", "feeler", "feelers"):
        return False
    return not (head >= 5 and tail.value <= 12)


def _last_small(strand: Strand, n: int) -> Whole | None:
    """A number below 100 that ends another: its last digit may begin the next of a list.

    One fifty one forty five is 150 and 145, not 151 and 45.
    """
    below = small(strand, n)
    if below is None or below.end - n < 2:
        return below
    another = _hundreds_go_on(strand, below.end) or _names_the_next(strand, below.end - 1)
    return Whole(below.end - 1, TENS[strand.at(n)]) if another else below


def _names_the_next(strand: Strand, n: int) -> bool:
    """Whether a digit names the next of several, one on from the last that was named by its number."""
    if strand.on(n + 1) not in DIGITS or not _hundreds_go_on(strand, n + 2):
        return False
    before = strand.words_before(n, 6)
    named = [DIGITS.get(before[k + 1]) for k in range(len(before) - 1) if before[k] in LABELS]
    return bool(named) and named[-1] is not None and DIGITS[strand.at(n)] == named[-1] + 1


def _hundreds_go_on(strand: Strand, n: int) -> bool:
    """Whether a digit before word n is that of hundreds."""
    after = strand.on(n)
    return after in TENS or after in TEENS or after in ("hundred", "oh")


def small(strand: Strand, n: int) -> Whole | None:
    """A number from 1 to 99 in words; none where an ordinal ends it, as in twenty third."""
    word = strand.at(n)
    if word in DIGITS:
        return Whole(n + 1, DIGITS[word])
    if word in TEENS:
        return Whole(n + 1, TEENS[word])
    if word not in TENS:
        return None
    after = strand.on(n + 1)
    if after in _ORDINALS:
        return None
    digit = DIGITS.get(after, 0)
    if digit and denominator(strand, n + 2, many=digit > 1) and after != "one":
        return Whole(n + 1, TENS[word])
    return Whole(n + 2, TENS[word] + digit) if digit else Whole(n + 1, TENS[word])

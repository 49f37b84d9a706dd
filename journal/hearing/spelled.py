"""Part numbers in a talk: spelled out (a dash two two oh seven) or written by the phone (A-2207).

What was said is kept: a dash stands where one was said, and nowhere else.
"""

import re
from collections.abc import Sequence
from typing import NamedTuple

from msgspec import Struct

from journal.hearing.cardinals import DIGITS, NOUGHTS, TEENS, TENS
from journal.hearing.common import COMMON
from journal.hearing.phrases import Phrases, phrases
from journal.hearing.strand import FILLERS
from journal.hearing.tokens import Token


class PartNumber(Struct, frozen=True):
    """A part number: tokens `first` to before `last`, and how it is written."""

    first: int
    last: int
    text: str


class _Piece(NamedTuple):
    """One thing that was spelled, up to token `end`: letters, digits or a mark."""

    end: int
    text: str
    apart: bool = False


_MARKS = {"dash": "-", "hyphen": "-", "-": "-", "slash": "/", "stroke": "/", "/": "/", "dot": "."}
_TIMES = {"double": 2, "triple": 3, "treble": 3}
_LETTER_NAMES = {"zed": "Z", "zee": "Z", "double u": "W", "double you": "W"}
# Words before a number that is spelled out.
_ASKED = phrases(
    "part number", "part numbers", "part no", "part number's", "parts number", "catalogue number",
    "reference number", "stock number", "order number", "casting number",
)  # fmt: skip
_NAMED = phrases("number", "numbered", "number's", "stamped", "marked", "ref", "reference")
_LEADS = frozenset({"is", "was", "it's", "its", "that's", "reads", "of", "says", "being", "s"})
_LEADS_AND_FILLERS = _LEADS | FILLERS
# What else is told in letters and figures: identities of the car, standards, oils, threads, paints.
_ANOTHER = frozenset({
    "reg", "registration", "plate", "plates", "chassis", "engine", "body", "commission", "phone", "mobile",
    "frame", "vin", "telephone", "invoice", "postcode", "gearbox",
})  # fmt: skip
_STANDARDS = frozenset({
    "sae", "ep", "din", "iso", "ral", "bs", "en", "mk", "mark", "m", "mm", "cm", "rpm", "psi", "cc", "bar",
    "mph", "thou", "mil", "mils", "nm", "lb", "lbs", "ft", "in", "ins", "oz", "kg", "kgs", "v", "amp",
    "amps", "volt", "ohm", "hp", "bhp", "cwt", "am", "pm", "hrs", "hr", "mins", "min", "secs", "vat", "pin",
    "pins", "nos", "af", "unf", "unc", "bsf", "bsp", "bsw", "ish", "odd", "plus", "minus", "x", "ml", "mls",
    "km", "kph", "est", "pre", "circa", "june", "july", "jan", "feb", "mar", "apr", "jun", "jul", "aug",
    "sept", "sep", "oct", "nov", "dec", "btdc", "tdc", "atdc", "rev", "revs", "gmt", "bst", "wd",
})  # fmt: skip
_UNITS = frozenset({
    "thou", "mil", "mils", "mm", "psi", "rpm", "revs", "cc", "inch", "inches", "pounds", "quid", "volts",
    "volt", "amps", "amp", "ohms", "degrees", "miles", "mph", "hours", "minutes", "litres", "pints", "foot",
    "feet", "grit", "percent", "%", "bar", "kilos", "grams", "newton", "years", "bolts", "studs", "washers",
})  # fmt: skip
_TENS_AND_ALL = frozenset({*DIGITS, *TEENS, *TENS, *_TIMES})
# Nobody spells more in one breath.
_LONGEST = 24
_WORD = re.compile(r"[a-z]{1,4}")
_PLATE = re.compile(r"[A-Z]{3} ?[0-9]{1,3} ?[A-Z]|[A-Z]{2}[0-9]{2} ?[A-Z]{3}|[0-9]{1,4} ?[A-Z]{3}")
_YEAR = re.compile(r"(?:19|20)[0-9]{2}")


def part_numbers_in(tokens: Sequence[Token]) -> tuple[PartNumber, ...]:
    """Every part number in order: no unit, no year, no price, no number of the car itself."""
    found: list[PartNumber] = []
    n = 0
    while n < len(tokens):
        number = _number_at(tokens, n)
        if number is None:
            n += 1
        else:
            found.append(number)
            n = number.last
    return tuple(found)


def _number_at(tokens: Sequence[Token], n: int) -> PartNumber | None:
    if not _may_spell(tokens[n].text):
        return None
    asked = _is_after(tokens, n, _ASKED)
    named = asked or _is_after(tokens, n, _NAMED)
    pieces = _pieces(tokens, n, named=named)
    while pieces and not pieces[-1].text[-1].isalnum():
        pieces = pieces[:-1]
    if not pieces or not pieces[0].text[0].isalnum() or _is_another(tokens, n, asked=asked):
        return None
    text = "".join((" " if piece.apart else "") + piece.text for piece in pieces)
    last = pieces[-1].end
    if not _is_number(text, asked=asked, named=named) or _follows_unit(tokens, last, text, named):
        return None
    return PartNumber(n, last, text)


def _may_spell(word: str) -> bool:
    """Whether a number may begin with a word: most are looked up once."""
    return len(word) <= 4 or word in _TENS_AND_ALL or word[0].isdigit()


def _is_number(text: str, *, asked: bool, named: bool) -> bool:
    """Whether letters, figures and marks are those of a part."""
    letters, digits = sum(map(str.isalpha, text)), sum(map(str.isdigit, text))
    marked = any(mark in text for mark in "-/")
    if _PLATE.fullmatch(text) and not asked:
        return False
    if asked:
        return digits >= 2 and letters + digits >= 3
    standard = text.rstrip("0123456789-/").casefold() in _STANDARDS
    if letters == 0 or digits < (3 if standard else 2):
        return False
    if named or marked:
        return letters + digits >= 3
    return digits >= 3 if letters == 1 or " " in text else True


def _follows_unit(tokens: Sequence[Token], last: int, text: str, named: bool) -> bool:
    """Whether it was only a number with its unit, or a year."""
    if named or "-" in text or "/" in text:
        return False
    after = tokens[last].text if last < len(tokens) else ""
    figures = text.rpartition(" ")[2]
    return after in _UNITS or (" " in text and bool(_YEAR.fullmatch(figures)))


def _is_another(tokens: Sequence[Token], n: int, *, asked: bool) -> bool:
    """Whether a price or a number of the car itself is told."""
    if n > 0 and tokens[n - 1].text in ("£", "$", "€"):
        return True
    before = {token.text for token in tokens[max(0, n - 4) : n]}
    return not asked and not before.isdisjoint(_ANOTHER)


def _is_after(tokens: Sequence[Token], n: int, announced: Phrases) -> bool:
    """Whether a number is announced right before token n: part number is."""
    k = n
    while k > 0 and n - k < 3 and tokens[k - 1].text in _LEADS_AND_FILLERS:
        k -= 1
    before = [token.text for token in tokens[max(0, k - 2) : k]]
    return bool(announced.before(before, len(before)))


def _pieces(tokens: Sequence[Token], n: int, *, named: bool) -> list[_Piece]:
    """What is spelled from token n on, until something else is said."""
    pieces: list[_Piece] = []
    while n < len(tokens) and len(pieces) < _LONGEST:
        if pieces and tokens[n].text in FILLERS:
            n += 1
            continue
        parted = tokens[n].breaks or (
            tokens[n].pause and not named and tokens[n].text not in _MARKS
        )
        piece = None if pieces and parted else _piece(tokens, n, pieces, named=named)
        if piece is None:
            break
        pieces.append(piece)
        n = piece.end
    return pieces


def _piece(tokens: Sequence[Token], n: int, before: list[_Piece], *, named: bool) -> _Piece | None:
    word, after = tokens[n].text, tokens[n + 1].text if n + 1 < len(tokens) else ""
    if word in _MARKS:
        return _Piece(n + 1, _MARKS[word]) if before else None
    if f"{word} {after}" in _LETTER_NAMES or word in _LETTER_NAMES:
        name = f"{word} {after}"
        return (
            _Piece(n + 2, _LETTER_NAMES[name])
            if name in _LETTER_NAMES
            else _Piece(n + 1, _LETTER_NAMES[word])
        )
    if word in _TIMES and n + 1 < len(tokens):
        once = _piece(tokens, n + 1, before, named=named)
        return once and _Piece(once.end, once.text[0] * _TIMES[word] + once.text[1:])
    if not before and not named and not _may_begin(tokens, n):
        return None
    return _digits(tokens, n, before) or _letters(tokens, n, before, named=named)


def _may_begin(tokens: Sequence[Token], n: int) -> bool:
    """Whether letters stand at token n that are no word: spelled, or against figures."""
    word = tokens[n].text
    if word[:1].isdigit():
        return word.isdecimal() and _touches(tokens, n + 1) and tokens[n + 1].text == "-"
    after = tokens[n + 1].text if n + 1 < len(tokens) else ""
    spelled = after in _MARKS or (len(word) == 1 and len(after) == 1 and after.isalpha())
    if not _WORD.fullmatch(word) or (word in _STANDARDS and not spelled):
        return False
    if len(word) == 1:
        return word not in ("a", "i", "o") or after in _MARKS or _touches(tokens, n + 1)
    touching = _touches(tokens, n + 1) and (after.isdecimal() or after == "-")
    return touching or (after.isdecimal() and len(after) >= 3 and word not in COMMON)


def _touches(tokens: Sequence[Token], n: int) -> bool:
    return 0 < n < len(tokens) and tokens[n - 1].end == tokens[n].start


def _digits(tokens: Sequence[Token], n: int, before: list[_Piece]) -> _Piece | None:
    word, after = tokens[n].text, tokens[n + 1].text if n + 1 < len(tokens) else ""
    if word.isdecimal() and word.isascii():
        written = bool(before) and len(before[-1].text) > 1 and before[-1].text.isalpha()
        return _Piece(n + 1, word, apart=written and not _touches(tokens, n))
    if word in NOUGHTS and before:
        return _Piece(n + 1, "0")
    if word in TENS:
        digit = DIGITS.get(after)
        return _Piece(n + 2, str(TENS[word] + digit)) if digit else _Piece(n + 1, str(TENS[word]))
    number = DIGITS.get(word) or TEENS.get(word)
    if number is None:
        return None
    zeros = {"hundred": "00", "thousand": "000"}.get(after, "")
    return _Piece(n + 2 if zeros else n + 1, f"{number}{zeros}")


def _letters(
    tokens: Sequence[Token], n: int, before: list[_Piece], *, named: bool
) -> _Piece | None:
    """A single letter, or a few that are no word."""
    word = tokens[n].text
    if not _WORD.fullmatch(word):
        return None
    touching = _touches(tokens, n)
    if len(word) == 1:
        loose = word in ("a", "i") and before and not touching and before[-1].text not in "-/"
        return (
            None
            if loose and any(piece.text.isdigit() for piece in before)
            else _Piece(n + 1, word.upper())
        )
    if touching and before:
        return (
            _Piece(n + 1, word.upper()) if word not in _STANDARDS and word not in COMMON else None
        )
    if before or word in COMMON:
        return None
    return _Piece(n + 1, word.upper()) if named or _may_begin(tokens, n) else None

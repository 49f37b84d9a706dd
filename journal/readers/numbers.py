"""How a number may stand in a text, and how it is masked.

A number that could be any count, such as 41, or a year, is one only where a word says so; one that
could be nothing else is found however it is spaced, and by its end alone.
"""

import re
from collections.abc import Iterator

from journal.readers.swap import Swap
from journal.words.text import comparable

_HIDDEN = 3
_LONG = 7
# Neither letter nor digit before or after, with the emphasis of a text allowed.
_BEFORE, _AFTER = r"(?<![^\W_])", r"(?![^\W_])"
# What may stand between two characters of a number: blanks, strokes, emphasis, marks without width,
# inline tags and escaped blanks.
_GAP = (
    r"(?:[ \t\n\r\u00a0\u202f\u2010-\u2015\u00ad\u200b-\u200d\u2060./_*~`'\\|-]"
    r"|</?\w{1,8}>|%[0-9A-Fa-f]{2}|&\w{2,8};){0,4}"
)
_ALIKE = {"0": "[0Oo]", "o": "[oO0]", "1": "[1Il]", "i": "[iI1l]", "l": "[lLI1]"}
_ENDS = (
    r"((?:\bend(?:s|ed|ing)?|\bfinish(?:es|ed|ing)?|\blast (?:two|three|four|2|3|4))"
    r"[\W_]+(?:\w+[\W_]+){0,2}?)"
)
_SAID = (
    r"(\b(?:number(?:ed)?|no|nos|nr|stamped|reads|reading|chassis|engine|body|frame|car|vin)"
    r"\b[\W_]{0,3}(?:is\s+|was\s+)?)"
)


def mask_number(number: str) -> str:
    """A number with its last three letters or digits as dots: `TD 58/0417` is `TD 58/0•••`."""
    hidden, out = 0, []
    for character in reversed(number):
        hide = character.isalnum() and hidden < _HIDDEN
        hidden += hide
        out.append("•" if hide else character)
    return "".join(reversed(out))


def folded(text: str) -> str:
    """Letters and digits alone, in one case, with letters that are read for digits as those."""
    return comparable(text).translate(str.maketrans("oil", "011"))


def is_sure(number: str) -> bool:
    """Whether a number could be nothing else: letters with digits, or six digits and more."""
    plain = comparable(number)
    return len(plain) >= (6 if plain.isdigit() else 5)


def number_pattern(number: str) -> re.Pattern[str]:
    """The number however it is spaced and punctuated. A long one may have letters run into it."""
    plain = comparable(number)
    alike = _ALIKE if is_sure(number) else {}
    characters = _GAP.join(alike.get(c, re.escape(c)) for c in plain)
    if len(plain) < _LONG or plain.isdigit():
        return re.compile(_BEFORE + characters + _AFTER, re.I)
    before = r"(?<!\d)" if plain[0].isdigit() else ""
    after = r"(?!\d)" if plain[-1].isdigit() else ""
    return re.compile(before + characters + after, re.I)


def ends_of(number: str) -> tuple[str, ...]:
    """The ends by which a number is known, the longest first: at least four characters, no year."""
    plain = comparable(number)
    ends = (plain[n:] for n in range(1, len(plain) - 3))
    return tuple(e for e in ends if any(c.isdigit() for c in e) and not _year(e))


def number_swaps(number: str) -> Iterator[Swap]:
    """The number as it may stand in a text, with its last characters as dots."""
    plain = comparable(number)
    last = (folded(plain[-4:]),)
    if is_sure(number):
        yield Swap(last, number_pattern(number), _masked)
        yield Swap(last, _standing(ends_of(number)), _masked)
    elif len(plain) > 3 and not _year(plain):
        gapped = number_pattern(number) if not plain.isdigit() else _standing((plain,))
        yield Swap(last, gapped, _masked)
    else:
        yield Swap(last, re.compile(_SAID + re.escape(plain) + _AFTER, re.I), _end_masked)
    short = [re.escape(plain[-n:]) for n in (3, 2) if len(plain) > n]
    if is_sure(number):
        said = re.compile(f"{_ENDS}({'|'.join(short)}){_AFTER}", re.I)
        yield Swap((folded(plain[-2:]),), said, _end_masked)


def _standing(ends: tuple[str, ...]) -> re.Pattern[str]:
    """Ends that stand alone: no part of a date, a time, a decimal or a longer number."""
    ways = [(_GAP if len(end) > 5 else "[ *_]{0,2}").join(map(re.escape, end)) for end in ends]
    return re.compile(
        rf"{_BEFORE}(?<!\d[.,:/-])(?<![£€$])(?:{'|'.join(ways) or '(?!)'})(?![^\W_]|[.,:/-]\d)",
        re.I,
    )


def _year(text: str) -> bool:
    return text.isdigit() and len(text) == 4 and "1800" <= text < "2100"


def _masked(match: re.Match[str]) -> str:
    return mask_number(match.group())


def _end_masked(match: re.Match[str]) -> str:
    return match.group(1) + mask_number(match.group()[len(match.group(1)) :])

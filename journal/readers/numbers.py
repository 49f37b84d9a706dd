"""How a number may stand in a text, and how it is masked.

A number that could be any count, such as 41, or a year, is one only where a word says so; one that
could be nothing else is found however it is spaced, and by its end alone.
"""

import re
from collections.abc import Iterable, Iterator

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
    return re.compile(_however(number), re.I)


def _however(number: str) -> str:
    plain = comparable(number)
    alike = _ALIKE if is_sure(number) else {}
    characters = _GAP.join(alike.get(c, re.escape(c)) for c in plain)
    if len(plain) < _LONG or plain.isdigit():
        return _BEFORE + characters + _AFTER
    before = r"(?<!\d)" if plain[0].isdigit() else ""
    after = r"(?!\d)" if plain[-1].isdigit() else ""
    return before + characters + after


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
        yield Swap(last, _however(number), _masked, re.I)
        yield Swap(last, _standing(ends_of(number)), _masked, re.I)
    elif len(plain) > 3 and not _year(plain):
        gapped = _however(number) if not plain.isdigit() else _standing((plain,))
        yield Swap(last, gapped, _masked, re.I)
    else:
        yield Swap(last, _SAID + re.escape(plain) + _AFTER, _end_masked, re.I)


def end_swaps(numbers: Iterable[str]) -> Iterator[Swap]:
    """The last two or three characters of any of some numbers, where a text says that they are an end."""
    plain = {comparable(number) for number in numbers if is_sure(number)}
    ends = sorted({p[-n:] for p in plain for n in (3, 2)}, key=lambda end: (-len(end), end))
    if ends:
        said = f"{_ENDS}({'|'.join(map(re.escape, ends))}){_AFTER}"
        triggers = tuple(dict.fromkeys(folded(end) for end in ends))
        yield Swap(triggers, said, _end_masked, re.I)


def _standing(ends: tuple[str, ...]) -> str:
    """Ends that stand alone: no part of a date, a time, a decimal or a longer number."""
    ways = [(_GAP if len(end) > 5 else "[ *_]{0,2}").join(map(re.escape, end)) for end in ends]
    return rf"{_BEFORE}(?<!\d[.,:/-])(?<![£€$])(?:{'|'.join(ways) or '(?!)'})(?![^\W_]|[.,:/-]\d)"


def _year(text: str) -> bool:
    return text.isdigit() and len(text) == 4 and "1800" <= text < "2100"


def _masked(match: re.Match[str]) -> str:
    return mask_number(match.group())


def _end_masked(match: re.Match[str]) -> str:
    return match.group(1) + mask_number(match.group()[len(match.group(1)) :])

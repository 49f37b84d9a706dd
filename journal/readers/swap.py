"""One thing to be taken out of texts, and what stands there instead."""

import re
from collections.abc import Callable
from typing import NamedTuple


class Swap(NamedTuple):
    """A pattern and what it is replaced by. A text without any of `triggers` is not searched: for
    numbers they are sought in its letters and digits alone, else in its small letters."""

    triggers: tuple[str, ...]
    pattern: re.Pattern[str]
    put: Callable[[re.Match[str]], str]


def put(words: str) -> Callable[[re.Match[str]], str]:
    """Words in the place of a match, with a capital where a sentence starts."""
    capital = words[:1].upper() + words[1:]
    return lambda match: capital if _starts(match.string, match.start()) else words


def _starts(text: str, at: int) -> bool:
    before = text[:at].rstrip(" \t*_\"'(“‘[>#")
    return not before or before[-1] in ".!?" or before.endswith("\n\n")

"""Where words stand in what was said, once it is set into sentences: capitals, stops and the names of
those who speak have come to it, and the words are the same in the same order."""

import re
from bisect import bisect_left
from collections.abc import Sequence
from typing import NamedTuple

_WORD = re.compile(r"\w+")
_CUT = re.compile(r"\s*…$")


class Place(NamedTuple):
    """A stretch of a text, from `start` up to `end`."""

    start: int
    end: int


class _Word(NamedTuple):
    text: str
    start: int
    end: int


def carried_to(said: str, talk: str, places: Sequence[Place]) -> list[Place]:
    """Stretches of a talk where they stand in what is said of it, which has every word of the talk in
    order, and others between them."""
    old, new = _words(talk), _words(said)
    where: list[int] = []
    n = 0
    for word in old:
        n = _next(new, n, word.text)
        where.append(n)
        n += 1
    starts, ends = [word.start for word in old], [word.end for word in old]
    return [
        _carried(new, where, bisect_left(ends, p.start + 1), bisect_left(starts, p.end))
        for p in places
    ]


def _next(words: Sequence[_Word], n: int, text: str) -> int:
    while n < len(words) and words[n].text != text:
        n += 1
    return n


def _carried(words: Sequence[_Word], where: Sequence[int], first: int, last: int) -> Place:
    within = [words[n] for n in where[first:last] if n < len(words)]
    return Place(within[0].start, within[-1].end) if within else Place(0, 0)


def found_in(said: str, quotes: Sequence[str]) -> list[Place | None]:
    """Where each of some quotes, in the order of what is said, stands in it; None where it is not found.

    One quote may begin where the one before it does. A quote that was cut is found by what is left.
    """
    words = _words(said)
    texts = [word.text for word in words]
    found: list[Place | None] = []
    since = 0
    for quote in quotes:
        asked = [word.text for word in _words(_CUT.sub("", quote))]
        n = _index(texts, asked, since)
        n = _index(texts, asked, 0) if n is None else n
        since = since if n is None else n
        found.append(None if n is None else Place(words[n].start, words[n + len(asked) - 1].end))
    return found


def _index(words: Sequence[str], asked: Sequence[str], since: int) -> int | None:
    """Where a run of words begins."""
    if not asked:
        return None
    for n in range(since, len(words) - len(asked) + 1):
        if words[n] == asked[0] and words[n : n + len(asked)] == asked:
            return n
    return None


def _words(text: str) -> list[_Word]:
    return [_Word(f[0].casefold(), f.start(), f.end()) for f in _WORD.finditer(text)]

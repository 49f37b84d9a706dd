"""What is taken back in the same breath: twelve, no, tell a lie, fourteen."""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from journal.hearing.phrases import phrases

# What takes the number before it back. Common practice of speech, no source.
_TAKES_BACK = phrases(
    "no hang on a minute", "let me say that again", "no i tell a lie", "no tell a lie", "i tell a lie",
    "i should say", "no hang on", "no hold on", "tell a lie", "i beg your pardon", "beg your pardon",
    "let me see", "scratch that", "scrub that", "strike that", "forget that", "make that", "excuse me",
    "or rather", "more like", "hang on", "hold on", "i lie", "i mean", "i meant", "make it", "not that",
    "call it", "no wait", "no sorry", "sorry no", "correction", "actually", "rather", "sorry", "pardon",
    "wait", "oops", "nope", "no",
)  # fmt: skip
_GLUE: frozenset[str] = frozenset({
    "it's", "it", "was", "is", "that's", "a", "that", "its", "about", "well", "yeah", "they're", "they",
    "were", "to", "be", "at", "you", "know", "like", "oh", "the", "of", "just", "minute", "second",
})  # fmt: skip
_ONLY_GLUE = frozenset({"it's", "that's", "but", "it", "was", "is", "they're", "its", "more"})


# So many words may stand between a number and what it is corrected to.
_FAR = 10


class Place(NamedTuple):
    """Where a number or what is measured stands: words [start, end)."""

    start: int
    end: int


def taken_back(words: Sequence[str], places: Sequence[Place]) -> dict[int, int]:
    """Which of the numbers are taken back, each with the one that stands in its place.

    `places` are numbers with their units, in order. Said as a denial it may stand on either side:
    fourteen not twelve, not twelve but fourteen.
    """
    found: dict[int, int] = {}
    for n, (one, other) in enumerate(pairwise(places)):
        if other.start - one.end > _FAR:
            continue
        between = tuple(words[one.end : other.start])
        if between == ("not",):
            found[n + 1] = n
        elif n not in found and _corrects(words, one, between):
            found[n] = n + 1
    return _to_the_last(found)


def takes_back(between: Sequence[str]) -> bool:
    """Whether words between two numbers take the first of them back, and say nothing else."""
    n, seen = 0, False
    while n < len(between):
        taken = _TAKES_BACK.at(between, n)
        if not taken and between[n] not in _GLUE:
            return False
        seen, n = seen or bool(taken), n + (taken or 1)
    return seen


def _corrects(words: Sequence[str], one: Place, between: tuple[str, ...]) -> bool:
    denied = one.start > 0 and words[one.start - 1] == "not"
    if denied and between and all(word in _ONLY_GLUE for word in between):
        return True
    return takes_back(between)


def _to_the_last(found: dict[int, int]) -> dict[int, int]:
    """Each number with the one that stands in the end, where a correction is corrected again."""
    last: dict[int, int] = {}
    for n in sorted(found, reverse=True):
        if found[n] > n:
            last[n] = last.get(found[n], found[n])
    for n in sorted(found):
        if found[n] < n:
            last[n] = last.get(found[n], found[n])
    return last

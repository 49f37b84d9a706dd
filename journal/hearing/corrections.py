"""What is taken back in the same breath: twelve, no, tell a lie, fourteen."""

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import NamedTuple

from journal.hearing.phrases import phrases, phrases_of

# What takes a number back beyond doubt, whatever else is said before the next one. Common practice of
# speech, no source.
_STRONG = phrases(
    "no hang on a minute", "let me say that again", "no i tell a lie", "no tell a lie", "i tell a lie",
    "no hang on", "no hold on", "tell a lie", "i beg your pardon", "beg your pardon", "scratch that",
    "scrub that", "strike that", "forget that", "make that", "or rather", "hang on", "hold on", "i lie",
    "no wait", "no sorry", "sorry no", "correction", "the other way round", "other way round",
    "the other way about", "other way about", "wrong way round",
)  # fmt: skip
_WEAK = phrases(
    "i should say", "let me see", "excuse me", "more like", "i mean", "i meant", "make it", "not that",
    "call it", "actually", "rather", "sorry", "pardon", "oops", "nope", "no",
    "wait",
)  # fmt: skip
_TAKES_BACK = phrases_of(_STRONG.all | _WEAK.all)
# What is said before the one figure that stands for all that were thought aloud before it.
_SETTLES = phrases(
    "call it", "call that", "make it", "make that", "let's say", "i'd say", "put it at", "put it down as",
    "settle on", "settle for", "go with", "say it's",
)  # fmt: skip
_SETTLED_AFTER = phrases(
    "to be honest", "if i'm honest", "to be fair", "more like it", "in truth", "to tell the truth",
)  # fmt: skip
_OTHER_WAY = phrases("other way round", "other way about", "wrong way round")
_GLUE: frozenset[str] = frozenset({
    "it's", "it", "was", "is", "that's", "a", "that", "about", "well", "yeah", "they're", "they", "were",
    "to", "be", "at", "you", "know", "like", "oh", "the", "of", "just", "minute", "second", "so",
})  # fmt: skip
_ONLY_GLUE = frozenset({"it's", "that's", "but", "it", "was", "is", "they're", "more"})

# So many words may stand between a number and what it is corrected to, and to what settles it.
_FAR, _SETTLES_FAR = 10, 14
# So many words may stand between numbers that were thought aloud one after the other.
_CHAINED = 3


class Place(NamedTuple):
    """Where a number or what is measured stands: words [start, end)."""

    start: int
    end: int


class Sense(NamedTuple):
    """What is known of the numbers: `alike` answers whether two of them may be of the same thing, and
    `stands` whether one may be said in the place of another, and counts nothing."""

    alike: Callable[[int, int], bool]
    stands: Callable[[int], bool]


def taken_back(
    words: Sequence[str], places: Sequence[Place], sense: Sense | None = None
) -> dict[int, int]:
    """Which of the numbers are taken back, each with the one that stands in its place.

    `places` are numbers with their units, in order. Said as a denial it may stand on either side:
    fourteen not twelve, not twelve but fourteen. Where their sense is not known, only words that do
    nothing but correct are heard.
    """
    found: dict[int, int] = {}
    settled: set[int] = set()
    for n, (one, other) in enumerate(pairwise(places)):
        if other.start - one.end > _SETTLES_FAR or (sense and not sense.stands(n + 1)):
            continue
        between = tuple(words[one.end : other.start])
        if between == ("not",):
            found[n + 1] = n
        elif n not in found and _corrects(words, one, between):
            found[n] = n + 1
        elif sense is not None and n not in found and sense.alike(n, n + 1):
            if _retakes(between):
                found[n] = n + 1
            elif _settles(words, between, other):
                chain = _chain(places, n, sense, settled)
                found |= dict.fromkeys(chain, n + 1)
                settled.update(chain)
    return standing(found)


def standing(found: dict[int, int]) -> dict[int, int]:
    """The same, each with the one that stands in the end where a correction is corrected again."""
    last: dict[int, int] = {}
    for n in found:
        trail: list[int] = []
        end = n
        while end in found and end not in last:
            trail.append(end)
            last[end] = end
            end = found[end]
        last |= dict.fromkeys(trail, last.get(end, end))
    return last


def takes_back(between: Sequence[str]) -> bool:
    """Whether words between two numbers take the first of them back, and say nothing else."""
    n, seen = 0, False
    while n < len(between):
        taken = _TAKES_BACK.at(between, n)
        if not taken and between[n] not in _GLUE:
            return False
        seen, n = seen or bool(taken), n + (taken or 1)
    return seen


def takes_back_within(between: Sequence[str]) -> bool:
    """Whether somewhere between two numbers the first is taken back beyond doubt."""
    return _STRONG.within(between)


def turns_round(between: Sequence[str]) -> bool:
    """Whether words between two lists take all of the first one back."""
    return _OTHER_WAY.within(between)


def _corrects(words: Sequence[str], one: Place, between: tuple[str, ...]) -> bool:
    if len(between) > _FAR:
        return False
    denied = one.start > 0 and words[one.start - 1] == "not"
    if denied and between and all(word in _ONLY_GLUE for word in between):
        return True
    return takes_back(between)


def _retakes(between: tuple[str, ...]) -> bool:
    """Whether a number is taken back right after it, or right before the next."""
    if _STRONG.at(between, 0):
        return True
    if len(between) > _FAR:
        return False
    end = len(between)
    while end > 0 and between[end - 1] in _GLUE and not _STRONG.before(between, end):
        end -= 1
    return bool(_STRONG.before(between, end))


def _settles(words: Sequence[str], between: tuple[str, ...], other: Place) -> bool:
    return bool(_SETTLES.before(between, len(between)) or _SETTLED_AFTER.at(words, other.end))


def _chain(places: Sequence[Place], n: int, sense: Sense, settled: set[int]) -> list[int]:
    """Number n with those that were thought aloud right before it, and are not settled yet."""
    chain = [n]
    while n > 0 and places[n].start - places[n - 1].end <= _CHAINED and sense.alike(n - 1, n):
        n -= 1
        if n in settled:
            break
        chain.append(n)
    return chain

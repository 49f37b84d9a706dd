"""Quantities that say nothing of the car: steps, shares, distances, what was taken off, meant or denied.

Common practice of speech, no source.
"""

from journal.hearing.groups import Group
from journal.hearing.phrases import phrases
from journal.hearing.strand import Strand
from journal.hearing.unitwords import unit_at
from journal.words.units import UNITS

_LENGTHS = frozenset(UNITS["length"])

_STEP_AFTER = phrases(
    "at a time", "at once", "per turn", "a turn", "each time", "every time", "to spare"
)
_SHARE_AFTER = frozenset({
    "done", "finished", "sure", "certain", "there", "happy", "of", "off", "better", "right",
})  # fmt: skip
_TRIP_AFTER = frozenset({"away", "drive", "round", "trip", "from", "down", "up"})
_DRIVEN = frozenset(
    {"ran", "run", "drove", "driven", "did", "done", "covered", "went", "reads", "says", "on"}
)
_TAKEN = frozenset({
    "take", "took", "taken", "taking", "takes", "skim", "skimmed", "shave", "shaved", "lap", "lapped",
    "file", "filed", "planed", "plane", "grind", "ground", "machine", "machined", "cut", "turned",
    "trimmed", "had", "wants", "needs", "lose", "lost",
})  # fmt: skip
_DENIED = frozenset({
    "can't", "cannot", "couldn't", "don't", "won't", "wouldn't", "never", "didn't", "not",
})  # fmt: skip
_SENSED = frozenset({"measure", "see", "feel", "find", "tell", "notice", "hear"})
# What will be or might be, before the verb; and what is only a way to say so.
_MEANT = phrases(
    "i'll", "we'll", "he'll", "she'll", "they'll", "you'll", "going to", "gonna", "could", "would",
    "might", "will", "shall", "i'd like", "we'd like", "want to", "wants to", "need to", "needs to",
    "tomorrow", "i'd", "he'd", "they'd", "we'd",
)  # fmt: skip
_SAID_SO = frozenset({
    "say", "call", "guess", "reckon", "think", "see", "feel", "get", "rock", "hear", "move", "measure",
    "push", "slide", "swear", "have", "believe", "be", "admit", "never", "of", "bet", "give", "put",
})  # fmt: skip
_TURNS = frozenset({
    "but", "so", "because", "it's", "they're", "is", "was", "are", "were", "reads", "measured", "got",
    "which", "came", "comes", "i've", "we've", "there's", "that's", "found",
})  # fmt: skip
_EARLIER = phrases(
    "used to be", "used to read", "last week", "last time", "last month", "last year", "yesterday",
    "a new one's", "a new one is", "new ones are", "when it was new", "originally",
)  # fmt: skip
_NOW = frozenset({"now", "today", "it's", "they're", "i've", "reads", "is", "got"})
_PLACED_IN = frozenset({
    "came", "comes", "come", "measured", "measures", "put", "let", "set", "goes", "went", "is", "was",
    "it's",
})  # fmt: skip


def is_idle(strand: Strand, group: Group, unit: str) -> bool:
    """Whether a quantity is no reading, no size and no setting."""
    after = strand.words_after(group.end, 4)
    if unit == "%":
        return group.measures[0].value == 100 or not _SHARE_AFTER.isdisjoint(after[:1])
    if unit in ("mile", "km"):
        return _is_trip(strand, group, after)
    if _STEP_AFTER.at(after, 0) or _is_defined(strand, group):
        return True
    return _is_base(strand, group, unit) or _is_denied(strand, group)


def is_change(strand: Strand, group: Group) -> bool:
    """Whether so much was taken off, and not read: took two mil off it."""
    after = strand.words_after(group.end, 2)
    if after[:1] not in (("off",), ("out",), ("from",)):
        return False
    return not _TAKEN.isdisjoint(strand.words_before(group.start, 5))


def is_not_now(strand: Strand, group: Group) -> bool:
    """Whether a quantity is meant for later, thought of, or of another day."""
    before, after = strand.words_before(group.start, 9), strand.words_after(group.end, 3)
    if _is_meant(before) or any(_EARLIER.at(after, n) for n in range(2)):
        return True
    earlier = max((n for n in range(len(before)) if _EARLIER.at(before, n)), default=-1)
    return earlier >= 0 and _NOW.isdisjoint(before[earlier + 2 :])


def _is_meant(before: tuple[str, ...]) -> bool:
    for n in range(len(before) - 1, -1, -1):
        if _MEANT.at(before, n):
            return _SAID_SO.isdisjoint(before[n + 1 : n + 4])
        if before[n] in _TURNS:
            return False
    return False


def _is_trip(strand: Strand, group: Group, after: tuple[str, ...]) -> bool:
    if after[:1] and after[0] in _TRIP_AFTER:
        return True
    return _DRIVEN.isdisjoint(strand.words_before(group.start, 5))


def _is_defined(strand: Strand, group: Group) -> bool:
    """Whether one unit is told by another: one click is half a turn."""
    one = group.measures[-1]
    if (
        one.text == "1"
        and strand.at(one.start) == "one"
        and strand.on(group.end) in ("is", "equals")
    ):
        return True
    before = strand.words_before(group.start, 6)
    for n in range(len(before) - 2):
        if before[n] == "one" and before[n + 2] in ("is", "equals"):
            return unit_at(strand, group.start - len(before) + n + 1) is not None
    return False


def _is_base(strand: Strand, group: Group, unit: str) -> bool:
    """Whether it is the length over which something else was told: five bends in eleven inches."""
    led = strand.at(group.start - 1)
    if unit not in _LENGTHS or led not in ("in", "per", "across", "every"):
        return False
    return strand.at(group.start - 2) not in _PLACED_IN


def _is_denied(strand: Strand, group: Group) -> bool:
    before = strand.words_before(group.start, 3)
    return any(
        word in _DENIED and not _SENSED.isdisjoint(before[n + 1 :]) for n, word in enumerate(before)
    )

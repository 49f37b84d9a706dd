"""Measures that are said together: lists that share a unit, ranges, and so much more or less."""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from msgspec import Struct

from journal.hearing.cardinals import LABELS
from journal.hearing.measure import Measure, lent
from journal.hearing.measures import Measures
from journal.hearing.sides import JOINS, ONLY, WHERE
from journal.hearing.strand import Strand

Shape = Literal["list", "range", "give"]


class Group(Struct, frozen=True):
    """Measures in one unit over the words [start, end): a list, two ends, or an amount and its give."""

    start: int
    end: int
    shape: Shape
    measures: tuple[Measure, ...]
    unit: str

    @property
    def about(self) -> bool:
        """Whether any of them was said as near enough."""
        return any(measure.about for measure in self.measures)


_READS = frozenset({
    "was", "is", "it's", "had", "got", "reads", "read", "came", "out", "at", "to", "only", "just", "down",
    "about", "nearly", "a", "bit", "better", "again", "say",
})  # fmt: skip
_GIVE = (
    ("plus", "or", "minus"), ("plus", "minus"), ("plus", "and", "minus"), ("+", "/", "-"), ("+", "-"),
    ("±",), ("plus", "or", "minus", "a"), ("plus", "/", "minus"),
)  # fmt: skip
# After a number that shares the unit of the one before it.
_CARRIES = frozenset({
    "", "on", "at", "for", "in", "and", "or", "cold", "hot", "left", "right", "near", "off", "nearside",
    "offside", "front", "rear", "with", "when", "after", "before", "limit", "limits", "limit's", "inlet",
    "exhaust", "minimum", "maximum", "minimum's", "maximum's", "min", "max", "book", "should", "spec",
    "which", "middle", "centre", "center", "top", "bottom", "back", "everywhere", "elsewhere", "inner",
    "outer", "full", "empty", "here", "there", "each", "both", "resting", "running",
})  # fmt: skip
# What names the place of a reading before the next one is told.
_LEADS = frozenset({"on", "at", "for", "hot", "cold", "in", "front", "rear", "inlet", "exhaust"})
# What is told beside a reading and never shares its unit with the next: a speed it was read at.
_BESIDE = frozenset({"rpm", "mph", "km/h", "GBP"})


class _Talk(NamedTuple):
    """A strand with those of its words that name one of several."""

    strand: Strand
    labels: frozenset[int]


def groups_of(strand: Strand, measures: Measures) -> tuple[Group, ...]:
    """All measures in groups and in order; the unit is empty where none was said or shared."""
    talk = _Talk(strand, measures.labels)
    shared = _shared(talk, measures.found)
    groups: list[Group] = []
    n = 0
    while n < len(shared):
        group, n = _group_at(strand, shared, n)
        groups.append(group)
    return tuple(_lists(talk, groups))


def _group_at(strand: Strand, measures: Sequence[Measure], n: int) -> tuple[Group, int]:
    one = measures[n]
    if n + 1 < len(measures):
        other = measures[n + 1]
        shape = _pair(strand, one, other)
        unit = one.unit or other.unit
        if shape != "list" and (one.unit == other.unit or "" in (one.unit, other.unit)):
            start = one.start - 1 if strand.at(one.start - 1) == "between" else one.start
            return Group(start, other.end, shape, (one, other), unit), n + 2
    return Group(one.start, one.end, "list", (one,), one.unit), n + 1


def _pair(strand: Strand, one: Measure, other: Measure) -> Shape:
    """How two measures that follow one another belong together; `list` where they are no pair."""
    between = strand.words[one.end : other.start]
    if between in _GIVE:
        return "give"
    if between in (("to",), ("-",), ("through",), ("up", "to")):
        return "range"
    if between == ("and",) and "between" in strand.words_before(one.start, 2):
        return "range"
    return "list"


def _shared(talk: _Talk, measures: tuple[Measure, ...]) -> list[Measure]:
    """Measures with the units of their neighbours: twelve, fourteen and eleven thou."""
    found = list(measures)
    for n in range(len(found) - 2, -1, -1):
        one, other = found[n], found[n + 1]
        if not one.unit and other.unit and _joined(talk, one, other):
            found[n] = lent(one, other.unit, other.factor)
    for n in range(1, len(found)):
        one, other = found[n - 1], found[n]
        if one.unit and not other.unit and _carried(talk, one, other):
            found[n] = lent(other, one.unit, one.factor)
    return found


def _joined(talk: _Talk, one: Measure, other: Measure) -> bool:
    """Whether a number without a unit is of one list with the next that has one."""
    strand = talk.strand
    if other.unit in _BESIDE or (strand.ended[other.start] and not _labelled(talk, other)):
        return False
    if _pair(strand, one, other) != "list" or _is_list(talk, one.end, other.start):
        return True
    between = strand.words[one.end : other.start]
    return between[:1] in (("on",), ("in",), ("at",)) and between[-1] == "and" and len(between) <= 5


def _is_list(talk: _Talk, start: int, end: int) -> bool:
    words = talk.strand.words[start:end]
    if len(words) > 8:
        return False
    plain = [word for n, word in enumerate(words, start) if not _is_label(talk, n)]
    if all(word in JOINS for word in plain):
        return True
    return len(plain) < len(words) and all(word in JOINS | _READS for word in plain)


def _is_label(talk: _Talk, n: int) -> bool:
    """Whether word n names which one: number two, cylinder 3."""
    return talk.strand.at(n) in LABELS or n in talk.labels


def _labelled(talk: _Talk, measure: Measure) -> bool:
    return any(_is_label(talk, measure.start - k) for k in (1, 2, 3))


def _carried(talk: _Talk, one: Measure, other: Measure) -> bool:
    """Whether a number without a unit goes on in that of the one before it.

    Twelve thou on the inlet and fourteen on the exhaust: but not twelve thou and two bolts.
    """
    strand = talk.strand
    if other.text == "1" or one.unit in _BESIDE:
        return False
    if strand.ended[other.start] and not _said_anew(strand, one, other):
        return False
    if _pair(strand, one, other) != "list" or _count_on(talk, one, other):
        return True
    follows = strand.on(other.end) in _CARRIES or other.end in talk.labels
    return follows and (_said_anew(strand, one, other) or _goes_on(talk, one.end, other.start))


def _said_anew(strand: Strand, one: Measure, other: Measure) -> bool:
    """Twelve thou. Well, twelve at one end."""
    return strand.words[one.end : other.start] in (("well",), ("well", "it's"), ("or", "rather"))


def _count_on(talk: _Talk, one: Measure, other: Measure) -> bool:
    """Whether both are of several that are named by their numbers: number two is 2.4, three is 1.9."""
    return other.start - one.end <= 8 and _labelled(talk, one) and _labelled(talk, other)


def _goes_on(talk: _Talk, start: int, end: int) -> bool:
    """Whether the words [start, end) lead on to another number of the same kind."""
    words = talk.strand.words[start:end]
    if _is_list(talk, start, end) or all(word in WHERE | JOINS | ONLY for word in words):
        return True
    if len(words) > 9 or words[-1] not in ("and", "but", "then", "to"):
        return False
    return words[0] == "and" if words[-1] == "to" else words[0] in _LEADS


def _lists(talk: _Talk, groups: list[Group]) -> list[Group]:
    """Single measures of one unit made one list, where they are readings of the same thing."""
    made: list[Group] = []
    for group in groups:
        last = made[-1] if made else None
        if last and last.shape == group.shape == "list" and _same(talk, last, group):
            whole = last.measures + group.measures
            made[-1] = Group(last.start, group.end, "list", whole, last.unit)
        else:
            made.append(group)
    return made


def _same(talk: _Talk, one: Group, other: Group) -> bool:
    if one.unit != other.unit or not one.unit:
        return False
    if _count_on(talk, one.measures[-1], other.measures[0]):
        return True
    ended = any(talk.strand.ended[one.end : other.start + 1])
    if _is_list(talk, one.end, other.start):
        return not ended or _labelled(talk, other.measures[0])
    words = talk.strand.words[one.end : other.start]
    if ended or len(words) > 8:
        return False
    return all(
        word in WHERE | JOINS | ONLY or _is_label(talk, n) for n, word in enumerate(words, one.end)
    )

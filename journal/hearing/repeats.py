"""What is told again of the same reading: the same figure, or what it is instead of another."""

from journal.hearing.corrections import takes_back_within
from journal.hearing.groups import Group
from journal.hearing.measure import lent
from journal.hearing.strand import Strand

# So many words may stand between a figure and itself, said again: plainly, and after it was taken back.
_NEAR, _FAR = 8, 26
# So many words may stand between how far something is out and the two sizes.
_BESIDE = 6
_SAYING = frozenset({
    "well", "yes", "yeah", "so", "that's", "it's", "is", "i", "we", "measured", "checked", "it", "them",
    "off", "the", "old", "one", "again", "twice", "right", "said", "with", "against", "like", "as",
})  # fmt: skip


def without_repeats(strand: Strand, groups: tuple[Group, ...]) -> tuple[Group, ...]:
    """Groups in which what was said twice stands once, and sizes without those that were looked for."""
    return tuple(_instead(strand, _once(strand, groups)))


def _once(strand: Strand, groups: tuple[Group, ...]) -> list[Group]:
    kept: list[Group] = []
    for group in groups:
        last = kept[-1] if kept else None
        if last is not None and _is_again(strand, last, group):
            kept[-1] = Group(last.start, group.end, last.shape, last.measures, last.unit)
        else:
            kept.append(group)
    return kept


def _is_again(strand: Strand, one: Group, other: Group) -> bool:
    if not one.unit or len(other.measures) != 1:
        return False
    if one.measures[-1].value != other.measures[0].value:
        return False
    if not other.unit:
        return strand.is_ended(other.start) and strand.is_ended(other.end)
    if one.unit != other.unit:
        return False
    between = strand.words[one.end : other.start]
    if len(between) <= _NEAR and between and all(word in _SAYING for word in between):
        return True
    return len(between) <= _FAR and takes_back_within(between)


def _instead(strand: Strand, groups: list[Group]) -> list[Group]:
    """Four mil too big, 794 instead of 790: it measures 794."""
    kept: list[Group] = []
    for group in groups:
        last = kept[-1] if kept else None
        if last is None or strand.words[last.end : group.start] != ("instead", "of"):
            kept.append(group)
            continue
        out = kept[-2] if len(kept) > 1 else None
        beside = out is not None and last.start - out.end <= _BESIDE
        unit = last.unit or group.unit or (out.unit if out is not None and beside else "")
        measures = tuple(lent(measure, unit) for measure in last.measures)
        kept[-1] = Group(last.start, group.end, last.shape, measures, unit)
        if out is not None and beside and _is_difference(out, last, group):
            del kept[-2]
    return kept


def _is_difference(out: Group, one: Group, other: Group) -> bool:
    return abs(one.measures[-1].value - other.measures[0].value) == out.measures[-1].value

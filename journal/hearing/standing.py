"""Measures that stand when what was taken back is gone: corrected, settled, measured, said anew."""

from msgspec.structs import replace

from journal.hearing.corrections import Place, Sense, standing, taken_back, turns_round
from journal.hearing.measure import Measure, alike, lent
from journal.hearing.numberwords import number_follows
from journal.hearing.sides import JOINS, ONLY, WHERE
from journal.hearing.strand import Strand


def standing_of(strand: Strand, found: list[Measure]) -> tuple[Measure, ...]:
    """What was not taken back. What stands has the unit of what it corrects, if it was said with none."""
    gone = _taken_back(strand, found)
    stands = dict(enumerate(found))
    for old, new in sorted(gone.items()):
        before, after = found[old], lent(stands[new], found[old].unit, found[old].factor)
        start, end = min(before.start, after.start), max(before.end, after.end)
        stands[new] = replace(after, start=start, end=end)
    return tuple(measure for n, measure in stands.items() if n not in gone)


def _taken_back(strand: Strand, found: list[Measure]) -> dict[int, int]:
    places = [Place(measure.start, measure.end) for measure in found]

    def are_alike(n: int, m: int) -> bool:
        return _may_be_same(strand, found[n], found[m])

    def stands(n: int) -> bool:
        return _counts_nothing(strand, found[n])

    gone = taken_back(strand.words, places, Sense(are_alike, stands))
    for n in range(len(found) - 1):
        if (
            n not in gone
            and n + 1 not in gone
            and _is_measured_then(strand, found[n], found[n + 1])
        ):
            gone[n] = n + 1
    return standing(gone | _lists_taken_back(strand, found, gone))


def _may_be_same(strand: Strand, one: Measure, other: Measure) -> bool:
    """Whether two numbers may be of one thing: in one unit and of one size."""
    if other.unit and one.unit and other.unit != one.unit:
        return False
    if sum(strand.ended[one.end : other.start + 1]) > 1:
        return False
    value = other.value if other.unit or other.value < 1 else other.value * one.factor
    return alike(one.value, value)


def _counts_nothing(strand: Strand, measure: Measure) -> bool:
    """Whether a number has its unit or stands by itself: not that of two bolts."""
    return (
        bool(measure.unit)
        or strand.on(measure.end) in _AFTER_BARE
        or number_follows(strand, measure.end)
    )


_AFTER_BARE = WHERE | JOINS | frozenset({
    "", "it", "it's", "i", "we", "so", "that's", "because", "with", "altogether", "to", "by", "all", "which",
    "really", "maybe", "now", "though", "if", "as", "when", "is", "they're", "anyway", "not", "too", "no",
    "something", "there", "limit", "max", "min", "maximum", "minimum", "sorry", "was", "over", "under",
    "high", "low", "out", "he", "she", "they", "book", "spec",
})  # fmt: skip
# Between an estimate and what was found when it was measured.
_MEASURED = frozenset({"measured", "miked", "mic'd", "gauged", "checked", "clocked"})
_MEASURING = frozenset({
    "i", "we", "it", "it's", "that", "and", "at", "as", "was", "is", "when", "actually", "properly", "then",
    "them", "they're", "but", "so", "she", "he", "have", "i've", "we've", "up", "came", "out", "to", "what",
})  # fmt: skip


def _is_measured_then(strand: Strand, one: Measure, other: Measure) -> bool:
    """Whether an estimate is followed by the figure itself: about fifteen thou, I measured it, sixteen."""
    between = strand.words[one.end : other.start]
    may_be = _may_be_same(strand, one, other) and _counts_nothing(strand, other)
    if not one.about or len(between) > 7 or not may_be:
        return False
    if strand.ended[other.start] and not other.unit:
        return len(between) <= 2 and strand.is_ended(other.end)
    measured = not _MEASURED.isdisjoint(between)
    return measured and all(word in _MEASURED | _MEASURING for word in between)


def _lists_taken_back(strand: Strand, found: list[Measure], gone: dict[int, int]) -> dict[int, int]:
    """What stands before a number in one list goes with it, where a whole list is said anew:
    five on the left, four on the right, no, other way round, four on the left and five on the right.
    """
    more: dict[int, int] = {}
    for old, new in gone.items():
        if new != old + 1 or not _begins_anew(strand, found[old], found[new]):
            continue
        before, after = old, new
        while after + 1 < len(found) and _listed(strand, found[after], found[after + 1]):
            after += 1
        while (
            before
            and after - new > old - before
            and _listed(strand, found[before - 1], found[before])
        ):
            before -= 1
        more |= dict.fromkeys(range(before, old), new)
    return more


def _begins_anew(strand: Strand, one: Measure, other: Measure) -> bool:
    """Whether all is said anew: other way round, or a sentence that begins with no."""
    between = strand.words[one.end : other.start]
    refused = any(
        strand.ended[n] and strand.at(n) in ("no", "nope", "sorry")
        for n in range(one.end, other.start)
    )
    return refused or turns_round(between)


def _listed(strand: Strand, one: Measure, other: Measure) -> bool:
    """Whether two numbers are told one after the other of the sides of one thing."""
    if one.unit and other.unit and one.unit != other.unit:
        return False
    between = strand.words[one.end : other.start]
    return len(between) <= 8 and all(word in WHERE | JOINS | ONLY for word in between)

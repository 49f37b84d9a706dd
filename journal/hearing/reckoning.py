"""What hours come to where somebody reckons them up: what was thought aloud goes, the last figure stands.

Where a reckoning is headed, bare numbers are hours too. Elsewhere they are only where they correct or
settle hours that were told. Hours told by job stand each by itself, and their sum is not told again.
"""

from bisect import bisect_left
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from journal.hearing.common import COMMON
from journal.hearing.corrections import takes_back
from journal.hearing.phrases import phrases
from journal.hearing.strand import Strand
from journal.hearing.whose import SPEAKER, People, whose
from journal.hearing.worked import is_whole_day
from journal.words.amounts import plain_number


class Figure(Struct, frozen=True):
    """Hours over the words [start, end), None where they cannot be told; `ask` is what is unsure.

    `bare` tells that nobody said that they are hours, `span` that they were told by times of the day, `day`
    that they were told as a day, and `vague` as a part of one that has no length of its own. `who` is the
    hand whose they are, or the word for one who is none; empty where it is not told. `job` tells that they
    were for one job, `block` in which reckoning they stand (none: 0), `settled` that they stand for
    others, and
    `added` that they come to them: and an hour.
    """

    start: int
    end: int
    hours: Fraction | None
    ask: str = ""
    bare: bool = False
    span: bool = False
    day: bool = False
    vague: bool = False
    who: str = ""
    job: bool = False
    block: int = 0
    settled: bool = False
    added: bool = False


# So many words may stand between a heading and its first figure, and between two figures.
_FIRST, _FAR = 24, 16
# Before a figure that stands for those before it; in a reckoning, and anywhere.
_SETTLES = phrases(
    "so", "that's", "call it", "call that", "make it", "make that", "i'd say", "let's say", "less", "minus",
    "put", "comes to", "is", "total", "altogether", "in all", "no", "makes", "make", "equals", "maybe", "or",
    "actually", "rather", "which leaves", "leaves",
)  # fmt: skip
_SETTLES_ANYWHERE = phrases(
    "that's", "makes", "which makes", "call it", "call that", "let's say", "let's call it",
    "make it", "make that", "put", "so", "maybe",
)  # fmt: skip
_ALSO_TELLS = frozenset({"so", "maybe", "put", "that's", "makes"})
_LINKS = frozenset({
    "it", "it's", "about", "a", "that", "was", "down", "for", "me", "at", "well", "probably", "say", "nearly",
    "like", "an", "only", "just", "mine", "in", "my",
})  # fmt: skip
_ADDS = frozenset({"and", "plus", "then", "another"})
_UNSURE = frozenset({"maybe", "or", "perhaps"})
_WITH = frozenset({"with", "counting", "including"})
_PART_OF = frozenset({"it", "that", "them", "those", "these"})
_DISCOUNTED = phrases(
    "don't count that", "don't count it", "not counting that", "that doesn't count", "don't charge that",
    "don't charge for that", "never mind that", "leave that out",
)  # fmt: skip
_JOB_AFTER = frozenset({"on", "doing"})
_DID = frozenset({"did", "had", "done", "spent", "worked"})
_SELF = frozenset({"i", "i've", "we", "we've"})
_NO_JOB = frozenset({
    "altogether", "roughly", "approximately", "honestly", "overall", "maximum", "total", "totals", "reckon",
    "booked", "clocked", "logged", "charged", "less", "minus", "plus", "equals", "um", "okay", "nearer",
})  # fmt: skip
# Everyday words that are jobs all the same, and what may stand between a job and its hours.
_JOBS = frozenset({
    "paint", "painting", "door", "doors", "wheels", "floor", "glass", "window", "phone", "telephone",
    "cleaning", "welding", "water", "paperwork", "seats", "trim",
})  # fmt: skip
_SKIPPED = frozenset(
    {"about", "an", "a", "roughly", "only", "nearly", "was", "took", "say", "good"}
)


class _Talk(NamedTuple):
    """The words, who may be told of, and the places of the headings."""

    strand: Strand
    people: People
    headings: Sequence[int]


class _SoFar(NamedTuple):
    """The figures that stand, and the last one that was told."""

    kept: tuple[Figure, ...] = ()
    last: Figure | None = None


def reckoned(
    strand: Strand, figures: Sequence[Figure], headings: Sequence[int], people: People
) -> tuple[Figure, ...]:
    """The figures that stand, in order, each with the one whose hours they are.

    Bare figures that are no hours are left out, and so are parts of what was told, sums of it, and what was
    thought aloud on the way. `headings` are places of words, in order.
    """
    talk = _Talk(strand, people, headings)
    so_far = _SoFar()
    for figure in figures:
        so_far = _heard(talk, so_far, figure)
    return _of_the_day(talk, so_far.kept)


def _heard(talk: _Talk, so_far: _SoFar, figure: Figure) -> _SoFar:
    block = _block(talk, so_far.last, figure)
    settles = so_far.last is not None and _settles(talk.strand, so_far.last, figure, block)
    hours = not figure.bare or block or settles or _is_likewise(talk, so_far.last, figure)
    if not hours or _is_part(talk.strand, figure):
        return so_far
    told = _told(talk, so_far.last, figure, block, settles=settles)
    return _SoFar(_with(so_far.kept, told), told)


def _is_likewise(talk: _Talk, last: Figure | None, figure: Figure) -> bool:
    """Whether a number goes on in hours: an hour for her and I did seven, three hours and another two."""
    if last is None or figure.start - last.end > _FAR:
        return False
    strand, n = talk.strand, figure.start
    if strand.at(n - 1) == "another":
        return True
    subject = strand.at(n - 2)
    return strand.at(n - 1) in _DID and (subject in _SELF or bool(talk.people.named(subject)))


def _block(talk: _Talk, last: Figure | None, figure: Figure) -> int:
    """The reckoning that a figure stands in, by the place of its heading; 0 where it stands in none."""
    n = bisect_left(talk.headings, figure.start)
    heading = talk.headings[n - 1] if n else -1
    if last is not None and last.block and last.end + _FAR >= max(figure.start, heading):
        return last.block
    if heading < 0 or (last is not None and heading < last.start):
        return 0
    return heading + 1 if figure.start - heading <= _FIRST else 0


def _settles(strand: Strand, last: Figure, figure: Figure, block: int) -> bool:
    """Whether a figure stands for the one before it: no, four; so call it four."""
    between = strand.words[last.end : figure.start]
    if len(between) > _FAR or (block and not last.block):
        return False
    if takes_back(between) or _is_refused(strand, last, figure):
        return True
    lead = between
    while lead and lead[-1] in _LINKS and not _SETTLES.before(lead, len(lead)):
        lead = lead[:-1]
    if block:
        said = between[-1:] not in (("and",), ("plus",), ("then",))
        return said and (not lead or lead[0] == "no" or _SETTLES.before(lead, len(lead)) > 0)
    if _SETTLES_ANYWHERE.before(lead, len(lead)):
        return figure.bare or last.span or lead[-1] not in _ALSO_TELLS
    return figure.bare and _is_said_better(strand, last, figure)


def _is_refused(strand: Strand, last: Figure, figure: Figure) -> bool:
    """Whether a sentence between two figures begins with no."""
    return any(strand.ended[n] and strand.at(n) == "no" for n in range(last.end, figure.start))


def _is_said_better(strand: Strand, last: Figure, figure: Figure) -> bool:
    """Five hours. Five and a quarter with the mopping up."""
    finer = figure.hours is not None and figure.hours.denominator > 1
    apart = strand.is_ended(figure.start) and figure.start - last.end <= 2
    return apart and (finer or strand.on(figure.end) in _WITH)


def _is_part(strand: Strand, figure: Figure) -> bool:
    """Whether hours are a part of others, or are not to be counted."""
    if strand.on(figure.end) == "of" and strand.at(figure.end + 1) in _PART_OF:
        return True
    if "which" in strand.words[max(0, figure.start - 2) : figure.start]:
        return strand.words[max(0, figure.start - 3) : figure.start].count("of") > 0
    return _DISCOUNTED.within(strand.words_after(figure.end, 7))


def _told(
    talk: _Talk, last: Figure | None, figure: Figure, block: int, *, settles: bool
) -> Figure:  # fmt: skip
    """A figure with the one whose it is, and with what it is for."""
    strand = talk.strand
    since = max(last.end if last else 0, block - 1, figure.start - _FIRST, 0)
    if not (block or settles):
        since = max(since, figure.start - len(strand.words_before(figure.start, 9)))
    who = whose(strand, talk.people, since, figure.start, figure.end)
    if not block and who not in (SPEAKER, "someone", *talk.people.hands.values()):
        who = ""
    if not who and last is not None and (settles or (block and last.block == block)):
        who = last.who if _one_voice(talk, last, figure) else ""
    if not who and block:
        who = talk.people.speaker(strand, figure.start)
    job = _is_job(talk, since, figure)
    added = strand.at(figure.start - 1) in _ADDS
    told = replace(figure, who=who, job=job, block=block, settled=settles, added=added)
    return _unsure(strand, last, told) if settles and last is not None else told


def _one_voice(talk: _Talk, one: Figure, other: Figure) -> bool:
    speaker = talk.people.speaker
    return speaker(talk.strand, one.start) == speaker(talk.strand, other.start)


def _unsure(strand: Strand, last: Figure, told: Figure) -> Figure:
    """Three hours, maybe four: which was it?"""
    between = strand.words[last.end : told.start]
    if last.hours is None or told.hours is None or _UNSURE.isdisjoint(between[-2:]):
        return told
    ask = f"Was it {plain_number(last.hours)} or {plain_number(told.hours)} hours?"
    return replace(told, hours=last.hours, ask=ask)


def _is_job(talk: _Talk, since: int, figure: Figure) -> bool:
    """Whether hours are told of one job: an hour on the brakes, dynamo an hour."""
    strand = talk.strand
    after = strand.on(figure.end)
    if after in _JOB_AFTER or (after.endswith("ing") and after not in _WITH):
        return True
    if after == "for":
        thing = strand.at(figure.end + 1)
        return thing.endswith("ing") or (thing == "the" and strand.at(figure.end + 2) != "day")
    n = figure.start - 1
    while n > since and strand.at(n) in _SKIPPED:
        n -= 1
    word = strand.at(n)
    if n < since or word in _NO_JOB or talk.people.named(word) or not word.isalpha():
        return False
    return word in _JOBS or (word not in COMMON and len(word) > 2)


def _with(kept: tuple[Figure, ...], told: Figure) -> tuple[Figure, ...]:
    """The figures that stand, with one more or with one in their place."""
    same = [n for n, one in enumerate(kept) if (one.who, one.block) == (told.who, told.block)]
    values = [kept[n].hours or Fraction(0) for n in same]
    if not told.block:
        summed = told.settled and told.hours in _sums(values)
        return kept if summed else _in_place(kept, told, same[-1:] if told.settled else [])
    summed = len(same) > 1 and told.hours == sum(values)
    if summed or (told.hours in values and not told.job and not told.ask):
        return kept
    adds = (told.job or told.span or told.added) and not told.settled
    return _in_place(kept, told, [] if adds else same)


def _sums(values: list[Fraction]) -> set[Fraction]:
    """What the last of some hours come to: the last two, the last three and so on."""
    return {sum(values[-n:], Fraction(0)) for n in range(2, len(values) + 1)}


def _in_place(kept: tuple[Figure, ...], told: Figure, gone: list[int]) -> tuple[Figure, ...]:
    start = min(
        (kept[n].start for n in gone if told.start - kept[n].start <= _FAR), default=told.start
    )
    stay = tuple(one for n, one in enumerate(kept) if n not in gone)
    return (*stay, replace(told, start=min(start, told.start)))


def _of_the_day(talk: _Talk, kept: tuple[Figure, ...]) -> tuple[Figure, ...]:
    """What was done in the day: no sum beside its parts, and nothing that a reckoning has told again."""

    def hand(figure: Figure) -> str:
        return figure.who or talk.people.speaker(talk.strand, figure.start)

    headed = {hand(one): one.start for one in kept if one.block}
    settled = {hand(one) for one in kept if one.settled or one.block}
    told = [
        one
        for one in kept
        if one.block
        or not (
            one.start < headed.get(hand(one), 0)
            or (hand(one) in settled and not one.settled and _is_by_the_way(talk, one))
        )
    ]
    told = [one for n, one in enumerate(told) if not _is_sum(told, n)]
    return tuple(one for n, one in enumerate(told) if not _is_of_whole(talk, told, n))


def _is_of_whole(talk: _Talk, told: Sequence[Figure], n: int) -> bool:
    """Whether hours are a part of those of the whole day, told after them: six hours for the day."""
    one = told[n]
    wholes = [
        other.hours
        for other in told[n + 1 :]
        if other.who == one.who and is_whole_day(talk.strand, other.start, other.end)
    ]
    return any(whole and one.hours and one.hours < whole for whole in wholes)


def _is_by_the_way(talk: _Talk, figure: Figure) -> bool:
    """Whether hours are a part of a day, or a few minutes that are told of no job."""
    few = figure.hours is not None and figure.hours < 1
    return figure.vague or (few and talk.strand.on(figure.end) not in _JOB_AFTER)


def _is_sum(told: Sequence[Figure], n: int) -> bool:
    """Whether the jobs told after a figure come to it: five hours all in, three on this and two on that."""
    one = told[n]
    parts = [
        other.hours or Fraction(0)
        for other in told[n + 1 :]
        if (other.who, other.block) == (one.who, one.block) and other.job
    ]
    return len(parts) > 1 and one.hours == sum(parts)

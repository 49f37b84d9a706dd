"""What a reading should be: the words of books and limits, and the two ends they set.

Common practice of speech, no source.
"""

from fractions import Fraction
from typing import NamedTuple

from journal.hearing.groups import Group
from journal.hearing.phrases import phrases, phrases_of
from journal.hearing.strand import Strand


class Bounds(NamedTuple):
    """The ends of what is allowed; `nominal` for a figure that is wanted without any ends."""

    least: Fraction | None = None
    most: Fraction | None = None
    nominal: bool = False


_MOST = phrases(
    "no more than", "not more than", "at most", "at the most", "max", "maximum", "maximum's", "less than",
    "under", "below", "the limit is", "limit is", "limit of", "limit's", "limit", "wear limit", "not over",
    "within", "to within", "not to exceed", "not exceed", "no bigger than", "no greater than",
    "tolerance is", "tolerance of", "allowed", "allowed up to", "not above", "max is", "maximum is",
    "can't be more than", "shouldn't be more than", "anything under", "anything below", "tolerance",
    "allow", "allows",
)  # fmt: skip
_LEAST = phrases(
    "at least", "min", "minimum", "minimum's", "no less than", "not less than", "not under", "more than",
    "over", "above", "greater than", "min is", "minimum is", "not below", "better than", "upwards of",
    "shouldn't be less than", "can't be less than",
)  # fmt: skip
_SCRAP_OVER = phrases("anything over", "anything above", "anything more than", "if it's over",
                       "if it's more than", "shouldn't be over", "mustn't be over")  # fmt: skip
_ONE_SIDED = phrases_of(_MOST.all | _LEAST.all | _SCRAP_OVER.all)
_MOST_AFTER = phrases(
    "max", "maximum", "is the limit", "limit", "at most", "at the most", "is the max", "is the maximum",
    "tops", "or less", "or under", "is the most", "is allowed", "allowed", "is the wear limit", "the limit",
    "is your limit", "being the limit",
)  # fmt: skip
_LEAST_AFTER = phrases(
    "min", "minimum", "at least", "is the min", "is the minimum", "or more", "or better", "or over",
    "is the least", "upwards",
)  # fmt: skip
_SPEC_FAR = phrases(
    "book", "manual", "handbook", "spec", "specs", "specification", "specified", "tolerance", "tolerances",
    "limit", "limits", "allowed", "allowable", "permitted", "permissible", "data sheet", "quoted",
    "works figure", "factory figure", "maker's figure", "figure is", "calls for", "called for", "target",
    "quotes", "gives",
)  # fmt: skip
_SPEC_NEAR = phrases(
    "should be", "should", "ought to be", "ought to", "supposed to be", "meant to be", "want", "wants",
    "wanted", "need", "needs", "needed", "must be", "must", "has to be", "have to be", "got to be",
    "aiming for", "looking for", "going for", "aim for", "supposed to have", "meant to have", "they say",
    "it says",
)  # fmt: skip
_SPEC_AFTER = phrases(
    "is the book", "is what the book", "in the book", "is spec", "is the spec", "is what it should",
    "is the tolerance", "according to the", "by the book", "is book", "is what they say", "as per the",
    "is in spec", "is the figure", "is the specification", "is allowed", "is allowable", "is what it wants",
    "is acceptable", "is what you want", "is what we want", "is what i want", "is normal",
    "is what's allowed", "is the limit", "allowed", "limit",
)  # fmt: skip
# What tells it of a figure before it when the sentence ends there.
_SAYS_BOOK = phrases("the book says", "says the book", "book says", "the manual says")
# What turns from the book to the bench.
_TURNS = frozenset({
    "i've", "we've", "measured", "mine", "ours", "actual", "found", "reads", "reading", "it's", "they're",
    "came", "comes", "we're", "i'm", "clocked", "checked",
})  # fmt: skip
_OWN = frozenset({"got", "get", "getting", "was"})
_LEADS = frozenset({
    "of", "about", "be", "is", "a", "the", "an", "roughly", "around", "say", "it", "at", "to", "up", "for",
    "between", "from", "something", "like", "that's", "anywhere",
})  # fmt: skip
_GOES_ON = frozenset({
    "", "and", "so", "on", "at", "but", "there", "here", "now", "which", "is", "or", "max", "maximum",
    "min", "minimum", "for", "then", "that's", "i", "we", "it", "it's", "because", "okay", "ok", "right",
    "anyway", "obviously", "apparently", "though", "all", "each", "if", "when", "with", "not", "well",
    "just", "he", "they",
})  # fmt: skip
_NEARLY = frozenset({
    "just", "slightly", "bit", "shade", "touch", "hair", "whisker", "fraction", "little", "well", "way",
    "tad",
})  # fmt: skip


def bounds_of(strand: Strand, group: Group, since: int, until: int) -> Bounds | None:
    """What a group says is allowed or wanted; None for what was measured.

    Words are looked at from `since` on and before `until`: those in between the measures beside it.
    """
    before = _of_sentence(strand, max(since, group.start - 10), group.start)
    after = _after(strand, group.end, until)
    values = [measure.value for measure in group.measures]
    if group.shape == "give":
        return Bounds(values[0] - values[1], values[0] + values[1])
    if len(values) == 1 and (found := _one_sided(before, after, values[0])):
        return found
    whole = until - group.end > len(after)
    if not (_is_spec(before, after) or (whole and after in _SAYS_BOOK.all)):
        return None
    if group.shape == "range":
        return Bounds(min(values), max(values))
    return Bounds(nominal=True)


def _after(strand: Strand, end: int, until: int) -> tuple[str, ...]:
    """The words after a group that may be said of it.

    Right before the next number, limit, most and the like are said of that one.
    """
    if not strand.on(end):
        return ()
    words = strand.words_after(end, min(6, until - end))
    ahead = until < len(strand.words) and until - end <= 4 and words[:1] not in (("is",), ("or",))
    return () if ahead else words


def _of_sentence(strand: Strand, start: int, end: int) -> tuple[str, ...]:
    """The words [start, end) without those of an earlier sentence."""
    begin = next((n for n in range(end, start, -1) if strand.ended[n]), start)
    return strand.words[begin:end]


def _one_sided(before: tuple[str, ...], after: tuple[str, ...], value: Fraction) -> Bounds | None:
    lead = before
    while lead and lead[-1] in _LEADS and not _ONE_SIDED.before(lead, len(lead)):
        lead = lead[:-1]
    if _SCRAP_OVER.before(lead, len(lead)) or _MOST_AFTER.at(after, 0):
        return Bounds(most=value)
    if _LEAST_AFTER.at(after, 0):
        return Bounds(least=value)
    if (most := _MOST.before(lead, len(lead))) and not _nearly(lead, most):
        return Bounds(most=value)
    if (least := _LEAST.before(lead, len(lead))) and not _nearly(lead, least):
        return Bounds(least=value)
    return None


def _nearly(lead: tuple[str, ...], length: int) -> bool:
    """Just under twelve is a reading that was said roughly."""
    return len(lead) > length and lead[-length - 1] in _NEARLY


def _is_spec(before: tuple[str, ...], after: tuple[str, ...]) -> bool:
    if _SPEC_AFTER.at(after, 0) or _SPEC_AFTER.at(after, 1):
        return True
    turned = max(
        (n for n, word in enumerate(before) if word in _TURNS or _is_own(before, n)), default=-1
    )
    far = before[turned + 1 :]
    return _SPEC_FAR.within(far) or _SPEC_NEAR.within(far[-6:])


def _is_own(before: tuple[str, ...], n: int) -> bool:
    """I got, we get, it was: what was found, and not `it has got to be`."""
    return (
        before[n] in _OWN
        and before[n + 1 : n + 2] != ("to",)
        and (n == 0 or before[n - 1] != "it's")
    )


def is_found(strand: Strand, group: Group) -> bool:
    """Whether a number without a unit is told as what was found: and I've got twelve."""
    before = strand.words_before(group.start, 2)
    if not before:
        return False
    found = before[-1] in _TURNS or before[-1] == "is" or _is_own(before, len(before) - 1)
    return found and stands_alone(strand, group)


def stands_alone(strand: Strand, group: Group) -> bool:
    """Whether no thing follows that a number without a unit would count."""
    return strand.on(group.end) in _GOES_ON

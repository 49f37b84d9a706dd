"""What a reading should be: the words of books and limits, and the two ends they set.

Common practice of speech, no source.
"""

from fractions import Fraction
from typing import NamedTuple

from journal.hearing.groups import Group
from journal.hearing.phrases import phrases, phrases_of
from journal.hearing.strand import Strand


class Bounds(NamedTuple):
    """The ends of what is allowed; `nominal` for a figure that is wanted without any ends. `worn` is the
    end at which a thing is done for, whichever end that is."""

    least: Fraction | None = None
    most: Fraction | None = None
    nominal: bool = False
    worn: Fraction | None = None

    def times(self, factor: Fraction) -> "Bounds":
        """The same where one of what was said is so many of the unit."""
        least, most, worn = (
            None if end is None else end * factor for end in (self.least, self.most, self.worn)
        )
        return Bounds(least, most, self.nominal, worn)

    def beside(self, value: Fraction) -> "Bounds":
        """The same beside what was read: it is done for where the reading has not come to yet."""
        if self.worn is None:
            return self
        return Bounds(most=self.worn) if value <= self.worn else Bounds(least=self.worn)


_MOST = phrases(
    "no more than", "not more than", "at most", "at the most", "max", "maximum", "less than", "under",
    "below", "the limit is", "limit is", "limit of", "limit's", "limit", "wear limit", "not over",
    "within", "to within", "not to exceed", "not exceed", "no bigger than", "no greater than",
    "tolerance is", "tolerance of", "allowed", "allowed up to", "not above", "max is", "maximum is",
    "can't be more than", "shouldn't be more than", "anything under", "anything below", "tolerance",
    "allow", "allows", "inside", "to the inside of", "maximum's", "max's", "anything up to", "limits",
    "don't go over", "not go over", "never go over", "wouldn't go over", "don't go above", "not go above",
)  # fmt: skip
_LEAST = phrases(
    "at least", "min", "minimum", "no less than", "not less than", "not under", "more than", "over",
    "above", "greater than", "min is", "minimum is", "not below", "better than", "upwards of",
    "shouldn't be less than", "can't be less than", "minimum's", "min's", "not less", "go under",
    "go below", "don't go under", "not go under", "never go under", "wouldn't go under", "don't go below",
    "not go below", "never go below", "shouldn't go under", "shouldn't be under", "shouldn't be below",
    "never under",
)  # fmt: skip
_SCRAP_OVER = phrases("anything over", "anything above", "anything more than", "if it's over",
                       "if it's more than", "shouldn't be over", "mustn't be over")  # fmt: skip
_WORN_AT = phrases(
    "bin it at", "scrap it at", "scrap at", "finished at", "worn out at", "done at", "throw it at",
    "change it at", "replace it at", "replace at", "renew at", "renew it at", "change at", "reject at",
    "reject it at", "bin them at", "scrap them at", "scrapped at", "replaced at", "renewed at",
)  # fmt: skip
_ONE_SIDED = phrases_of(_MOST.all | _LEAST.all | _SCRAP_OVER.all)
_MOST_AFTER = phrases(
    "max", "maximum", "is the limit", "limit", "at most", "at the most", "is the max", "is the maximum",
    "tops", "or less", "or under", "is the most", "is allowed", "allowed", "is the wear limit",
    "the limit", "is your limit", "being the limit",
)  # fmt: skip
_LEAST_AFTER = phrases(
    "min", "minimum", "at least", "is the min", "is the minimum", "or more", "or better", "or over",
    "is the least", "upwards",
)  # fmt: skip
_SPEC_FAR = phrases(
    "book", "manual", "handbook", "spec", "specs", "specification", "specified", "tolerance",
    "tolerances", "limit", "limits", "allowed", "allowable", "permitted", "permissible", "data sheet",
    "quoted", "works figure", "factory figure", "maker's figure", "figure is", "calls for", "called for",
    "target", "quotes", "gives", "factory says", "factory", "maker says", "makers say", "book's",
    "manual's", "handbook's", "spec's", "figure's", "factory's",
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
    "is in spec", "is the figure", "is the specification", "is allowed", "is allowable",
    "is what it wants", "is acceptable", "is what you want", "is what we want", "is what i want",
    "is what they want", "is what it should be", "is what they give", "is normal", "is what's allowed",
    "is the limit", "allowed", "limit",
)  # fmt: skip
# What tells it of a figure before it when the sentence ends there.
_SAYS_BOOK = phrases("the book says", "says the book", "book says", "the manual says")
# What turns from the book to the bench.
_TURNS = frozenset({
    "i've", "we've", "measured", "mine", "ours", "actual", "found", "reads", "reading", "it's", "they're",
    "came", "comes", "we're", "i'm", "clocked", "checked",
})  # fmt: skip
_NO_TURN = frozenset({
    "has", "says", "book", "manual", "no", "on", "sorry", "wait", "lie", "spec", "sheet",
})  # fmt: skip
_OWN = frozenset({"got", "get", "getting", "was"})
_LEADS = frozenset({
    "of", "about", "be", "is", "a", "the", "an", "roughly", "around", "say", "it", "at", "to", "up",
    "for", "between", "from", "something", "like", "that's", "anywhere",
})  # fmt: skip
_GOES_ON = frozenset({
    "", "and", "so", "on", "at", "but", "there", "here", "now", "which", "is", "or", "max", "maximum",
    "min", "minimum", "for", "then", "that's", "i", "we", "it", "it's", "because", "okay", "ok", "right",
    "anyway", "obviously", "apparently", "though", "all", "each", "if", "when", "with", "not", "well",
    "just", "he", "they", "the", "these", "my", "this", "where", "after", "before", "as", "she", "theirs",
    "by", "minimum's", "maximum's", "min's", "max's", "limit's", "spec's", "book's", "book", "handbook's",
    "handbook", "spec", "limit",
})  # fmt: skip
_FOUND_BY = frozenset({"is", "are", "measures", "reading"})
_AT = frozenset({
    "is", "are", "it's", "they're", "all", "was", "were", "out", "came", "comes", "come", "reads",
    "measured", "sits", "both", "in", "up",
})  # fmt: skip
_SOMEONE = frozenset({
    "he's", "she's", "who's", "there's", "what's", "let's", "here's", "where's", "that's", "number's",
})  # fmt: skip
_SIZES = frozenset({
    "bore", "bores", "diameter", "width", "length", "depth", "thickness", "height", "gap", "stroke",
    "clearance", "pitch", "spacing", "travel", "spigot", "shank", "journal", "journals",
})  # fmt: skip
_THEY_ARE = frozenset(
    {"they're", "are", "were", "is", "it's", "was", "came", "come", "they", "i've", "got"}
)
_SEVERAL = frozenset({"all", "both", "each", "them"})
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
    if _WORN_AT.before(before, len(before)):
        return Bounds(worn=value)
    most, least = (ends.before(lead, len(lead)) for ends in (_MOST, _LEAST))
    if not (most or least) or _nearly(lead, max(most, least)):
        return None
    return Bounds(most=value) if most > least else Bounds(least=value)


def _nearly(lead: tuple[str, ...], length: int) -> bool:
    """Just under twelve is a reading that was said roughly."""
    return len(lead) > length and lead[-length - 1] in _NEARLY


def _is_spec(before: tuple[str, ...], after: tuple[str, ...]) -> bool:
    if _SPEC_AFTER.at(after, 0) or _SPEC_AFTER.at(after, 1):
        return True
    turned = max((n for n in range(len(before)) if _turns(before, n)), default=-1)
    far = before[turned + 1 :]
    return _SPEC_FAR.within(far) or _SPEC_NEAR.within(far[-6:])


def _turns(before: tuple[str, ...], n: int) -> bool:
    """Whether a word turns from the book to the bench: not it's in what the book has it's, and not in a
    correction of what should be."""
    if before[n] in ("it's", "they're"):
        last = before[n - 1] if n else ""
        return last not in _NO_TURN
    return before[n] in _TURNS or _is_own(before, n)


def _is_own(before: tuple[str, ...], n: int) -> bool:
    """I got, we get, it was: what was found, and not `it has got to be`."""
    return (
        before[n] in _OWN
        and before[n + 1 : n + 2] != ("to",)
        and (n == 0 or before[n - 1] != "it's")
    )


def is_spread(strand: Strand, group: Group, since: int) -> bool:
    """Whether it tells by how much several differ, and no limit: they're all within two thou."""
    before = _of_sentence(strand, max(since, group.start - 6), group.start)
    if before[-1:] != ("within",) or _SPEC_NEAR.within(before):
        return False
    return not _SEVERAL.isdisjoint(before)


def is_of_them(strand: Strand, group: Group) -> bool:
    """Whether how much several differ is told by itself, and not beside what they are."""
    return not _THEY_ARE.isdisjoint(strand.words_before(group.start, 4))


def is_found(strand: Strand, group: Group) -> bool:
    """Whether a number without a unit is told as what was found: and I've got twelve, the bore's thirty."""
    if not stands_alone(strand, group):
        return False
    if is_whole_sentence(strand, group):
        return True
    before = strand.words_before(group.start, 3)
    if not before or before[0] == "there":
        return False
    last = before[-1]
    if last == "at":
        return len(before) > 1 and before[-2] in _AT
    return last in _FOUND_BY or last in _TURNS or _is_own(before, len(before) - 1) or _is_its(last)


def is_sized(strand: Strand, group: Group) -> bool:
    """Whether a size of the thing is told by its name: the bore's thirty two."""
    before = [word for word in strand.words_before(group.start, 3) if word not in _FOUND_BY]
    return bool(before) and before[-1].removesuffix("'s") in _SIZES and stands_alone(strand, group)


def is_whole_sentence(strand: Strand, group: Group) -> bool:
    """Whether nothing else is said in the sentence: two and three quarters."""
    return strand.is_ended(group.start) and strand.is_ended(group.end)


def _is_its(word: str) -> bool:
    return word.endswith("'s") and word not in _SOMEONE


def stands_alone(strand: Strand, group: Group) -> bool:
    """Whether no thing follows that a number without a unit would count."""
    return strand.on(group.end) in _GOES_ON

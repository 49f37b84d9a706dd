"""Whose hours are told: by a name, by `I` and `me`, by `for her`, by the one who did them."""

from collections.abc import Callable, Mapping

from msgspec import Struct, field

from journal.hearing.common import COMMON
from journal.hearing.strand import Strand

SPEAKER = "i"
_I = frozenset({"i", "i've", "i'm", "i'd", "mine", "my", "we", "we've", "our", "ours", "myself"})
_THEY = frozenset({"he", "she", "him", "her", "he's", "she's", "hers", "his"})
# After `I`, what says how much it was and not whose.
_MAKES = frozenset({
    "make", "say", "reckon", "think", "call", "put", "guess", "suppose", "don't", "know", "mean", "tell",
    "stayed", "stopped", "went", "add",
})  # fmt: skip
_SAYS = frozenset({"says", "said", "reckons", "thinks", "told", "wants"})
_DID = frozenset({"did", "had", "done", "spent", "worked", "was", "put", "got", "has"})
_NOBODY = frozenset({
    "that", "it", "which", "this", "there", "what", "hours", "time", "lot",
    "total", "day", "and", "so", "rest",
    "one", "they", "you", "it's", "then", "also", "only", "but",
})  # fmt: skip
_OTHERS = frozenset({
    "boy", "lad", "man", "apprentice", "neighbour", "neighbor", "wife", "brother", "son", "daughter", "dad",
    "mate", "friend", "buddy", "chap", "bloke", "girl", "trainee", "helper", "other",
})  # fmt: skip
_ARTICLES = frozenset(
    {"the", "a", "an", "that", "this", "my", "his", "her", "our", "its", "and", "of", "it's"}
)
# Before a name, what tells that the time is another's.
_NOT_THEIRS = frozenset({"with", "for", "by", "from", "to"})
# So far back a person may have been named whom `him` means.
_FAR_BACK = 60


def _nobody(_: int) -> str:
    return ""


class People(Struct, frozen=True):
    """Who may be told of: the hands of the workshop by the words that name them, and who says a token."""

    hands: Mapping[str, str] = field(default_factory=dict)
    said_by: Callable[[int], str] = _nobody

    def speaker(self, strand: Strand, n: int) -> str:
        """The one who says word n."""
        return self.said_by(strand.places[min(n, len(strand.places) - 1)]) or SPEAKER

    def named(self, word: str) -> str:
        """The hand that a word names; empty where it names none."""
        return self.hands.get(word.removesuffix("'s"), "")


NOBODY = People()


def whose(strand: Strand, people: People, since: int, start: int, end: int) -> str:
    """Whose time at [start, end) is, told right after it or in the words from `since` on; empty where it
    is not told. It may be the word for one who is no hand: the boy."""
    return _after(strand, people, end) or _before(strand, people, since, start)


def _after(strand: Strand, people: People, end: int) -> str:
    """Seven for me, one and a half for him, two for Joe; 4.5 me, 2 Jonah."""
    word = strand.on(end)
    if word and strand.is_parted(end + 1) and (word == "me" or people.named(word)):
        return people.named(word) or people.speaker(strand, end)
    if word != "for":
        return ""
    word = strand.on(end + 1)
    if word in ("me", "myself"):
        return people.speaker(strand, end + 1)
    if word in ("her", "him"):
        return _other(strand, people, end)
    if found := people.named(word):
        return found
    if word and word.isalpha() and word not in COMMON and not word.endswith("ing"):
        return word if strand.at(end + 2) in ("", "and", "but", "so") else ""
    return ""


def _before(strand: Strand, people: People, since: int, start: int) -> str:
    for n in range(start - 1, since - 1, -1):
        found = _at(strand, people, n, start)
        if found:
            return found
    return ""


def _at(strand: Strand, people: People, n: int, start: int) -> str:
    word, after = strand.at(n), strand.at(n + 1)
    if (name := people.named(word)) and strand.at(n - 1) not in _NOT_THEIRS:
        return name
    if word in _I and (after not in _MAKES or strand.at(n + 2) in ("mine", "my")):
        return people.speaker(strand, n)
    if (
        word == "me"
        and start - n <= 2
        and strand.at(n - 1) not in ("with", "had", "took", "cost", "gave")
    ):
        return people.speaker(strand, n)
    if word in _THEY and after not in _SAYS:
        return _other(strand, people, n)
    if word in _DID and n > 0 and not strand.ended[n]:
        return _one_who_did(strand, people, n)
    return ""


def _one_who_did(strand: Strand, people: People, n: int) -> str:
    """The boy did one and a half; Ray had six."""
    subject = strand.at(n - 1)
    if found := people.named(subject):
        return found
    if subject in _OTHERS:
        return subject
    if subject in COMMON | _NOBODY | _I | _THEY or strand.at(n - 2) in _ARTICLES:
        return ""
    return subject if subject.isalpha() and len(subject) > 2 else ""


def _other(strand: Strand, people: People, n: int) -> str:
    """The person named last before word n, other than the one who speaks."""
    own = people.speaker(strand, n)
    for k in range(n - 1, max(-1, n - _FAR_BACK), -1):
        found = people.named(strand.at(k))
        if found and found != own:
            return found
        if strand.at(k) in _OTHERS:
            return strand.at(k)
    return "someone"

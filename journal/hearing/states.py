"""Acts that are told without a verb of their own: `that's the drum off`, `gave it a scrub`."""

from collections.abc import Iterator, Mapping, Sequence

from journal.hearing.moods import CLAUSE, CONDITIONS, Clauses, Mood, mood_of
from journal.hearing.naming import Mention
from journal.hearing.seen import DETERMINERS, SUBJECTS, Seen
from journal.hearing.told import Told
from journal.hearing.verbs import Form
from journal.words.vocabulary import Act

# What follows a state such as "drum off" when nothing more belongs to it.
_AFTER_STATE = frozenset(
    "too finally as well and so then but that's now which i we today again okay right already".split()
)

_AFTER_OFF = frozenset("the that with it that just is no this by on".split())

_STATES = {"off": Act.REMOVED, "out": Act.REMOVED, "apart": Act.STRIPPED, "in": Act.FITTED, "on": Act.FITTED,
           "together": Act.REBUILT}  # fmt: skip

_UNTOLD = frozenset(
    "with get getting want wants need needs to will would could should can can't if when once "
    "until before not had have without going were was leave left".split()
)

_LIGHT = frozenset(
    "gave give giving had have having did do doing put putting got getting took take ran run used "
    "stuck".split()
)


def state_acts(c: Clauses, mentions: Sequence[Mention], seen: Sequence[Seen]) -> Iterator[Told]:
    """Acts that are told by where a thing is now: `that's the drum off`, `new seals in`."""
    taken = {n for s in seen for n in range(s.at, s.particle)}
    starts = {mention.first for mention in mentions}
    for mention in mentions:
        n = mention.last
        if c.word(n) in ("is", "are", "'s", "back", "now", "now's"):
            n += 1
        while c.word(n) in ("back", "now", "all", "just", "nicely"):
            n += 1
        word = c.word(n)
        if word not in _STATES or n in taken or n >= len(c.tokens) or c.tokens[n].breaks:
            continue
        if not (_ends(c, n + 1) or (n + 1 in starts and word in ("off", "out"))) or any(
            c.tokens[k].breaks for k in range(mention.last, n + 1)
        ):
            continue
        mood = _state_mood(c, mention.first)
        if mood is Mood.DONE and (
            word == "together" or mention.name.weak or not mention.sure or mention.name.part
        ):
            mood = Mood.ASK
        for key in mention.keys:
            yield Told(key, _STATES[word], mood, mention.first, n + 1)


def _ends(c: Clauses, n: int) -> bool:
    if n >= len(c.tokens) or c.tokens[n].breaks or c.tokens[n].pause or c.word(n) in _AFTER_STATE:
        return True
    if c.word(n - 1) in ("in", "on"):
        return c.word(n) == "the" and c.word(n + 1) == "car"
    return c.word(n) in _AFTER_OFF


def _state_mood(c: Clauses, at: int) -> Mood:
    """A state is told as done unless the words before it wish for it or deny it."""
    while c.word(at - 1) in DETERMINERS | {
        "both",
        "front",
        "rear",
        "near",
        "off",
        "side",
        "old",
        "new",
    }:
        at -= 1
    before = [c.word(n) for n in range(max(c.start_of(at), at - 6), at)]
    opener = c.word(c.start_of(at) - 1)
    if (
        opener in CONDITIONS
        or set(before) & _UNTOLD
        or any(word.endswith("n't") for word in before)
    ):
        return Mood.NOT
    if c.word(at - 1) in ("that's", "thats", "there's", "got", "i've", "we've"):
        return Mood.DONE
    mood, _ = mood_of(c, at, frozenset({Form.PARTICIPLE}), {})
    return mood


def light_acts(
    c: Clauses, mentions: Sequence[Mention], nouns: Mapping[tuple[str, ...], Act]
) -> Iterator[Told]:
    """Acts told by a noun after a small verb: `gave the sump a scrub`, `put a straight edge across it`."""
    longest = max((len(words) for words in nouns), default=0)
    for n, token in enumerate(c.tokens):
        if token.text not in _LIGHT:
            continue
        found = _noun_after(c, n, nouns, longest)
        if found is None:
            continue
        _, last, act = found
        forms = frozenset(
            {
                Form.PAST if token.text not in ("give", "do", "put", "take", "run") else Form.BASE,
                Form.PAST,
            }
        )
        if token.text.endswith("ing"):
            forms = frozenset({Form.ING})
        mood, _ = mood_of(c, n, forms, {})
        near = [
            m
            for m in mentions
            if m.keys
            and n < m.first < last + 8
            and not any(t.breaks for t in c.tokens[n + 1 : m.first + 1])
        ]
        before = [
            m
            for m in mentions
            if m.keys
            and n - 12 < m.first < n
            and not any(t.turns for t in c.tokens[m.first + 1 : n + 1])
        ]
        for mention in near[:1] or before[-1:]:
            sure = bool(near) and act is not Act.MEASURED and mention.sure
            for key in mention.keys:
                yield Told(key, act, mood if sure or mood is Mood.NOT else Mood.ASK, n, last)


def _noun_after(
    c: Clauses, n: int, nouns: Mapping[tuple[str, ...], Act], longest: int
) -> tuple[int, int, Act] | None:
    for k in range(n + 1, min(len(c.tokens), n + 9)):
        if c.tokens[k].breaks or c.word(k) in CLAUSE or c.word(k) in SUBJECTS:
            return None
        for length in range(longest, 0, -1):
            act = nouns.get(tuple(c.word(k + i) for i in range(length)))
            if act is not None and c.word(k - 1) not in ("to", "and"):
                return k, k + length, act
    return None

"""Which acts a talk tells, on which components, and whether they were done."""

from collections.abc import Iterator, Mapping, Sequence

from journal.hearing.moods import Clauses, Mood
from journal.hearing.naming import Mention
from journal.hearing.objects import focus_of, objects_of, shares
from journal.hearing.seen import Seen, verbs_seen
from journal.hearing.states import light_acts, state_acts
from journal.hearing.told import Told
from journal.hearing.verbs import Verb, is_itself
from journal.words.vocabulary import Act

# Verbs of many meanings: they tell an act of a thing that is named beside them, and of no `it`.
_LOOSE = frozenset(
    "set try grind hang time true tap go check test fill make trim face turn clock look split pass line cut "
    "dress open pull draw press gauge mount store label form".split()
)
# What is done to a part is not done to the whole.
_OF_WHOLE = frozenset(
    {
        Act.REMOVED,
        Act.FITTED,
        Act.STRIPPED,
        Act.MADE,
        Act.REBUILT,
        Act.TRIAL_FITTED,
        Act.STORED,
        Act.PROVED,
    }
)

# So far back a thing may have been named for which `it` stands: one that was worked on, and any other.
_FAR, _NEAR = 22, 8


def acts_in(
    clauses: Clauses, mentions: Sequence[Mention], verbs: Mapping[str, tuple[Verb, ...]],
    nouns: Mapping[tuple[str, ...], Act],
) -> tuple[Told, ...]:  # fmt: skip
    """Every act on a component that is named, or that `it` and `them` stand for, in order."""
    at = {n: m for m in mentions for n in range(m.first, m.last)}
    seen = list(verbs_seen(clauses, at, verbs))
    told = [
        *_of_verbs(clauses, mentions, at, seen),
        *state_acts(clauses, mentions, seen),
        *light_acts(clauses, mentions, nouns),
    ]
    return tuple(sorted(told, key=lambda t: (t.first, t.key, t.act)))


def _of_verbs(
    c: Clauses, mentions: Sequence[Mention], at: Mapping[int, Mention], seen: Sequence[Seen]
) -> Iterator[Told]:
    places = {s.at: s for s in seen}
    focus: list[Mention] = []
    waiting: list[Seen] = []
    acted: list[Mention] = []
    upto = 0
    for s in seen:
        focus = focus_of(c, mentions, upto, s.at, focus)
        upto = s.at
        objects, last, near = objects_of(c, s, at, places, focus)
        if not objects and shares(c, s, places):
            waiting.append(s)
            continue
        for one in (*waiting, s):
            for mention in objects:
                yield from _tell(c, one, mention, last, near, acted)
        waiting = []
        if objects:
            focus = acted = objects
            upto = max(upto, max(m.first for m in objects))


def _tell(
    c: Clauses, s: Seen, mention: Mention, last: int, near: bool, acted: Sequence[Mention]
) -> Iterator[Told]:
    """The act on a thing, to be asked where it is not plain that it was done, or to what."""
    mood = s.mood
    first, end = min(s.at, mention.first), max(s.particle, min(mention.last, last))
    if mention.last < s.at - 14 or mention.first > s.at + 14:
        first, end = s.at, max(s.particle, s.at + 1)
    loose = s.verb.head in _LOOSE and not s.verb.rest and mention.last <= s.at
    loose = (
        loose or s.verb.head == "have" or _is_new(c, s, mention) or (is_itself(s.verb) and not near)
    )
    loose = loose or (s.verb.head == "get" and not near)
    unsure = (
        loose
        or (mention.name.part and s.verb.act in _OF_WHOLE)
        or (not near and _is_far(c, s, mention, acted))
    )
    if mood is Mood.DONE and (unsure or not mention.keys or not mention.sure):
        mood = Mood.ASK
    for key in mention.keys:
        yield Told(key, s.verb.act, mood, first, end)
    if not mention.keys and len(mention.may) < 4 and mood is not Mood.NOT:
        for key in mention.may:
            yield Told(key, s.verb.act, mood, first, end)


def _is_new(c: Clauses, s: Seen, mention: Mention) -> bool:
    """Whether what came off or out is the new one, which comes out of its box and not off the car."""
    return s.verb.act in (Act.REMOVED, Act.STRIPPED) and c.word(mention.first - 1) == "new"


def _is_far(c: Clauses, s: Seen, mention: Mention, acted: Sequence[Mention]) -> bool:
    if s.verb.head in _LOOSE or mention.first > s.at:
        return True
    far = _FAR if mention in acted else _NEAR
    return s.at - mention.last > far or any(
        c.tokens[n].turns for n in range(mention.last, s.at + 1)
    )

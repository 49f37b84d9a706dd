"""Which acts a talk tells, on which components, and whether they were done."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from journal.hearing.mentions import Mention
from journal.hearing.moods import CLAUSE, Clauses, Mood, mood_of
from journal.hearing.verbs import Form, Verb, is_itself
from journal.words.vocabulary import Act

# As far behind a verb its second word may stand: "took the near side rear brake drum off".
_PARTICLE_REACH = 9
_SUBJECTS = frozenset("i we he she they i've we've i'm you somebody someone which who".split())
_STOPS = frozenset(
    "is are was were be been has have had that's it's theyre they're because".split()
)
# What shows that a thing begins a new sentence, and is no longer what a verb acts on.
_GOES_ON = frozenset(
    "is are was were has have had needs wants looks came comes went goes will won't wasn't isn't "
    "says did didn't does doesn't wont isnt wasnt doesnt looked feels felt seems should could "
    "would wouldn't couldn't which".split()
)
_DISTANT = frozenset(
    "from to on onto off in into under behind passes past near against of round where for with by "
    "at".split()
)
_PARTICLES = frozenset("off out apart in on up down back together over".split())
_PREPOSITIONS = frozenset(
    "from of in on for with to onto into against behind under at off round around by through "
    "between".split()
)
_PRONOUNS = frozenset("it them that those these both they everything lot".split())
_MANY = frozenset("them those these both they everything lot".split())
_DETERMINERS = frozenset("the a an my our his her their this one some two three".split())
# What follows a state such as "drum off" when nothing more belongs to it.
_AFTER_STATE = frozenset(
    "and so then but that's now which i we today again okay right already".split()
)
_AFTER_OFF = frozenset("the that with it that just is no this by on".split())


@dataclass(frozen=True)
class Told:
    """An act that a talk tells: tokens `first` to before `last` are its words."""

    key: str
    act: Act
    mood: Mood
    first: int
    last: int


@dataclass(frozen=True)
class _Seen:
    """A verb in the talk: where it stands, and where its second word does."""

    at: int
    last: int
    particle: int
    verb: Verb
    mood: Mood
    form: Form


def acts_in(
    clauses: Clauses, mentions: Sequence[Mention], verbs: Mapping[str, tuple[Verb, ...]],
    nouns: Mapping[tuple[str, ...], Act],
) -> tuple[Told, ...]:  # fmt: skip
    """Every act on a component that is named, or that `it` and `them` stand for, in order."""
    at = {n: m for m in mentions for n in range(m.first, m.last)}
    seen = list(_verbs(clauses, at, verbs))
    told = [
        *_of_verbs(clauses, mentions, at, seen),
        *_states(clauses, mentions, seen),
        *_light(clauses, mentions, nouns),
    ]
    return tuple(sorted(told, key=lambda t: (t.first, t.key, t.act)))


def _verbs(
    c: Clauses, at: Mapping[int, Mention], verbs: Mapping[str, tuple[Verb, ...]]
) -> Iterator[_Seen]:
    earlier: dict[int, tuple[Mood, Form]] = {}
    for n, token in enumerate(c.tokens):
        if n in at:
            continue
        for verb in verbs.get(token.text, ()):
            particle = _particle(c, n, verb, verbs, at)
            if particle is None:
                continue
            mood, form = mood_of(c, n, verb.forms, earlier)
            if form is Form.THIRD and not is_itself(verb):
                continue
            earlier[n] = (mood, form)
            last = max(n + 1, particle)
            yield _Seen(n, n + 1, last, verb, mood, form)
            break


def _particle(
    c: Clauses, n: int, verb: Verb, verbs: Mapping[str, tuple[Verb, ...]], at: Mapping[int, Mention]
) -> int | None:
    """The place after a verb's second word, `n` when it needs none, None where it is not there."""
    if not verb.rest:
        return n
    rest = verb.rest
    for k in range(n + 1, min(len(c.tokens), n + _PARTICLE_REACH)):
        if c.tokens[k].breaks:
            return None
        if tuple(c.word(k + i) for i in range(len(rest))) == rest and k not in at:
            end = k + len(rest)
            return end if _is_particle(c, k, end, n, at) else None
        word = c.word(k)
        if (
            word in _SUBJECTS
            or word in _STOPS
            or word in CLAUSE
            or (k in _heads(c, k, verbs) and k not in at)
        ):
            return None
        if word in _PARTICLES and word != "back" and k not in at and c.word(k + 1) != "side":
            return None
    return None


def _heads(c: Clauses, k: int, verbs: Mapping[str, tuple[Verb, ...]]) -> tuple[int, ...]:
    forms = [
        v for v in verbs.get(c.word(k), ()) if Form.BASE not in v.forms or Form.PAST in v.forms
    ]
    return (k,) if forms else ()


def _is_particle(c: Clauses, k: int, end: int, n: int, at: Mapping[int, Mention]) -> bool:
    """Whether the word belongs to the verb, and does not begin `in a box` or `on the bench`."""
    if c.word(end - 1) not in ("in", "on", "over", "up", "down"):
        return not (c.word(k) == "out" and c.word(end) in ("to", "for"))
    if c.word(end) not in _DETERMINERS or c.tokens[min(end, len(c.tokens) - 1)].breaks:
        return True
    follows = next((m for i in range(end, end + 5) if (m := at.get(i)) is not None), None)
    return follows is not None and (k > n + 1 or c.word(end - 1) in ("in", "up", "down", "over"))


def _of_verbs(
    c: Clauses, mentions: Sequence[Mention], at: Mapping[int, Mention], seen: Sequence[_Seen]
) -> Iterator[Told]:
    places = {s.at: s for s in seen}
    focus: list[Mention] = []
    waiting: list[_Seen] = []
    upto = 0
    for s in seen:
        focus = _focus(c, mentions, upto, s.at, focus)
        upto = s.at
        objects, last, near = _objects(c, s, at, places, focus)
        if not objects and _shares(c, s, places):
            waiting.append(s)
            continue
        for one in (*waiting, s):
            for mention in objects:
                yield from _tell(c, one, mention, last, near)
        waiting = []
        if objects:
            focus = objects
            upto = max(upto, max(m.first for m in objects))


# Verbs of many meanings: they tell an act of a thing that is named beside them, and of no `it`.
_LOOSE = frozenset(
    {
        "set",
        "try",
        "grind",
        "hang",
        "time",
        "true",
        "tap",
        "go",
        "check",
        "test",
        "fill",
        "make",
        "trim",
        "face",
        "turn",
        "clock",
        "look",
        "split",
        "pass",
        "line",
        "cut",
        "dress",
        "open",
    }
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
# So far back a thing may have been named for which `it` stands.
_FAR = 22


def _tell(c: Clauses, s: _Seen, mention: Mention, last: int, near: bool) -> Iterator[Told]:
    """The act on a thing, to be asked where it is not plain that it was done, or to what."""
    mood = s.mood
    first, end = min(s.at, mention.first), max(s.particle, min(mention.last, last))
    if mention.last < s.at - 14 or mention.first > s.at + 14:
        first, end = s.at, max(s.particle, s.at + 1)
    unsure = (mention.name.part and s.verb.act in _OF_WHOLE) or (
        not near and _is_far(c, s, mention)
    )
    if mood is Mood.DONE and (unsure or not mention.keys):
        mood = Mood.ASK
    for key in mention.keys:
        yield Told(key, s.verb.act, mood, first, end)
    if not mention.keys and len(mention.may) < 4 and mood is not Mood.NOT:
        for key in mention.may:
            yield Told(key, s.verb.act, mood, first, end)


def _is_far(c: Clauses, s: _Seen, mention: Mention) -> bool:
    if s.verb.head in _LOOSE and not s.verb.rest:
        return True
    low, high = sorted((s.at, mention.last))
    return high - low > _FAR or any(c.tokens[n].turns for n in range(low + 1, high + 1))


def _focus(
    c: Clauses, mentions: Sequence[Mention], start: int, end: int, focus: list[Mention]
) -> list[Mention]:
    """What `it` and `them` mean at a place: the things named last, one after the other."""
    here = [m for m in mentions if start <= m.first < end]
    if focus:
        here = [m for m in here if not _is_distant(c, m)]
    if not here:
        return focus
    run = [here[-1]]
    for mention in reversed(here[:-1]):
        between = [c.word(n) for n in range(mention.last, run[0].first)]
        if len(between) > 4 or ("and" not in between and not c.tokens[run[0].first].pause):
            break
        run.insert(0, mention)
    return run


def _is_distant(c: Clauses, mention: Mention) -> bool:
    """Whether a thing is named only to say where another is: `from the hub`, `where it passes the fan`."""
    at = mention.first - 1
    while at >= 0 and c.word(at) in _DETERMINERS | {
        "near",
        "side",
        "front",
        "rear",
        "back",
        "old",
        "new",
    }:
        at -= 1
    if c.word(at) == "is" and c.word(at - 1) == "which":
        return True
    return c.word(at) in _DISTANT and not c.tokens[at + 1].breaks


def _objects(
    c: Clauses,
    s: _Seen,
    at: Mapping[int, Mention],
    places: Mapping[int, _Seen],
    focus: Sequence[Mention],
) -> tuple[list[Mention], int, bool]:
    """The things that a verb speaks of, where its words end, and whether they are named beside it."""
    if is_itself(s.verb) or (s.form is Form.PAST and _is_passive(c, s)):
        named = _subject(c, s, at, ())
        return named or _subject(c, s, at, focus), s.particle, bool(named)
    pronoun = _pronoun(c, s)
    if pronoun and c.word(s.at + 1) in _PRONOUNS and (s.at + 1) not in at:
        follows = at.get(s.at + 2)
        if follows is None or pronoun in ("it", "them"):
            return _meant(pronoun, focus), s.particle, False
    direct, behind, end = _after(c, s, at, places)
    if direct:
        return direct, end, True
    if pronoun:
        return _meant(pronoun, focus), s.particle, False
    if behind and not s.verb.rest and s.verb.act in _OF_BEHIND and s.verb.head != "set":
        return behind, end, True
    dimension = _dimension(c, s)
    if dimension and focus:
        return list(focus[-1:]), max(s.particle, dimension), True
    return _topic(c, s, at), s.particle, True


# Acts that may be told of a thing behind a preposition: `cleaned the muck out of the sump`.
_OF_BEHIND = frozenset(
    {
        Act.CLEANED,
        Act.INSPECTED,
        Act.MEASURED,
        Act.PAINTED,
        Act.REFINISHED,
        Act.PROVED,
        Act.ADJUSTED,
    }
)
# What is measured or set, and is no part: the act is then on what the talk is about.
_DIMENSIONS = frozenset(
    "float preload clearance clearances lash backlash timing toe gap gaps tension play runout "
    "tracking depth height bore bores endfloat run-out pressure compression mesh".split()
)


def _dimension(c: Clauses, s: _Seen) -> int:
    """The place after a dimension that a verb acts on, 0 where there is none."""
    for n in range(s.at + 1, min(len(c.tokens), s.at + 6)):
        if c.tokens[n].breaks or c.word(n) in _SUBJECTS | CLAUSE:
            return 0
        if c.word(n) in _DIMENSIONS:
            return n + 1
    return 0


def _topic(c: Clauses, s: _Seen, at: Mapping[int, Mention]) -> list[Mention]:
    """The thing named before a clause that says what was done: `kingpins i reamed out`, `the sump
    cleaned and painted`."""
    n = c.before(s.at)
    if (
        s.verb.rest
        and s.particle > s.at + 1 + len(s.verb.rest)
        and c.word(s.at + 1) not in _PRONOUNS
    ):
        return []
    if c.word(n) in ("i", "we", "i've", "we've", "ive", "weve") and not c.tokens[n + 1].breaks:
        if c.tokens[n].breaks:
            return []
        n = c.before(n)
    elif s.form is not Form.PAST:
        return []
    if c.tokens[n + 1].breaks:
        return []
    mention = at.get(n)
    if mention is None and c.word(n) == "side":
        mention = next((at[k] for k in range(n, max(-1, n - 6), -1) if k in at), None)
    if mention is None or _is_distant(c, mention):
        return []
    run = [mention]
    first = mention.first
    while c.word(first - 1) in _DETERMINERS | {"both", "front", "rear", "near", "off", "side"}:
        first -= 1
    if (
        c.word(first - 1) == "and"
        and (before := at.get(first - 2)) is not None
        and not _is_distant(c, before)
    ):
        run.insert(0, before)
    return run


def _is_passive(c: Clauses, s: _Seen) -> bool:
    word = c.word(c.before(s.at))
    return word in (
        "is",
        "are",
        "was",
        "were",
        "been",
        "it's",
        "that's",
        "they're",
        "theyre",
        "its",
        "thats",
    ) or (word.endswith("'s") and word not in ("he's", "she's"))


def _after(
    c: Clauses, s: _Seen, at: Mapping[int, Mention], places: Mapping[int, _Seen]
) -> tuple[list[Mention], list[Mention], int]:
    """Things behind a verb: those it acts on, those behind a preposition, and where the last one ends."""
    direct: list[Mention] = []
    behind: list[Mention] = []
    preposition = False
    end = s.at + 1
    n = s.at + 1
    while n < min(len(c.tokens), s.at + 26) and not _closes(c, s, n, places):
        mention = at.get(n)
        if mention is not None and mention.first == n:
            if (direct or behind) and c.word(mention.last) in _GOES_ON:
                break
            (behind if preposition else direct).append(mention)
            end = n = mention.last
            continue
        preposition = _is_behind(c, s, n, preposition, bool(direct))
        found = bool(direct or behind)
        if n - end > 6 if found else n > s.at + 12:
            break
        n += 1
    return direct, behind, max(end, s.particle)


def _closes(c: Clauses, s: _Seen, n: int, places: Mapping[int, _Seen]) -> bool:
    """Whether a word begins something else than what the verb acts on."""
    word = c.word(n)
    other = n in places and n != s.at
    return c.tokens[n].breaks or other or word in _SUBJECTS or (word in CLAUSE and word != "then")


def _is_behind(c: Clauses, s: _Seen, n: int, so_far: bool, direct: bool) -> bool:
    """Whether what follows a word stands behind a preposition."""
    word = c.word(n)
    inside = s.verb.rest and s.particle - len(s.verb.rest) <= n < s.particle
    if word in _PREPOSITIONS and not inside and not (word == "of" and not direct):
        return True
    if word == "and" or c.tokens[n].pause:
        return so_far and not direct
    return so_far


def _pronoun(c: Clauses, s: _Seen) -> str:
    for n in range(s.at + 1, min(len(c.tokens), max(s.particle, s.at + 3))):
        if c.tokens[n].breaks:
            return ""
        if c.word(n) in _PRONOUNS:
            return c.word(n)
        if c.word(n) in _SUBJECTS | CLAUSE | {"and"}:
            return ""
    return ""


def _meant(pronoun: str, focus: Sequence[Mention]) -> list[Mention]:
    if pronoun in _MANY:
        return list(focus)
    return list(focus[-1:])


def _subject(
    c: Clauses, s: _Seen, at: Mapping[int, Mention], focus: Sequence[Mention]
) -> list[Mention]:
    """The thing before a verb of which it speaks: `the drum came off`, `it's cleaned`."""
    found: list[Mention] = []
    for n in range(s.at - 1, max(-1, s.at - 14), -1):
        word = c.word(n)
        mention = at.get(n)
        if mention is not None:
            if mention.first == n:
                if _is_distant(c, mention):
                    break
                found.insert(0, mention)
            if c.tokens[mention.first].breaks:
                break
            continue
        if not found and s.at - n > 6:
            break
        if found and word not in (
            "and",
            "the",
            "a",
            "both",
            "front",
            "rear",
            "near",
            "off",
            "side",
            "old",
            "new",
        ):
            break
        if (
            not found
            and focus
            and word
            in (
                "it",
                "it's",
                "its",
                "they",
                "they're",
                "that",
                "that's",
                "theyre",
                "thats",
                "them",
                "one",
                "side",
            )
        ):
            return (
                list(focus) if word in ("they", "they're", "theyre", "them") else list(focus[-1:])
            )
        if word in _SUBJECTS or c.tokens[n].breaks or word in ("but", "so", "because"):
            break
    return found


def _shares(c: Clauses, s: _Seen, places: Mapping[int, _Seen]) -> bool:
    """Whether the verb waits for the thing that a next one names: `cleaned and painted the sump`."""
    for n in range(s.particle, min(len(c.tokens), s.particle + 4)):
        if c.tokens[n].breaks:
            return False
        if n in places:
            return places[n].form is s.form
        if (
            c.word(n) not in ("and", "then", "or", "carefully", "properly")
            and not c.tokens[n].pause
        ):
            return False
    return False


_LIGHT = frozenset(
    "gave give giving had have having did do doing put putting got getting took take ran run used "
    "stuck".split()
)


def _light(
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
            sure = bool(near) and act is not Act.MEASURED
            for key in mention.keys:
                yield Told(key, act, mood if sure or mood is Mood.NOT else Mood.ASK, n, last)


def _noun_after(
    c: Clauses, n: int, nouns: Mapping[tuple[str, ...], Act], longest: int
) -> tuple[int, int, Act] | None:
    for k in range(n + 1, min(len(c.tokens), n + 9)):
        if c.tokens[k].breaks or c.word(k) in CLAUSE or c.word(k) in _SUBJECTS:
            return None
        for length in range(longest, 0, -1):
            act = nouns.get(tuple(c.word(k + i) for i in range(length)))
            if act is not None and c.word(k - 1) not in ("to", "and"):
                return k, k + length, act
    return None


def _states(c: Clauses, mentions: Sequence[Mention], seen: Sequence[_Seen]) -> Iterator[Told]:
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
        if word == "together" and mood is Mood.DONE:
            mood = Mood.ASK
        for key in mention.keys:
            yield Told(key, _STATES[word], mood, mention.first, n + 1)


_STATES = {"off": Act.REMOVED, "out": Act.REMOVED, "apart": Act.STRIPPED, "in": Act.FITTED, "on": Act.FITTED,
           "together": Act.REBUILT}  # fmt: skip


def _ends(c: Clauses, n: int) -> bool:
    if n >= len(c.tokens) or c.tokens[n].breaks or c.tokens[n].pause or c.word(n) in _AFTER_STATE:
        return True
    return c.word(n - 1) not in ("in", "on") and c.word(n) in _AFTER_OFF


def _state_mood(c: Clauses, at: int) -> Mood:
    """A state is told as done unless the words before it wish for it or deny it."""
    mood, _ = mood_of(c, at, frozenset({Form.PARTICIPLE}), {})
    before = [c.word(n) for n in range(max(c.start_of(at), at - 6), at)]
    if set(before) & _UNTOLD or any(word.endswith("n't") for word in before):
        return Mood.NOT
    return mood


_UNTOLD = frozenset(
    "with get getting want wants need needs to will would could should can can't if when once "
    "until before not had have without going were was leave left".split()
)

"""The verbs of a talk that tell an act, each with its second word: `took ... off`."""

from collections.abc import Iterator, Mapping

from msgspec import Struct

from journal.hearing.moods import CLAUSE, Clauses, Mood, mood_of
from journal.hearing.naming import Mention
from journal.hearing.verbs import Form, Verb, is_itself

# As far behind a verb its second word may stand: "took the near side rear brake drum off".
_PARTICLE_REACH = 12

SUBJECTS = frozenset("i we he she they i've we've i'm you somebody someone which who".split())

_STOPS = frozenset(
    "is are was were be been has have had that's it's theyre they're because".split()
)

_PARTICLES = frozenset("off out apart in on up down back together over".split())

DETERMINERS = frozenset("the a an my our his her their this one some two three".split())


class Seen(Struct, frozen=True):
    """A verb in the talk: where it stands, and where its second word does."""

    at: int
    last: int
    particle: int
    verb: Verb
    mood: Mood
    form: Form


def verbs_seen(
    c: Clauses, at: Mapping[int, Mention], verbs: Mapping[str, tuple[Verb, ...]]
) -> Iterator[Seen]:
    """Every verb of an act in the order of the talk, with what was found of its mood. `at` are the
    mentions by their words, in which no verb is sought."""
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
            yield Seen(n, n + 1, last, verb, mood, form)
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
        here = tuple(c.word(k + i) for i in range(len(rest))) == rest
        if here and k not in at and c.word(k + 1) != "side":
            end = k + len(rest)
            return end if _is_particle(c, k, end, n, at) else None
        word = c.word(k)
        if (
            word in SUBJECTS
            or word in _STOPS
            or word in CLAUSE
            or (k in _heads(c, k, verbs) and k not in at)
        ):
            return None
        if word in _PARTICLES and word != "back" and k not in at and not _tells_place(c, k):
            return None
    return None


def _tells_place(c: Clauses, k: int) -> bool:
    """Whether a small word only says which thing is meant: `off side`, `on the near side`."""
    return c.word(k + 1) == "side" or (
        c.word(k) in ("on", "in") and c.word(k + 1) in ("the", "that")
    )


def _heads(c: Clauses, k: int, verbs: Mapping[str, tuple[Verb, ...]]) -> tuple[int, ...]:
    forms = [
        v for v in verbs.get(c.word(k), ()) if Form.BASE not in v.forms or Form.PAST in v.forms
    ]
    return (k,) if forms else ()


def _is_particle(c: Clauses, k: int, end: int, n: int, at: Mapping[int, Mention]) -> bool:
    """Whether the word belongs to the verb, and does not begin `in a box` or `on the bench`."""
    if c.word(end - 1) not in ("in", "on", "over", "up", "down"):
        return not (c.word(k) == "out" and c.word(end) in ("to", "for"))
    if c.word(end) not in DETERMINERS or c.tokens[min(end, len(c.tokens) - 1)].breaks:
        return True
    follows = next((m for i in range(end, end + 5) if (m := at.get(i)) is not None), None)
    return follows is not None and (k > n + 1 or c.word(end - 1) in ("in", "up", "down", "over"))

"""Lines on work: acts, where things come from, what was found, who decided."""

import re
from collections.abc import Iterator, Sequence

from journal.hearing import cues
from journal.hearing.heard import Kind, Line
from journal.hearing.listening import Listening
from journal.hearing.moods import Mood
from journal.hearing.people import owner_words
from journal.hearing.told import Told
from journal.reading.yamltext import Plain
from journal.words.text import listed
from journal.words.vocabulary import Act


def work_lines(here: Listening) -> Iterator[Line]:
    """Everything that goes under `work:`."""
    yield from _acts(here)
    yield from _origins(here)
    yield from _found(here)
    yield from _decided(here)


def _acts(here: Listening) -> Iterator[Line]:
    """Acts, those of the same words as one line. An act on a component is told once."""
    done = {(one.key, one.act) for one in here.acts if one.mood is Mood.DONE}
    seen: set[tuple[str, Act]] = set()
    groups: dict[tuple[int, int, Mood], list[Told]] = {}
    for one in here.acts:
        pair = (one.key, one.act)
        if one.mood is Mood.NOT or pair in seen or (one.mood is Mood.ASK and pair in done):
            continue
        seen.add(pair)
        groups.setdefault((one.first, one.last, one.mood), []).append(one)
    for (first, last, mood), acts in groups.items():
        yield _act(here, first, last, mood, acts)


def _act(here: Listening, first: int, last: int, mood: Mood, acts: Sequence[Told]) -> Line:
    did: dict[str, list[Plain]] = {}
    for one in acts:
        did.setdefault(one.key, []).append(one.act.value)
    work: dict[str, Plain] = {key: {"did": words} for key, words in did.items()}
    ask = "" if mood is Mood.DONE else "Was this done today, and to this component?"
    missing = [key for key in work if here.car.component(key) is None]
    if missing:
        ask = f"{listed(missing, 'and')} is not in the register of this car. Is another component meant?"
    return here.line(Kind.ACT, first, last, {"work": work}, ask, work)


def _origins(here: Listening) -> Iterator[Line]:
    seen: set[tuple[str, str]] = set()
    for origin, pattern in cues.ORIGINS:
        for first, last, _ in here.flat.found(pattern):
            keys = here.near(first, last)[:1]
            if not keys or (keys[0], origin) in seen:
                continue
            seen.add((keys[0], origin))
            low, high = here.flat.clause(first, last)
            ask = "Is this where it comes from, and is it on the car now?"
            told: dict[str, Plain] = {"work": {keys[0]: {"now": origin}}}
            yield here.line(Kind.ORIGIN, low, high, told, ask, keys)


def _found(here: Listening) -> Iterator[Line]:
    """What an inspection found to be sound; what it found wrong is a snag."""
    for first, last, _ in here.flat.found(cues.FOUND_SOUND):
        low, high = here.flat.clause(first, last)
        keys = here.near(low, high)[:1]
        if keys:
            line = here.line(Kind.FOUND, low, high, {}, "", keys)
            yield here.told(line, {"work": {keys[0]: {"found": line.words}}})


def _decided(here: Listening) -> Iterator[Line]:
    owner = re.compile(
        rf"(?<!\S)(?:{'|'.join(map(re.escape, owner_words(here.car.car)))}|mrs|mr|she|he)(?:'s)?(?!\S)"
    )
    for first, last, _ in here.flat.found(cues.DECIDED):
        low, high = here.flat.clause(first, last)
        words = " ".join(token.text for token in here.tokens[low:high])
        keys = here.near(first, last)[:1]
        by = "owner" if owner.search(words) else ""
        told: dict[str, Plain] = {"work": {keys[0]: {"decided": by}}} if by and keys else {}
        ask = (
            "Is this what the owner decided, and for this component?" if by else "Who decided this?"
        )
        yield here.line(Kind.DECIDED, low, high, told, ask, keys)

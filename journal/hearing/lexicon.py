"""What the components of a car may be called: every name, and the components it may mean."""

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property

from msgspec import Struct

from journal.hearing.sounds import lemma_of, sound_of
from journal.records.register import Register
from journal.records.terms import Terms, Thing
from journal.words.sides import Side, side_in, without_side
from journal.words.vocabulary import Drive

_AXES = {"front": "front", "rear": "rear", "back": "rear"}
_AXIS_OF = {"front-suspension": "front", "rear-suspension": "rear", "rear-axle": "rear"}
# Words before a noun that belong to the noun of the last part too: `Door and boot seals`.
_SHARED = frozenset(
    "main big-end side tail door boot chassis running-gear hood water fuel brake oil throttle choke".split()
)
_SMALL = frozenset({"and", "or", "of", "the", "a", "to", "in", "for", "with", "s"})


class Called(Struct, frozen=True):
    """A component as it may be spoken of: its key, its end and its side of the car where it has one."""

    key: str
    subsystem: str
    axis: str = ""
    side: Side | None = None


class Name(Struct, frozen=True):
    """One name: the components it may mean. `weak` says too little alone; `part` is the name of a piece,
    which is not the whole component."""

    words: tuple[str, ...]
    means: tuple[Called, ...]
    weak: bool = False
    part: bool = False

    @property
    def joined(self) -> str:
        """The words without blanks, so that `lay gear` and `laygear` are one name."""
        return "".join(self.words)


class Lexicon(Struct, frozen=True, dict=True):
    """All names of a register, by their words without blanks."""

    names: Mapping[str, Name]

    @cached_property
    def sounds(self) -> Mapping[str, Name]:
        """Names by how they sound. Where two sound alike, or one is short, none is known by it."""
        found: dict[str, Name | None] = {}
        for name in self.names.values():
            sound = sound_of(name.joined)
            if len(sound) > 2 and len(name.joined) > (5 if name.weak else 4):
                found[sound] = None if sound in found else name
        return {sound: name for sound, name in found.items() if name is not None}

    @cached_property
    def long(self) -> tuple[str, ...]:
        """Names long enough to be known in spite of a letter or two."""
        return tuple(j for j, name in self.names.items() if len(j) > 6 and not name.weak)

    @cached_property
    def most_words(self) -> int:
        """The words of the longest name, and one more for a name that was heard in two."""
        return 1 + max((len(name.words) for name in self.names.values()), default=0)


def lemmas_of(text: str) -> tuple[str, ...]:
    """The words of a name, without endings and small words: `Door and boot seals` is door boot seal."""
    words = re.findall(r"[a-z0-9]+", text.casefold().replace("'s", "").replace("’s", ""))
    return tuple(lemma_of(word) for word in words if word not in _SMALL)


def lexicon_of(
    register: Register, terms: Terms, american: bool = False, starter: Register | None = None
) -> Lexicon:
    """The names of a register's components: its own, those of its keys, and those of the terms.

    What a car has no component for is called by the names of the starter register.
    """
    found = dict(lexicon_of(starter, terms, american).names) if starter is not None else {}
    return Lexicon(found | _names_of(register, terms, american))


def _names_of(register: Register, terms: Terms, american: bool) -> dict[str, Name]:
    called = [(entry.key, entry.label) for entry in register.components]
    places = [(_called(key, name), name) for key, name in called]
    weak = {"".join(lemmas_of(word)) for word in terms.weak}
    found: dict[str, Name] = {}
    for words, means, last, part in (
        *((w, (c,), False, False) for c, name in places for w in _own_names(c, name)),
        *((w, m, False, part) for thing in terms.things for w, m, part in _of_terms(thing, places)),
        *((w, (c,), True, False) for c, name in places for w in _last_words(name)),
    ):
        if any(len(word) > 1 for word in words):
            _put(found, Name(words, means, last or "".join(words) in weak, part))
    if american:
        _translate(found, terms)
    for phrase in terms.nothing:
        words = tuple(map(lemma_of, phrase.split()))
        found["".join(words)] = Name(words, ())
    return found


def _put(found: dict[str, Name], name: Name) -> None:
    had = found.get(name.joined)
    if had is None:
        found[name.joined] = name
    else:
        means = tuple(dict.fromkeys((*had.means, *name.means)))
        weak = had.weak if len(means) == len(had.means) else had.weak or name.weak
        found[name.joined] = Name(had.words, means, weak, had.part and name.part)


def _called(key: str, name: str) -> Called:
    subsystem = key.split("/")[0]
    words = {*lemmas_of(name), *lemmas_of(key.split("/", 1)[-1])}
    axis = next((_AXES[word] for word in ("front", "rear") if word in words), "")
    return Called(key, subsystem, axis or _AXIS_OF.get(subsystem, ""), side_in(name))


def _own_names(called: Called, name: str) -> Iterator[tuple[str, ...]]:
    """What the register calls it, whole and in parts, with its end of the car and without."""
    bare = without_side(name) if called.side else name
    for part in (bare, *_parts(bare)):
        words = lemmas_of(part)
        yield words
        if words and words[0] in _AXES:
            yield words[1:]
            yield (next(w for w, a in _AXES.items() if a == words[0] and w != words[0])
                   if words[0] == "rear" else "front", *words[1:])  # fmt: skip


def _parts(name: str) -> Iterator[str]:
    parts = [part.strip() for part in re.split(r",| and | or ", name) if part.strip()]
    if len(parts) < 2:
        return
    noun = parts[-1].split()[-1]
    for part in parts:
        word = part.casefold()
        yield f"{part} {noun}" if word in _SHARED or word.split()[-1] in _SHARED else part


def _last_words(name: str) -> Iterator[tuple[str, ...]]:
    """The nouns alone, which say little: `Steering box` is a box."""
    bare = without_side(name)
    for part in _parts(bare) if _several(bare) else (bare,):
        words = lemmas_of(part)
        if len(words) > 1:
            yield words[-1:]


def _several(name: str) -> bool:
    return any(True for _ in _parts(name))


def _of_terms(
    thing: Thing, places: Iterable[tuple[Called, str]]
) -> Iterator[tuple[tuple[str, ...], tuple[Called, ...], bool]]:
    means = _places_of(thing, [(c, name) for c, name in places if c.subsystem == thing.in_])
    if means:
        yield from ((lemmas_of(name), means, False) for name in thing.names)
        yield from ((lemmas_of(name), means, True) for name in thing.parts)


def _places_of(thing: Thing, places: list[tuple[Called, str]]) -> tuple[Called, ...]:
    """The components whose names hold the words, those that hold the fewest others."""
    for of in thing.of:
        wanted = set(lemmas_of(of))
        lemmas = [
            (c, {*lemmas_of(name), *lemmas_of(c.key.split("/", 1)[-1])}) for c, name in places
        ]
        more = [(len(had - wanted - _POSITIONS), c) for c, had in lemmas if wanted <= had]
        if more:
            fewest = min(count for count, _ in more)
            return tuple(c for count, c in more if count == fewest)
    return ()


_POSITIONS = frozenset({"near", "off", "side", "front", "rear", "driver", "passenger"})


def _translate(found: dict[str, Name], terms: Terms) -> None:
    """Words that mean something else in the mouth of an American."""
    for said, meant in terms.american.means:
        words = lemmas_of(said)
        name = found.get("".join(lemmas_of(meant)))
        if name is not None:
            found["".join(words)] = Name(words, name.means)


def side_said(word: str, drive: Drive | None) -> Side | None:
    """The side that a word tells of. The near side is the one by the kerb, so that the driver sits on
    the off side, and left and right change with the side of the steering wheel."""
    left = Side.OFF if drive is Drive.LEFT else Side.NEAR
    right = Side.NEAR if drive is Drive.LEFT else Side.OFF
    return {
        "driver": Side.OFF,
        "passenger": Side.NEAR,
        "near": Side.NEAR,
        "off": Side.OFF,
        "nearside": Side.NEAR,
        "offside": Side.OFF,
        "left": left,
        "right": right,
    }.get(word)

"""Where a talk names a component: as it is called, in two words for one, by its sound, or nearly so."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace
from rapidfuzz import fuzz, process

from journal.hearing.common import COMMON
from journal.hearing.lexicon import Lexicon, Name
from journal.hearing.sounds import lemma_of, sound_of
from journal.hearing.tokens import Token

# How alike two names must be, of 100, to be taken for one word that was misheard.
_ALIKE = 87


_SMALL = frozenset("the on at of in to from and a an its that this my our it i we is was".split())


class Mention(Struct, frozen=True):
    """A place in the talk, tokens `first` to before `last`, that names a component.

    `keys` are the components meant: several for "both front wings". `may` are those it may mean where
    nobody can tell; then `keys` is empty. `plural` tells that more than one thing was named. `sure` is
    false where the name alone says little, or was hardly that name as it was heard.
    """

    first: int
    last: int
    name: Name
    keys: tuple[str, ...] = ()
    may: tuple[str, ...] = ()
    plural: bool = False
    sure: bool = True

    @property
    def words(self) -> tuple[str, ...]:
        """The name by which it was known."""
        return self.name.words


def named_in(
    tokens: Sequence[Token], lexicon: Lexicon, misheard: Iterable[tuple[str, str]]
) -> Iterator[Mention]:
    """Every name in a talk, the longest that begins at a place; which component it means is open."""
    lemmas = [lemma_of(token.text) for token in tokens]
    wrong = {tuple(map(lemma_of, heard.split())): meant for heard, meant in misheard}
    longest = max((len(words) for words in wrong), default=0)
    reach = max(lexicon.most_words, longest)
    at = 0
    while at < len(tokens):
        found = _longest(tokens, lemmas, at, reach, lexicon, wrong)
        if found is not None and not _continues(tokens, lemmas, at, found, reach, lexicon, wrong):
            length, name = found
            if name.means:
                plural = tokens[at + length - 1].text.endswith("s") and not name.joined.endswith(
                    "s"
                )
                sure = _is_heard(lemmas[at : at + length], name, wrong)
                yield Mention(at, at + length, name, plural=plural, sure=sure)
            at += length
        else:
            at += 1


def joined_in(tokens: Sequence[Token], found: Iterable[Mention]) -> Iterator[Mention]:
    """Names that run into one another are one thing: the cap of a rod is of the rod, and a part of it.

    What is named with `a` is any such thing, and not surely that of the car.
    """
    before: Mention | None = None
    for mention in found:
        touches = before is not None and before.last == mention.first
        apart = tokens[mention.first].breaks or tokens[mention.first].pause
        if before is not None and touches and not apart and mention.name.weak:
            before = replace(before, last=mention.last, sure=False)
            continue
        if before is not None:
            yield before
        article = tokens[mention.first - 1].text if mention.first else ""
        before = replace(
            mention, sure=mention.sure and article not in ("a", "an", "another", "any")
        )
    if before is not None:
        yield before


def _is_heard(window: Sequence[str], name: Name, wrong: Mapping[tuple[str, ...], str]) -> bool:
    """Whether the words are the name, sound like it, or are known to be heard for it."""
    joined = "".join(window)
    known = any((word,) in wrong for word in window) or tuple(window) in wrong
    return known or joined == name.joined or sound_of(joined) == sound_of(name.joined)


def _longest(
    tokens: Sequence[Token], lemmas: Sequence[str], at: int, reach: int, lexicon: Lexicon,
    wrong: Mapping[tuple[str, ...], str],
) -> tuple[int, Name] | None:  # fmt: skip
    """The longest name that begins at a place, with its length."""
    for length in range(min(reach, len(tokens) - at), 0, -1):
        if any(t.breaks for t in tokens[at + 1 : at + length]):
            continue
        name = _name_of(lemmas[at : at + length], lexicon, wrong)
        if name is not None:
            return length, name
    return None


def _continues(
    tokens: Sequence[Token], lemmas: Sequence[str], at: int, found: tuple[int, Name], reach: int,
    lexicon: Lexicon, wrong: Mapping[tuple[str, ...], str],
) -> bool:  # fmt: skip
    """Whether the words belong to a longer name that begins within them: front `wheel cylinder`."""
    length, _ = found
    for start in range(at + 1, at + length):
        later = _longest(tokens, lemmas, start, reach, lexicon, wrong)
        if later is not None and start + later[0] > at + length and later[1].means:
            return True
    return False


def _name_of(
    window: Sequence[str], lexicon: Lexicon, wrong: Mapping[tuple[str, ...], str]
) -> Name | None:
    joined = "".join(window)
    if joined in lexicon.names and (len(window) == 1 or window[0] not in _SMALL):
        return lexicon.names[joined]
    meant = wrong.get(tuple(window))
    if meant is not None:
        found = lexicon.names.get("".join(map(lemma_of, meant.split())))
        if found is not None:
            return found
    for put in (_mended(window, wrong),):
        if put and "".join(put) in lexicon.names:
            return lexicon.names["".join(put)]
    return _alike(window, joined, lexicon)


def _mended(window: Sequence[str], wrong: Mapping[tuple[str, ...], str]) -> list[str] | None:
    """Words of which one is known to be misheard: `break pipe` is a brake pipe."""
    if len(window) < 2 or not any((lemma,) in wrong for lemma in window):
        return None
    put = [word for lemma in window for word in wrong.get((lemma,), lemma).split()]
    put = [lemma_of(word) for word in put]
    return put if put != list(window) else None


def _alike(window: Sequence[str], joined: str, lexicon: Lexicon) -> Name | None:
    """The name that sounds like these words, or is nearly the same letters; no everyday word is one."""
    if len(joined) < 5 or window[0] in COMMON or _SMALL.intersection(window):
        return None
    common = window[-1] in COMMON
    if common and (len(joined) < 9 or len(window) < 2):
        return None
    found = lexicon.sounds.get(sound_of(joined))
    if (
        found is not None
        and found.means
        and fuzz.ratio(joined, found.joined) >= (60 if len(window) > 1 else 72)
    ):
        return found
    if len(joined) < 7 or common:
        return None
    near = process.extractOne(joined, lexicon.long, scorer=fuzz.ratio, score_cutoff=_ALIKE)
    if near is None or near[0][0] != joined[0]:
        return None
    return lexicon.names[near[0]]

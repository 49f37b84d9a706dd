"""Turns of phrase, looked up by their words."""

from collections.abc import Iterable, Sequence

from msgspec import Struct

Words = tuple[str, ...]


class Phrases(Struct, frozen=True):
    """A set of phrases with the numbers of words they have, the longest first."""

    all: frozenset[Words]
    lengths: tuple[int, ...]

    def at(self, words: Sequence[str], n: int) -> int:
        """How many words the longest phrase has that begins at word n; 0 where none does."""
        left = len(words) - n
        return next(
            (k for k in self.lengths if k <= left and tuple(words[n : n + k]) in self.all), 0
        )

    def before(self, words: Sequence[str], n: int) -> int:
        """How many words the longest phrase has that ends right before word n; 0 where none does."""
        return next((k for k in self.lengths if k <= n and tuple(words[n - k : n]) in self.all), 0)

    def within(self, words: Sequence[str]) -> bool:
        """Whether any of the phrases stands anywhere among some words."""
        return any(self.at(words, n) for n in range(len(words)))


def phrases(*texts: str) -> Phrases:
    """Phrases as they are written, with blanks between their words."""
    return phrases_of(tuple(text.split()) for text in texts)


def phrases_of(said: Iterable[Words]) -> Phrases:
    """Phrases that are parted into words already."""
    found = frozenset(said)
    return Phrases(found, tuple(sorted({len(phrase) for phrase in found}, reverse=True)))

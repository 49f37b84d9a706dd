"""Captions to a talk: their words as one text, with what rolls up the screen told once."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import groupby, pairwise
from typing import NamedTuple

from journal.records.talk import Cue, Talk


class Word(NamedTuple):
    """A word of a caption: since when it is said, where that is known, and by whom."""

    text: str
    begins: Fraction | None = None
    voice: str = ""


Line = tuple[Word, ...]


class Caption(NamedTuple):
    """What one caption shows, line by line, and from when to when."""

    begins: Fraction | None
    ends: Fraction | None
    lines: tuple[Line, ...]

    @property
    def words(self) -> Line:
        """All words in order."""
        return tuple(word for line in self.lines for word in line)


def talk_of(captions: Iterable[Caption], source: str) -> Talk:
    """The talk that captions hold, in their order. Words of one caption with one time and one voice are
    a cue, which ends where the next one in the caption begins."""
    texts: list[str] = []
    cues: list[Cue] = []
    here = 0
    for caption in unrolled([c for c in captions if c.words]):
        first = len(cues)
        for (begins, voice), words in groupby(caption.words, lambda w: (w.begins, w.voice)):
            said = " ".join(word.text for word in words)
            texts.append(said)
            cues.append(Cue(here, here + len(said), begins, caption.ends, voice))
            here += len(said) + 1
        cues[first:] = _ended(cues[first:])
    return Talk(" ".join(texts), tuple(cues), source)


def _ended(cues: Sequence[Cue]) -> Iterator[Cue]:
    """The cues of one caption, each until the next one that has another time."""
    for n, cue in enumerate(cues):
        later = (c.begins for c in cues[n + 1 :] if c.begins != cue.begins)
        yield Cue(cue.start, cue.end, cue.begins, next(later, cue.ends), cue.voice)


# A caption that stands this long after the one before, in seconds, shows nothing of it any more.
_APART = 1
# A line that begins with fewer words of the one before may begin so by itself.
_GROWN = 2


def unrolled(captions: Sequence[Caption]) -> Iterator[Caption]:
    """Captions without the words that the one before has shown already.

    Lines roll up: a caption has the last lines of the one before above its own, or a last line that has
    grown. Where a file does that anywhere, a caption that shows nothing else is dropped as well; where
    none does, who says a thing twice has said it twice.
    """
    rolls = any(0 < _shown(a, b) < len(b.words) for a, b in pairwise(captions))
    for n, caption in enumerate(captions):
        shown = _shown(captions[n - 1], caption) if n else 0
        if shown < len(caption.words) or not rolls:
            known = shown if rolls else 0
            yield caption._replace(lines=(caption.words[known:],))


def _shown(before: Caption, caption: Caption) -> int:
    """How many of the first words of a caption the one before shows at its end."""
    ends, begins = before.ends, caption.begins
    if ends is not None and begins is not None and begins - ends > _APART:
        return 0
    old, new = _said(before), _said(caption)
    for count in range(min(len(old), len(new)), 0, -1):
        whole = old[-count:-1] == new[: count - 1]
        last, grown = old[-1], new[count - 1]
        if whole and (last == grown or (len(last) >= _GROWN and last == grown[: len(last)])):
            return sum(map(len, new[: count - 1])) + len(last)
    return 0


def _said(caption: Caption) -> list[list[tuple[str, str]]]:
    """The lines of a caption as words and voices, without empty ones."""
    return [[(word.text, word.voice) for word in line] for line in caption.lines if line]

"""A talk as one line of words, in which turns of phrase are sought."""

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from functools import cached_property

from msgspec import Struct

from journal.hearing.moods import CLAUSE, FILLERS
from journal.hearing.tokens import Token

_SUBJECTS = frozenset(
    "i we he she they i've we've i'm it's that's there's he's she's they're they've".split()
)


class Flat(Struct, frozen=True, dict=True):
    """Words joined by one blank; a line end stands for the end of a sentence, ` ,` for a pause. Words
    that only fill are left out, so that no turn of phrase is missed for them."""

    tokens: Sequence[Token]

    @cached_property
    def _built(self) -> tuple[str, list[int], list[int]]:
        parts: list[str] = []
        starts: list[int] = []
        places: list[int] = []
        length = 0
        for n, token in enumerate(self.tokens):
            if token.text in FILLERS:
                continue
            lead = "\n" if token.breaks else " , " if token.pause else " "
            starts.append(length + len(lead))
            places.append(n)
            parts.append(lead + token.text)
            length += len(parts[-1])
        return "".join(parts) + " ", starts, places

    @property
    def text(self) -> str:
        """The words in one line."""
        return self._built[0]

    def found(self, pattern: "re.Pattern[str]") -> Iterator[tuple[int, int, re.Match[str]]]:
        """Every place of a turn of phrase, as first token and the one after the last."""
        for match in pattern.finditer(self.text):
            if match.end() > match.start():
                yield self.token(match.start()), self.token(match.end() - 1) + 1, match

    def token(self, place: int) -> int:
        """The token at a place in the line."""
        _, starts, places = self._built
        at = bisect_right(starts, place) - 1
        return places[max(0, at)]

    def clause(self, first: int, last: int, reach: int = 12) -> tuple[int, int]:
        """The words around a stretch that belong to it: to the next break, turn or new subject."""
        low, high = first, last
        while low > 0 and first - low < reach and not self.tokens[low].breaks:
            if self.tokens[low - 1].text in CLAUSE or (
                low < first and self.tokens[low].text in _SUBJECTS
            ):
                break
            low -= 1
        while high < len(self.tokens) and high - last < reach and not self.tokens[high].breaks:
            word = self.tokens[high].text
            if (
                word in CLAUSE
                or word in _SUBJECTS
                or (
                    word == "and"
                    and high + 1 < len(self.tokens)
                    and self.tokens[high + 1].text in _SUBJECTS
                )
            ):
                break
            high += 1
        return low, high

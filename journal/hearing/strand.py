"""The words of a talk without its fillers and without the dashes inside words, short forms as they are
spelled: `its` and `thats` as it's and that's."""

from msgspec import Struct

from journal.hearing.tokens import Token

# What is said while thinking. It parts no number from its unit.
FILLERS: frozenset[str] = frozenset({"um", "er", "erm", "uh", "uhm", "umm", "hmm", "eh"})
# Short forms as a phone writes them that leaves the apostrophe out, where no other word is meant.
_SHORT: dict[str, str] = {
    short.replace("'", ""): short
    for short in (
        "it's", "that's", "they're", "there's", "what's", "here's", "where's", "he's", "she's", "let's",
        "i've", "we've", "they've", "you've", "i'm", "i'll", "it'll", "that'll", "they'll", "they'd",
        "don't", "doesn't", "didn't", "isn't", "wasn't", "weren't", "aren't", "haven't", "hasn't", "hadn't",
        "can't", "couldn't", "won't", "wouldn't", "shouldn't", "o'clock",
    )
}  # fmt: skip


class Strand(Struct, frozen=True):
    """Words in order, each with its token; `parted[n]` tells that a mark stands before word n.

    Words outside the talk are empty, so that a rule may look past either end.
    """

    tokens: tuple[Token, ...]
    words: tuple[str, ...]
    places: tuple[int, ...]
    parted: tuple[bool, ...]
    ended: tuple[bool, ...]

    def at(self, n: int) -> str:
        """The word n; empty outside the talk."""
        return self.words[n] if 0 <= n < len(self.words) else ""

    def on(self, n: int) -> str:
        """The word n, if no comma and no end of a sentence stands before it; else empty."""
        return self.words[n] if 0 <= n < len(self.words) and not self.parted[n] else ""

    def is_parted(self, n: int) -> bool:
        """Whether a mark stands before word n, or the talk begins or ends there."""
        return not 0 < n < len(self.words) or self.parted[n]

    def is_ended(self, n: int) -> bool:
        """Whether a sentence begins at word n, or the talk begins or ends there."""
        return not 0 < n < len(self.words) or self.ended[n]

    def touches(self, n: int) -> bool:
        """Whether word n stands against the one before it: `12mm`."""
        if not 0 < n < len(self.words):
            return False
        return self.tokens[self.places[n - 1]].end == self.tokens[self.places[n]].start

    def span(self, start: int, end: int) -> tuple[int, int]:
        """The tokens [first, last) of the words [start, end)."""
        return self.places[start], self.places[end - 1] + 1

    def phrase(self, n: int, *words: str) -> bool:
        """Whether these words follow one another from word n, with no mark between them."""
        return self.at(n) == words[0] and all(
            self.on(n + k) == word for k, word in enumerate(words[1:], 1)
        )

    def words_before(self, n: int, many: int) -> tuple[str, ...]:
        """At most so many words before word n, of the same sentence, in order."""
        start = n
        while (
            start > 0 and n - start < many and not (start < len(self.words) and self.ended[start])
        ):
            start -= 1
        return self.words[start:n]

    def words_after(self, n: int, many: int) -> tuple[str, ...]:
        """At most so many words from word n on, of the same sentence as the one before it."""
        end = n
        while end < len(self.words) and end - n < many and not self.ended[end]:
            end += 1
        return self.words[n:end]


def strand_of(tokens: tuple[Token, ...]) -> Strand:
    """The words that carry meaning, with the marks that stood before them or before what was dropped."""
    kept: list[int] = []
    parted: list[bool] = []
    ended: list[bool] = []
    mark = end = False
    for n, token in enumerate(tokens):
        mark, end = mark or token.pause or token.breaks, end or token.breaks
        if token.text == "-" and not _between_figures(tokens, n):
            mark = mark or not _joins(tokens, n)
        elif token.text not in FILLERS:
            kept.append(n)
            parted.append(mark)
            ended.append(end)
            mark = end = False
    words = tuple(_SHORT.get(tokens[n].text, tokens[n].text) for n in kept)
    return Strand(tokens, words, tuple(kept), tuple(parted), tuple(ended))


def _joins(tokens: tuple[Token, ...], n: int) -> bool:
    """Whether a dash stands inside a word, or before a figure."""
    after = n + 1 < len(tokens) and tokens[n].end == tokens[n + 1].start
    before = n > 0 and tokens[n - 1].end == tokens[n].start
    return after and before


def _between_figures(tokens: tuple[Token, ...], n: int) -> bool:
    """Whether a dash is that of a range, or the sign of a figure."""
    if n + 1 >= len(tokens) or not tokens[n + 1].text[0].isdigit():
        return False
    if n > 0 and (tokens[n - 1].text[0].isdigit() or tokens[n - 1].text in "+/"):
        return True
    free = n == 0 or tokens[n - 1].end < tokens[n].start
    return free and tokens[n].end == tokens[n + 1].start

"""A talk set into sentences and paragraphs, with every word kept as it was said.

What has full stops keeps them. Dictation without any is parted where people turn to something else.
"""

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise

from msgspec import Struct

from journal.hearing.escaping import escaped
from journal.hearing.phrases import phrases
from journal.hearing.strand import FILLERS
from journal.hearing.tokens import Token
from journal.records.talk import Talk

# A stop, and the marks that may close behind it. Between two figures it is no stop.
_STOP = re.compile(r"[.!?…]+[\"'”’)\]]*(?=\s|$)")
# Lines so long are those of a page that was wrapped, not of a speaker who paused.
_WRAPPED = 55
_I = re.compile(r"\bi(?=$|[\s,.;:!?]|['’](?:m|ve|ll|d)\b)")

# So many words make a sentence that may end before each of these. They stand without apostrophes.
_TURNS = (
    (4, phrases(
        "right so", "right then", "okay so", "ok so", "anyway", "moving on", "next up",
        "next thing", "next job", "now then", "after that", "right next", "okay next", "so anyway",
        "thats it", "right okay", "other than that", "apart from that", "what else", "oh and",
        "and after that", "and anyway", "but anyway", "right thats", "right well", "okay right",
    )),
    (7, phrases(
        "okay", "ok", "right i", "right we", "and then i", "and then we", "then i", "then we",
        "so i", "so we", "so thats", "next i", "next we", "also i", "also the", "and so", "well i",
        "well the", "meanwhile", "and then the", "then the", "so the", "so its", "so then",
        "but the", "but i", "but its", "but thats", "tomorrow", "anyhow",
    )),
    (10, phrases(
        "and then", "so", "but", "and i", "and we", "and ive", "and weve", "and he", "and thats",
        "and its", "then", "also", "ive", "weve", "im", "i", "we", "theres", "thats", "its",
        "theyre", "hes", "and they", "and theres", "you know",
    )),
    (18, phrases("and the", "and a", "and its")),
    (24, phrases("and", "which", "because", "he", "she", "they")),
)  # fmt: skip
_STRONG = _TURNS[0][1]
# After these a sentence goes on.
_GOES_ON = frozenset({
    "the", "a", "an", "to", "of", "and", "but", "so", "with", "in", "on", "at", "for", "my", "our", "is",
    "was", "that", "which", "if", "when", "because", "as", "than", "i", "we", "it", "said", "think",
    "thought", "reckon", "reckons", "reckoned", "know", "what", "where", "how", "who", "or", "not", "no",
    "just", "then", "by", "from", "into", "about", "like", "until", "till", "before", "after", "since",
    "while", "his", "her", "their", "your", "this", "these", "those", "be", "are", "were", "been", "see",
    "once", "say", "says", "hope", "sure", "means", "cos", "one", "all", "everything", "every", "time",
    "got", "had", "have", "has", "nothing", "something", "anything", "long", "only", "even", "more", "very",
    "too", "also", "you", "he", "she", "they", "dont", "didnt", "cant", "though", "although", "whether",
    "right", "well", "er", "um", "erm", "uh", "okay", "ok", "anyway", "now", "next", "thats", "its", "wish",
    "why", "there", "unless", "point", "half", "two", "three", "four", "five", "six", "seven", "eight",
    "nine", "ten", "guess", "suppose", "found", "tell", "told", "did", "do", "does", "would", "could",
    "should", "will", "same", "way", "thing", "whatever", "wherever", "each", "both", "between", "under",
    "over", "through",
})  # fmt: skip
_DETERMINERS = frozenset(
    {"the", "a", "an", "this", "that", "these", "those", "my", "some", "any", "few"}
)
_SUBJECTS = frozenset({"i", "we", "ive", "weve", "he", "they", "it", "she", "im"})
# After these words something else is meant than a turn: so far, right side.
_SIDES = frozenset({"side", "hand", "one"})
_NOT_AFTER = {
    "so": frozenset({
        "far", "much", "many", "long", "on", "forth", "that", "bad", "good", "called", "hard", "well",
    }),
    "right": _SIDES,
    "okay": _SIDES,
}  # fmt: skip
# A talk with a stop in so many words, or more of them, was written with its stops.
_SPARSE = 30
_FEWEST, _MOST = 3, 6


class _Sentence(Struct, frozen=True):
    """One sentence as it is written, and whether a new matter begins with it or a blank line before it."""

    text: str
    turns: bool
    apart: bool = False


def narrative(talk: Talk, tokens: tuple[Token, ...]) -> str:
    """The talk as paragraphs of Markdown that show its words in order and nothing else.

    Where two or more people speak, a paragraph begins with who does: `MT: ...`.
    """
    runs = list(_runs(talk))
    named = len({voice for voice, _start, _end in runs if voice}) > 1
    places = [token.start for token in tokens]
    paragraphs: list[str] = []
    for voice, start, end in runs:
        said = tokens[bisect_left(places, start) : bisect_left(places, end)]
        lines = list(_paragraphs(list(_sentences(talk.text, said, start, end))))
        if named and voice and lines:
            lines[0] = f"{voice}: {lines[0]}"
        paragraphs += [escaped(line) for line in lines]
    return "\n\n".join(paragraphs)


def _runs(talk: Talk) -> Iterator[tuple[str, int, int]]:
    """Stretches of the text [start, end) that one voice speaks, in order; they hold all of it."""
    cues = [cue for cue in talk.cues if cue.start < cue.end]
    voices = [(voice, list(group)) for voice, group in groupby(cues, key=lambda cue: cue.voice)]
    starts = [0, *(group[0].start for _voice, group in voices[1:]), len(talk.text)]
    if not voices:
        yield "", 0, len(talk.text)
    for (voice, _group), (start, end) in zip(voices, pairwise(starts), strict=False):
        yield voice, start, end


def _paragraphs(sentences: Sequence[_Sentence]) -> Iterator[str]:
    """Sentences in paragraphs of three to six, where a new matter or a blank line begins one."""
    held: list[str] = []
    for sentence in sentences:
        turned = sentence.turns and len(held) >= _FEWEST
        if held and (sentence.apart or turned or len(held) >= _MOST):
            yield " ".join(held)
            held = []
        held.append(sentence.text)
    if held:
        yield " ".join(held)


# Sentences


def _sentences(text: str, tokens: Sequence[Token], start: int, end: int) -> Iterator[_Sentence]:
    """The text [start, end) in sentences, each with its stop."""
    cuts = sorted({start, *_stops(text, start, end), *_turned(text, tokens, start, end), end})
    starts = {token.start: n for n, token in enumerate(tokens)}
    lines = 0
    for begin, stop in pairwise(cuts):
        piece = text[begin:stop]
        lines += piece[: len(piece) - len(piece.lstrip())].count("\n")
        if not piece.strip():
            continue
        first = next((starts[k] for k in range(begin, stop) if k in starts), None)
        turns = first is not None and _is_strong(tokens, first)
        yield _Sentence(_set(" ".join(piece.split())), turns, lines > 1)
        lines = 0


def _set(piece: str) -> str:
    """A sentence with its capital and its stop."""
    piece = _I.sub("I", piece)
    capital = piece[0].upper()
    if len(capital) == 1 and capital.lower() == piece[0]:
        piece = capital + piece[1:]
    if _STOP.search(piece[-4:] + " ") or piece[-1] in ".!?…:":
        return piece
    return piece.rstrip(" ,;") + "." if piece.rstrip(" ,;") else piece


def _stops(text: str, start: int, end: int) -> Iterator[int]:
    """Where sentences end that were written with a stop, or with the end of a line that is no wrapping."""
    for found in _STOP.finditer(text, start, end):
        yield found.end()
    for n in range(start, end):
        if text[n] == "\n" and _ends_line(text, n, start):
            yield n


def _ends_line(text: str, n: int, start: int) -> bool:
    line = text[text.rfind("\n", start, n) + 1 : n].strip()
    after = text[n + 1 : n + 80].lstrip(" \t")[:1]
    return len(line) < _WRAPPED or after in ("\n", "") or after.isupper()


def _turned(text: str, tokens: Sequence[Token], start: int, end: int) -> Iterator[int]:
    """Where dictation without stops turns to something else."""
    stops = sorted({*_stops(text, start, end), end})
    if len(stops) * _SPARSE > len(tokens):
        return
    words = _plain(tokens)
    since, at = 0, 0
    for n, token in enumerate(tokens):
        while at < len(stops) and stops[at] <= token.start:
            since, at = n, at + 1
        left = _left(tokens, n, stops[at] if at < len(stops) else end)
        if left > 2 and n > since and _turns(words, tokens, n, n - since):
            since = n
            yield token.start


def _left(tokens: Sequence[Token], n: int, stop: int) -> int:
    """How many words the sentence still has from token n on, as far as it matters."""
    return sum(token.start < stop for token in tokens[n : n + 4])


def _turns(words: list[str], tokens: Sequence[Token], n: int, length: int) -> bool:
    """Whether a sentence of so many words may end before token n, which may be said while thinking."""
    at = n + 1 if words[n] in FILLERS and n + 1 < len(words) else n
    if tokens[n - 1].end == tokens[n].start or not _may_end(words, n, at):
        return False
    length += 3 if tokens[n].pause else 0
    return any(length >= least and turn.at(words, at) for least, turn in _TURNS)


def _may_end(words: list[str], n: int, at: int) -> bool:
    """Whether what stands before word n may be the end, and what begins at word `at` a beginning."""
    word, after = words[at], words[at + 1] if at + 1 < len(words) else ""
    if words[n - 1] in _GOES_ON or after in _NOT_AFTER.get(word, ()):
        return False
    relative = word in _SUBJECTS and not _DETERMINERS.isdisjoint(words[max(0, n - 3) : n])
    return not relative


def _is_strong(tokens: Sequence[Token], n: int) -> bool:
    return bool(_STRONG.at(_plain(tokens[n : n + 4]), 0))


def _plain(tokens: Sequence[Token]) -> list[str]:
    """The words without apostrophes, which dictation leaves out or not."""
    return [token.text.replace("'", "") for token in tokens]
